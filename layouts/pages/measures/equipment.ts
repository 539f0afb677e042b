/**
 * Equipment: needed against owned, by apparatus and week, and while classes share the hall.
 */

import { type Html, html } from "../../../scripts/render/html.ts";
import type { ClashView, EquipmentMeasureView } from "../../../scripts/render/views/measures/equipment.ts";
import { shortNumber } from "../../../scripts/render/views/words.ts";
import { barChart, countedCell } from "../../parts/charts.ts";
import { measureFoot, measureTop, nothingPlanned, scrollTable } from "../../parts/measure-parts.ts";
import { a, inWords, type PageContext, section } from "../../parts/page.ts";

/** The page of the measure. */
export function equipmentMeasurePage(ctx: PageContext, view: EquipmentMeasureView): Html {
	return html`${measureTop(ctx, view.head)}
${view.head.empty && nothingPlanned(ctx)}
${
	!view.head.empty &&
	section(
		"together",
		"Classes at the same time",
		html`${
			view.overlaps.length === 0
				? html`<p>No two classes with a day, a start and minutes are in the hall at the same time.</p>`
				: html`<p class="small">Who is in the hall at the same time:</p><ul class="rows">${view.overlaps.map(
						({ day, from, to, classes }) => html`<li>${day}, ${from} to ${to}: ${inWords(ctx, classes)}</li>`,
					)}</ul>`
		}
${view.clashes.length === 0 ? view.overlaps.length > 0 && html`<p>At no moment do they need more together than the club owns.</p>` : clashTable(ctx, view.clashes)}`,
	)
}
${
	view.tightest.length > 0 &&
	section(
		"tightest",
		"Nearest to what is owned",
		html`<p class="small">The most of an item that one apparatus needs in any week, the scarcest first. The tables below have all items and weeks.</p>
${barChart(
	ctx,
	{ parts: ["Needed"], bars: view.tightest },
	{
		title: "The most that is needed of an item, against what is owned",
		description: "Pieces. The tables below have all items and weeks.",
		idPrefix: "tightest-chart",
	},
)}`,
	)
}
${view.apparatus.map(({ id, link, rows }) =>
	section(
		`on-${id}`,
		a(ctx, link),
		scrollTable(
			`${link.name}: needed in each week`,
			["Item", "Owned", ...view.weeks.map((week) => html`<span class="sr">Week </span>${week}`)],
			rows.map(
				({ id: item, item: itemLink, owned, cells }) =>
					html`<tr id="needed--${id}--${item}"><th scope="row">${a(ctx, itemLink)}</th><td>${owned === undefined ? "–" : shortNumber(owned)}</td>${cells.map(
						(cell) =>
							cell === undefined
								? html`<td class="none"><span class="sr">none</span></td>`
								: countedCell(ctx, shortNumber(cell.needed), cell.link, cell.short ? "short" : ""),
					)}</tr>`,
			),
		),
	),
)}
${measureFoot(ctx, view.head)}`;
}

/** Shortages with the minute and the classes named. */
export function clashTable(ctx: PageContext, clashes: readonly ClashView[]): Html {
	return scrollTable(
		"More needed at once than the club owns",
		[
			"Item",
			html`<span class="left">When</span>`,
			"Needed",
			"Owned",
			html`<span class="left">Classes</span>`,
		],
		clashes.map(
			({ when, week, item, needed, owned, classes }) =>
				html`<tr><th scope="row">${a(ctx, item)}</th><td class="left">${a(ctx, week)}: ${when}</td><td class="short">${shortNumber(needed)}</td><td>${shortNumber(owned)}</td><td class="left">${classes.map(({ sheet, place, needed: own }, i) => html`${i === 0 ? "" : "; "}${shortNumber(own)} for ${a(ctx, sheet)} at ${a(ctx, place)}`)}</td></tr>`,
		),
	);
}
