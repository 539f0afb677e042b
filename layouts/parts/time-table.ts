/**
 * Planned against available minutes as rows of a table, opening to the drills behind the share.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { Link } from "../../scripts/render/views/links.ts";
import { drillTimeWords, type TimeRow } from "../../scripts/render/views/measures/time.ts";
import { counted, shortNumber } from "../../scripts/render/views/words.ts";
import { opens } from "./measure-parts.ts";
import { a, type PageContext } from "./page.ts";

/** The columns after the first. */
export const timeHeads: readonly Html[] = [
	html`Planned`,
	html`Class`,
	html`Free`,
	html`Moving`,
	html`<span class="left">Counted from</span>`,
];

/** One class in one week; `head` names the row. */
export function timeRow(ctx: PageContext, row: TimeRow, head: Link, id?: string): Html {
	const { planned, available, free, activeShare, over, still, drills } = row;
	return html`<tr${id && html` id="${id}"`}><th scope="row">${a(ctx, head)}</th><td class="${over ? "short" : ""}">${shortNumber(planned)}</td><td>${available === undefined ? "–" : shortNumber(available)}</td><td class="${over ? "short" : ""}">${free === undefined ? "–" : over ? `−${shortNumber(-free)}` : shortNumber(free)}</td><td class="${still ? "short" : ""}">${percent(activeShare)}</td><td class="left">${opens(
		counted(drills.length, "drill"),
		drills.map(
			({ drill, apparatus, time }) =>
				html`${a(ctx, drill)} <span class="small">${apparatus}: ${drillTimeWords(time)}</span>`,
		),
	)}</td></tr>`;
}

/** "52.4 %". */
export function percent(share: number | undefined): string {
	return share === undefined ? "–" : `${shortNumber(share * 100)} %`;
}
