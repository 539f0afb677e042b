/**
 * What the single sheets share: their sides, their foot, the steps in which they are set.
 *
 * A sheet carries a mark made from its own content: two print-outs with the same mark are the same
 * sheet, and a change elsewhere in the club changes nothing on it.
 */

import { arcsAsCurves } from "../../scripts/figures/curves.ts";
import { hashOf } from "../../scripts/views/drill-ring.ts";
import { type Html, type HtmlValue, html, raw } from "../../scripts/views/html.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import type { SheetStep } from "./sheet-file.ts";

export interface SideOptions {
	/** Names the piece's kind for the style sheet. */
	readonly kind: string;
	/** Keeps the punched edge free: on the left of a front, on the right of a back. */
	readonly bound: boolean;
	/** At the top of the first side, and of those that follow. */
	readonly head: Html;
	readonly again: Html;
	/** What flows over the sides, in one column or two. */
	readonly items: readonly Html[];
	readonly columns?: 1 | 2;
}

/** A piece whose content flows over as many sides as it needs. */
export function pouredPiece(facts: SheetFacts, options: SideOptions): Html {
	const { kind, bound, head, again, items, columns = 1 } = options;
	const side = (top: Html, content: HtmlValue) =>
		html`<section class="side"><div class="area">${top}<div class="pour${columns === 2 && " two"}">${content}</div></div>${foot(facts)}</section>`;
	return finished(
		facts,
		html`<div class="piece ${kind}${bound && " bound"}">${side(head, items)}<template>${side(again, "")}</template></div>`,
	);
}

/** A piece of sides on which everything has its place. */
export function fixedPiece(facts: SheetFacts, kind: string, sides: readonly Html[], footed = false): Html {
	return finished(
		facts,
		html`<div class="piece ${kind}">${sides.map((side) => html`<section class="side">${side}${footed && foot(facts)}</section>`)}</div>`,
	);
}

function foot({ club, term, words }: SheetFacts): Html {
	return html`<p class="foot"><span>${club} · ${term}</span><span>${words.sheets.mark} ${raw(MARK_PLACE)}</span><span class="of"></span></p>`;
}

/** Where the mark is put once the content is whole. */
const MARK_PLACE = "<b data-mark></b>";

/** Links lead to the site, drawings are written as the printer likes them, and the mark is filled in. */
function finished({ address }: SheetFacts, piece: Html): Html {
	const outward =
		address === undefined
			? piece.text.replace(/<\/?a\b[^>]*>/g, "")
			: piece.text.replace(
					/<a href="(?:\.\.\/)*(?!https?:|mailto:|#)([^"]*)"/g,
					(_, path: string) => `<a href="${address}${path}"`,
				);
	const mark = hashOf(outward).toString(16).padStart(8, "0").slice(-6);
	return raw(arcsAsCurves(outward).replaceAll(MARK_PLACE, `<b>${mark}</b>`));
}

/** Steps from one scale down to another, each at full detail; then with less of it at the smallest two. */
export function stepsFrom(most: number, least: number, step = 0.04): readonly SheetStep[] {
	const steps: SheetStep[] = [];
	for (let scale = most; scale > least - 1e-9; scale -= step) {
		steps.push({ scale: Math.round(scale * 100) / 100, detail: 3 });
	}
	return steps;
}

/** Only as it was designed. */
export const AS_DESIGNED: readonly SheetStep[] = [{ scale: 1, detail: 3 }];
