/** A page of the printer's browser: nothing is left to chance, nor of whoever had it before. */

import { expect, it } from "vitest";
import type { OpenPage } from "../../scripts/print/browser-pages.ts";
import { openPrinter } from "./open-printer.ts";

const browser = await openPrinter();

/** What scripts find in a page: a clock and chances that are the same every time, no network, and nothing more. */
const found = (page: OpenPage) =>
	page.run(60_000, (inner) =>
		inner.evaluate(
			"[Math.random(), Date.now(), navigator.onLine, typeof window.left, document.body.innerHTML, document.title]",
		),
	);
const leave = (page: OpenPage) =>
	page.run(60_000, (inner) =>
		inner.evaluate(
			"window.left = Math.random(); document.title = 'Left'; document.body.innerHTML = '<p>left'",
		),
	);

it("is empty for the next who opens it, once it was given back", async () => {
	const first = await browser.open();
	const fresh = await found(first);
	await leave(first);
	await first.release();
	const second = await browser.open();
	expect(second).toBe(first);
	expect(await found(second)).toEqual(fresh);
	expect(fresh).toEqual([expect.any(Number), 978307200000, false, "undefined", "", ""]);
});

it("is not used again where it was closed", async () => {
	const first = await browser.open();
	await first.close();
	const second = await browser.open();
	expect(second).not.toBe(first);
	expect(await found(second)).toEqual([expect.any(Number), 978307200000, false, "undefined", "", ""]);
});
