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
import { digestOf, type SheetCache } from "./sheet-cache.ts";

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
	const { cache, pages, scripts, beforehand = "", styles, language } = setting;
	const common = digestOf(["segment", pages.version, scripts.own, beforehand, styles, language]);

	async function work(): Promise<void> {
		const press = new Press(setting);
		try {
			for (let span = queue.shift(); span !== undefined; span = queue.shift()) {
				setting.signal?.throwIfAborted();
				const { first, end } = span;
				const markup = leaves
					.slice(first, end)
					.map((leaf) => leaf.html)
					.join("");
				const name = digestOf([common, markup]);
				const pressed = async () => {
					const { pdf, measures } = unpacked(await press.print(markup, end - first, true));
					const isKept = cache.put(["pdf", name], pdf);
					const about: About = { size: objectCount(pdf), measures };
					cache.put(["about", name], Buffer.from(JSON.stringify(about)));
					return { pdf, about, isKept };
				};
				const known = cache.find(["about", name]);
				const fresh = known === undefined ? await pressed() : undefined;
				const { size, measures } = fresh?.about ?? readAbout(known);
				cache.hold(["pdf", name]);
				// What the cache has need not be in memory until all is printed.
				const held = fresh?.isKept === false ? fresh.pdf : undefined;
				results.push({
					first,
					leaves: end - first,
					measures,
					size,
					name,
					pdf: async () => {
						const kept = held ?? cache.find(["pdf", name]);
						if (kept !== undefined) return kept;
						try {
							return (await pressed()).pdf;
						} finally {
							await press.close();
						}
					},
				});
				setting.onDone(end - first);
			}
		} finally {
			await press.close();
		}
	}

	await Promise.all(Array.from({ length: Math.min(setting.workers, spans.length) }, work));
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
	const bytes = await cache.keep(
		["issues", pages.version, scripts.own, styles, language, markup],
		async () => {
			const press = new Press({ ...setting, beforehand: "" });
			try {
				return await press.print(markup, 2 * issues.length, false);
			} finally {
				await press.close();
			}
		},
	);
	return unpacked(bytes).pdf;
}

/** A page of the browser that prints one set of leaves after the other, and is replaced when it fails. */
class Press {
	readonly #setting: PrintSetting;
	#open: OpenPage | undefined;
	#printed = 0;

	constructor(setting: PrintSetting) {
		this.#setting = setting;
	}

	/** Prints leaves, tagged or as mere marks on paper. Throws where that fails twice, or the signal was given. */
	async print(markup: string, leaves: number, tagged: boolean): Promise<Uint8Array> {
		if (this.#printed + leaves > LEAVES_OF_A_PAGE) await this.close();
		for (let attempt = 1; ; attempt++) {
			try {
				this.#open ??= await this.#prepared();
				const bytes = await this.#printIn(this.#open, markup, leaves, tagged);
				this.#printed += leaves;
				return bytes;
			} catch (error) {
				await this.close();
				this.#setting.signal?.throwIfAborted();
				if (attempt === 2) throw error;
			}
		}
	}

	async close(): Promise<void> {
		const open = this.#open;
		this.#open = undefined;
		this.#printed = 0;
		await open?.close();
	}

	async #prepared(): Promise<OpenPage> {
		const { pages, scripts, language, title, styles } = this.#setting;
		const open = await pages.open();
		await open.run(60_000, async (page) => {
			await page.setContent(
				`<!doctype html><html lang="${language}"><head><meta charset="utf-8"><title>${title.replace(/[&<]/g, " ")}</title><style>${styles}</style></head><body class="binder"></body></html>`,
			);
			await page.evaluate(scripts.own);
		});
		return open;
	}

	async #printIn(open: OpenPage, markup: string, leaves: number, tagged: boolean): Promise<Uint8Array> {
		const { paper, beforehand = "" } = this.#setting;
		return open.run(60_000 + leaves * 2_000, async (page) => {
			await page.evaluate((text: string) => {
				document.body.innerHTML = text;
			}, markup);
			if (beforehand !== "") await page.evaluate(beforehand);
			const measures = await page.evaluate("window.handbookPrint.measure()");
			const pdf = await printedPage(page, paper, tagged);
			return packed(pdf, measures);
		});
	}
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

function readAbout(bytes: Uint8Array | undefined): About {
	const value: unknown = JSON.parse(new TextDecoder().decode(bytes));
	if (
		typeof value !== "object" ||
		value === null ||
		!("size" in value && typeof value.size === "number") ||
		!("measures" in value && isMeasures(value.measures))
	) {
		throw new Error("A printed segment has no measures.");
	}
	return { size: value.size, measures: value.measures };
}

/** The measures as a line of JSON, then the PDF. */
function packed(pdf: Uint8Array, measures: unknown): Uint8Array {
	const head = new TextEncoder().encode(`${JSON.stringify(measures)}\n`);
	const bytes = new Uint8Array(head.length + pdf.length);
	bytes.set(head);
	bytes.set(pdf, head.length);
	return bytes;
}

function unpacked(bytes: Uint8Array): { readonly pdf: Uint8Array; readonly measures: Measures } {
	const end = bytes.indexOf(10);
	const measures: unknown = JSON.parse(new TextDecoder().decode(bytes.subarray(0, end)));
	if (!isMeasures(measures)) throw new Error("A printed segment has no measures.");
	return { pdf: bytes.subarray(end + 1), measures };
}

function isMeasures(value: unknown): value is Measures {
	return (
		typeof value === "object" &&
		value !== null &&
		"spots" in value &&
		Array.isArray(value.spots) &&
		"spills" in value &&
		Array.isArray(value.spills)
	);
}
