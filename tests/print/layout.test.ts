/** Laying out when the browser fails: tried again once, then reported by name. */

import { describe, expect, it } from "vitest";
import type { BrowserPages, OpenPage } from "../../scripts/print/browser-pages.ts";
import { type LayoutSetting, layOut } from "../../scripts/print/layout.ts";
import { openCache } from "../../scripts/print/sheet-cache.ts";

const PLACE = { file: "content/weeks/week-3.md", line: 1, column: 1 };

/** A browser whose pages do as told: `work` gets the number of the page and of its call, 0 for preparing. */
function pretend(work: (page: number, call: number) => unknown): {
	readonly pages: BrowserPages;
	readonly opened: () => number;
	readonly closed: () => number;
	readonly released: () => number;
} {
	let opened = 0;
	let closed = 0;
	let released = 0;
	return {
		opened: () => opened,
		closed: () => closed,
		released: () => released,
		pages: {
			version: "Pretend/1",
			close: async () => undefined,
			async open(): Promise<OpenPage> {
				const page = ++opened;
				let call = 0;
				return {
					async run<T>(): Promise<T> {
						return work(page, call++) as T;
					},
					async release() {
						released++;
					},
					async close() {
						closed++;
					},
				};
			},
		},
	};
}

function setting(pages: BrowserPages, more: Partial<LayoutSetting> = {}): LayoutSetting {
	return {
		pages,
		scripts: { layout: "", own: "" },
		styles: "",
		language: "en",
		continued: "%, continued",
		area: { width: 600, height: 900 },
		cache: openCache(undefined),
		workers: 1,
		onDone: () => undefined,
		signal: undefined,
		...more,
	};
}

const job = (title: string) => ({ title, html: `<p>${title}</p>`, place: PLACE });

describe("laying out", () => {
	it("tries once more in a fresh page", async () => {
		const browser = pretend((page, call) => {
			if (call === 0) return undefined;
			if (page === 1) throw new Error("the page was closed");
			return [{ html: "<p>done</p>", ids: [] }];
		});
		const result = await layOut([job("Week 3")], setting(browser.pages));
		expect(result).toEqual({ pages: [[{ html: "<p>done</p>", ids: [] }]], problems: [] });
		expect(browser.opened()).toBe(2);
		// What failed is closed, and only what did not is given back.
		expect([browser.closed(), browser.released()]).toEqual([1, 1]);
	});

	it("then names the section, and goes on with the others", async () => {
		let calls = 0;
		const browser = pretend((_, call) => {
			if (call === 0) return undefined;
			calls++;
			if (calls <= 2) throw new Error("no result after 60 seconds");
			return [{ html: "<p>fine</p>", ids: ["fine"] }];
		});
		const done: string[] = [];
		const result = await layOut(
			[{ ...job("Week 3, Floor"), html: "<p>the longest goes first</p>" }, job("Index")],
			setting(browser.pages, { onDone: (title) => done.push(title) }),
		);
		expect(result.problems).toHaveLength(1);
		expect(result.problems[0]).toMatchObject({
			code: "H402",
			place: PLACE,
			what: '"Week 3, Floor" could not be laid out: no result after 60 seconds.',
		});
		expect(result.pages).toEqual([[], [{ html: "<p>fine</p>", ids: ["fine"] }]]);
		expect(done).toEqual(["Week 3, Floor", "Index"]);
	});

	it("stops at the signal", async () => {
		const stop = new AbortController();
		stop.abort();
		const browser = pretend(() => undefined);
		await expect(layOut([job("Week 3")], setting(browser.pages, { signal: stop.signal }))).rejects.toThrow(
			/abort/i,
		);
	});
});
