/**
 * Equipment: needed against owned, by apparatus and week, and while classes share the hall.
 */

import { type Html, html } from "../../../scripts/views/html.ts";
import type { ClashView, EquipmentMeasureView } from "../../../scripts/views/measures/equipment.ts";
import { barChart, countedCell } from "../../parts/charts.ts";
import { measureFoot, measureTop, nothingPlanned, scrollTable } from "../../parts/measure-parts.ts";
import { a, inWords, type PageContext, section } from "../../parts/page.ts";

export function equipmentMeasurePage(ctx: PageContext, view: EquipmentMeasureView): Html {
	const { words } = ctx;
	const say = words.equipmentMeasure;
	return html`${measureTop(ctx, view.head)}
${view.head.empty && nothingPlanned(ctx)}
${
	!view.head.empty &&
	section(
		"together",
		say.together,
		html`${
			view.overlaps.length === 0
				? html`<p>${say.nobody}</p>`
				: html`<p class="small">${say.who}</p><ul class="rows">${view.overlaps.map(
						({ day, from, to, classes }) =>
							html`<li>${say.overlap(words.days[day], from, to)} ${inWords(ctx, classes)}</li>`,
					)}</ul>`
		}
${view.clashes.length === 0 ? view.overlaps.length > 0 && html`<p>${say.enough}</p>` : clashTable(ctx, view.clashes)}`,
	)
}
${
	view.tightest.length > 0 &&
	section(
		"tightest",
		say.tightest,
		html`<p class="small">${say.tightestNote}</p>
${barChart(
	ctx,
	{ parts: [words.equipmentPage.needed], bars: view.tightest },
	{
		title: say.chartTitle,
		description: say.chartDescription,
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
			say.neededInWeeks(link.name),
			[
				words.equipmentPage.item,
				words.equipmentPage.owned,
				...view.weeks.map((week) => html`<span class="sr">${words.heads.week} </span>${week}`),
			],
			rows.map(
				({ id: item, item: itemLink, owned, cells }) =>
					html`<tr id="needed--${id}--${item}"><th scope="row">${a(ctx, itemLink)}</th><td>${owned === undefined ? "–" : words.number(owned)}</td>${cells.map(
						(cell) =>
							cell === undefined
								? html`<td class="none"><span class="sr">${words.none}</span></td>`
								: countedCell(ctx, words.number(cell.needed), cell.link, cell.short ? "short" : ""),
					)}</tr>`,
			),
		),
	),
)}
${measureFoot(ctx, view.head)}`;
}

/** Shortages with the minute and the classes named. */
export function clashTable(ctx: PageContext, clashes: readonly ClashView[]): Html {
	const { words } = ctx;
	const say = words.equipmentMeasure;
	return scrollTable(
		say.clashTable,
		[
			words.equipmentPage.item,
			html`<span class="left">${say.when}</span>`,
			words.equipmentPage.needed,
			words.equipmentPage.owned,
			html`<span class="left">${words.destinations.classes}</span>`,
		],
		clashes.map(
			({ day, from, to, week, item, needed, owned, classes }) =>
				html`<tr><th scope="row">${a(ctx, item)}</th><td class="left">${a(ctx, week)}${words.colon}${say.at(words.days[day], from, to)}</td><td class="short">${words.number(needed)}</td><td>${words.number(owned)}</td><td class="left">${classes.map(({ sheet, place, needed: own }, i) => html`${i === 0 ? "" : words.semicolon}${say.classAt(own, a(ctx, sheet), a(ctx, place))}`)}</td></tr>`,
		),
	);
}
