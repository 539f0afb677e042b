/**
 * Pages of a small club as they are written, one of each kind, kept beside the tests: whoever reviews a
 * change sees what it does to the markup. After a change on purpose: `npm test -- --update=all tests/site/golden.test.ts`.
 *
 * Of all pages but home only what stands in `main` is kept, since the frame is the same; of figures, that
 * they are there, since they have pictures of their own (tests/figures/expected).
 */

import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type SitePage, sitePages } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { highlightCode } from "../../scripts/site/highlight-code.ts";
import { raw } from "../../scripts/views/html.ts";
import { FIXTURES } from "../open-fixture.ts";

/** Held by tests of its own, and longer than all others together. */
const LEFT_OUT: readonly string[] = ["author-guide"];

/** The day of its edition. */
const NOW = new Date("2026-11-30T12:00:00Z");

const { handbook } = openHandbook(join(FIXTURES, "base-club"), { highlight: highlightCode, now: NOW });
if (handbook === undefined) throw new Error("the small club has errors");
const pages = [
	...sitePages(handbook)
		.reduce<Map<string, SitePage>>(
			(byKind, page) => byKind.set(page.kind, byKind.get(page.kind) ?? page),
			new Map(),
		)
		.values(),
].filter(({ kind }) => !LEFT_OUT.includes(kind));

/** One tag or text a line, so that a difference is a line; pictures without what is drawn in them. */
function inLines(markup: string): string {
	return markup
		.replace(/(<svg\b[^>]*>)[\s\S]*?(<\/svg>)/g, "$1…$2")
		.replace(/ (d|viewBox|width|height)="[^"]*"/g, ' $1="…"')
		.replace(/></g, ">\n<")
		.replace(/\n\s*\n+/g, "\n");
}

describe("the page of every kind", () => {
	it("is looked at", () => {
		expect(pages.length).toBeGreaterThan(30);
	});

	it.each(pages.map((page) => [page.kind, page] as const))("%s", async (kind, page) => {
		const text = documentOf(page, (language, code) => raw(highlightCode(code, language)));
		const main = /<main\b[\s\S]*<\/main>/.exec(text)?.[0] ?? "";
		const kept = `<!-- ${page.address} -->\n${inLines(kind === "home" ? text : main)}\n`;
		await expect(kept).toMatchFileSnapshot(join(FIXTURES, "golden", `${kind}.html`));
	});
});
