/**
 * All apparatus.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { ApparatusListView } from "../../scripts/render/views/apparatus.ts";
import { counted } from "../../scripts/render/views/words.ts";
import { apparatusIcon } from "../parts/icons.ts";
import type { PageContext } from "../parts/page.ts";

/** The page of all apparatus. */
export function apparatusListPage(ctx: PageContext, view: ApparatusListView): Html {
	return html`<h1>Apparatus</h1>
<ul class="tiles large">${view.apparatus.map(
		({ id, link, drills, weeks }) =>
			html`<li><a class="tile" href="${ctx.way(link.to)}">${apparatusIcon(id, link.name)}<span>${link.name}</span><span class="small">${counted(drills, "drill")}${weeks > 0 && html`, planned in ${counted(weeks, "week")}`}</span></a></li>`,
	)}</ul>`;
}
