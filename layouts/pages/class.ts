/**
 * One class: its rotation, and a sheet for each week.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { ClassView } from "../../scripts/render/views/class.ts";
import { measureLink } from "../../scripts/render/views/measures/measure-page.ts";
import { shortNumber } from "../../scripts/render/views/words.ts";
import { timeLine } from "../parts/charts.ts";
import { findingsList } from "../parts/findings-list.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { pictureAndTable, scrollTable } from "../parts/measure-parts.ts";
import { a, facts, inWords, type PageContext, section } from "../parts/page.ts";
import { percent, timeHeads, timeRow } from "../parts/time-table.ts";
import { noWeeks, sheetFacts, todaysSheets } from "../parts/week-list.ts";

/** The page of a class. */
export function classPage(ctx: PageContext, view: ClassView): Html {
	const findings = findingsList(ctx, view.findings);
	return html`<p class="eyebrow">${[view.day, view.end === "" ? view.start : `${view.start}–${view.end}`].filter((x) => x !== "").join(" · ")}</p>
<h1>${view.link.name}</h1>
${view.weeks.length > 0 && todaysSheets(view.closures, view.timezone)}
${facts([
	["Levels", inWords(ctx, view.levels)],
	["Gymnasts", view.gymnasts],
	["Coaches", view.coaches],
	["Ages", view.ages && `${view.ages[0]} to ${view.ages[1]}`],
	["Length", view.minutes && `${shortNumber(view.minutes)} min`],
])}
${
	view.rotation.length > 0 &&
	section(
		"rotation",
		"Rotation",
		html`<ol class="tiles rotation">${view.rotation.map(({ id, link }) => html`<li><a class="tile" href="${ctx.way(link.to)}">${apparatusIcon(id, link.name)}<span>${link.name}</span></a></li>`)}</ol>`,
	)
}
${section(
	"sheets",
	"Class sheets",
	view.weeks.length === 0
		? noWeeks(ctx)
		: html`<ol class="week-rows">${view.weeks.map(
				({ sheet, number, theme, planned }) =>
					html`<li${sheet.date && html` data-date="${sheet.date}"`}${sheetFacts(sheet, number)}><a href="${ctx.way(sheet.link.to)}"><span class="number" aria-hidden="true">${number}</span><span class="words"><b><span class="sr">Week ${number}: </span>${theme}</b><span class="small">${sheet.dateWords}${sheet.closed && ", closed"}${planned !== undefined && html` · planned ${shortNumber(planned)} min`}</span></span></a></li>`,
			)}</ol>`,
)}
${
	view.times.rows.length > 0 &&
	section("time", "Minutes", [
		html`<p class="small">Over the planned weeks a gymnast moves for ${percent(view.times.activeShare)} of the class. ${a(ctx, { ...measureLink("time"), name: "All classes" })}</p>`,
		pictureAndTable(
			timeLine(ctx, view.times, {
				title: `${view.link.name}: planned and available minutes`,
				description: "Minutes in each week. The table beside this picture has the same numbers.",
				idPrefix: "line",
			}),
			scrollTable(
				"Week by week",
				["Week", ...timeHeads],
				view.times.rows.map((row) => timeRow(ctx, row, row.sheet)),
			),
		),
	])
}
${findings && section("findings", "What the measures find", findings)}`;
}
