/**
 * One class: its rotation, and a sheet for each week.
 */

import type { ClassView } from "../../scripts/views/class.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { measureLink } from "../../scripts/views/measures/measure-page.ts";
import { timeLine } from "../parts/charts.ts";
import { classTerm } from "../parts/class-term.ts";
import { findingsList } from "../parts/findings-list.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { pictureAndTable, scrollTable } from "../parts/measure-parts.ts";
import { facts, inWords, more, type PageContext, section } from "../parts/page.ts";
import { percent, timeHeads, timeRow } from "../parts/time-table.ts";
import { noWeeks, sheetFacts, todaysSheets } from "../parts/week-list.ts";

export function classPage(ctx: PageContext, view: ClassView): Html {
	const findings = findingsList(ctx, view.findings);
	const say = ctx.words.classes;
	return html`<p class="eyebrow">${[view.day, view.end === "" ? view.start : `${view.start}–${view.end}`].filter((x) => x !== "").join(" · ")}</p>
<h1>${view.link.name}</h1>
${view.weeks.length > 0 && todaysSheets(ctx, view.closures, view.timezone)}
${view.term && html`<p><a href="#term">${say.toTerm}</a></p>`}
${facts([
	[ctx.words.destinations.levels, inWords(ctx, view.levels)],
	[say.gymnasts, view.gymnasts],
	[say.coaches, view.coaches],
	[say.ages, view.ages && say.fromTo(view.ages[0], view.ages[1])],
	[say.length, view.minutes && ctx.words.min(view.minutes)],
])}
${
	view.rotation.length > 0 &&
	section(
		"rotation",
		say.rotation,
		html`<ol class="tiles rotation">${view.rotation.map(({ id, link }) => html`<li><a class="tile" href="${ctx.way(link.to)}">${apparatusIcon(id)}<span>${link.name}</span></a></li>`)}</ol>`,
	)
}
${section(
	"sheets",
	say.sheets,
	view.weeks.length === 0
		? noWeeks(ctx)
		: html`<ol class="week-rows">${view.weeks.map(
				({ sheet, number, theme, planned }) =>
					html`<li${sheet.date && html` data-date="${sheet.date}"`}${sheetFacts(sheet, number)}><a href="${ctx.way(sheet.link.to)}"><span class="number" aria-hidden="true">${number}</span><span class="words"><b><span class="sr">${ctx.words.week(number)}: </span>${theme}</b><span class="small">${sheet.dateWords}${sheet.closed && `, ${say.closed}`}${planned !== undefined && ` · ${say.planned(planned)}`}</span></span></a></li>`,
			)}</ol>`,
)}
${
	view.times.rows.length > 0 &&
	section("time", say.minutes, [
		html`<p class="small">${say.moves(percent(ctx, view.times.activeShare))} ${more(ctx, { ...measureLink(ctx.words, "time"), name: say.allClasses })}</p>`,
		pictureAndTable(
			timeLine(ctx, view.times, {
				title: ctx.words.time.lineTitle(view.link.name),
				description: ctx.words.time.lineDescription,
				idPrefix: "line",
			}),
			scrollTable(
				say.weekByWeek,
				[ctx.words.heads.week, ...timeHeads(ctx)],
				view.times.rows.map((row) => timeRow(ctx, row, row.sheet)),
			),
		),
	])
}
${view.term && section("term", say.overTerm, classTerm(ctx, view.term))}
${findings && section("findings", ctx.words.findingsPage.found, findings)}`;
}
