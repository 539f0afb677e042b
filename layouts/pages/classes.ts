/**
 * The timetable: every class by day.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { ClassesView } from "../../scripts/render/views/class.ts";
import { counted } from "../../scripts/render/views/words.ts";
import { type PageContext, section } from "../parts/page.ts";

/** The page of all classes. */
export function classesPage(ctx: PageContext, view: ClassesView): Html {
	return html`<h1>Classes</h1>
${view.days.length === 0 && html`<p class="empty">No classes are written in <code>_data/term.yaml</code> yet.</p>`}
${view.days.map(({ id, day, classes }) =>
	section(
		id,
		day,
		html`<ul class="cards">${classes.map(
			(c) => html`<li class="card"><h3 class="name"><a href="${ctx.way(c.link.to)}">${c.link.name}</a></h3>
<p><b>${c.end === "" ? c.start : `${c.start}–${c.end}`}</b></p>
<p class="small">${[c.levels.map((l) => l.name).join(", "), counted(c.gymnasts, "gymnast"), ...(c.ages === undefined ? [] : [`ages ${c.ages[0]} to ${c.ages[1]}`])].join(" · ")}</p></li>`,
		)}</ul>`,
	),
)}`;
}
