/**
 * Weeks in lists: the full card that home shows for today, and the rows of the term.
 */

import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { ClassInWeek, WeekLine } from "../../scripts/views/week.ts";
import { apparatusIcon } from "./icons.ts";
import { a, type PageContext } from "./page.ts";

/** What stands where there is no plan yet. */
export function noWeeks(ctx: PageContext): Html {
	return html`<p class="empty">${ctx.words.weekList.none(a(ctx, { to: "author-guide/#week", name: ctx.words.weekList.howTo }))}</p>`;
}

/** A week with its apparatus and classes. A browser shows the one of today and folds the others away. */
export function weekCard(ctx: PageContext, week: WeekLine): Html {
	return html`<article class="week-card" aria-labelledby="week-${week.number}-title"${week.from && html` data-from="${week.from}" data-to="${week.to}"`}>
<p class="when"><span class="tense" hidden></span> ${week.dates}</p>
<h2 id="week-${week.number}-title">${a(ctx, week.link)}<span class="theme">${week.theme}</span></h2>
<ul class="stops">${week.apparatus.map(
		(stop) =>
			html`<li><a class="stop" href="${ctx.way(stop.link.to)}">${apparatusIcon(stop.id)}<b>${stop.link.name}</b><span class="small">${stop.focus ?? ctx.words.min(stop.minutes)}</span></a></li>`,
	)}</ul>
${week.classes.length > 0 && html`<h3>${ctx.words.classes.sheets}</h3>${classRows(ctx, week)}`}
</article>`;
}

export function classRows(ctx: PageContext, week: WeekLine): Html {
	return html`<ul class="sheets">${week.classes.map(
		(c) =>
			html`<li${c.date && html` data-date="${c.date}"`}${sheetFacts(c, week.number)} class="${c.closed ? "closed" : ""}"><a href="${ctx.way(c.link.to)}"><span class="day">${c.shortDay} ${c.dateWords}</span> <b>${c.link.name}</b> <span class="small">${c.closed ? ctx.words.classes.closed : c.end === "" ? c.start : `${c.start}–${c.end}`}</span></a></li>`,
	)}</ul>`;
}

/** What the browser has to know of a class sheet to offer it on its day. */
export function sheetFacts(c: ClassInWeek, week: number): Html {
	return html` data-sheet="${c.id}" data-name="${c.link.name}" data-week="${week}"${c.start !== "" && html` data-start="${c.start}"`}${c.end !== "" && html` data-end="${c.end}"`}${c.closed && raw(" data-closed")}`;
}

/** Where a browser offers the class sheets of today; without JavaScript nothing is shown here. */
export function todaysSheets(ctx: PageContext, closures: readonly string[], timezone: string): Html {
	return html`<section class="today-sheets" aria-labelledby="today-sheets" data-timezone="${timezone}" data-closures="${closures.join(" ")}" hidden>
<h2 id="today-sheets">${ctx.words.home.today}</h2>
<p class="today-note" hidden></p>
<ul class="sheet-keys"></ul>
</section>`;
}

export function weekRows(ctx: PageContext, weeks: readonly WeekLine[]): Html {
	return html`<ol class="week-rows">${weeks.map(
		(week) =>
			html`<li${week.from && html` data-from="${week.from}" data-to="${week.to}"`}><a href="${ctx.way(week.link.to)}"><span class="number" aria-hidden="true">${week.number}</span><span class="words"><b><span class="sr">${ctx.words.week(week.number)}: </span>${week.theme}</b><span class="small">${week.dates}</span></span></a></li>`,
	)}</ol>`;
}
