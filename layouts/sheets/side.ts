/**
 * What the single sheets share: what they are made from, their sides, and the pieces of a drill.
 *
 * A sheet carries a mark made from its own content: two print-outs with the same mark are the same
 * sheet, and a change elsewhere in the club changes nothing on it.
 */

import { createHash } from "node:crypto";
import { drillAt } from "../../scripts/compute/drill-at.ts";
import { arcsAsCurves } from "../../scripts/figures/curves.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { type Movement, stripDescription, stripTitle } from "../../scripts/figures/support.ts";
import type { Block, Dose, Drill, Id } from "../../scripts/model.ts";
import type { SheetStep } from "../../scripts/print/sheet-file.ts";
import { type Html, type HtmlValue, html, raw } from "../../scripts/render/html.ts";
import { doseIn, type Safety } from "../../scripts/render/views/drill.ts";
import type { SiteIndex } from "../../scripts/render/views/site-index.ts";
import { doseWords } from "../../scripts/render/views/words.ts";
import type { Words } from "../../scripts/words/words.ts";
import { sign } from "../parts/icons.ts";

/** What single sheets are made from. */
export interface SheetMaker {
	readonly site: SiteIndex;
	/** The site's address, ending in a slash; links on paper are left out without it. */
	readonly address: string | undefined;
}

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
export function pouredPiece(maker: SheetMaker, options: SideOptions): Html {
	const { kind, bound, head, again, items, columns = 1 } = options;
	const side = (top: Html, content: HtmlValue) =>
		html`<section class="side"><div class="area">${top}<div class="pour${columns === 2 && " two"}">${content}</div></div>${foot(maker)}</section>`;
	return finished(
		maker,
		html`<div class="piece ${kind}${bound && " bound"}">${side(head, items)}<template>${side(again, "")}</template></div>`,
	);
}

/** A piece of sides on which everything has its place. */
export function fixedPiece(maker: SheetMaker, kind: string, sides: readonly Html[], footed = false): Html {
	return finished(
		maker,
		html`<div class="piece ${kind}">${sides.map((side) => html`<section class="side">${side}${footed && foot(maker)}</section>`)}</div>`,
	);
}

function foot({ site: { curriculum, words } }: SheetMaker): Html {
	return html`<p class="foot"><span>${curriculum.club.name} · ${curriculum.term.name}</span><span>${words.sheets.mark} ${raw(MARK_PLACE)}</span><span class="of"></span></p>`;
}

/** Where the mark is put once the content is whole. */
const MARK_PLACE = "<b data-mark></b>";

/** Links lead to the site, drawings are written as the printer likes them, and the mark is filled in. */
function finished({ address }: SheetMaker, piece: Html): Html {
	const outward =
		address === undefined
			? piece.text.replace(/<\/?a\b[^>]*>/g, "")
			: piece.text.replace(
					/<a href="(?:\.\.\/)*(?!https?:|mailto:|#)([^"]*)"/g,
					(_, path: string) => `<a href="${address}${path}"`,
				);
	const mark = createHash("sha256").update(outward).digest("hex").slice(0, 6);
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

/** A drill's figures in a row; nothing for a drill without. */
export function figureStrip(words: Words, movement: Movement): Html | undefined {
	if (movement.stances.length === 0) return undefined;
	const said = { title: stripTitle(movement, words), description: stripDescription(movement, words) };
	return raw(drawStrip(movement, said, undefined, 0));
}

/** Spotting and caution as two lines of a frame; where neither is written, what holds then. */
export function safetyLines(words: Words, { spotting, caution }: Safety): Html {
	const say = words.safety;
	return html`<div class="safe">${
		spotting && html`<p>${sign("spotting")}<b>${say.spotting}</b> ${spotting}</p>`
	}${caution && html`<p>${sign("caution")}<b>${say.caution}</b> ${caution}</p>`}${
		spotting === undefined &&
		caution === undefined &&
		html`<p>${sign("caution")}<b>${say.both}</b> ${words.sheets.nothingWritten}</p>`
	}</div>`;
}

/** What has to be on paper of a drill wherever it is coached from a sheet: cues, and how some levels do it. */
export function wordsOfDrill(
	{ site: { curriculum, handbook } }: SheetMaker,
	id: Id,
	levels: Iterable<Id>,
	cues = Number.POSITIVE_INFINITY,
	block?: Pick<Block, "dose" | "doses">,
): readonly string[] {
	const drill = curriculum.drills.get(id);
	if (drill === undefined) return [];
	const doses = Array.from(levels).flatMap((level) => {
		const dose = drill.levels.get(level);
		return dose === undefined ? [] : [doseIn(block, level, dose)];
	});
	return [
		drill.title,
		...drill.cues.slice(0, cues),
		...doses.flatMap((dose) => wordsOfDose(handbook.words, drill, dose)),
	].map((words) => handbook.markdown.plain(words));
}

/** What keeps people safe at a drill as some levels do it. */
export function safetyOfDrill(
	{ site: { curriculum, handbook } }: SheetMaker,
	id: Id,
	levels: readonly Id[],
): readonly string[] {
	const drill = curriculum.drills.get(id);
	if (drill === undefined) return [];
	const at = levels.length === 0 ? [drill] : levels.map((level) => drillAt(drill, level));
	const texts = new Set(at.flatMap(({ spotting, caution }) => [spotting, caution]));
	return [...texts].flatMap((words) => (words === undefined ? [] : [handbook.markdown.plain(words)]));
}

function wordsOfDose(words: Words, drill: Drill, dose: Dose): readonly string[] {
	return [...(dose.do === undefined ? [] : [dose.do]), doseWords(words, drill, dose)].filter(
		(text) => text !== "",
	);
}

/** Words with commas between them. */
export function inSentence(words: readonly string[]): string {
	return words.join(", ");
}
