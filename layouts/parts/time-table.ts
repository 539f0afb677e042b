/**
 * Planned against available minutes as rows of a table, opening to the drills behind the share.
 */

import { type Html, type HtmlValue, html } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import { drillTimeWords, type TimeRow } from "../../scripts/views/measures/time.ts";
import { opens } from "./measure-parts.ts";
import { a, type PageContext } from "./page.ts";

/** The columns after the first. */
export function timeHeads({ words: { heads } }: PageContext): readonly HtmlValue[] {
	return [
		heads.planned,
		heads.class,
		heads.free,
		heads.moving,
		html`<span class="left">${heads.countedFrom}</span>`,
	];
}

/** One class in one week; `head` names the row. */
export function timeRow(ctx: PageContext, row: TimeRow, head: Link, id?: string): Html {
	const { number } = ctx.words;
	const { planned, available, free, activeShare, over, still, drills } = row;
	return html`<tr${id && html` id="${id}"`}><th scope="row">${a(ctx, head)}</th><td class="${over ? "short" : ""}">${number(planned)}</td><td>${available === undefined ? "–" : number(available)}</td><td class="${over ? "short" : ""}">${free === undefined ? "–" : over ? `−${number(-free)}` : number(free)}</td><td class="${still ? "short" : ""}">${percent(ctx, activeShare)}</td><td class="left">${opens(
		ctx.words.counts.drills(drills.length),
		drills.map(
			({ drill, apparatus, time }) =>
				html`${a(ctx, drill)} <span class="small">${apparatus}${ctx.words.colon}${drillTimeWords(ctx.words, time)}</span>`,
		),
	)}</td></tr>`;
}

/** "52.4 %". */
export function percent({ words }: PageContext, share: number | undefined): string {
	return share === undefined ? "–" : words.percent(share);
}
