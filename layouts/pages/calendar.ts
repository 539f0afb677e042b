/**
 * The weeks of the term with their dates, and how to take them into a calendar.
 */

import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import type { HomeView } from "../../scripts/views/home.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { a, type PageContext, section } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";
import { classRows, noWeeks, weekRows } from "../parts/week-list.ts";

export function calendarPage(ctx: PageContext, view: HomeView): Html {
	const say = ctx.words.calendar;
	return html`<h1>${say.title}</h1>
<p class="lead">${say.lead(view.term, view.weeksOfTerm, view.weeks.length)}${view.closed.length > 0 && ` ${say.closed(view.closed.join(ctx.words.semicolon))}`}</p>
<div class="now" data-timezone="${view.timezone}">${view.weeks.length === 0 ? noWeeks(ctx) : weekRows(ctx, view.weeks)}</div>
<p><a class="button" href="${ctx.way("data/calendar.ics")}" download>${say.file}</a></p>
${printLinks(ctx, [
	{ file: SHEET_FILES.termOverview(), words: ctx.words.prints.termOverview },
	...view.weeks.map(({ link, number }) => ({
		file: SHEET_FILES.weekPacket(link.to.split("/")[1] ?? ""),
		words: ctx.words.prints.packetOf(number),
	})),
])}
${
	view.weeks.some((week) => week.classes.length > 0) &&
	section(
		"dates",
		say.byClass,
		view.weeks.map(
			(week) =>
				html`<h3 id="dates-${week.number}">${a(ctx, week.link)} <span class="small">${week.dates}</span></h3>${classRows(ctx, week)}`,
		),
	)
}`;
}
