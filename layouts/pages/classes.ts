/**
 * The timetable: every class by day.
 */

import type { ClassesView } from "../../scripts/views/class.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { type PageContext, section } from "../parts/page.ts";

export function classesPage(ctx: PageContext, view: ClassesView): Html {
	const { words } = ctx;
	return html`<h1>${words.destinations.classes}</h1>
${view.days.length === 0 && html`<p class="empty">${words.classes.none(html`<code>_data/term.yaml</code>`)}</p>`}
${view.days.map(({ id, day, classes }) =>
	section(
		id,
		day,
		html`<ul class="cards">${classes.map(
			(c) => html`<li class="card"><h3 class="name"><a href="${ctx.way(c.link.to)}">${c.link.name}</a></h3>
<p><b>${c.end === "" ? c.start : `${c.start}–${c.end}`}</b></p>
<p class="small">${[c.levels.map((l) => l.name).join(", "), words.counts.gymnasts(c.gymnasts), ...(c.ages === undefined ? [] : [words.ages(c.ages[0], c.ages[1])])].join(" · ")}</p></li>`,
		)}</ul>`,
	),
)}`;
}
