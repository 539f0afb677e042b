/**
 * One apparatus: its weeks, and its drills by level.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { ApparatusView } from "../../scripts/render/views/apparatus.ts";
import { shortNumber } from "../../scripts/render/views/words.ts";
import { drillRows } from "../parts/drill-parts.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { type PageContext, section } from "../parts/page.ts";

/** The page of an apparatus. */
export function apparatusPage(ctx: PageContext, view: ApparatusView): Html {
	return html`<h1>${apparatusIcon(view.id, view.name)} ${view.name}</h1>
${view.plan && html`<p class="small">Room in the hall: ${shortNumber(view.plan[0])} by ${shortNumber(view.plan[1])} m.</p>`}
${
	view.weeks.length > 0 &&
	section(
		"weeks",
		"Week by week",
		html`<ol class="week-rows">${view.weeks.map(
			({ link, focus, from, to }) =>
				html`<li${from && html` data-from="${from}" data-to="${to}"`}><a href="${ctx.way(link.to)}"><span class="number" aria-hidden="true">${link.name.replace("Week ", "")}</span><span class="words"><b><span class="sr">${link.name}: </span>${focus}</b></span></a></li>`,
		)}</ol>`,
	)
}
<nav aria-label="Drills by level"><ul class="tiles words">${view.drills.map(
		({ level, id, lines }) =>
			html`<li><a class="tile" href="#from-${id}"><span>From ${level.name}</span><span class="small">${lines.length}</span></a></li>`,
	)}</ul></nav>
${view.drills.map(({ level, id, lines }) => section(`from-${id}`, html`Drills from ${level.name}`, drillRows(ctx, lines)))}
${view.drills.length === 0 && html`<p class="empty">No drill names ${view.name} yet.</p>`}`;
}
