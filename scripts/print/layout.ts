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
import { Press, sideBySide } from "./press.ts";
import { digestOf, jsonOf, type SheetCache } from "./sheet-cache.ts";

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
	const { cache, pages, scripts, styles, language, continued, signal } = setting;
	const { name: hyphenation = "", hyphenate = (markup: string) => markup } = setting.hyphenation ?? {};
	const own = [scripts.layout, scripts.own];
	const common = digestOf([pages.version, ...own, styles, language, continued, hyphenation]);
	const page = { language, title: "Sheets", styles, body: "binder", scripts: own };
	await sideBySide(
		queue,
		setting.workers,
		() => new Press(pages, page, signal),
		signal,
		async ({ job, number }, press) => {
			const area = job.area ?? setting.area;
			try {
				const bytes = await cache.keep([common, JSON.stringify(area), job.html], () =>
					press
						.run((open) => layOutOne(open, hyphenate(job.html), area, continued))
						.catch((error: unknown) => {
							signal?.throwIfAborted();
							throw new LayoutFailure(error);
						}),
				);
				results[number] = jsonOf(bytes);
			} catch (error) {
				if (!(error instanceof LayoutFailure)) throw error;
				const what = `"${job.title}" could not be laid out: ${error.message}.`;
				problems.push(problem("H402", job.place, what));
			}
			setting.onDone(job.title);
		},
	);
	return { pages: results, problems };
}

class LayoutFailure extends Error {
	constructor(cause: unknown) {
		super(cause instanceof Error ? (cause.message.split("\n")[0] ?? "") : String(cause), { cause });
	}
}

async function layOutOne(open: OpenPage, html: string, area: Area, continued: string): Promise<Uint8Array> {
	// A minute, and as much again for every 250 kB: far more than any sound part takes.
	const limit = 60_000 * (1 + html.length / 250_000);
	const call = `window.handbookPrint.layOut(${JSON.stringify(html)}, ${JSON.stringify(area)}, ${JSON.stringify(continued)})`;
	const pages = await open.run(limit, (page) => page.evaluate(call));
	return new TextEncoder().encode(JSON.stringify(pages));
}
