/** The term on one page, lying: every week with its theme, what each apparatus is about, and when the club is closed. */

import { type Html, html } from "../../scripts/views/html.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import type { TermPageView, TermRow } from "../../scripts/views/sheets/term-page.ts";
import type { Words } from "../../scripts/words/words.ts";
import { drawnApparatus } from "../parts/icons.ts";
import { pageCode } from "./page-code.ts";
import type { Drawn } from "./sheet-file.ts";
import { pouredPiece, stepsFrom } from "./side.ts";

export function termPage(facts: SheetFacts, { span, apparatus, rows }: TermPageView): Drawn {
	const { term, words } = facts;
	const dates = span && words.sheets.span(words.date(span.from), words.date(span.to, "medium"));
	return {
		html: pouredPiece(facts, {
			kind: "term-page",
			bound: false,
			head: html`<div class="with-code"><header class="head"><h1>${term} <span>${dates}</span></h1></header>${pageCode(facts, "term/", term)}</div>`,
			again: html`<header class="again"><b>${term}</b></header>`,
			items: [
				html`<table class="item"><thead><tr><th scope="col" class="week">${words.heads.week}</th>${apparatus.map(({ id, name }) => html`<th scope="col">${drawnApparatus(id)} ${name}</th>`)}</tr></thead>
<tbody>${rows.map((row) => rowOf(words, row))}</tbody></table>`,
			],
		}),
		most: 1,
		steps: stepsFrom(1.2, 0.6),
	};
}

/** A week, after what is closed between the one before and it. */
function rowOf(words: Words, { number, monday, theme, closed, between, cells }: TermRow): Html {
	const say = words.termSheet;
	const days = between.map(({ from, to }) =>
		from === to ? words.sheets.onDay(words.date(from)) : words.sheets.span(words.date(from), words.date(to)),
	);
	return html`${days.length > 0 && html`<tr class="closure"><td colspan="${cells.length + 1}">${say.closedBetween(days)}</td></tr>`}<tr><th scope="row"><b class="big">${number}</b> ${monday && html`<span>${words.date(monday)}</span>`}<br>${theme}${closed.length > 0 && html` <em>${say.closedOn(closed.map((date) => words.date(date)))}</em>`}</th>${cells.map(
		(cell) =>
			cell === undefined
				? html`<td class="none">–</td>`
				: html`<td>${cell.focus} <span>${words.min(cell.minutes)}</span></td>`,
	)}</tr>`;
}
