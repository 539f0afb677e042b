/**
 * The weeks of the term with their dates, and how to take them into a calendar.
 */

import { SHEET_FILES } from "../../scripts/render/addresses.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import type { HomeView } from "../../scripts/render/views/home.ts";
import { counted } from "../../scripts/render/views/words.ts";
import { a, type PageContext, section } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";
import { classRows, noWeeks, weekRows } from "../parts/week-list.ts";

/** The calendar. */
export function calendarPage(ctx: PageContext, view: HomeView): Html {
	return html`<h1>Weeks of the term</h1>
<p class="lead">${view.term}: ${counted(view.weeksOfTerm, "teaching week")}${view.weeks.length < view.weeksOfTerm && html`, ${view.weeks.length} of them written`}.${view.closed.length > 0 && html` Closed: ${view.closed.join("; ")}.`}</p>
<div class="now" data-timezone="${view.timezone}">${view.weeks.length === 0 ? noWeeks(ctx) : weekRows(ctx, view.weeks)}</div>
<p><a class="button" href="${ctx.way("data/calendar.ics")}" download>Calendar file (.ics)</a></p>
${printLinks(ctx, [
	{ file: SHEET_FILES.termOverview(), words: "The term on one page" },
	...view.weeks.map(({ link, number }) => ({
		file: SHEET_FILES.weekPacket(link.to.split("/")[1] ?? ""),
		words: `Packet of week ${number}`,
	})),
])}
${
	view.weeks.some((week) => week.classes.length > 0) &&
	section(
		"dates",
		"Class by class",
		view.weeks.map(
			(week) =>
				html`<h3 id="dates-${week.number}">${a(ctx, week.link)} <span class="small">${week.dates}</span></h3>${classRows(ctx, week)}`,
		),
	)
}`;
}
