/**
 * Reads a PDF back: what stands on every page and where, and where its links lead.
 *
 * A long file is read in stretches, by threads side by side.
 */

import type { PDFDocumentProxy, PDFPageProxy } from "pdfjs-dist/legacy/build/pdf.mjs";
import { type Extremes, paintedExtremes } from "../pdf/painted.ts";
import { getDocument } from "../pdf/pdf-library.ts";
import { POINTS } from "../pdf/points.ts";
import { isFromTheRight } from "./letters.ts";

/** A box in pixels from the page's top left corner. */
export interface Box {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

export interface Words extends Box {
	readonly text: string;
	/** Height of the type in pixels, as it stands on paper. */
	readonly size: number;
}

/** A page as it was read back. */
export interface ReadPage {
	readonly width: number;
	readonly height: number;
	readonly words: readonly Words[];
	readonly links: readonly (Box & { readonly destination: string | undefined })[];
	/** Extremes of all that is painted. */
	readonly painted: Box | undefined;
}

/** A document as it was read back. */
export interface ReadPdf {
	readonly pages: readonly ReadPage[];
	/** The page, counted from 0, of every named destination. */
	readonly destinations: ReadonlyMap<string, number>;
}

/** What a whole file says of itself, apart from its pages. */
export interface ReadFile {
	readonly pages: number;
	/** The page, counted from 0, of every named destination. */
	readonly destinations: ReadonlyMap<string, number>;
	/** What a reader shows as the number of each page. */
	readonly labels: readonly string[];
	/** Where the lines of the outline lead, in order. */
	readonly outline: readonly { readonly title: string; readonly destination: string | undefined }[];
}

/** What a thread is given: a document, and the part of it that is this thread's. */
export interface Stretch {
	readonly pdf: Uint8Array;
	readonly part: number;
	readonly parts: number;
	/** How far the marks of all pages reach, where that is known or not asked for; otherwise it is found out. */
	readonly extremes?: readonly (Extremes | undefined)[];
}

/** Reads the pages of a stretch, and all destinations. */
export async function readStretch({
	pdf,
	part,
	parts,
	extremes = paintedExtremes(pdf),
}: Stretch): Promise<ReadPdf> {
	const task = getDocument({
		data: new Uint8Array(pdf),
		useSystemFonts: false,
		disableFontFace: true,
		verbosity: 0,
	});
	const document = await task.promise;
	try {
		const first = Math.floor((document.numPages * part) / parts);
		const end = Math.floor((document.numPages * (part + 1)) / parts);
		const pages: ReadPage[] = [];
		for (let number = first + 1; number <= end; number++) {
			const page = await document.getPage(number);
			pages.push(await readPage(page, extremes[number - 1]));
			page.cleanup();
		}
		// One thread's are enough.
		const destinations = part === 0 ? await destinationsOf(document) : new Map<string, number>();
		return { pages, destinations };
	} finally {
		await task.destroy();
	}
}

/** Reads what a whole file says of itself. Throws where it is not a PDF. */
export async function readFile(pdf: Uint8Array): Promise<ReadFile> {
	const task = getDocument({ data: new Uint8Array(pdf), verbosity: 0, disableFontFace: true });
	try {
		const document = await task.promise;
		return {
			pages: document.numPages,
			destinations: await destinationsOf(document),
			labels: (await document.getPageLabels()) ?? [],
			outline: linesOf(await document.getOutline()),
		};
	} finally {
		await task.destroy();
	}
}

type OutlineLine = { readonly title: string; readonly dest: unknown; readonly items: readonly OutlineLine[] };

function linesOf(lines: readonly OutlineLine[] | null): ReadFile["outline"] {
	return (lines ?? []).flatMap(({ title, dest, items }) => [
		{ title, destination: typeof dest === "string" ? dest : undefined },
		...linesOf(items),
	]);
}

async function destinationsOf(document: PDFDocumentProxy): Promise<ReadonlyMap<string, number>> {
	const destinations = new Map<string, number>();
	const positions = new Map<number, number>();
	for (const [name, target] of await document.getDestinations()) {
		const page: unknown = target[0];
		if (!isReference(page)) continue;
		const position = positions.get(page.num) ?? (await document.getPageIndex(page));
		positions.set(page.num, position);
		destinations.set(name, position);
	}
	return destinations;
}

function isReference(value: unknown): value is { num: number; gen: number } {
	return typeof value === "object" && value !== null && "num" in value && "gen" in value;
}

async function readPage(page: PDFPageProxy, painted: Extremes | undefined): Promise<ReadPage> {
	const { width, height, toBox } = measuresOf(page);
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
		words.push({ text: item.str, size: size / POINTS, ...box });
	}
	return {
		width,
		height,
		words: asRead(words),
		links: await linksOf(page),
		painted: painted && toBox(painted.left, painted.bottom, painted.right, painted.top),
	};
}

/**
 * Words in the order in which they are read: what is written from the right is painted from the left, a
 * joined letter at a time, and is turned round line by line.
 */
function asRead(words: readonly Words[]): readonly Words[] {
	if (!words.some(({ text }) => isFromTheRight(text))) return words;
	const read: Words[] = [];
	let run: Words[] = [];
	for (const one of words) {
		const before = run.at(-1);
		const goesOn =
			before !== undefined &&
			isFromTheRight(one.text) &&
			Math.abs(one.bottom - before.bottom) < before.size / 2 &&
			one.left > before.left;
		if (!goesOn) {
			read.push(...run.reverse());
			run = [];
		}
		if (isFromTheRight(one.text)) run.push(one);
		else read.push(one);
	}
	return [...read, ...run.reverse()];
}

type ToBox = (left: number, bottom: number, right: number, top: number) => Box;

/** A page's size in pixels, and how its own lengths become boxes. */
function measuresOf(page: PDFPageProxy): {
	readonly width: number;
	readonly height: number;
	readonly toBox: ToBox;
} {
	const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = page.view;
	const height = (y1 - y0) / POINTS;
	return {
		width: (x1 - x0) / POINTS,
		height,
		toBox: (left, bottom, right, top) => ({
			left: (left - x0) / POINTS,
			right: (right - x0) / POINTS,
			top: height - (top - y0) / POINTS,
			bottom: height - (bottom - y0) / POINTS,
		}),
	};
}

/** Where a page's links lead. */
async function linksOf(page: PDFPageProxy): Promise<ReadPage["links"]> {
	const { toBox } = measuresOf(page);
	// Asked for the screen, they come with the words under each link, for which the page is read once more.
	const annotations: readonly unknown[] = await page.getAnnotations({ intent: "print" });
	return annotations.flatMap((annotation) => linkOf(annotation, toBox));
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
	const destination =
		"dest" in annotation && typeof annotation.dest === "string" ? annotation.dest : undefined;
	return [{ ...toBox(left ?? 0, bottom ?? 0, right ?? 0, top ?? 0), destination }];
}

/** Whether a box lies wholly in another. */
export function isInside(box: Box, free: Box): boolean {
	return box.left >= free.left && box.right <= free.right && box.top >= free.top && box.bottom <= free.bottom;
}

/** The middle of a box, as a box without size. */
export function middleOf({ left, right, top, bottom }: Box): Box {
	const x = (left + right) / 2;
	const y = (top + bottom) / 2;
	return { left: x, right: x, top: y, bottom: y };
}
