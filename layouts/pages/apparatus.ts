/**
 * One apparatus: its weeks, and its drills by level.
 */

import type { ApparatusView } from "../../scripts/views/apparatus.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { drillRows } from "../parts/drill-parts.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { type PageContext, section } from "../parts/page.ts";

export function apparatusPage(ctx: PageContext, view: ApparatusView): Html {
	const say = ctx.words.apparatusPage;
	return html`<h1>${apparatusIcon(view.id)} ${view.name}</h1>
${(view.area || view.plan !== undefined) && html`<p class="small">${view.area && `${say.area} `}${view.plan && say.room(view.plan[0], view.plan[1])}</p>`}
${
	view.weeks.length > 0 &&
	section(
		"weeks",
		ctx.words.classes.weekByWeek,
		html`<ol class="week-rows">${view.weeks.map(
			({ link, number, focus, from, to }) =>
				html`<li${from && html` data-from="${from}" data-to="${to}"`}><a href="${ctx.way(link.to)}"><span class="number" aria-hidden="true">${number}</span><span class="words"><b><span class="sr">${link.name}: </span>${focus}</b></span></a></li>`,
		)}</ol>`,
	)
}
<nav aria-label="${ctx.words.drills.byLevel}"><ul class="tiles words">${view.drills.map(
		({ level, id, lines }) =>
			html`<li><a class="tile" href="#from-${id}"><span>${ctx.words.fromLevel(level.name)}</span><span class="small">${lines.length}</span></a></li>`,
	)}</ul></nav>
${view.drills.map(({ level, id, lines }) => section(`from-${id}`, say.drillsFrom(level.name), drillRows(ctx, lines)))}
${view.drills.length === 0 && html`<p class="empty">${ctx.words.drills.none(view.name)}</p>`}`;
}
