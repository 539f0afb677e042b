/**
 * Prints leaves: a section at a time, or a piece of one, so that no document grows large.
 *
 *   1. leaves are cut into segments that depend on their own section alone: what changes in one leaves
 *      the others as they are
 *   2. of a segment that was printed before from the same markup and styles, the cache has the PDF, and
 *      apart from it what is to be known of it
 *   3. the others are printed by pages that work side by side; fonts and styles stay in a page, only
 *      the leaves in it are exchanged
 *
 * The edition at the foot is no part of a segment: each edition is printed once, for both sides, and
 * stamped on when segments are joined.
 */

import type { Paper } from "../../layouts/sheets/paper.ts";
import { objectCount } from "../pdf/pdf-file.ts";
import { type Assembled, issueHtml } from "./assemble.ts";
import { type BrowserPages, type OpenPage, type PageScripts, printedPage } from "./browser-pages.ts";
import type { Measures } from "./in-page.ts";
import { Press, sideBySide } from "./press.ts";
import { digestOf, jsonOf, type SheetCache } from "./sheet-cache.ts";

export interface Segment {
	/** Position of its first leaf in the binder. */
	readonly first: number;
	readonly leaves: number;
	/** Leaves counted from 0 within the segment. */
	readonly measures: Measures;
	/** One more than the largest number of its objects. */
	readonly size: number;
	/** Stands for all that it was printed from: where two have the same name, the binder's bytes are the same. */
	readonly name: string;
	/** Its PDF, which need not be in memory. */
	pdf(): Promise<Uint8Array>;
}

export interface PrintSetting {
	readonly pages: BrowserPages;
	readonly scripts: PageScripts;
	/** A script that is run on the finished pages before they are printed. */
	readonly beforehand?: string;
	readonly styles: string;
	readonly language: string;
	readonly title: string;
	readonly paper: Paper;
	readonly cache: SheetCache;
	readonly workers: number;
	readonly onDone: (leaves: number) => void;
	readonly signal: AbortSignal | undefined;
}

/** Most leaves of one segment. */
const SEGMENT_LEAVES = 16;

/** After so many leaves a page of the browser is closed, and its memory is free. */
const LEAVES_OF_A_PAGE = 160;

/** Prints all leaves. Throws where the browser fails twice, or the signal was given. */
export async function printSegments(
	{ leaves }: Assembled,
	setting: PrintSetting,
): Promise<readonly Segment[]> {
	const spans = spansOf(leaves);
	const results: Segment[] = [];
	// Long ones first, so that nobody waits for the last.
	const queue = [...spans].sort((a, b) => b.end - b.first - (a.end - a.first) || a.first - b.first);
	const { cache, pages, scripts, beforehand = "", styles, language, signal } = setting;
	const common = digestOf(["segment", pages.version, scripts.own, beforehand, styles, language]);
	await sideBySide(
		queue,
		setting.workers,
		() => pressOf(setting),
		signal,
		async ({ first, end }, press) => {
			const count = end - first;
			const markup = leaves
				.slice(first, end)
				.map((leaf) => leaf.html)
				.join("");
			const name = digestOf([common, markup]);
			const pressed = async () => {
				const print = (open: OpenPage) => printIn(open, setting, markup, count, true);
				const { pdf, measures } = await press.run(print, { size: count });
				const isKept = cache.put(["pdf", name], pdf);
				const about: About = { size: objectCount(pdf), measures };
				cache.put(["about", name], Buffer.from(JSON.stringify(about)));
				return { pdf, about, isKept };
			};
			const known = cache.find(["about", name]);
			const fresh = known === undefined ? await pressed() : undefined;
			const about = fresh?.about ?? jsonOf<About>(known ?? new Uint8Array());
			cache.hold(["pdf", name]);
			// What the cache has need not be in memory until all is printed.
			const held = fresh?.isKept === false ? fresh.pdf : undefined;
			results.push({
				first,
				leaves: count,
				...about,
				name,
				pdf: async () => {
					const kept = held ?? cache.find(["pdf", name]);
					if (kept !== undefined) return kept;
					try {
						return (await pressed()).pdf;
					} finally {
						await press.end();
					}
				},
			});
			setting.onDone(count);
		},
	);
	return results.sort((a, b) => a.first - b.first);
}

/**
 * Prints editions as they stand at a foot: for each a right page, then a left one.
 *
 * @param foot the words that stand at every foot
 */
export async function printIssues(
	issues: readonly string[],
	foot: string,
	setting: PrintSetting,
): Promise<Uint8Array> {
	const markup = issues
		.flatMap((issue) => [issueHtml(foot, issue, "right"), issueHtml(foot, issue, "left")])
		.map(({ text }) => text)
		.join("");
	const { cache, pages, scripts, styles, language } = setting;
	return cache.keep(["editions", pages.version, scripts.own, styles, language, markup], async () => {
		const press = pressOf(setting);
		const plain = { ...setting, beforehand: "" };
		try {
			return (await press.run((open) => printIn(open, plain, markup, 2 * issues.length, false))).pdf;
		} finally {
			await press.end();
		}
	});
}

function pressOf({ pages, scripts, language, title, styles, signal }: PrintSetting): Press {
	const page = { language, title, styles, body: "binder", scripts: [scripts.own], most: LEAVES_OF_A_PAGE };
	return new Press(pages, page, signal);
}

/** Prints leaves, tagged or as mere marks on paper. */
async function printIn(
	open: OpenPage,
	{ paper, beforehand = "" }: PrintSetting,
	markup: string,
	leaves: number,
	tagged: boolean,
): Promise<{ readonly pdf: Uint8Array; readonly measures: Measures }> {
	return open.run(60_000 + leaves * 2_000, async (page) => {
		await page.evaluate((text: string) => {
			document.body.innerHTML = text;
		}, markup);
		if (beforehand !== "") await page.evaluate(beforehand);
		const measures = await page.evaluate("window.handbookPrint.measure()");
		return { pdf: await printedPage(page, paper, tagged), measures: measures as Measures };
	});
}

/** Each section, cut into pieces of even length where it is long. */
function spansOf(leaves: Assembled["leaves"]): readonly { readonly first: number; readonly end: number }[] {
	const spans: { first: number; end: number }[] = [];
	let first = 0;
	leaves.forEach((leaf, position) => {
		if (leaves[position + 1]?.section === leaf.section && position + 1 - first < SEGMENT_LEAVES) return;
		spans.push({ first, end: position + 1 });
		first = position + 1;
	});
	return spans;
}

/** What is to be known of a segment besides its PDF. */
type About = Pick<Segment, "size" | "measures">;
