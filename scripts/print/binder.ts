/**
 * Prints the term's binder.
 *
 *   1. find and start a browser                                   find-browser, browser-pages
 *   2. make the sheets from the handbook                          layouts/sheets
 *   3. lay out every part on its own                              layout, in-page
 *   4. number the pages, fill in the references                   assemble
 *   5. print segments, join them                                  print-segments, join
 *   6. read the result back and hold it against the handbook      verify
 *   7. put it in place of the last one, in one step
 *
 * Whatever fails on the way, the last good binder stays where it is.
 */

import { randomUUID } from "node:crypto";
import { mkdir, rename, rm, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import type { SheetSource } from "../../layouts/sheets/source.ts";
import type { Measured } from "../compute/measure.ts";
import type { Place } from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import type { MarkdownRenderer } from "../render/markdown.ts";
import { mediaCacheOf, prepareMedia } from "../render/media/prepare-media.ts";
import type { Words } from "../words/words.ts";
import { assemble } from "./assemble.ts";
import { type BrowserPages, openBrowser, type PageScripts, readPageScripts } from "./browser-pages.ts";
import { type BrowserSearch, findBrowser } from "./find-browser.ts";
import { hyphenatorOf } from "./hyphenate.ts";
import { joinSegments } from "./join.ts";
import { type LayoutJob, layOut } from "./layout.ts";
import { type Paper, paperOf } from "./paper.ts";
import { printSegments } from "./print-segments.ts";
import { printStyles } from "./print-styles.ts";
import type { Sheets } from "./section.ts";
import { openCache } from "./sheet-cache.ts";
import { verifyBinder } from "./verify.ts";

/** What is printed: an opened handbook. */
export interface PrintSource extends Measured {
	readonly markdown: MarkdownRenderer;
	readonly words: Words;
	readonly clubDir: string;
	readonly edition: string;
}

export interface PrintOptions {
	readonly outFile: string;
	/** Where to look for a browser. */
	readonly browser?: BrowserSearch;
	/** Called with what is done of how much, and with what is being worked on. */
	readonly progress?: (done: number, total: number, label: string) => void;
	readonly signal?: AbortSignal;
	/** Where laid-out sections are kept for the next run; `.handbook-cache` in the club folder unless given, false for nowhere. */
	readonly cacheDir?: string | false;
	/** Browser pages that work side by side. */
	readonly workers?: number;
}

export interface PrintedBinder {
	/** H4..; with an error among them the binder was not written. */
	readonly problems: readonly Problem[];
	/** 0 where nothing was written. */
	readonly pages: number;
	readonly sections: number;
}

/** For what is about no file of its own. */
const NO_PLACE: Place = { file: "_data/club.yaml", line: 1, column: 1 };

/** Prints the binder. Throws where the signal was given, or the output folder cannot be written. */
export async function printBinder(handbook: PrintSource, options: PrintOptions): Promise<PrintedBinder> {
	const failed = (problems: readonly Problem[]): PrintedBinder => ({ problems, pages: 0, sections: 0 });
	options.signal?.throwIfAborted();
	options.progress?.(0, 1, "starting the browser");
	const found = await findBrowser(options.browser);
	if ("missing" in found) return failed([problem("H401", NO_PLACE, found.missing)]);
	let pages: BrowserPages;
	try {
		pages = await openBrowser(found.browser);
	} catch (error) {
		const why = error instanceof Error ? error.message.split("\n").slice(0, 3).join(" ") : String(error);
		return failed([problem("H401", NO_PLACE, `The browser ${found.browser.path} did not start: ${why}`)]);
	}
	const stop = () => void pages.close();
	options.signal?.addEventListener("abort", stop, { once: true });
	try {
		const sheets = binderSheets(await sourceOf(handbook));
		const printed = await printSheets(sheets, handbook, pages, await readPageScripts(), options);
		if (printed.problems.some(({ severity }) => severity === "error")) return failed(printed.problems);
		options.signal?.throwIfAborted();
		await putInPlace(options.outFile, printed.pdf);
		return { problems: printed.problems, pages: printed.pages, sections: sheets.sections.length };
	} catch (error) {
		// Closing the browser makes whatever waits for it fail; the reason is the signal.
		options.signal?.throwIfAborted();
		throw error;
	} finally {
		options.signal?.removeEventListener("abort", stop);
		await pages.close();
	}
}

async function printSheets(
	sheets: Sheets,
	handbook: PrintSource,
	pages: BrowserPages,
	scripts: PageScripts,
	options: PrintOptions,
): Promise<{ readonly problems: readonly Problem[]; readonly pdf: Uint8Array; readonly pages: number }> {
	const { signal } = options;
	const paper = paperOf(handbook.curriculum.club);
	const cache = openCache(
		options.cacheDir === false
			? undefined
			: (options.cacheDir ?? join(handbook.clubDir, ".handbook-cache", "print")),
	);
	const common = {
		pages,
		scripts,
		styles: await printStyles(paper, sheets.slots),
		language: sheets.language,
		cache,
		workers: options.workers ?? 2,
		signal,
	};

	const jobs = jobsOf(sheets, paper);
	// Laying out and printing take about as long as each other; joining and reading back a little less.
	const total = jobs.length * 3;
	let done = 0;
	const step = (steps: number, label: string) => {
		done = Math.min(total, done + steps);
		options.progress?.(Math.floor(done), total, label);
	};
	const area = { width: paper.areaWidth, height: paper.areaHeight };
	const laidOut = await layOut(jobs, { ...common, area, onDone: (title) => step(1, title) });
	if (laidOut.problems.length > 0) return { problems: laidOut.problems, pdf: new Uint8Array(), pages: 0 };

	let next = 0;
	const bySection = sheets.sections.map(({ parts }) => parts.map(() => laidOut.pages[next++] ?? []));
	const assembled = assemble(sheets, bySection);
	const segments = await printSegments(assembled, {
		...common,
		title: sheets.title,
		paper,
		onDone: (leaves) => step((jobs.length * leaves) / assembled.leaves.length, "printing"),
	});
	signal?.throwIfAborted();
	const pdf = await joinSegments(segments, assembled, sheets, paper);
	step(jobs.length / 2, "reading back");
	const problems = await verifyBinder({
		pdf,
		sheets,
		assembled,
		segments,
		paper,
		handbook,
		elsewhere: NO_PLACE,
		threads: common.workers,
	});
	step(total, "done");
	if (problems.length === 0) await cache.sweep();
	return { problems, pdf, pages: assembled.leaves.length };
}

function jobsOf(sheets: Sheets, paper: Paper): readonly LayoutJob[] {
	const hyphenate = hyphenatorOf(sheets.language);
	return sheets.sections.flatMap((section) => {
		const source = section.targets.find((target) => target.source !== undefined)?.source;
		return section.parts.map(({ head, html, wide }) => ({
			title: head === "" || head === section.title ? section.title : `${section.title}, ${head}`,
			html: hyphenate(html.text),
			place: source?.place([]) ?? NO_PLACE,
			...(wide === true && { area: { width: paper.areaHeight, height: paper.areaWidth } }),
		}));
	});
}

/** Pictures are printed at most this wide, in pixels: fine enough for half a page. */
const PRINTED_WIDTH = 960;

/** The handbook with its pictures: as the site serves them, without what they say of place and time. */
export async function sourceOf(handbook: PrintSource): Promise<SheetSource> {
	const media = await prepareMedia(handbook, { cacheDir: mediaCacheOf(handbook.clubDir), keep: true });
	const pictures = new Map<string, string>();
	for (const drill of handbook.curriculum.drills.values()) {
		for (const [i, { file }] of drill.media.entries()) {
			const medium = media.byDrill.get(drill.id)?.[i];
			const shown =
				medium?.kind === "video"
					? medium.poster
					: (medium?.sizes.findLast(({ width }) => width <= PRINTED_WIDTH) ?? medium?.sizes[0]);
			const bytes = shown && media.files.get(shown.path)?.();
			if (bytes !== undefined) {
				pictures.set(file, `data:image/webp;base64,${Buffer.from(bytes).toString("base64")}`);
			}
		}
	}
	const { curriculum, exposures, tables, findings, markdown, words, edition } = handbook;
	return {
		curriculum,
		exposures,
		tables,
		findings,
		markdown,
		words,
		edition,
		picture: (file) => pictures.get(file),
	};
}

/** Writes beside and renames: a reader never sees half a file, and a failure leaves the old one. */
async function putInPlace(outFile: string, pdf: Uint8Array): Promise<void> {
	await mkdir(dirname(outFile), { recursive: true });
	const beside = `${outFile}.${randomUUID().slice(0, 8)}.part`;
	try {
		await writeFile(beside, pdf);
		await rename(beside, outFile);
	} catch (error) {
		await rm(beside, { force: true });
		throw error;
	}
}
