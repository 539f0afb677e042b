/**
 * Landings and hand contacts as rows of a table, opening to the drills behind them.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { Link } from "../../scripts/render/views/links.ts";
import { contactWords, type LoadRow, stepWords } from "../../scripts/render/views/measures/load.ts";
import { counted, shortNumber } from "../../scripts/render/views/words.ts";
import { opens } from "./measure-parts.ts";
import { a, type PageContext } from "./page.ts";

/** The columns after the first, before what they were counted from. */
export const loadHeads = ["Landings", "Step", "Hands", "Step"] as const;

/** One level in one week; `head` names the row. */
export function loadRow(ctx: PageContext, row: LoadRow, head: Link, id?: string): Html {
	return html`<tr${id && html` id="${id}"`}><th scope="row">${a(ctx, head)}</th><td>${shortNumber(row.landings)}</td><td class="${row.landingsOver ? "short" : ""}">${stepWords(row.landingsStep)}</td><td>${shortNumber(row.hands)}</td><td class="${row.handsOver ? "short" : ""}">${stepWords(row.handsStep)}</td><td class="left">${opens(
		counted(row.drills.length, "drill"),
		row.drills.map(
			({ drill, landings, hands }) =>
				html`${a(ctx, drill)} <span class="small">${contactWords({ landings, hands })}</span>`,
		),
	)}</td></tr>`;
}
