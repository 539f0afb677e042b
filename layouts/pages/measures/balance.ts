/**
 * Balance: forward against backward, sides, movement patterns, work without its counterpart.
 */

import { type Html, html } from "../../../scripts/views/html.ts";
import type { BalanceView, TallyRow } from "../../../scripts/views/measures/balance.ts";
import { capital } from "../../../scripts/views/words.ts";
import { pairedBars } from "../../parts/charts.ts";
import {
	directionCells,
	directionHeads,
	measureFoot,
	measureTop,
	nothingPlanned,
	pictureAndTable,
	scrollTable,
} from "../../parts/measure-parts.ts";
import { a, fold, inWords, type PageContext, section } from "../../parts/page.ts";

export function balancePage(ctx: PageContext, view: BalanceView): Html {
	const { words } = ctx;
	const say = words.balance;
	return html`${measureTop(ctx, view.head)}
${view.head.empty && nothingPlanned(ctx)}
${
	view.apparatus.length > 0 &&
	section(
		"directions",
		say.directions,
		html`<p class="small">${say.note}</p>
${view.apparatus.map(
	({ id, link, bars, rows }) =>
		html`<h3 id="on-${id}">${a(ctx, link)}</h3>
${pictureAndTable(
	pairedBars(
		ctx,
		{ sides: [words.heads.backward, words.heads.forward], groups: [{ name: "", bars }] },
		{
			title: say.pairs(link.name),
			description: words.time.lineDescription,
			idPrefix: `pairs-${id}`,
		},
	),
	scrollTable(
		say.tableOf(link.name),
		[words.heads.week, ...directionHeads(ctx), html`<span class="left">${words.heads.missing}</span>`],
		rows.map(
			(row) =>
				html`<tr id="direction--${id}--${row.number}"><th scope="row">${a(ctx, row.week)}</th>${directionCells(ctx, row)}<td class="left ${row.missing === undefined ? "" : "short"}">${row.missing === undefined ? "–" : words.directions[row.missing]}</td></tr>`,
		),
	),
)}`,
)}`,
	)
}
${
	view.sides.length > 0 &&
	section("sides", words.drill.sides, [
		html`<p class="small">${say.sidesNote}</p>`,
		tallyTable(ctx, say.sidesTable, view.sides, (column) => say.sides[column]),
	])
}
${
	view.patterns.length > 0 &&
	section("patterns", say.patterns, [
		html`<p class="small">${say.patternsNote}</p>`,
		tallyTable(ctx, say.patternsTable, view.patterns, (column) => capital(words.patterns[column])),
	])
}
${
	view.unpaired.length > 0 &&
	section(
		"unpaired",
		say.unpaired,
		html`<p>${say.unpairedNote}</p>
${fold(
	words.counts.drills(view.unpaired.length),
	html`<ul class="rows">${view.unpaired.map(
		({ drill, partners, levels }) =>
			html`<li>${a(ctx, drill)} <span class="small">${levels.map(({ level, weeks }, i) => html`${i === 0 ? "" : ctx.words.semicolon}${say.levelInWeeks(level.name, weeks)}`)}. ${partners.length === 0 ? say.noCounterpart : say.counterpart(inWords(ctx, partners))}</span></li>`,
	)}</ul>`,
)}`,
	)
}
${measureFoot(ctx, view.head)}`;
}

function tallyTable<Column extends string>(
	ctx: PageContext,
	label: string,
	rows: readonly TallyRow<Column>[],
	nameOf: (column: Column) => string,
): Html {
	const columns = rows[0]?.cells.map(({ column }) => column) ?? [];
	return html`${scrollTable(
		label,
		[ctx.words.heads.level, ...columns.map(nameOf)],
		rows.map(
			({ level, cells }) =>
				html`<tr><th scope="row">${a(ctx, level)}</th>${cells.map(
					({ minutes, share }) =>
						html`<td>${minutes === 0 ? "–" : ctx.words.number(minutes)}${share !== undefined && html` <span class="small">(${ctx.words.number(share)})</span>`}</td>`,
				)}</tr>`,
		),
	)}
${rows.map(({ level, cells }) =>
	fold(
		ctx.words.balance.countedFrom(level.name),
		html`<ul class="rows">${cells
			.filter(({ drills }) => drills.length > 0)
			.map(
				({ column, drills }) =>
					html`<li><strong>${nameOf(column)}</strong> <span class="small">${inWords(ctx, drills)}</span></li>`,
			)}</ul>`,
	),
)}`;
}
