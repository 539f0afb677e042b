/**
 * One coverage table with its filters, and under it the drills of every cell.
 */

import { type Html, html, raw } from "../../scripts/render/html.ts";
import type { CellView, CoverageView, Measure } from "../../scripts/render/views/coverage.ts";
import { counted, shortNumber } from "../../scripts/render/views/words.ts";
import { a, inWords, type PageContext } from "../parts/page.ts";

const MEASURES: Readonly<Record<Measure, { readonly name: string; readonly says: string }>> = {
	minutes: {
		name: "Minutes",
		says: "Planned minutes; a drill with two shapes or skills counts in full for both.",
	},
	drills: { name: "Drills", says: "Different drills." },
	share: {
		name: "Share",
		says: "Minutes divided between the shapes or skills of a drill, so that they add up.",
	},
	repetitions: { name: "Repetitions", says: "Sets × repetitions, where the drill or the level says them." },
};

/** The page of a table. */
export function coveragePage(ctx: PageContext, view: CoverageView): Html {
	const { table, rows, columns, foot, measures } = view;
	const rowWord = { week: "Week", level: "Level", apparatus: "Apparatus" }[table.by];
	const title =
		view.choice.length === 0
			? table.title
			: html`${table.title} <span class="of">${view.choice.join(", ")}</span>`;
	return html`<h1>${title}</h1>
<p class="lead">${table.question}</p>
${view.filters.map(
	({ name, options }) =>
		html`<nav class="filter" aria-label="${name}"><ul class="chips">${options.map(
			({ link, chosen }) =>
				html`<li><a class="chip" href="${ctx.way(link.to)}"${chosen && raw(' aria-current="true"')}>${link.name}</a></li>`,
		)}</ul></nav>`,
)}
${
	foot.total.values[0] === undefined
		? html`<p class="empty">Nothing is planned here yet, so there is nothing to count.</p>`
		: html`<fieldset class="measures"><legend>Count</legend>${measures.map(
				(measure, i) =>
					html`<label><input type="radio" name="measure" value="${measure}"${i === 0 ? raw(" checked") : ""}> ${MEASURES[measure].name}</label>`,
			)}</fieldset>
<p class="small says">${measures.map((measure) => html`<span class="v-${measure}">${MEASURES[measure].says}</span>`)} Totals count each drill once where it is planned, however many columns it stands in. A stronger shade is more.</p>
<section class="scroll heat" tabindex="0" aria-label="${table.title}, table"><table class="coverage">
<thead><tr><th scope="col">${rowWord}</th>${columns.map((column) => html`<th scope="col"><span>${a(ctx, column)}</span></th>`)}<th scope="col" class="total"><span>All</span></th></tr></thead>
<tbody>${rows.map(
				(row) =>
					html`<tr><th scope="row">${a(ctx, row.head)}</th>${row.cells.map((cell) => tableCell(cell, measures, ""))}${tableCell(row.total, measures, "total")}</tr>`,
			)}</tbody>
<tfoot><tr><th scope="row">All</th>${foot.cells.map((cell) => tableCell(cell, measures, "total"))}${tableCell(foot.total, measures, "total grand")}</tr></tfoot>
</table></section>`
}
<p><a class="button" href="${ctx.way(view.file)}" download>Table as CSV</a></p>
${view.missing.length > 0 && html`<h2 id="missing">Not in this plan</h2><p>${view.missing.map((label, i) => html`${i === 0 ? "" : ", "}${a(ctx, label)}`)}</p>`}
${
	view.lists.length > 0 &&
	html`<section class="part cell-lists" aria-labelledby="lists"><h2 id="lists"><span>What each number was counted from</span></h2>${view.lists.map(
		(list) =>
			html`<div class="cell-list" id="${list.anchor}" tabindex="-1"><h3>${list.name}</h3><ul>${list.lines.map(
				({ drill, places, minutes }) =>
					html`<li>${a(ctx, drill)} <span class="small">${shortNumber(minutes)} min: ${inWords(ctx, places)}</span></li>`,
			)}</ul><p class="small"><a href="#${list.cell}">Back to the table</a></p></div>`,
	)}</section>`
}
<h2 id="other-tables">Other tables</h2>
<ul class="rows">${view.others.map((other) => html`<li>${a(ctx, other)}</li>`)}</ul>`;
}

/** The values of all measures stand in the cell; the choice of measure shows one of them. */
function tableCell(cell: CellView, measures: readonly Measure[], className: string): Html {
	if (cell.values.every((value) => value === undefined))
		return html`<td class="none ${className}"><span class="sr">none</span></td>`;
	const values = measures.map((measure, i) => {
		const value = cell.values[i];
		return html`<span class="v-${measure} heat-${cell.heat[i] ?? 0}">${value === undefined ? "–" : shortNumber(value)}</span>`;
	});
	return cell.anchor === undefined
		? html`<td class="${className}">${values}</td>`
		: html`<td><a href="#${cell.anchor}" id="cell-${cell.anchor}">${values}<span class="sr"> ${cell.name}, ${counted(cell.values[1] ?? 0, "drill")}</span></a></td>`;
}
