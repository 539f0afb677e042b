/**
 * Time: planned against available minutes of each class, and how much of them a gymnast moves.
 */

import { type Html, html } from "../../../scripts/views/html.ts";
import type { LevelMinutes, TimeView } from "../../../scripts/views/measures/time.ts";
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

export function timePage(ctx: PageContext, view: TimeView): Html {
	const target = view.shareWanted;
	const { words } = ctx;
	const say = words.time;
	return html`${measureTop(ctx, view.head)}
${view.head.empty ? nothingPlanned(ctx) : view.classes.length === 0 && html`<p class="empty">${say.none}</p>`}
${
	view.shares.length > 0 &&
	section(
		"moving",
		say.moving,
		html`<p class="small">${say.movingNote}</p>
${pictureAndTable(
	barChart(
		ctx,
		{
			parts: [words.heads.moving],
			bars: view.shares,
			...(target === undefined ? {} : { limit: { value: target, words: say.target } }),
		},
		{
			title: say.shareTitle,
			description: say.shareDescription,
			idPrefix: "moving-chart",
		},
	),
	scrollTable(
		say.shareTitle,
		[words.heads.class, words.heads.moving, words.heads.target],
		view.classes.map(
			({ link, activeShare, id }) =>
				html`<tr><th scope="row"><a href="#class-${id}">${link.name}</a></th><td>${percent(ctx, activeShare)}</td><td>${target === undefined ? "–" : words.percent(target / 100)}</td></tr>`,
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
					title: say.lineTitle(link.name),
					description: say.lineDescription,
					idPrefix: `line-${id}`,
				},
			),
			scrollTable(
				say.weekByWeek(link.name),
				[words.heads.week, ...timeHeads(ctx)],
				rows.map((row) => timeRow(ctx, row, row.sheet, `time--${id}--${row.week}`)),
			),
		),
	),
)}
${
	view.apparatus.length > 0 &&
	section("apparatus", say.byApparatus, [
		html`<p class="small">${say.byApparatusNote}</p>`,
		view.apparatus.map((minutes) => levelMinutes(ctx, minutes)),
	])
}
${measureFoot(ctx, view.head)}`;
}

function levelMinutes(ctx: PageContext, { id, level, apparatus, rows }: LevelMinutes): Html {
	const { words } = ctx;
	const title = words.time.apparatusTitle(level.name);
	return html`<h3 id="apparatus-${id}">${a(ctx, level)}</h3>
${pictureAndTable(
	barChart(
		ctx,
		{
			parts: apparatus.map(({ name }) => name),
			bars: rows.map(({ week, minutes }) => ({ name: week.name, values: minutes, href: week.to })),
		},
		{ title, description: words.time.lineDescription, idPrefix: `apparatus-${id}-chart` },
	),
	scrollTable(
		title,
		[words.heads.week, ...apparatus.map(({ name }) => name), words.heads.sum],
		rows.map(
			({ number, week, minutes, sum }) =>
				html`<tr id="apparatus--${id}--${number}"><th scope="row">${a(ctx, week)}</th>${minutes.map((one) => html`<td>${one === 0 ? "–" : words.number(one)}</td>`)}<td><b>${words.number(sum)}</b></td></tr>`,
		),
	),
)}`;
}
