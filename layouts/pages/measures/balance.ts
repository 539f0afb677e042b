/**
 * Balance: forward against backward, sides, movement patterns, work without its counterpart.
 */

import { type Html, html } from "../../../scripts/render/html.ts";
import type { BalanceView, TallyRow } from "../../../scripts/render/views/measures/balance.ts";
import { capital, counted, shortNumber } from "../../../scripts/render/views/words.ts";
import { pairedBars } from "../../parts/charts.ts";
import {
	directionCells,
	measureFoot,
	measureTop,
	nothingPlanned,
	pictureAndTable,
	scrollTable,
} from "../../parts/measure-parts.ts";
import { a, fold, inWords, type PageContext, section } from "../../parts/page.ts";

const SIDES: Readonly<Record<string, string>> = {
	both: "Both together",
	each: "Each in turn",
	lead: "Favoured only",
	unsaid: "Not said",
};

/** The page of balance. */
export function balancePage(ctx: PageContext, view: BalanceView): Html {
	return html`${measureTop(ctx, view.head)}
${view.head.empty && nothingPlanned(ctx)}
${
	view.apparatus.length > 0 &&
	section(
		"directions",
		"Forward and backward",
		html`<p class="small">Minutes over all levels. Each apparatus has a scale of its own. A number opens to its drills.</p>
${view.apparatus.map(
	({ id, link, bars, rows }) =>
		html`<h3 id="on-${id}">${a(ctx, link)}</h3>
${pictureAndTable(
	pairedBars(
		ctx,
		{ sides: ["Backward", "Forward"], groups: [{ name: "", bars }] },
		{
			title: `${link.name}: backward and forward`,
			description: "Minutes in each week. The table beside this picture has the same numbers.",
			idPrefix: `pairs-${id}`,
		},
	),
	scrollTable(
		`${link.name}: minutes by direction`,
		["Week", "Forward", "Backward", "Sideways", "None", html`<span class="left">Missing</span>`],
		rows.map(
			(row) =>
				html`<tr id="direction--${id}--${row.number}"><th scope="row">${a(ctx, row.week)}</th>${directionCells(ctx, row)}<td class="left ${row.missing === undefined ? "" : "short"}">${row.missing ?? "–"}</td></tr>`,
		),
	),
)}`,
)}`,
	)
}
${
	view.sides.length > 0 &&
	section("sides", "Sides", [
		html`<p class="small">Minutes by how the drills treat the two sides of the body.</p>`,
		tallyTable("Minutes by sides", view.sides, (column) => SIDES[column] ?? column, ctx),
	])
}
${
	view.patterns.length > 0 &&
	section("patterns", "Movement patterns", [
		html`<p class="small">A drill has the patterns of the skills it leads to; one with two patterns gives its full minutes to both. In brackets the minutes shared out over the patterns, which add up.</p>`,
		tallyTable("Minutes by movement pattern", view.patterns, capital, ctx),
	])
}
${
	view.unpaired.length > 0 &&
	section(
		"unpaired",
		"Without its counterpart",
		html`<p>Drills in one direction that a level does in a week without the same work in the other. A director may want it so; nothing here is a fault by itself.</p>
${fold(
	counted(view.unpaired.length, "drill"),
	html`<ul class="rows">${view.unpaired.map(
		({ drill, partners, levels }) =>
			html`<li>${a(ctx, drill)} <span class="small">${levels.map(({ level, weeks }, i) => html`${i === 0 ? "" : "; "}${level.name} in ${weeks.length === 1 ? "week" : "weeks"} ${weeks.join(", ")}`)}. ${partners.length === 0 ? "No counterpart in the library." : html`Counterpart: ${inWords(ctx, partners)}.`}</span></li>`,
	)}</ul>`,
)}`,
	)
}
${measureFoot(ctx, view.head)}`;
}

function tallyTable(
	label: string,
	rows: readonly TallyRow<string>[],
	nameOf: (column: string) => string,
	ctx: PageContext,
): Html {
	const columns = rows[0]?.cells.map(({ column }) => column) ?? [];
	return html`${scrollTable(
		label,
		["Level", ...columns.map(nameOf)],
		rows.map(
			({ level, cells }) =>
				html`<tr><th scope="row">${a(ctx, level)}</th>${cells.map(
					({ minutes, share }) =>
						html`<td>${minutes === 0 ? "–" : shortNumber(minutes)}${share !== undefined && html` <span class="small">(${shortNumber(share)})</span>`}</td>`,
				)}</tr>`,
		),
	)}
${rows.map(({ level, cells }) =>
	fold(
		html`Counted from, ${level.name}`,
		html`<ul class="rows">${cells
			.filter(({ drills }) => drills.length > 0)
			.map(
				({ column, drills }) =>
					html`<li><strong>${nameOf(column)}</strong> <span class="small">${inWords(ctx, drills)}</span></li>`,
			)}</ul>`,
	),
)}`;
}
