/**
 * Prints the term's binder.
 *
 *   1. find a browser, and let it start meanwhile                 find-browser, browser-pages
 *   2. make the sheets from the handbook                          layouts/sheets
 *   3. lay out every part on its own                              layout, in-page
 *   4. number the pages, fill in the references                   assemble
 *   5. print segments, give each its numbers, join them           print-segments, place-segment, join
 *   6. read the result back and hold it against the handbook      read-segments, verify
 *   7. put it in place of the last one, in one step
 *
 * Every step keeps its work by what it was made of (sheet-cache): after a change only what it touches is
 * done again, and what comes out is the same to the byte. Whatever fails on the way, the last good binder
 * stays where it is.
 */

import { basename, dirname } from "node:path";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import { type Paper, paperOf } from "../../layouts/sheets/paper.ts";
import type { SheetPart, SheetSection, Sheets } from "../../layouts/sheets/section.ts";
import { cacheFolder } from "../files/cache.ts";
import { type Folder, makeFolder, openFolder } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";
import type { Handbook } from "../handbook.ts";
import type { Id, LinkedDrill } from "../model.ts";
import { withCropMarks } from "../pdf/crop-marks.ts";
import { NOWHERE, type Problem } from "../problems.ts";
import { mediaCacheOf, prepareMedia } from "../site/media/prepare-media.ts";
import { html } from "../views/html.ts";
import { type BinderView, binderView } from "../views/sheets/binder.ts";
import type { Edition, Volume } from "../views/sheets/edition.ts";
import { type Assembled, assemble, editionOf, withoutLeaves } from "./assemble.ts";
import {
	type BrowserChoice,
	type BrowserPages,
	readMarkScript,
	readPageScripts,
	startBrowser,
} from "./browser-pages.ts";
import { ATTACHMENT, editionText, keepTabs, nameEdition } from "./edition.ts";
import { editionFile } from "./edition-file.ts";
import { hyphenationOf } from "./hyphenate.ts";
import type { CutPage } from "./in-page.ts";
import { joinSegments, type Placing } from "./join.ts";
import { type LayoutJob, layOut } from "./layout.ts";
import { markChanges } from "./passages.ts";
import { PdfThreads } from "./pdf-threads.ts";
import { packedSegment, unpackedSegment } from "./place-segment.ts";
import { printIssues, printSegments } from "./print-segments.ts";
import { printStyles } from "./print-styles.ts";
import { readJoined } from "./read-segments.ts";
import { openCache, type SheetCache } from "./sheet-cache.ts";
import { verifyBinder } from "./verify.ts";

export interface PrintOptions {
	/** The PDF, at its real place; its edition is written beside it. */
	readonly outFile: string;
	/** Which of the volumes; the binder, unless it is said. */
	readonly volume?: Volume | undefined;
	/** Millimetres beyond the edge, with crop marks, for paper that is cut. */
	readonly bleed?: number | undefined;
	/** An edition whose leaves keep their own edition where they have not changed since. */
	readonly since?: Edition | undefined;
	readonly browser?: BrowserChoice;
	/** Called with what is done of how much, and with what is being worked on. */
	readonly progress?: (done: number, total: number, label: string) => void;
	readonly signal?: AbortSignal;
	/** Where laid-out sections are kept for the next run; `.handbook-cache` in the club folder unless given, false for nowhere. */
	readonly cacheDir?: Folder | false;
	/** Browser pages that work side by side. */
	readonly workers?: number;
	/** Threads that the caller has open for several prints, and closes. */
	readonly threads?: PdfThreads;
}

export interface PrintedBinder {
	/** H4..; a flaw of a page withholds no other. */
	readonly problems: readonly Problem[];
	/** 0 where nothing was written. */
	readonly pages: number;
	readonly sections: number;
	/** Sides with next to nothing on them. */
	readonly short: number;
}

/** Prints the binder. Throws where the signal was given, or the output folder cannot be written. */
export async function printBinder(handbook: Handbook, options: PrintOptions): Promise<PrintedBinder> {
	return withPrinter(
		handbook,
		options,
		async (printer) => {
			const made = await printer.make();
			const printed = await printer.print(made);
			const { outFile, bleed } = options;
			const pdf = bleed === undefined ? printed.pdf : await withCropMarks(printed.pdf, bleed);
			putInPlace(outFile, pdf, made.edition);
			const problems = [...made.problems, ...printed.problems];
			if (problems.length === 0) printer.sweep();
			return {
				problems,
				pages: made.assembled.leaves.length,
				sections: made.sheets.sections.filter(({ unprinted }) => unprinted !== true).length,
				short: printed.short,
			};
		},
		failed,
	);
}

function failed(problems: readonly Problem[]): PrintedBinder {
	return { problems, pages: 0, sections: 0, short: 0 };
}

/** A binder that was laid out and assembled, and is ready to be printed. */
export interface Made {
	/** H402 for each part that could not be laid out, and says so. */
	readonly problems: readonly Problem[];
	readonly sheets: Sheets;
	readonly assembled: Assembled;
	readonly edition: Edition;
}

/** What is not the whole binder. */
export interface Selection {
	/** Draws a bar beside what is marked as changed. */
	readonly marks: boolean;
	/** The drills whose cards must be found. */
	readonly drills: ReadonlyMap<Id, LinkedDrill>;
	/** What it was chosen from. */
	readonly whole: Made;
}

/** Leaves as they were printed and read back. */
interface PrintedLeaves {
	readonly pdf: Uint8Array;
	readonly problems: readonly Problem[];
	readonly short: number;
}

/** What printing consists of, with a browser at work. */
export interface Printer {
	/** Lays out and assembles all sheets. */
	make(marks?: boolean): Promise<Made>;
	/** Lays out and assembles one section more. */
	makeOne(section: SheetSection): Promise<Assembled>;
	/** Prints leaves, joins them, reads them back. */
	print(made: Made, selection?: Selection): Promise<PrintedLeaves>;
	/** Forgets earlier runs' work that this one had no use for. */
	sweep(): void;
}

/**
 * Starts a browser for the work and closes it afterwards.
 *
 * @param failed what is given where no browser is to be had
 */
export async function withPrinter<T>(
	handbook: Handbook,
	options: PrintOptions,
	work: (printer: Printer) => Promise<T>,
	failed: (problems: readonly Problem[]) => T,
): Promise<T> {
	options.signal?.throwIfAborted();
	options.progress?.(0, 1, "starting the browser");
	// The browser starts while sheets are made, and a thread for reading.
	const opening = startBrowser(options.browser);
	// Where it throws, that is seen when it is waited for.
	opening.catch(() => undefined);
	const threads = options.threads ?? new PdfThreads(options.workers ?? WORKERS);
	threads.start();
	const close = async () => {
		if (options.threads === undefined) threads.close();
		const pages = await opening;
		if ("open" in pages) await pages.close();
	};
	const stop = () => void close();
	options.signal?.addEventListener("abort", stop, { once: true });
	try {
		const sheets = await sheetsOf(handbook, options);
		const pages = await opening;
		if (!("open" in pages)) return failed([pages]);
		options.signal?.throwIfAborted();
		return await work(await printerOf(handbook, sheets, { pages, threads }, options));
	} catch (error) {
		// Closing the browser makes whatever waits for it fail; the reason is the signal.
		options.signal?.throwIfAborted();
		throw error;
	} finally {
		options.signal?.removeEventListener("abort", stop);
		await close();
	}
}

/** Browser pages, and threads, unless the caller says how many. */
const WORKERS = 2;

async function sheetsOf(handbook: Handbook, { since, volume }: PrintOptions): Promise<Sheets> {
	const all = binderSheets(await binderOf(handbook, since), volume);
	return since === undefined ? all : keepTabs(all, since);
}

/** What laying out and printing need, and how far they are. */
type PrintWork = Awaited<ReturnType<typeof prepareWork>>;

async function prepareWork(
	handbook: Handbook,
	sheets: Sheets,
	{ pages, threads }: { readonly pages: BrowserPages; readonly threads: PdfThreads },
	options: PrintOptions,
) {
	const paper = paperOf(handbook.curriculum.club);
	const {
		cacheDir = cacheFolder(openFolder(handbook.clubDir), "print"),
		workers = WORKERS,
		signal,
	} = options;
	const cache = openCache(cacheDir === false ? undefined : cacheDir);
	// Laying out and printing take about as long as each other; joining and reading back a little less.
	const parts = sheets.sections.reduce((sum, section) => sum + section.parts.length, 0);
	const total = parts * 3;
	let done = 0;
	return {
		handbook,
		sheets,
		paper,
		pages,
		threads,
		cache,
		signal,
		/** What laying out and printing are given alike. */
		common: {
			pages,
			scripts: await readPageScripts(),
			styles: printStyles(paper, sheets.slots, handbook.style),
			language: sheets.language,
			continued: sheets.continued,
			cache,
			workers,
			signal,
		},
		parts,
		step(steps: number, label: string) {
			done = Math.min(total, done + steps);
			options.progress?.(Math.floor(done), total, label);
		},
	};
}

async function printerOf(
	handbook: Handbook,
	sheets: Sheets,
	workers: { readonly pages: BrowserPages; readonly threads: PdfThreads },
	options: PrintOptions,
): Promise<Printer> {
	const work = await prepareWork(handbook, sheets, workers, options);
	const { cache, common, step } = work;
	const { since } = options;
	const { paper: name, punch } = handbook.curriculum.club;
	return {
		async make(marks = false) {
			const asked = marks && since !== undefined ? markChanges(sheets, since.passages) : sheets;
			const { laid, pages: bySection, problems } = await laidOut(work, asked, (title) => step(1, title));
			const assembled = assemble(laid, bySection, { earlier: since, marks });
			const look = sha256(common.styles).slice(0, 32);
			const named = nameEdition(onlyPrinted(problems.length === 0 ? sheets : laid), assembled.edition);
			return {
				problems,
				sheets: named,
				assembled,
				edition: editionOf(named, assembled, { paper: name, punch, look }),
			};
		},
		async makeOne(section) {
			const { laid, pages } = await laidOut(work, { ...sheets, sections: [section] }, () => undefined);
			return assemble(laid, pages);
		},
		print: (made, selection) => printMade(work, made, selection, false),
		sweep: () => cache.sweep(),
	};
}

/** Pages of all parts; of one that fails, a page that says so, and the sheets as they then are. */
async function laidOut({ common, paper, sheets }: PrintWork, asked: Sheets, onDone: (title: string) => void) {
	const { pages, problems } = await layOut(jobsOf(asked.sections, paper), {
		...common,
		area: { width: paper.areaWidth, height: paper.areaHeight },
		hyphenation: hyphenationOf(sheets.language),
		onDone,
	});
	let next = 0;
	const made = asked.sections.map((section) => ({
		section,
		parts: section.parts.map((part) => {
			const own = pages[next++] ?? [];
			return own.length > 0 ? { part, pages: own } : withheldPart(part, sheets.withheld);
		}),
	}));
	const laid: Sheets = {
		...asked,
		sections: made.map(({ section, parts }) => ({ ...section, parts: parts.map(({ part }) => part) })),
	};
	return { laid, pages: made.map(({ parts }) => parts.map((one) => one.pages)), problems };
}

/** Prints leaves, joins them and reads them back; a second time without what nobody may use. */
async function printMade(
	work: PrintWork,
	{ sheets, assembled, edition }: Made,
	selection: Selection | undefined,
	isSecond: boolean,
): Promise<PrintedLeaves> {
	const { handbook, paper, pages, threads, cache, signal, common, parts, step } = work;
	const setting = {
		...common,
		...(selection?.marks === true ? { beforehand: await readMarkScript() } : {}),
		title: sheets.title,
		paper,
		onDone: (leaves: number) => step((parts * leaves) / assembled.leaves.length, "printing"),
	};
	const words = [...new Set(assembled.leaves.map(({ issue }) => issue))].filter((issue) => issue !== "");
	const [segments, editions] = await Promise.all([
		printSegments(assembled, setting),
		printIssues(words, sheets.foot, setting),
	]);
	const issues = { words, pdf: editions };
	signal?.throwIfAborted();
	// What follows needs no browser, and the browser's memory.
	void pages.close();
	const attachment = { name: ATTACHMENT, text: editionText(edition) };
	const placing = keptPlacing(cache, threads);
	const joined = await joinSegments(segments, assembled, sheets, paper, { attachment, issues }, placing);
	step(parts / 2, "reading back");
	const { leaves } = assembled;
	const read = readJoined({ ...joined, leaves, issues, paper }, cache, threads);
	const drills = selection?.drills ?? (hasCards(sheets) ? handbook.curriculum.drills : new Map());
	const { problems, unsafe, short } = await verifyBinder({
		read,
		sheets,
		assembled,
		segments,
		editions: words,
		paper,
		handbook: { ...handbook, curriculum: { ...handbook.curriculum, drills } },
		elsewhere: NOWHERE,
		cache,
		whole: selection?.whole,
	});
	signal?.throwIfAborted();
	if (unsafe.size > 0 && !isSecond) {
		const safe = withoutLeaves(assembled, unsafe, sheets.withheld);
		const { pdf } = await printMade(
			work,
			{ sheets, assembled: safe, edition, problems: [] },
			selection,
			true,
		);
		return { problems, pdf, short };
	}
	step(parts * 3, "done");
	return { problems, pdf: joined.pdf, short };
}

/** The sheets of this volume; the sections of others keep their places, with nothing in them. */
function onlyPrinted(sheets: Sheets): Sheets {
	return {
		...sheets,
		sections: sheets.sections.map((section) =>
			section.unprinted === true ? { ...section, parts: [], targets: [] } : section,
		),
	};
}

/** Whether drill cards are printed: they are in the binder and in the library. */
function hasCards({ sections }: Sheets): boolean {
	return sections.some(({ targets }) => targets.some(({ id }) => id.startsWith("drill-")));
}

/** Segments are placed by threads, and kept as they were placed. */
function keptPlacing(cache: SheetCache, threads: PdfThreads): Placing {
	return async (segment, place) => {
		const name = ["placed", programFingerprint(), segment.name, JSON.stringify(place)];
		const kept = cache.find(name);
		if (kept !== undefined) return unpackedSegment(kept);
		const placed = await threads.place(segment.pdf, place);
		cache.put(name, packedSegment(placed));
		return placed;
	};
}

function jobsOf(sections: readonly SheetSection[], paper: Paper): readonly LayoutJob[] {
	return sections.flatMap((section) => {
		const source = section.targets.find((target) => target.source !== undefined)?.source;
		return section.parts.map(({ head, html, wide }) => ({
			title: head === "" || head === section.title ? section.title : `${section.title}, ${head}`,
			html: html.text,
			place: source?.place([]) ?? NOWHERE,
			...(wide === true && { area: { width: paper.areaHeight, height: paper.areaWidth } }),
		}));
	});
}

/** A part that could not be laid out: a page that says so, where what leads to the part still lands. */
function withheldPart(
	part: SheetPart,
	words: string,
): { readonly part: SheetPart; readonly pages: readonly CutPage[] } {
	const ids = Array.from(part.html.text.matchAll(/ id="([^"]*)"/g), ([, id = ""]) => id);
	const markup = html`<p><b>${words}</b></p>${ids.map((id) => html`<i id="${id}"></i>`)}`;
	return { part: { ...part, html: markup }, pages: [{ html: markup.text, ids }] };
}

/** Pictures are printed at most this wide, in pixels: fine enough for half a page. */
const PRINTED_WIDTH = 960;

/** The binder of a handbook with its pictures: as the site serves them, without what they say of place and time. */
export async function binderOf(handbook: Handbook, since?: Edition): Promise<BinderView> {
	const media = await prepareMedia(handbook, { cacheDir: mediaCacheOf(handbook.clubDir), keep: true });
	const picture: BinderView["picture"] = (medium) => {
		const shown =
			medium.kind === "video"
				? medium.poster
				: (medium.sizes.findLast(({ width }) => width <= PRINTED_WIDTH) ?? medium.sizes[0]);
		const bytes = shown && media.files.get(shown.path)?.();
		return bytes && `data:image/webp;base64,${Buffer.from(bytes).toString("base64")}`;
	};
	return binderView(handbook, media, picture, since);
}

/**
 * Puts a PDF and its edition in place of the last ones, each whole. The PDF carries its edition, and pages
 * go by the file beside it, so that file comes last: they never link one binder for another.
 */
export function putInPlace(outFile: string, pdf: Uint8Array, edition: Edition): void {
	const folder = makeFolder(dirname(outFile));
	folder.write(basename(outFile), pdf);
	folder.write(editionFile(basename(outFile)), editionText(edition));
}
