/**
 * Time: planned against available minutes of each class, and how much of them a gymnast moves.
 */

import { type Html, html } from "../../../scripts/render/html.ts";
import type { TimeView } from "../../../scripts/render/views/measures/time.ts";
import { shortNumber } from "../../../scripts/render/views/words.ts";
import { barChart, timeLine } from "../../parts/charts.ts";
import {
	measureFoot,
	measureTop,
	nothingPlanned,
	pictureAndTable,
	scrollTable,
} from "../../parts/measure-parts.ts";
import { a, type PageContext, section } from "../../parts/page.ts";
import { percent, timeHeads, timeRow } from "../../parts/time-table.ts";

/** The page of time. */
export function timePage(ctx: PageContext, view: TimeView): Html {
	const target = view.shareWanted;
	return html`${measureTop(ctx, view.head)}
${view.head.empty ? nothingPlanned(ctx) : view.classes.length === 0 && html`<p class="empty">No class with a rotation has anything planned yet, so there is nothing to hold against its minutes.</p>`}
${
	view.shares.length > 0 &&
	section(
		"moving",
		"How much each class moves",
		html`<p class="small">Percent of the class's minutes over all planned weeks: the sum of moving minutes over the sum of minutes.</p>
${pictureAndTable(
	barChart(
		ctx,
		{
			parts: ["Moving"],
			bars: view.shares,
			...(target === undefined ? {} : { limit: { value: target, words: "target" } }),
		},
		{
			title: "Share of each class in which a gymnast moves",
			description: "In percent. The table beside this picture has the same numbers.",
			idPrefix: "moving-chart",
		},
	),
	scrollTable(
		"Share of each class in which a gymnast moves",
		["Class", "Moving", "Target"],
		view.classes.map(
			({ link, activeShare, id }) =>
				html`<tr><th scope="row"><a href="#class-${id}">${link.name}</a></th><td>${percent(activeShare)}</td><td>${target === undefined ? "–" : `${shortNumber(target)} %`}</td></tr>`,
		),
	),
)}`,
	)
}
${view.classes.map(({ id, link, points, rows }) =>
	section(
		`class-${id}`,
		a(ctx, link),
		pictureAndTable(
			timeLine(
				ctx,
				{ points },
				{
					title: `${link.name}: planned and available minutes`,
					description: "Minutes in each week. The table beside this picture has the same numbers.",
					idPrefix: `line-${id}`,
				},
			),
			scrollTable(
				`${link.name}, week by week`,
				["Week", ...timeHeads],
				rows.map((row) => timeRow(ctx, row, row.sheet, `time--${id}--${row.week}`)),
			),
		),
	),
)}
${measureFoot(ctx, view.head)}`;
}
