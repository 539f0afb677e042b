import { describe, expect, it } from "vitest";
import { hyphenatorOf } from "../../scripts/print/hyphenate.ts";

/** Shows soft hyphens. */
const shown = (text: string) => text.replaceAll("\u00ad", "|");

describe("hyphenation", () => {
	it("marks long words by the patterns of the language", () => {
		expect(shown(hyphenatorOf("en")("<p>supervision of the landing</p>"))).toMatch(
			/su\|?per\|vi\|?sion of the land\|ing/,
		);
		expect(shown(hyphenatorOf("fr-CA")("<p>gymnastique</p>"))).toBe("<p>gym|nas|tique</p>");
		expect(shown(hyphenatorOf("de")("<p>Schwebebalken</p>"))).toBe("<p>Schwe|be|bal|ken</p>");
	});

	it("leaves headings, page numbers, drawings and attributes alone, and goes on after them", () => {
		const markup =
			'<h2>Understanding</h2><a class="ref" href="#understanding"><span>Understanding</span></a><svg><title>Understanding</title><g><svg></svg>Understanding</g></svg><p title="understanding">short</p>';
		const hyphenate = hyphenatorOf("en");
		expect(hyphenate(markup)).toBe(markup);
		expect(shown(hyphenate(`${markup}<p>landing</p>`))).toBe(`${markup}<p>land|ing</p>`);
	});

	it("breaks no mark that stands for a letter", () => {
		expect(hyphenatorOf("en")("<p>&amp;&#39;&quot; &lt;tuck&gt;</p>")).toBe(
			"<p>&amp;&#39;&quot; &lt;tuck&gt;</p>",
		);
	});

	it("leaves text as it is where the language has no patterns, or is no language", () => {
		for (const language of ["tlh", "../package"]) {
			expect(hyphenatorOf(language)("<p>understanding</p>")).toBe("<p>understanding</p>");
		}
	});
});
