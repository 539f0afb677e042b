/**
 * Markdown against the 652 examples of CommonMark 0.31.2 (package commonmark-spec, from spec.txt).
 *
 * Where ours differs it is meant to, for one of the reasons below, and the examples are listed; an
 * example that differs for no reason, or no longer differs, fails.
 */

import commonmark from "commonmark-spec";
import { describe, expect, it } from "vitest";
import { createMarkdown } from "../../scripts/views/markdown.ts";

/** The examples, whose text writes a tab as an arrow. */
const tests = commonmark.tests.map((t) => ({
	...t,
	markdown: t.markdown.replaceAll("→", "\t"),
	html: t.html.replaceAll("→", "\t"),
}));

/** Reasons to differ, each with the test of an example that it explains. */
const REASONS: Readonly<Record<string, (example: { markdown: string; html: string }) => boolean>> = {
	"raw HTML is shown as text": ({ markdown, html }) => /<[a-z!?/]/i.test(markdown) && /<[a-z!?/]/i.test(html),
	"a picture becomes its words": ({ html }) => html.includes("<img"),
	"a link leads to the web, to mail or to a path": ({ html }) =>
		/href="(?!https?:|mailto:|[/#\w%.-]*")/i.test(html) ||
		/href="\/\//.test(html) ||
		/href="[^"]*(\\|%5C)/i.test(html),
	"tables and struck-out text are read": ({ markdown }) =>
		/^\s*\|?.*\|/m.test(markdown) || markdown.includes("~~"),
};

describe("CommonMark 0.31.2", () => {
	const markdown = createMarkdown({ resolve: () => undefined });
	const render = (text: string): string => normal(markdown.block(text, () => undefined, "as written").text);

	it("has the 652 examples of the standard", () => {
		expect(tests).toHaveLength(652);
	});

	it("differs only where it is meant to", () => {
		const different = tests.filter((example) => render(example.markdown) !== normal(example.html));
		const unexplained = different.filter(
			(example) => !Object.values(REASONS).some((explains) => explains(example)),
		);
		expect(
			unexplained.map(({ number, markdown: text, html }) => ({ number, text, html, ours: render(text) })),
		).toEqual([]);
		expect(different.map(({ number }) => number)).toMatchSnapshot("examples that differ on purpose");
		expect(different.length).toBeLessThan(120);
	});

	it("lets no markup of an author through", () => {
		for (const { markdown: text } of tests) {
			expect(render(text)).not.toMatch(/<(script|style|iframe|img|svg|object|embed|form|input)\b/i);
			expect(render(text)).not.toMatch(/href="\s*(javascript|data|vbscript|file):/i);
		}
	});
});

/** The standard leaves line ends between blocks, the form of an empty element and references for characters open. */
function normal(html: string): string {
	return html
		.replace(/&#(\d{3,});/g, (_, code) => String.fromCodePoint(Number(code)))
		.replace(/<(hr|br) \/>/g, "<$1>")
		.replace(/>\s*\n\s*</g, "><")
		.replace(/\s*\n\s*/g, "\n")
		.trim();
}
