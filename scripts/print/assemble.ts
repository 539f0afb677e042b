/**
 * Puts laid-out pages together into leaves: pure, no browser.
 *
 *   1. pages get their label, counted within what can be replaced on its own, as in "W3 · Floor 2"
 *   2. pages get a side: each such set starts on the right, and an odd one ends with a blank back
 *   3. every target gets the leaf it stands on
 *   4. references, which were laid out as boxes of a fixed width, get the label of their target
 */

import { type Html, html, raw } from "../render/html.ts";
import type { CutPage } from "./in-page.ts";
import type { Sheets, SheetTarget } from "./section.ts";

export interface Leaf {
	/** Position in `Sheets.sections`. */
	readonly section: number;
	readonly side: "right" | "left";
	/** What is printed at its foot; empty on a cover and on a blank back. */
	readonly label: string;
	/** The label without its number, and the number: the PDF's page labels are made of these. */
	readonly prefix: string;
	readonly number: number;
	readonly blank: boolean;
	/** The whole page as markup. */
	readonly html: string;
	/** The text area's markup alone, as it was laid out and filled. */
	readonly text: string;
}

export interface Target extends SheetTarget {
	/** Position in `Assembled.leaves`. */
	readonly leaf: number;
}

export interface Assembled {
	readonly leaves: readonly Leaf[];
	readonly targets: ReadonlyMap<string, Target>;
	/** Ids that something refers to and that stand nowhere. */
	readonly missing: readonly string[];
}

/** Where links inside the binder lead until the segments are joined; a host that cannot exist. */
export const LINK_HOST = "https://binder.invalid/#";

/** Makes leaves of the laid-out pages: for each section, for each of its parts, its pages. */
export function assemble(sheets: Sheets, laidOut: readonly (readonly (readonly CutPage[])[])[]): Assembled {
	const drafts: Draft[] = [];
	const targets = new Map<string, Target>();
	sheets.sections.forEach((section, number) => {
		const known = new Map(section.targets.map((target) => [target.id, target]));
		const counts = new Map<string, number>();
		section.parts.forEach((part, position) => {
			if (drafts.at(-1)?.prefix !== part.label) fillLeaf(drafts, sheets);
			for (const page of laidOut[number]?.[position] ?? []) {
				const count = (counts.get(part.label) ?? 0) + 1;
				counts.set(part.label, count);
				for (const id of page.ids) {
					targets.set(id, { ...(known.get(id) ?? { id, title: "", depth: 3 }), leaf: drafts.length });
				}
				drafts.push({
					section: number,
					label: section.bare === true ? "" : labelOf(part.label, count),
					prefix: part.label,
					number: count,
					head: part.head,
					text: page.html,
					blank: false,
					wide: part.wide === true,
				});
			}
		});
		fillLeaf(drafts, sheets);
	});

	const missing = new Set<string>();
	const leaves = drafts.map((draft, position): Leaf => {
		const text = draft.text
			.replace(REFERENCE, (_, start: string, id: string, end: string) => {
				const target = targets.get(id);
				if (target === undefined) missing.add(id);
				return start + (drafts[target?.leaf ?? -1]?.label ?? "") + end;
			})
			.replaceAll('href="#', `href="${LINK_HOST}`);
		// Whatever is replaced on its own fills whole leaves, so it starts on the right.
		const side = position % 2 === 0 ? "right" : "left";
		const { section, label, prefix, number, blank } = draft;
		return {
			section,
			side,
			label,
			prefix,
			number,
			blank,
			text,
			html: leafHtml(sheets, draft, side, text).text,
		};
	});
	return { leaves, targets, missing: [...missing] };
}

interface Draft extends Omit<Leaf, "html" | "side"> {
	readonly head: string;
	readonly wide: boolean;
}

/** Gives an odd number of pages a blank back. */
function fillLeaf(drafts: Draft[], { blank: words }: Sheets): void {
	const last = drafts.at(-1);
	if (last === undefined || drafts.length % 2 === 0) return;
	const text = `<p class="blank-back">${words}</p>`;
	drafts.push({ ...last, label: "", number: last.number + 1, text, blank: true, wide: false });
}

/** The empty words of a reference, as `pageReference` writes them. */
const REFERENCE = /(<span class="ref-word" data-to="([^"]*)">)(<\/span>)/g;

/** "W3 · Floor 2". */
export function labelOf(prefix: string, number: number): string {
	return prefix === "" ? String(number) : `${prefix} ${number}`;
}

/**
 * A reference by page: a box as wide as any number it may get, so that filling it moves nothing.
 *
 * @param label the target's part label
 * @param pages the most pages that part may have
 */
export function pageReference(id: string, label: string, pages: number): Html {
	const room = labelOf(label, 10 ** String(pages).length - 1).replace(/9/g, "8");
	return html`<a class="ref" href="#${id}"><span class="ref-room" aria-hidden="true">${room}</span><span class="ref-word" data-to="${id}"></span></a>`;
}

/** A tab's letters, in pixels: small enough for its longest word, which no tab breaks. */
function tabSize(words: string): number {
	const longest = Math.max(...words.split(" ").map(({ length }) => length));
	return Math.min(10, Math.floor(TAB_ROOM / longest));
}

/** Pixels along a tab, over the width of a bold letter as a share of its height. */
const TAB_ROOM = 44 / 0.6;

function leafHtml(sheets: Sheets, draft: Draft, side: Leaf["side"], text: string): Html {
	const section = sheets.sections[draft.section];
	const bare = section?.bare === true;
	const head =
		bare || draft.blank
			? ""
			: html`<div class="leaf-head" aria-hidden="true"><span>${draft.head === section?.title ? "" : section?.title}</span><span>${draft.head}</span></div>`;
	const foot = bare
		? ""
		: html`<div class="leaf-foot" aria-hidden="true"><span class="folio">${draft.label}</span><span>${sheets.foot}</span></div>`;
	const tab =
		section?.slot === undefined
			? ""
			: html`<div class="leaf-tab" style="--slot:${section.slot};font-size:${tabSize(section.tab)}px" aria-hidden="true"><span>${section.tab}</span></div>`;
	return html`<div class="leaf ${side}${draft.blank ? " blank" : ""}${draft.wide ? " wide" : ""}">${head}<div class="leaf-text">${raw(text)}</div>${foot}${tab}</div>
`;
}
