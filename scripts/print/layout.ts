/**
 * Lays out the parts of the binder: markup in, pages of markup out.
 *
 *   1. parts that were laid out before, from the same markup and styles, come from the cache
 *   2. the others are hyphenated and taken, largest first, by pages of the browser that work side by side
 *   3. a part whose page dies, or takes too long, is tried once more in a fresh page, then reported
 *
 * Every part is laid out on its own: Paged.js takes time with the square of what it is given.
 */

import type { Place } from "../place.ts";
import { type Problem, problem } from "../problems.ts";
import type { BrowserPages, OpenPage, PageScripts } from "./browser-pages.ts";
import type { Hyphenation } from "./hyphenate.ts";
import type { Area, CutPage } from "./in-page.ts";
import { digestOf, type SheetCache } from "./sheet-cache.ts";

/** A part to be laid out. */
export interface LayoutJob {
	/** Names it in progress and problems. */
	readonly title: string;
	readonly html: string;
	/** Where its content is written, for problems. */
	readonly place: Place;
	/** Where it is not the usual text area. */
	readonly area?: Area;
}

export interface LayoutSetting {
	readonly pages: BrowserPages;
	readonly scripts: PageScripts;
	readonly styles: string;
	readonly language: string;
	readonly area: Area;
	/** What stands over a table that goes on, with % for the heading before it. */
	readonly continued: string;
	/** Breaks words of the markup; without it none is broken. */
	readonly hyphenation?: Hyphenation;
	readonly cache: SheetCache;
	/** Browser pages that work side by side. */
	readonly workers: number;
	readonly onDone: (title: string) => void;
	readonly signal: AbortSignal | undefined;
}

export interface LaidOut {
	/** The pages of each job, in the order of the jobs; none where it failed. */
	readonly pages: readonly (readonly CutPage[])[];
	/** H402 for each job that failed. */
	readonly problems: readonly Problem[];
}

/** Lays out all jobs. Throws where the signal was given, or no page can be opened at all. */
export async function layOut(jobs: readonly LayoutJob[], setting: LayoutSetting): Promise<LaidOut> {
	const results: (readonly CutPage[])[] = jobs.map(() => []);
	const problems: Problem[] = [];
	const queue = jobs
		.map((job, number) => ({ job, number }))
		.sort((a, b) => b.job.html.length - a.job.html.length || a.number - b.number);
	const { cache, pages, scripts, styles, language, area } = setting;
	const common = digestOf([
		pages.version,
		scripts.layout,
		scripts.own,
		styles,
		language,
		setting.continued,
		setting.hyphenation?.name ?? "",
	]);

	const hyphenate = setting.hyphenation?.hyphenate ?? ((markup) => markup);

	async function work(): Promise<void> {
		let open: OpenPage | undefined;
		try {
			for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
				setting.signal?.throwIfAborted();
				const { job, number } = next;
				const ownArea = job.area ?? area;
				const bytes = await cache
					.keep([common, JSON.stringify(ownArea), job.html], async () => {
						for (let attempt = 1; ; attempt++) {
							try {
								open ??= await prepared(setting);
								return await layOutOne(open, hyphenate(job.html), ownArea, setting.continued);
							} catch (error) {
								await open?.close();
								open = undefined;
								setting.signal?.throwIfAborted();
								if (attempt === 2) throw new LayoutFailure(error);
							}
						}
					})
					.catch((error: unknown) => {
						if (!(error instanceof LayoutFailure)) throw error;
						problems.push(
							problem("H402", job.place, `"${job.title}" could not be laid out: ${error.message}.`),
						);
						return undefined;
					});
				if (bytes !== undefined) results[number] = readPages(bytes);
				setting.onDone(job.title);
			}
		} finally {
			await open?.close();
		}
	}

	await Promise.all(Array.from({ length: Math.min(setting.workers, jobs.length) }, work));
	return { pages: results, problems };
}

class LayoutFailure extends Error {
	constructor(cause: unknown) {
		super(cause instanceof Error ? (cause.message.split("\n")[0] ?? "") : String(cause), { cause });
	}
}

/** A page with the styles and scripts that laying out needs. */
async function prepared(setting: LayoutSetting): Promise<OpenPage> {
	const open = await setting.pages.open();
	await open.run(60_000, async (page) => {
		await page.setContent(
			// Paged.js takes ordinary style elements away and rewrites them; this one is to stay.
			`<!doctype html><html lang="${setting.language}"><head><meta charset="utf-8"><style data-pagedjs-ignore>${setting.styles}</style></head><body class="binder"></body></html>`,
		);
		await page.evaluate(setting.scripts.layout);
		await page.evaluate(setting.scripts.own);
	});
	return open;
}

async function layOutOne(open: OpenPage, html: string, area: Area, continued: string): Promise<Uint8Array> {
	// A minute, and as much again for every 250 kB: far more than any sound part takes.
	const limit = 60_000 * (1 + html.length / 250_000);
	const call = `window.handbookPrint.layOut(${JSON.stringify(html)}, ${JSON.stringify(area)}, ${JSON.stringify(continued)})`;
	const pages = await open.run(limit, (page) => page.evaluate(call));
	return new TextEncoder().encode(JSON.stringify(pages));
}

/** Takes what the browser or the cache gave as pages. Throws where it is something else. */
function readPages(bytes: Uint8Array): readonly CutPage[] {
	const value: unknown = JSON.parse(new TextDecoder().decode(bytes));
	if (!Array.isArray(value) || !value.every(isCutPage))
		throw new Error("A laid-out part is not a list of pages.");
	return value;
}

function isCutPage(value: unknown): value is CutPage {
	return (
		typeof value === "object" &&
		value !== null &&
		"html" in value &&
		typeof value.html === "string" &&
		"ids" in value &&
		Array.isArray(value.ids) &&
		value.ids.every((id) => typeof id === "string")
	);
}
