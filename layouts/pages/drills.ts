/**
 * All drills by apparatus.
 */

import type { DrillsView } from "../../scripts/views/drills.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { drillRows } from "../parts/drill-parts.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { a, type PageContext, section } from "../parts/page.ts";

export function drillsPage(ctx: PageContext, view: DrillsView): Html {
	const { words } = ctx;
	const say = words.drills;
	return html`<h1>${words.destinations.drills}</h1>
<p class="lead">${say.lead(view.count, a(ctx, { to: "search/", name: words.destinations.search }))}</p>
<nav aria-label="${say.byApparatus}"><ul class="tiles">${view.groups.map(
		({ id, apparatus, count }) =>
			html`<li><a class="tile" href="#on-${id}">${apparatusIcon(id)}<span>${apparatus.name}</span><span class="small">${count}</span></a></li>`,
	)}</ul></nav>
<nav aria-label="${say.byLevel}"><ul class="tiles words">${view.levels.map(
		({ link, count }) =>
			html`<li><a class="tile" href="${ctx.way(link.to)}"><span>${link.name}</span><span class="small">${count}</span></a></li>`,
	)}</ul></nav>
${view.groups.map(({ id, apparatus, count, lines }) =>
	section(
		`on-${id}`,
		html`${apparatusIcon(id)} ${apparatus.name}`,
		lines === undefined
			? html`<p>${a(ctx, { to: apparatus.to, name: say.onApparatus(count, apparatus.name) })}</p>`
			: lines.length === 0
				? html`<p class="empty">${say.none(apparatus.name)}</p>`
				: drillRows(ctx, lines),
	),
)}`;
}
