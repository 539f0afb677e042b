/** Pages out of their texts, against pages straight from their views. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { documentOf } from "../../layouts/pages/document.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { highlightCode } from "../../scripts/render/highlight-code.ts";
import { Html, oneByte, raw } from "../../scripts/render/html.ts";
import { isPageText, PageTexts, readPage, readShared, sharedText } from "../../scripts/render/page-text.ts";
import { frameFacts, type SitePage, sitePages } from "../../scripts/render/site.ts";
import { sitePage } from "../../scripts/render/site-page.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";

const highlight = (language: string, code: string) => raw(highlightCode(code, language));

function handbookOf(club: string) {
	const { handbook } = openHandbook(club, { highlight: highlightCode });
	if (handbook === undefined) throw new Error("the club has errors");
	return handbook;
}

describe.each([
	["the demo club", REPOSITORY],
	["a small club with a full plan", `${FIXTURES}clubs/full-pages`],
] as const)("every page of %s", (_, club) => {
	it("is the same out of its text, which holds no character beyond Latin-1", () => {
		const handbook = handbookOf(club);
		const options = { kept: true, printed: new Set(["print/term-overview.pdf"]) };
		const facts = sharedText(handbook.curriculum, frameFacts(handbook, options));
		const shared = readShared(facts, wordsFor(handbook.words.language));
		const texts = new PageTexts(handbook.curriculum);
		const kinds = new Set<string>();
		for (const page of sitePages(handbook, options)) {
			const text = texts.of(page);
			expect(isPageText(text)).toBe(true);
			expect(/[^\0-\xff]/.test(text), page.address).toBe(false);
			const again = readPage(text, shared);
			expect(again.address).toBe(page.address);
			expect(documentOf(again, highlight), page.address).toBe(documentOf(page, highlight));
			kinds.add(page.kind);
		}
		expect(kinds.size).toBeGreaterThan(30);
	});
});

describe("the text of a page", () => {
	const handbook = handbookOf(`${FIXTURES}clubs/full-pages`);
	const texts = new PageTexts(handbook.curriculum);
	const shared = readShared(
		sharedText(handbook.curriculum, frameFacts(handbook)),
		wordsFor(handbook.words.language),
	);
	const pageOf = (view: unknown): SitePage =>
		sitePage("about", "about/", "Title", { ...ABOUT, frame: shared.frame }, () => view as never);
	const back = (view: unknown) => readPage(texts.of(pageOf(view)), shared).view as unknown;

	it("gives any value back", () => {
		const html = fc.string({ unit: "binary" }).map((text) => new Html(text));
		const strings = fc.oneof(
			fc.string({ unit: "binary" }),
			fc.constantFrom("<", "#tuck", "~", "~~", "<p>", '"', "\\", "\u2028", "é", "→"),
		);
		const value = fc.letrec((tie) => ({
			any: fc.oneof(
				{ depthSize: "small" },
				strings,
				html,
				fc.integer(),
				fc.boolean(),
				tie("list"),
				tie("record"),
			),
			list: fc.array(tie("any"), { maxLength: 4 }),
			record: fc.dictionary(fc.constantFrom("a", "b", "link", "to"), tie("any"), { noNullPrototype: true }),
		})).any;
		fc.assert(
			fc.property(value, (view) => {
				expect(back(view)).toEqual(view);
			}),
		);
	});

	it("names a shape of the club, leaves out what is undefined, and keeps its place in a list", () => {
		const shape = [...handbook.curriculum.shapes.values()][0];
		const { source: _, drills: __, ...plain } = shape as NonNullable<typeof shape>;
		expect(back({ shape, none: undefined, list: [1, undefined, 2] })).toEqual({
			shape: plain,
			list: [1, undefined, 2],
		});
		expect(texts.of(pageOf({ shape }))).toContain(`{"shape":"#${plain.id}"}`);
	});

	it("refuses what it cannot say", () => {
		for (const view of [() => 1, new Date(), Number.NaN, Number.POSITIVE_INFINITY, new Map()])
			expect(() => texts.of(pageOf({ view }))).toThrow(TypeError);
	});
});

it("markup has no character beyond Latin-1, and says the same", () => {
	expect(oneByte("a → b \u{1f600} é")).toBe("a &#8594; b &#128512; é");
	expect(raw("→").text).toBe("&#8594;");
});

const ABOUT = { description: undefined, crumbs: [], picture: undefined };
