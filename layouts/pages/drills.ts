/**
 * All drills by apparatus.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { DrillsView } from "../../scripts/render/views/drills.ts";
import { counted } from "../../scripts/render/views/words.ts";
import { drillRows } from "../parts/drill-parts.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { a, type PageContext, section } from "../parts/page.ts";

/** The page of all drills. */
export function drillsPage(ctx: PageContext, view: DrillsView): Html {
	return html`<h1>Drills</h1>
<p class="lead">${counted(view.count, "drill")}. ${a(ctx, { to: "search/", name: "Search" })} by shape, skill, level, apparatus and equipment.</p>
<nav aria-label="Drills by apparatus"><ul class="tiles">${view.groups.map(
		({ id, apparatus, count }) =>
			html`<li><a class="tile" href="#on-${id}">${apparatusIcon(id, apparatus.name)}<span>${apparatus.name}</span><span class="small">${count}</span></a></li>`,
	)}</ul></nav>
<nav aria-label="Drills by level"><ul class="tiles words">${view.levels.map(
		({ link, count }) =>
			html`<li><a class="tile" href="${ctx.way(link.to)}"><span>${link.name}</span><span class="small">${count}</span></a></li>`,
	)}</ul></nav>
${view.groups.map(({ id, apparatus, count, lines }) =>
	section(
		`on-${id}`,
		html`${apparatusIcon(id, apparatus.name)} ${apparatus.name}`,
		lines === undefined
			? html`<p>${a(ctx, { to: apparatus.to, name: `${counted(count, "drill")} on ${apparatus.name}` })}</p>`
			: lines.length === 0
				? html`<p class="empty">No drill names ${apparatus.name} yet.</p>`
				: drillRows(ctx, lines),
	),
)}`;
}
