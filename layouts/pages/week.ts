/**
 * One week: what each apparatus does, the class sheets, the load, what the measures find.
 */

import { SHEET_FILES } from "../../scripts/render/addresses.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import { measureLink } from "../../scripts/render/views/measures/measure-page.ts";
import type { WeekView } from "../../scripts/render/views/week.ts";
import { shortNumber } from "../../scripts/render/views/words.ts";
import { pairedBars } from "../parts/charts.ts";
import { findingsList } from "../parts/findings-list.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { loadHeads, loadRow } from "../parts/load-table.ts";
import { directionCells, pictureAndTable, scrollTable } from "../parts/measure-parts.ts";
import { a, beside, inWords, type PageContext, section } from "../parts/page.ts";
import { type PrintLink, printLinks } from "../parts/print-links.ts";
import { suggestionList } from "../parts/suggestion-list.ts";
import { timeHeads, timeRow } from "../parts/time-table.ts";
import { classRows } from "../parts/week-list.ts";
import { clashTable } from "./measures/equipment.ts";

/** The page of a week. */
export function weekPage(ctx: PageContext, view: WeekView): Html {
	const findings = findingsList(ctx, view.findings);
	return html`<p class="eyebrow">${view.dates}</p>
<h1><span class="big-number">Week ${view.number}</span> ${view.theme}</h1>
${beside(ctx, view.previous, view.next, "Weeks before and after")}
${view.body.text !== "" && html`<div class="prose director">${view.body}</div>`}
${printLinks(ctx, weekPrints(view))}
${section(
	"apparatus",
	"By apparatus",
	html`<div class="plans">${view.plans.map(
		({ apparatus, blocks }) => html`<article class="plan">
<h3>${apparatusIcon(apparatus.id, apparatus.link.name)} ${a(ctx, apparatus.link)} <span class="small">${shortNumber(apparatus.minutes)} min</span></h3>
${apparatus.focus && html`<p class="focus">${apparatus.focus}</p>`}
<ol class="blocks">${blocks.map(
			(block) =>
				html`<li><span class="minutes"><b>${shortNumber(block.minutes)}</b> min</span><span>${block.kind === "stations" && html`<span class="label">Stations</span> `}${inWords(ctx, block.drills)}${block.levels.length > 0 && html` <span class="for">${inWords(ctx, block.levels)}</span>`}</span></li>`,
		)}</ol></article>`,
	)}</div>`,
)}
${view.classes.length > 0 && section("sheets", "Class sheets", classRows(ctx, view))}
${
	view.times.length > 0 &&
	section("time", "Minutes of each class", [
		scrollTable(
			"Planned and available minutes by class",
			["Group", ...timeHeads],
			view.times.map(({ class: group, row }) => timeRow(ctx, row, group)),
		),
		html`<p class="small">${a(ctx, { ...measureLink("time"), name: "Every week" })}</p>`,
	])
}
${view.clashes.length > 0 && section("clashes", "Classes that need the same equipment", clashTable(ctx, view.clashes))}
${
	view.directions.length > 0 &&
	section("directions", "Forward and backward", [
		html`<p class="small">Minutes over all levels. ${a(ctx, { ...measureLink("balance"), name: "Every week" })}</p>`,
		pictureAndTable(
			pairedBars(
				ctx,
				{
					sides: ["Backward", "Forward"],
					groups: [
						{
							name: "",
							bars: view.directions.map(({ apparatus, row }) => ({
								name: apparatus.name,
								left: row.cells.find(({ direction }) => direction === "backward")?.minutes ?? 0,
								right: row.cells.find(({ direction }) => direction === "forward")?.minutes ?? 0,
								href: apparatus.to,
							})),
						},
					],
				},
				{
					title: `Week ${view.number}: backward and forward`,
					description: "Minutes on each apparatus. The table beside this picture has the same numbers.",
					idPrefix: "pairs",
				},
			),
			scrollTable(
				"Minutes by direction",
				["Apparatus", "Forward", "Backward", "Sideways", "None"],
				view.directions.map(
					({ apparatus, row }) =>
						html`<tr><th scope="row">${a(ctx, apparatus)}</th>${directionCells(ctx, row)}</tr>`,
				),
			),
		),
	])
}
${
	view.load.length > 0 &&
	section("load", "Landings and hand contacts", [
		html`<p class="small">For one gymnast who does everything planned for the level. A count for planning, not a medical measure. The step is this week over the mean of the three teaching weeks before. ${a(ctx, { ...measureLink("load"), name: "Every week" })}</p>`,
		scrollTable(
			"Landings and hand contacts by level",
			["Level", ...loadHeads, html`<span class="left">Counted from</span>`],
			view.load.map((row) => loadRow(ctx, row, row.level)),
		),
	])
}
${
	view.suggestions.length > 0 &&
	section("suggestions", "What would close gaps", [
		html`<p class="small">For each level and apparatus the fewest drills of the library that train what is due and not met this week, within the free minutes and in order. The free minutes of a level are the same ones on every apparatus: choose among these.</p>`,
		suggestionList(ctx, view.suggestions, ({ level, apparatus }) => `${level.name}, ${apparatus.name}`),
	])
}
${findings && section("findings", "What the measures find", findings)}
<p class="small">Written in <code>${view.file}</code>.</p>`;
}

function weekPrints({ link }: WeekView): readonly PrintLink[] {
	const week = link.to.split("/")[1] ?? "";
	return [
		{ file: SHEET_FILES.weekPacket(week), words: "The week's packet" },
		{ file: SHEET_FILES.storeRoom(week), words: "Store-room list" },
		{ file: SHEET_FILES.labels(week), words: "Equipment labels" },
	];
}
