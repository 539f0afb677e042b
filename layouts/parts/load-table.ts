/**
 * Landings and hand contacts as rows of a table, opening to the drills behind them.
 */

import { type Html, type HtmlValue, html } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import type { LoadRow } from "../../scripts/views/measures/load.ts";
import { opens } from "./measure-parts.ts";
import { a, type PageContext } from "./page.ts";

/** The columns after the first, before what they were counted from. */
export function loadHeads({ words: { heads } }: PageContext): readonly HtmlValue[] {
	return [
		heads.landings,
		heads.planned,
		heads.step,
		heads.hands,
		heads.planned,
		heads.step,
		html`<span class="left">${heads.countedFrom}</span>`,
	];
}

/** One group in one week; `head` names the row. */
export function loadRow(ctx: PageContext, row: LoadRow, head: Link, id?: string): Html {
	return html`<tr${id && html` id="${id}"`}><th scope="row">${a(ctx, head)}</th><td>${ctx.words.number(row.landings)}</td><td>${ctx.words.number(row.plannedLandings)}</td><td class="${row.landingsOver ? "short" : ""}">${stepOf(ctx, row.landingsStep)}</td><td>${ctx.words.number(row.hands)}</td><td>${ctx.words.number(row.plannedHands)}</td><td class="${row.handsOver ? "short" : ""}">${stepOf(ctx, row.handsStep)}</td><td class="left">${opens(
		ctx.words.counts.drills(row.drills.length),
		row.drills.map(
			({ drill, landings, hands }) =>
				html`${a(ctx, drill)} <span class="small">${ctx.words.drill.contacts(landings, hands)}</span>`,
		),
	)}${row.unknownShare > 0 && html` <span class="small">${ctx.words.load.unknown(row.unknownShare)}</span>`}</td></tr>`;
}

/** A step to two decimals, as findings say it. */
function stepOf({ words }: PageContext, step: number | undefined): string {
	return step === undefined ? "–" : words.number(step, 2);
}
