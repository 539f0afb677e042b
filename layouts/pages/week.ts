/**
 * One week: what each apparatus does, the class sheets, the load, what the measures find.
 */

import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { measureLink } from "../../scripts/views/measures/measure-page.ts";
import type { WeekView } from "../../scripts/views/week.ts";
import type { Words } from "../../scripts/words/words.ts";
import { pairedBars } from "../parts/charts.ts";
import { findingsList } from "../parts/findings-list.ts";
import { apparatusIcon } from "../parts/icons.ts";
import { loadHeads, loadRow } from "../parts/load-table.ts";
import { directionCells, directionHeads, pictureAndTable, scrollTable } from "../parts/measure-parts.ts";
import { a, beside, inWords, minutesMark, more, type PageContext, section } from "../parts/page.ts";
import { type PrintLink, printLinks } from "../parts/print-links.ts";
import { suggestionList } from "../parts/suggestion-list.ts";
import { timeHeads, timeRow } from "../parts/time-table.ts";
import { classRows } from "../parts/week-list.ts";
import { clashTable } from "./measures/equipment.ts";

/** Long: it is the page from top to bottom. */
export function weekPage(ctx: PageContext, view: WeekView): Html {
	const findings = findingsList(ctx, view.findings);
	const { words } = ctx;
	const say = words.weekPage;
	return html`<p class="eyebrow">${view.dates}</p>
<h1><span class="big-number">${words.week(view.number)}</span> ${view.theme}</h1>
${beside(ctx, view.previous, view.next, say.besides)}
${view.body.text !== "" && html`<div class="prose director">${view.body}</div>`}
${printLinks(ctx, weekPrints(words, view))}
${section(
	"apparatus",
	say.byApparatus,
	html`<div class="plans">${view.plans.map(
		({ apparatus, blocks }) => html`<article class="plan">
<h3>${apparatusIcon(apparatus.id)} ${a(ctx, apparatus.link)} <span class="small">${words.min(apparatus.minutes)}</span></h3>
${apparatus.focus && html`<p class="focus">${apparatus.focus}</p>`}
<ol class="blocks">${blocks.map((block) => html`<li>${minutesMark(ctx, block.minutes)}${whatIsDone(ctx, block)}</li>`)}</ol></article>`,
	)}</div>`,
)}
${view.classes.length > 0 && section("sheets", words.classes.sheets, classRows(ctx, view))}
${
	view.times.length > 0 &&
	section("time", say.minutes, [
		scrollTable(
			say.minutesTable,
			[words.heads.group, ...timeHeads(ctx)],
			view.times.map(({ class: group, row }) => timeRow(ctx, row, group)),
		),
		html`<p class="small">${more(ctx, { ...measureLink(words, "time"), name: say.everyWeek })}</p>`,
	])
}
${view.clashes.length > 0 && section("clashes", say.clashes, clashTable(ctx, view.clashes))}
${
	view.directions.length > 0 &&
	section("directions", words.balance.directions, [
		html`<p class="small">${words.balance.overAll} ${more(ctx, { ...measureLink(words, "balance"), name: say.everyWeek })}</p>`,
		pictureAndTable(
			pairedBars(
				ctx,
				{
					sides: [words.heads.backward, words.heads.forward],
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
					title: words.balance.pairs(words.week(view.number)),
					description: say.directionsDescription,
					idPrefix: "pairs",
				},
			),
			scrollTable(
				words.balance.byDirection,
				[words.heads.apparatus, ...directionHeads(ctx)],
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
	section("load", words.load.title, [
		html`<p class="small">${words.load.note} ${more(ctx, { ...measureLink(words, "load"), name: say.everyWeek })}</p>`,
		scrollTable(
			words.load.byLevel,
			[words.heads.level, ...loadHeads(ctx)],
			view.load.map((row) => loadRow(ctx, row, row.group)),
		),
	])
}
${
	view.suggestions.length > 0 &&
	section("suggestions", words.suggestions.title, [
		html`<p class="small">${words.suggestions.ofWeek}</p>`,
		suggestionList(ctx, view.suggestions, ({ level, apparatus }) => `${level.name}, ${apparatus.name}`),
	])
}
${findings && section("findings", words.findingsPage.found, findings)}
<p class="small">${say.writtenIn(html`<code>${view.file}</code>`)}</p>`;
}

/** The drill of a block and whom it is for; several stand below that, each on a line of its own. */
function whatIsDone(
	ctx: PageContext,
	{ kind, levels, drills }: WeekView["plans"][number]["blocks"][number],
): Html {
	const who = levels.length > 0 && html` <span class="for">${inWords(ctx, levels)}</span>`;
	if (drills.length === 1) return html`<span>${inWords(ctx, drills)}${who}</span>`;
	const { block, counts } = ctx.words;
	const label = kind === "options" ? block.options(drills.length) : counts.stations(drills.length);
	return html`<div><span class="label">${label}</span>${who}
<ul>${drills.map((drill) => html`<li>${a(ctx, drill)}</li>`)}</ul></div>`;
}

function weekPrints({ prints }: Words, { link }: WeekView): readonly PrintLink[] {
	const week = link.to.split("/")[1] ?? "";
	return [
		{ file: SHEET_FILES.weekPacket(week), words: prints.packet },
		{ file: SHEET_FILES.storeRoom(week), words: prints.storeRoom },
		{ file: SHEET_FILES.labels(week), words: prints.labels },
	];
}
