/**
 * One coverage table with its filters, and under it the drills of every cell.
 */

import type { CellView, CoverageView, Measure } from "../../scripts/views/coverage.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import { a, inWords, type PageContext } from "../parts/page.ts";

export function coveragePage(ctx: PageContext, view: CoverageView): Html {
	const { table, rows, columns, foot, measures } = view;
	const { words } = ctx;
	const say = words.coverage;
	const { title: tableTitle, question } = say.tables[table.id];
	const title =
		view.choice.length === 0
			? tableTitle
			: html`${tableTitle} <span class="of">${view.choice.join(", ")}</span>`;
	return html`<h1>${title}</h1>
<p class="lead">${question}</p>
${view.filters.map(
	({ name, options }) =>
		html`<nav class="filter" aria-label="${name}"><ul class="chips">${options.map(
			({ link, chosen }) =>
				html`<li><a class="chip" href="${ctx.way(link.to)}"${chosen && raw(' aria-current="true"')}>${link.name}</a></li>`,
		)}</ul></nav>`,
)}
${
	foot.total.values[0] === undefined
		? html`<p class="empty">${say.empty}</p>`
		: html`<fieldset class="measures"><legend>${say.count}</legend>${measures.map(
				(measure, i) =>
					html`<label><input type="radio" name="measure" value="${measure}"${i === 0 ? raw(" checked") : ""}> ${say.measures[measure].name}</label>`,
			)}</fieldset>
<p class="small says">${measures.map((measure) => html`<span class="v-${measure}">${say.measures[measure].says}</span>`)} ${say.totals}</p>
<section class="scroll heat" tabindex="0" aria-label="${words.asTable(tableTitle)}"><table class="coverage">
<thead><tr><th scope="col">${words.heads[table.by]}</th>${columns.map((column) => html`<th scope="col"><span>${a(ctx, column)}</span></th>`)}<th scope="col" class="total"><span>${say.all}</span></th></tr></thead>
<tbody>${rows.map(
				(row) =>
					html`<tr><th scope="row">${a(ctx, row.head)}</th>${row.cells.map((cell) => tableCell(ctx, cell, measures, ""))}${tableCell(ctx, row.total, measures, "total")}</tr>`,
			)}</tbody>
<tfoot><tr><th scope="row">${say.all}</th>${foot.cells.map((cell) => tableCell(ctx, cell, measures, "total"))}${tableCell(ctx, foot.total, measures, "total grand")}</tr></tfoot>
</table></section>`
}
<p><a class="button" href="${ctx.way(view.file)}" download>${say.csv}</a></p>
${view.missing.length > 0 && html`<h2 id="missing">${say.missing}</h2><p>${view.missing.map((label, i) => html`${i === 0 ? "" : ", "}${a(ctx, label)}`)}</p>`}
${
	view.lists.length > 0 &&
	html`<section class="part cell-lists" aria-labelledby="lists"><h2 id="lists"><span>${say.lists}</span></h2>${view.lists.map(
		({ name, cells }) =>
			html`<div class="cell-row"><h3>${name}</h3>${cells.map(
				({ anchor, name, cell, lines }) =>
					html`<div class="cell-list" id="${anchor}" tabindex="-1"><h4>${name}</h4><ul>${lines.map(
						({ drill, places, minutes }) =>
							html`<li>${a(ctx, drill)} <span class="small">${words.min(minutes)}${words.colon}${inWords(ctx, places)}</span></li>`,
					)}</ul><p class="small"><a href="#${cell}">${say.back}</a></p></div>`,
			)}</div>`,
	)}</section>`
}
<h2 id="other-tables">${say.others}</h2>
<ul class="rows">${view.others.map((other) => html`<li>${a(ctx, other)}</li>`)}</ul>`;
}

/** The values of all measures stand in the cell; the choice of measure shows one of them. */
function tableCell(ctx: PageContext, cell: CellView, measures: readonly Measure[], className: string): Html {
	if (cell.values.every((value) => value === undefined))
		return html`<td class="none ${className}"><span class="sr">${ctx.words.none}</span></td>`;
	const values = measures.map((measure, i) => {
		const value = cell.values[i];
		return html`<span class="v-${measure} heat-${cell.heat[i] ?? 0}">${value === undefined ? "–" : ctx.words.number(value)}</span>`;
	});
	return cell.anchor === undefined
		? html`<td class="${className}">${values}</td>`
		: html`<td><a href="#${cell.anchor}" id="cell-${cell.anchor}">${values}<span class="sr"> ${cell.name}, ${ctx.words.counts.drills(cell.values[1] ?? 0)}</span></a></td>`;
}
