/**
 * All apparatus.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { ApparatusListView } from "../../scripts/render/views/apparatus.ts";
import { apparatusIcon } from "../parts/icons.ts";
import type { PageContext } from "../parts/page.ts";

/** The page of all apparatus. */
export function apparatusListPage(ctx: PageContext, view: ApparatusListView): Html {
	return html`<h1>${ctx.words.destinations.apparatus}</h1>
<ul class="tiles large">${view.apparatus.map(
		({ id, link, drills, weeks }) =>
			html`<li><a class="tile" href="${ctx.way(link.to)}">${apparatusIcon(id)}<span>${link.name}</span><span class="small">${ctx.words.counts.drills(drills)}${weeks > 0 && `, ${ctx.words.apparatusPage.plannedIn(weeks)}`}</span></a></li>`,
	)}</ul>`;
}
