/**
 * Puts laid-out pages together into leaves: pure, no browser.
 *
 *   1. pages get their label, counted within what can be replaced on its own, as in "D · Floor 2"
 *   2. pages get a side: each such set starts on the right, and an odd one ends with a blank back
 *   3. every target gets the leaf it stands on
 *   4. references, which were laid out as boxes of a fixed width, get the label of their target
 *   5. two pages each are a leaf of paper, which gets the edition in which it last changed
 */

import { labelOf } from "../../layouts/sheets/page-reference.ts";
import type { Sheets, SheetTarget } from "../../layouts/sheets/section.ts";
import { sha256 } from "../files/hash.ts";
import { type Html, html, raw } from "../views/html.ts";
import type { Edition, EditionLeaf, EditionMark } from "../views/sheets/edition.ts";
import { issueLeaves } from "./edition.ts";
import type { CutPage } from "./in-page.ts";
import { CHANGED, passageCodes, printedContent } from "./passages.ts";

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
	/** The edition it carries at its foot, as it is printed; nothing where there is no foot. */
	readonly issue: string;
	/** The whole page as markup, without its edition: that is stamped on when pages are joined. */
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
	/** The page numbers of all targets, those of other volumes among them. */
	readonly numbers: ReadonlyMap<string, string>;
	/** Ids that something refers to and that stand nowhere. */
	readonly missing: readonly string[];
	/** The leaves of paper: two pages each. */
	readonly papers: readonly EditionLeaf[];
	/** The editions that the papers carry. */
	readonly issues: readonly EditionMark[];
	/** The binder's own edition. */
	readonly edition: EditionMark;
}

/** What leaves are compared with. */
export interface Since {
	/** Its leaves keep their edition where they say the same. */
	readonly earlier?: Edition | undefined;
	/** Marks the numbers of pages that have shifted since. */
	readonly marks?: boolean;
}

/** Where links inside the binder lead until the segments are joined; a host that cannot exist. */
export const LINK_HOST = "https://binder.invalid/#";

/** Makes leaves of the laid-out pages: for each section, for each of its parts, its pages. */
export function assemble(
	sheets: Sheets,
	laidOut: readonly (readonly (readonly CutPage[])[])[],
	{ earlier, marks = false }: Since = {},
): Assembled {
	const { drafts, targets } = draftsOf(sheets, laidOut);
	const missing = new Set<string>();
	const labelAt = (id: string): string => {
		const target = targets.get(id);
		if (target === undefined) missing.add(id);
		return drafts[target?.leaf ?? -1]?.label ?? "";
	};
	const filled = drafts.map(({ text }) =>
		text
			.replace(REFERENCE, (_, start: string, id: string, end: string) => start + asWritten(labelAt(id)) + end)
			.replaceAll('href="#', `href="${LINK_HOST}`),
	);
	const printed = printedOf(sheets, { drafts, filled, targets });
	const issued = issueLeaves(papersOf(sheets, printed.drafts, printed.filled), sheets.edition, earlier);
	const hasShifted = (id: string) => {
		const before = earlier?.numbers[id];
		return before !== undefined && before !== labelAt(id);
	};
	const texts = printed.filled.map((text) =>
		marks
			? text.replace(FILLED, (all, start: string, id: string, label: string, end: string) =>
					hasShifted(id) ? `${start}<span ${CHANGED}="">${label}</span>${end}` : all,
				)
			: text,
	);
	return {
		leaves: leavesOf(sheets, printed.drafts, texts, issued),
		targets: printed.targets,
		numbers: new Map(Array.from(targets.keys(), (id) => [id, labelAt(id)])),
		missing: [...missing],
		papers: issued.leaves,
		issues: issued.issues,
		edition: issued.edition,
	};
}

/** What is laid out. */
interface Pages {
	readonly drafts: readonly Draft[];
	/** The text of each, with the numbers of pages filled in. */
	readonly filled: readonly string[];
	readonly targets: ReadonlyMap<string, Target>;
}

/** The pages of this volume. What leads to another is a number, and a link no more. */
function printedOf(sheets: Sheets, pages: Pages): Pages {
	if (!sheets.sections.some(({ unprinted }) => unprinted)) return pages;
	const positions = pages.drafts.flatMap(({ section }, position) =>
		sheets.sections[section]?.unprinted === true ? [] : [position],
	);
	const places = new Map(positions.map((position, place) => [position, place]));
	const targets = placedTargets(pages.targets, places);
	return {
		drafts: positions.flatMap((position) => pages.drafts[position] ?? []),
		filled: positions.map((position) => unlinked(pages.filled[position] ?? "", targets)),
		targets,
	};
}

/** Targets on some pages, which have new places. */
function placedTargets(
	targets: ReadonlyMap<string, Target>,
	places: ReadonlyMap<number, number>,
): ReadonlyMap<string, Target> {
	return new Map(
		[...targets].flatMap(([id, target]): readonly (readonly [string, Target])[] => {
			const leaf = places.get(target.leaf);
			return leaf === undefined ? [] : [[id, { ...target, leaf }]];
		}),
	);
}

/** Without the links to what is not among the targets. */
function unlinked(markup: string, targets: ReadonlyMap<string, Target>): string {
	return markup
		.replace(LINK, (all, id: string) => (targets.has(id) ? all : ""))
		.replace(FILLED, (all, _start: string, id: string, label: string) =>
			targets.has(id) ? all : `<span class="ref-word">${label}</span>`,
		);
}

/** The pages in their order, with blank backs, and where everything that is referred to stands. */
function draftsOf(
	sheets: Sheets,
	laidOut: readonly (readonly (readonly CutPage[])[])[],
): { readonly drafts: readonly Draft[]; readonly targets: ReadonlyMap<string, Target> } {
	const drafts: Draft[] = [];
	const targets = new Map<string, Target>();
	sheets.sections.forEach((section, number) => {
		const known = new Map(section.targets.map((target) => [target.id, target]));
		const counts = new Map<string, number>();
		section.parts.forEach((part, position) => {
			if (drafts.at(-1)?.prefix !== part.label) fillLeaf(drafts, sheets);
			let { head } = part;
			for (const page of laidOut[number]?.[position] ?? []) {
				const count = (counts.get(part.label) ?? 0) + 1;
				counts.set(part.label, count);
				for (const id of page.ids) {
					const target = known.get(id);
					if (part.runs === true && target?.depth === 2) head = target.title;
					targets.set(id, { ...(known.get(id) ?? { id, title: "", depth: 3 }), leaf: drafts.length });
				}
				drafts.push({
					section: number,
					label: section.bare === true ? "" : labelOf(part.label, count),
					prefix: part.label,
					number: count,
					head,
					text: page.html,
					blank: false,
					wide: part.wide === true,
				});
			}
		});
		fillLeaf(drafts, sheets);
	});

	return { drafts, targets };
}

/** Whatever is replaced on its own fills whole leaves, so it starts on the right. */
const sideOf = (position: number) => (position % 2 === 0 ? "right" : "left");

/** The leaves of paper, each with the hash of what is printed on it, without the edition. */
function papersOf(sheets: Sheets, drafts: readonly Draft[], filled: readonly string[]) {
	const words = asWritten(sheets.edition.words);
	const content = (position: number): string => {
		const draft = drafts[position];
		const text = filled[position] ?? "";
		if (draft === undefined) return "";
		return printedContent(leafHtml(sheets, draft, sideOf(position), text).text).replaceAll(words, "");
	};
	const counts = new Map<string, number>();
	return Array.from({ length: drafts.length / 2 }, (_, i) => {
		const front = drafts[2 * i];
		const part = front?.prefix ?? "";
		const number = (counts.get(part) ?? 0) + 1;
		counts.set(part, number);
		return {
			section: front?.section ?? 0,
			part,
			number,
			front: front?.label ?? "",
			back: drafts[2 * i + 1]?.label ?? "",
			hash: sha256([content(2 * i), "\n", content(2 * i + 1)]).slice(0, 32),
			namesBinder: filled[2 * i]?.includes(words) === true || filled[2 * i + 1]?.includes(words) === true,
		};
	});
}

/** The pages with their frames, naming the editions in which their leaves last changed. */
function leavesOf(
	sheets: Sheets,
	drafts: readonly Draft[],
	texts: readonly string[],
	issued: ReturnType<typeof issueLeaves>,
): readonly Leaf[] {
	const issueWords = new Map(issued.issues.map((issue) => [issue.id, issue.words]));
	const words = asWritten(sheets.edition.words);
	return drafts.map((draft, position): Leaf => {
		const text = (texts[position] ?? "").replaceAll(words, asWritten(issued.edition.words));
		const side = sideOf(position);
		const issue = issueWords.get(issued.leaves[position >> 1]?.issue ?? "") ?? sheets.edition.words;
		const { section, label, prefix, number, blank } = draft;
		return {
			section,
			side,
			label,
			prefix,
			number,
			blank,
			issue: sheets.sections[section]?.bare === true ? "" : issue,
			text,
			html: leafHtml(sheets, draft, side, text).text,
		};
	});
}

/** The edition of an assembled binder. */
export function editionOf(
	sheets: Sheets,
	assembled: Assembled,
	{ paper, punch, look }: Pick<Edition, "paper" | "punch" | "look">,
): Edition {
	return {
		format: 1,
		edition: assembled.edition.id,
		...(sheets.volume !== "binder" && { volume: sheets.volume }),
		title: sheets.title,
		paper,
		punch,
		look,
		slots: sheets.slots,
		issues: assembled.issues,
		sections: sheets.sections.map(({ title, tab, slot }) => ({ title, tab, slot: slot ?? null })),
		leaves: assembled.papers,
		passages: passageCodes(sheets),
		numbers: Object.fromEntries([...assembled.numbers].filter(([, label]) => label !== "")),
		drills: sheets.listed,
	};
}

/** Some leaves of paper alone. Links to what is not on them are links no more. */
export function someLeaves(assembled: Assembled, papers: readonly number[]): Assembled {
	const pages = papers.flatMap((paper) => [2 * paper, 2 * paper + 1]);
	const places = new Map(pages.map((page, position) => [page, position]));
	const targets = placedTargets(assembled.targets, places);
	return {
		...assembled,
		leaves: pages.flatMap((page) => {
			const leaf = assembled.leaves[page];
			if (leaf === undefined) return [];
			return [{ ...leaf, text: unlinked(leaf.text, targets), html: unlinked(leaf.html, targets) }];
		}),
		targets,
		papers: papers.flatMap((paper) => assembled.papers[paper] ?? []),
	};
}

/** The same leaves, with a word in place of those that nobody may use. What leads to them still lands there. */
export function withoutLeaves(assembled: Assembled, withheld: ReadonlySet<number>, words: string): Assembled {
	const targets = [...assembled.targets.values()];
	return {
		...assembled,
		leaves: assembled.leaves.map((leaf, position) => {
			if (!withheld.has(position)) return leaf;
			const own = targets.filter((target) => target.leaf === position);
			const text = html`<p><b>${words}</b></p>${own.map(({ id, title }) => html`<p id="${id}">${title}</p>`)}`
				.text;
			return { ...leaf, text, html: withText(leaf.html, text) };
		}),
	};
}

/** A leaf with another text: what stands between the opening of its text area and its foot. */
function withText(leaf: string, text: string): string {
	const from = leaf.indexOf(TEXT_AREA);
	const to = leaf.lastIndexOf(FOOT);
	if (from < 0 || to < from) throw new Error("A leaf has no text area.");
	return leaf.slice(0, from + TEXT_AREA.length) + text + leaf.slice(to);
}

const TEXT_AREA = '<div class="leaf-text">';
const FOOT = '</div><div class="leaf-foot"';

/** A link inside the binder: its address attribute, with the space before it. */
const LINK = new RegExp(` href="${LINK_HOST.replace(/[.#/]/g, "\\$&")}([^"]*)"`, "g");

/** Text as a browser writes it into markup. */
function asWritten(text: string): string {
	return text
		.replace(/&/g, "&amp;")
		.replace(/</g, "&lt;")
		.replace(/>/g, "&gt;")
		.replace(/\u00a0/g, "&nbsp;");
}

interface Draft extends Omit<Leaf, "html" | "side" | "issue"> {
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

/** The same with its words. */
const FILLED =
	/(<span class="ref-word" data-to="([^"]*)">)((?:[^<]|<span data-changed="">[^<]*<\/span>)*)(<\/span>)/g;

/** Letters of two lines on the longest tab; of a longer name the first whole words. */
const TAB_LETTERS = 110;

function tabWords(words: string): string {
	if (words.length <= TAB_LETTERS) return words;
	const start = words.slice(0, TAB_LETTERS);
	return start.slice(0, Math.max(start.lastIndexOf(" "), 0)) || start;
}

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
			: html`<div class="leaf-tab${section.slot >= sheets.slots / 2 && " low"}" style="--slot:${section.slot}" aria-hidden="true"><span>${tabWords(section.tab)}</span></div>`;
	return html`<div class="leaf ${side}${draft.blank ? " blank" : ""}${draft.wide ? " wide" : ""}">${head}<div class="leaf-text">${raw(text)}</div>${foot}${tab}</div>
`;
}

/** A page with nothing but an edition at its foot, towards the outer edge from the words that every foot has. */
export function issueHtml(foot: string, issue: string, side: Leaf["side"]): Html {
	const unseen = html`<span style="visibility:hidden">${foot}</span>`;
	const words = side === "right" ? html`${unseen} · ${issue}` : html`${issue} · ${unseen}`;
	return html`<div class="leaf ${side}"><div class="leaf-foot" aria-hidden="true"><span class="folio" style="visibility:hidden">0</span><span>${words}</span></div></div>
`;
}
