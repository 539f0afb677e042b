/**
 * All apparatus, and the areas of the hall that are none.
 */

import type { ApparatusListView } from "../../scripts/views/apparatus.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { type PageContext, section } from "../parts/page.ts";

export function apparatusListPage(ctx: PageContext, view: ApparatusListView): Html {
	const { apparatusPage: say, destinations } = ctx.words;
	const areas = view.apparatus.filter(({ area }) => area);
	const apparatus = view.apparatus.filter(({ area }) => !area);
	if (areas.length === 0)
		return html`<h1>${destinations.apparatus}</h1>
${tiles(ctx, apparatus)}`;
	return html`<h1>${say.withAreas}</h1>
${apparatus.length > 0 && section("apparatus", destinations.apparatus, tiles(ctx, apparatus))}
${section("areas", say.areas, tiles(ctx, areas))}`;
}

function tiles(ctx: PageContext, places: ApparatusListView["apparatus"]): Html {
	return html`<ul class="tiles large">${places.map(
		({ id, link, drills, weeks }) =>
			html`<li><a class="tile" href="${ctx.way(link.to)}">${apparatusIcon(id)}<span>${link.name}</span><span class="small">${ctx.words.counts.drills(drills)}${weeks > 0 && `, ${ctx.words.apparatusPage.plannedIn(weeks)}`}</span></a></li>`,
	)}</ul>`;
}
