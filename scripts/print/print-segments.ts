/**
 * Prints leaves: segments of a few sections each, side by side, so that no document grows large.
 *
 * A segment that was printed before from the same markup and styles comes from the cache.
 */

import type { Assembled } from "./assemble.ts";
import type { BrowserPages, OpenPage, PageScripts } from "./browser-pages.ts";
import type { Measures } from "./in-page.ts";
import type { Paper } from "./paper.ts";
import type { SheetCache } from "./sheet-cache.ts";

export interface Segment {
	/** Position of its first leaf in the binder. */
	readonly first: number;
	readonly leaves: number;
	readonly pdf: Uint8Array;
	/** Leaves counted from 0 within the segment. */
	readonly measures: Measures;
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

/** Leaves of one segment, more only where one section has more. */
const SEGMENT_LEAVES = 48;

/** Prints all leaves. Throws where the browser fails twice, or the signal was given. */
export async function printSegments(
	{ leaves }: Assembled,
	setting: PrintSetting,
): Promise<readonly Segment[]> {
	const spans = spansOf(leaves);
	const results: Segment[] = [];
	const queue = [...spans];
	const { cache, pages, scripts, beforehand = "", styles, language, title, paper } = setting;

	async function work(): Promise<void> {
		for (let span = queue.shift(); span !== undefined; span = queue.shift()) {
			setting.signal?.throwIfAborted();
			const { first, end } = span;
			const markup = document(
				language,
				title,
				styles,
				leaves
					.slice(first, end)
					.map((leaf) => leaf.html)
					.join(""),
			);
			const bytes = await cache.keep(
				["segment", pages.version, scripts.own, beforehand, markup],
				async () => {
					for (let attempt = 1; ; attempt++) {
						const open = await pages.open();
						try {
							return await printOne(open, markup, [scripts.own, beforehand], paper, end - first);
						} catch (error) {
							setting.signal?.throwIfAborted();
							if (attempt === 2) throw error;
						} finally {
							await open.close();
						}
					}
				},
			);
			results.push({ first, leaves: end - first, ...unpacked(bytes) });
			setting.onDone(end - first);
		}
	}

	await Promise.all(Array.from({ length: Math.min(setting.workers, spans.length) }, work));
	return results.sort((a, b) => a.first - b.first);
}

/** Cuts the leaves between sections. */
function spansOf(leaves: Assembled["leaves"]): readonly { readonly first: number; readonly end: number }[] {
	const spans: { first: number; end: number }[] = [];
	let first = 0;
	leaves.forEach((leaf, position) => {
		const isLast = position === leaves.length - 1;
		const endsSection = isLast || leaves[position + 1]?.section !== leaf.section;
		if (isLast || (endsSection && position + 1 - first >= SEGMENT_LEAVES)) {
			spans.push({ first, end: position + 1 });
			first = position + 1;
		}
	});
	return spans;
}

function document(language: string, title: string, styles: string, body: string): string {
	return `<!doctype html><html lang="${language}"><head><meta charset="utf-8"><title>${title.replace(/[&<]/g, " ")}</title><style>${styles}</style></head><body class="binder">${body}</body></html>`;
}

async function printOne(
	open: OpenPage,
	markup: string,
	scripts: readonly string[],
	paper: Paper,
	leaves: number,
): Promise<Uint8Array> {
	return open.run(60_000 + leaves * 2_000, async (page) => {
		await page.setContent(markup);
		for (const script of scripts) await page.evaluate(script);
		const measures = await page.evaluate("window.handbookPrint.measure()");
		const pdf = await page.pdf({
			width: `${paper.width}px`,
			height: `${paper.height}px`,
			printBackground: true,
			tagged: true,
			outline: false,
			timeout: 0,
			waitForFonts: false,
		});
		return packed(pdf, measures);
	});
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
