/**
 * Reads the finished PDF back and holds it against what should be on paper. Nothing here trusts the
 * steps before it: the pages, their words and their links are taken from the PDF itself.
 *
 *   1. every page has the size of the paper, and there is a page for each leaf
 *   2. nothing is painted in the punched margin or where printers do not print            H403
 *   3. nothing stands outside its text area                                               H403
 *   4. every word that was laid out is on its page                                        H403
 *   5. every page carries its number, every link lands on the page that carries the printed
 *      number and the words it was to lead to                                             H404
 *   6. every drill's title, cues, faults, spotting and caution are on paper               H403
 */

import { getDocument, OPS, type PDFPageProxy } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Measured } from "../compute/measure.ts";
import type { LinkedDrill, Place } from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import type { MarkdownRenderer } from "../render/markdown.ts";
import type { Assembled, Leaf } from "./assemble.ts";
import { POINTS } from "./join.ts";
import type { Paper } from "./paper.ts";
import type { Segment } from "./print-segments.ts";
import type { Sheets } from "./section.ts";

export interface Verification {
	readonly pdf: Uint8Array;
	readonly sheets: Sheets;
	readonly assembled: Assembled;
	readonly segments: readonly Segment[];
	readonly paper: Paper;
	readonly handbook: Measured & { readonly markdown: MarkdownRenderer };
	/** For what cannot be placed in a file. */
	readonly elsewhere: Place;
}

/** A box in pixels from the page's top left corner. */
interface Box {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

interface Words extends Box {
	readonly text: string;
}

/** A page as it was read back. */
interface ReadPage {
	readonly width: number;
	readonly height: number;
	readonly words: readonly Words[];
	readonly links: readonly (Box & { readonly destination: string | undefined })[];
	/** Extremes of all that is painted. */
	readonly painted: Box | undefined;
	/** Letters and figures inside the text area, in the order they were painted. */
	readonly text: string;
}

/** Problems of a finished binder; none where it is sound. */
export async function verifyBinder(verification: Verification): Promise<readonly Problem[]> {
	const { pdf, assembled, paper } = verification;
	const task = getDocument({ data: pdf.slice(), useSystemFonts: false, disableFontFace: true, verbosity: 0 });
	const document = await task.promise;
	try {
		const found = new Finder(verification);
		if (document.numPages !== assembled.leaves.length) {
			found.wrongNumber(0, `The binder has ${document.numPages} pages instead of ${assembled.leaves.length}`);
			return found.problems;
		}
		for (const id of assembled.missing) found.wrongNumber(0, `Something refers to ${id}, which is nowhere`);
		const pages: ReadPage[] = [];
		for (const [position, leaf] of assembled.leaves.entries()) {
			const page = await document.getPage(position + 1);
			pages.push(await readPage(page, leaf, paper));
			page.cleanup();
		}
		const destinations = new Map<string, number>();
		for (const [name, target] of await document.getDestinations()) {
			const page: unknown = Array.isArray(target) ? target[0] : undefined;
			if (isReference(page)) destinations.set(name, await document.getPageIndex(page));
		}
		checkPages(verification, pages, found);
		checkLinks(verification, pages, destinations, found);
		checkDrills(verification, pages, found);
		return found.problems;
	} finally {
		await task.destroy();
	}
}

function isReference(value: unknown): value is { num: number; gen: number } {
	return typeof value === "object" && value !== null && "num" in value && "gen" in value;
}

/** Collects problems with the place in the club folder that a leaf was made from. */
class Finder {
	readonly problems: Problem[] = [];
	readonly #verification: Verification;

	constructor(verification: Verification) {
		this.#verification = verification;
	}

	doesNotFit(leaf: number, what: string): void {
		this.problems.push(problem("H403", this.#place(leaf), `${what}${this.#onPage(leaf)}.`));
	}

	wrongNumber(leaf: number, what: string): void {
		this.problems.push(problem("H404", this.#place(leaf), `${what}${this.#onPage(leaf)}.`));
	}

	#onPage(position: number): string {
		const label = this.#verification.assembled.leaves[position]?.label ?? "";
		return label === "" ? "" : ` (page ${label})`;
	}

	/** The last target with a source on the leaf, or before it in its section. */
	#place(position: number): Place {
		const { assembled, elsewhere } = this.#verification;
		const section = assembled.leaves[position]?.section;
		let place = elsewhere;
		for (const target of assembled.targets.values()) {
			if (target.source === undefined || target.leaf > position) continue;
			if (assembled.leaves[target.leaf]?.section === section) place = target.source.place([]);
		}
		return place;
	}
}

function checkPages(
	{ assembled, segments, paper }: Verification,
	pages: readonly ReadPage[],
	found: Finder,
): void {
	pages.forEach((page, position) => {
		const leaf = assembled.leaves[position];
		if (leaf === undefined) return;
		if (Math.abs(page.width - paper.width) > SLACK || Math.abs(page.height - paper.height) > SLACK) {
			found.doesNotFit(position, `A page is ${page.width} × ${page.height} px, not the size of ${paper.name}`);
		}
		const free = freeArea(paper, leaf.side);
		const { painted } = page;
		if (painted !== undefined && !isInside(painted, free)) {
			found.doesNotFit(position, "Something stands in the punched margin or at the very edge");
		}
		for (const words of page.words) {
			if (!isInside(words, free)) {
				found.doesNotFit(position, `"${words.text}" stands in the punched margin or at the very edge`);
			}
		}
		const lost = lettersMissing(lettersOf(textOf(leaf.text)), page.text);
		if (lost !== "") found.doesNotFit(position, `Letters that were laid out are not on paper: ${lost}`);
		if (leaf.label !== "" && !footOf(page, paper).includes(leaf.label)) {
			found.wrongNumber(position, `The page's number ${leaf.label} is not at its foot`);
		}
	});
	for (const { first, measures } of segments) {
		for (const { leaf, words } of measures.spills) {
			found.doesNotFit(first + leaf, `"${words}" stands outside the text area`);
		}
	}
}

/** Half a pixel: browsers and PDF round. */
const SLACK = 0.5;

/** Where a sheet may carry anything. */
function freeArea(paper: Paper, side: Leaf["side"]): Box {
	const { width, height, punched, border } = paper;
	return {
		left: (side === "right" ? punched : border) - SLACK,
		right: width - (side === "right" ? border : punched) + SLACK,
		top: border - SLACK,
		bottom: height - border + SLACK,
	};
}

function isInside(box: Box, free: Box): boolean {
	return (
		box.left >= free.left && box.right <= free.right && box.top >= free.top && box.bottom <= free.bottom
	);
}

/** The words below the text area. */
function footOf(page: ReadPage, paper: Paper): string {
	return page.words
		.filter(({ top }) => top > paper.top + paper.areaHeight)
		.map(({ text }) => text)
		.join(" ")
		.replace(/\s+/g, " ");
}

function checkLinks(
	{ assembled, paper }: Verification,
	pages: readonly ReadPage[],
	destinations: ReadonlyMap<string, number>,
	found: Finder,
): void {
	const numbers = new Set(assembled.leaves.map(({ label }) => label).filter((label) => label !== ""));
	pages.forEach((page, position) => {
		const text = assembled.leaves[position]?.text ?? "";
		const wanted = new Map<string, number>();
		for (const [, id = ""] of text.matchAll(/<span class="ref-word" data-to="([^"]*)">/g)) {
			wanted.set(id, (wanted.get(id) ?? 0) + 1);
		}
		for (const link of page.links) {
			if (link.destination === undefined) continue;
			const target = destinations.get(link.destination);
			const there = target === undefined ? undefined : pages[target];
			const known = assembled.targets.get(link.destination);
			if (target === undefined || there === undefined || known === undefined) {
				found.wrongNumber(position, `A link to ${link.destination} leads nowhere`);
				continue;
			}
			if (!there.text.includes(lettersOf(known.words ?? known.title))) {
				found.wrongNumber(position, `A link to "${known.title}" leads to a page without these words`);
			}
			const printed = page.words
				.filter((words) => isInside(middleOf(words), link))
				.map((words) => words.text)
				.join("")
				.replace(/\s+/g, " ")
				.trim();
			const number = assembled.leaves[target]?.label ?? "";
			// Other links are words; a number that came out as no number at all is missed below.
			if (!numbers.has(printed)) continue;
			if (printed !== number || !footOf(there, paper).includes(printed)) {
				found.wrongNumber(position, `"${known.title}" is said to be on ${printed}, and is on ${number}`);
			} else wanted.set(link.destination, (wanted.get(link.destination) ?? 0) - 1);
		}
		for (const [id, count] of wanted) {
			if (count > 0) found.wrongNumber(position, `A page number that leads to ${id} could not be read back`);
		}
	});
}

function middleOf({ left, right, top, bottom }: Box): Box {
	const x = (left + right) / 2;
	const y = (top + bottom) / 2;
	return { left: x, right: x, top: y, bottom: y };
}

function checkDrills({ assembled, handbook }: Verification, pages: readonly ReadPage[], found: Finder): void {
	const bySection = new Map<number, string>();
	assembled.leaves.forEach((leaf, position) => {
		bySection.set(leaf.section, (bySection.get(leaf.section) ?? "") + (pages[position]?.text ?? ""));
	});
	for (const drill of handbook.curriculum.drills.values()) {
		const target = assembled.targets.get(`drill-${drill.id}`);
		const section = target === undefined ? undefined : assembled.leaves[target.leaf]?.section;
		if (target === undefined || section === undefined) {
			found.doesNotFit(0, `The card of "${drill.title}" is missing`);
			continue;
		}
		const text = bySection.get(section) ?? "";
		for (const words of wordsOnCard(drill)) {
			if (text.includes(lettersOf(handbook.markdown.plain(words)))) continue;
			found.doesNotFit(target.leaf, `The card of "${drill.title}" lacks the words "${words}"`);
		}
	}
}

/** What a coach must find on a drill's card. */
function wordsOnCard(drill: LinkedDrill): readonly string[] {
	return [
		drill.title,
		...drill.cues,
		...drill.faults.flatMap(({ see, say }) => [see, say]),
		...[drill.spotting, drill.caution].filter((words) => words !== undefined),
		...[...drill.levels.values()].flatMap((dose) => dose.do ?? []),
	];
}

async function readPage(page: PDFPageProxy, leaf: Leaf, paper: Paper): Promise<ReadPage> {
	const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = page.view;
	const height = (y1 - y0) / POINTS;
	const toBox = (left: number, bottom: number, right: number, top: number): Box => ({
		left: (left - x0) / POINTS,
		right: (right - x0) / POINTS,
		top: height - (top - y0) / POINTS,
		bottom: height - (bottom - y0) / POINTS,
	});
	const content = await page.getTextContent({ includeMarkedContent: false });
	const words: Words[] = [];
	for (const item of content.items) {
		if (!("str" in item) || item.str.trim() === "") continue;
		const [a = 0, b = 0, , , e = 0, f = 0]: number[] = item.transform;
		const size = Math.hypot(a, b);
		// Along the line of writing, then across it: tabs are written upwards or downwards.
		const [ux, uy] = [a / size, b / size];
		const xs = [e, e + ux * item.width, e - uy * size * ASCENT];
		const ys = [f, f + uy * item.width, f + ux * size * ASCENT];
		const box = toBox(Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys));
		words.push({ text: item.str, ...box });
	}
	const left = leaf.side === "right" ? paper.inner : paper.width - paper.inner - paper.areaWidth;
	const area: Box = {
		left: left - 2,
		right: left + paper.areaWidth + 2,
		top: paper.top - 2,
		bottom: paper.top + paper.areaHeight + 2,
	};
	const annotations: readonly unknown[] = await page.getAnnotations();
	return {
		width: (x1 - x0) / POINTS,
		height,
		words,
		links: annotations.flatMap((annotation) => linkOf(annotation, toBox)),
		painted: await paintedOn(page, toBox),
		text: lettersOf(
			words
				.filter((one) => isInside(middleOf(one), area))
				.map(({ text }) => text)
				.join(" "),
		),
	};
}

/** How far letters rise above their line, in sizes of the font. */
const ASCENT = 0.75;

function linkOf(
	annotation: unknown,
	toBox: (left: number, bottom: number, right: number, top: number) => Box,
): readonly (Box & { readonly destination: string | undefined })[] {
	if (typeof annotation !== "object" || annotation === null) return [];
	if (!("subtype" in annotation) || annotation.subtype !== "Link" || !("rect" in annotation)) return [];
	const rect: unknown = annotation.rect;
	if (!Array.isArray(rect)) return [];
	const [left, bottom, right, top]: readonly number[] = rect;
	const destination = "dest" in annotation && typeof annotation.dest === "string" ? annotation.dest : undefined;
	return [{ ...toBox(left ?? 0, bottom ?? 0, right ?? 0, top ?? 0), destination }];
}

/** The extremes of all paths and pictures that a page paints, clipped ones as far as the page shows them. */
async function paintedOn(
	page: PDFPageProxy,
	toBox: (left: number, bottom: number, right: number, top: number) => Box,
): Promise<Box | undefined> {
	const { fnArray, argsArray } = await page.getOperatorList();
	type Matrix = readonly [number, number, number, number, number, number];
	let matrix: Matrix = [1, 0, 0, 1, 0, 0];
	const stack: Matrix[] = [];
	const extremes = { left: Infinity, bottom: Infinity, right: -Infinity, top: -Infinity };
	const mark = (corners: readonly (readonly [number, number])[]) => {
		for (const [x, y] of corners) {
			const px = matrix[0] * x + matrix[2] * y + matrix[4];
			const py = matrix[1] * x + matrix[3] * y + matrix[5];
			extremes.left = Math.min(extremes.left, px);
			extremes.right = Math.max(extremes.right, px);
			extremes.bottom = Math.min(extremes.bottom, py);
			extremes.top = Math.max(extremes.top, py);
		}
	};
	fnArray.forEach((operator, position) => {
		const args: unknown = argsArray[position];
		if (operator === OPS.save) stack.push(matrix);
		else if (operator === OPS.restore) matrix = stack.pop() ?? matrix;
		else if (operator === OPS.transform && isMatrix(args)) matrix = multiplied(matrix, args);
		else if (operator === OPS.constructPath && Array.isArray(args)) {
			const [paint, , box]: readonly unknown[] = args;
			if (paint === OPS.endPath || !isBox(box)) return;
			const [left, bottom, right, top] = box;
			mark([
				[left, bottom],
				[right, bottom],
				[left, top],
				[right, top],
			]);
		} else if (operator === OPS.paintImageXObject || operator === OPS.paintInlineImageXObject) {
			mark([
				[0, 0],
				[1, 0],
				[0, 1],
				[1, 1],
			]);
		}
	});
	if (extremes.left > extremes.right) return undefined;
	return toBox(extremes.left, extremes.bottom, extremes.right, extremes.top);

	function multiplied(m: Matrix, n: Matrix): Matrix {
		return [
			m[0] * n[0] + m[2] * n[1],
			m[1] * n[0] + m[3] * n[1],
			m[0] * n[2] + m[2] * n[3],
			m[1] * n[2] + m[3] * n[3],
			m[0] * n[4] + m[2] * n[5] + m[4],
			m[1] * n[4] + m[3] * n[5] + m[5],
		];
	}
	function isMatrix(value: unknown): value is Matrix {
		return Array.isArray(value) && value.length === 6 && value.every((n) => typeof n === "number");
	}
	function isBox(value: unknown): value is ArrayLike<number> & readonly [number, number, number, number] {
		return typeof value === "object" && value !== null && "length" in value && value.length === 4;
	}
}

/** The words of markup as a page shows them: no drawings' titles, no rooms of references. */
export function textOf(markup: string): string {
	return markup
		.replace(/<(title|desc)\b[^>]*>[^]*?<\/\1>/g, "")
		.replace(/<span class="ref-room"[^>]*>[^<]*<\/span>/g, "")
		.replace(/<[^>]*>/g, " ")
		.replace(/&(amp|lt|gt|quot|nbsp|#\d+|#x[0-9a-f]+);/gi, (_, name: string) => decoded(name));
}

const NAMED: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', nbsp: " " };

function decoded(name: string): string {
	const named = NAMED[name.toLowerCase()];
	if (named !== undefined) return named;
	const code = name.startsWith("#x") ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
	return String.fromCodePoint(code);
}

/** Letters and figures alone, in small letters: what hyphens, spaces and ligatures do not change. */
export function lettersOf(text: string): string {
	return text
		.normalize("NFKC")
		.toLowerCase()
		.replace(/[^\p{L}\p{N}]/gu, "");
}

/** Letters of the first text that the second has fewer of, each once. */
function lettersMissing(wanted: string, there: string): string {
	const counts = new Map<string, number>();
	for (const letter of there) counts.set(letter, (counts.get(letter) ?? 0) + 1);
	const missing = new Set<string>();
	for (const letter of wanted) {
		const left = (counts.get(letter) ?? 0) - 1;
		counts.set(letter, left);
		if (left < 0) missing.add(letter);
	}
	return [...missing].join("");
}
