/** Slips in the fields of a page, as people make them: each one message, at its spot, in plain words. */

import { describe, expect, it } from "vitest";
import { explainYaml } from "../../scripts/read/explain-yaml.ts";

/** What the YAML library would say; a director never reads it. */
const JARGON = /implicit|scalar|flow|block (?:map|sequence|scalar)|node|token|stream|collection|directive/i;

const SLIPS: readonly (readonly [slip: string, text: string, at: string, words: RegExp])[] = [
	["the page's text above the closing hyphens", "week: 2\nWrite this down.\n", "2:1", /is no field/],
	["the same under a list", "a:\n  b: []\nWrite this down.\n", "3:1", /is no field/],
	["a field without its colon", "title: Roll\napparatus floor\nlevels: [a]\n", "2:1", /is no field/],
	["no space after the colon", "title:Roll\napparatus: floor\n", "1:1", /a colon and a space/],
	["no space after the hyphen of a list", "levels:\n- a\n-b\n", "3:1", /a hyphen and a space/],
	["a list that is not closed", "levels: [a, b\napparatus: floor\n", "1:9", /not closed: `\]`/],
	["a block that is not closed", "blocks:\n  - {a: 1\n  - {a: 2}\n", "2:5", /not closed: `\}`/],
	["a bracket too many", "levels: [a, b]]\n", "1:15", /closes nothing/],
	["a quote that is not closed", 'title: "Roll\napparatus: floor\n', "1:8", /quote .* not closed/],
	["words after a quoted word", 'title: "Egg" rock\n', "1:14", /quotes around the whole text/],
	["an apostrophe between single quotes", "title: 'Coach's egg'\n", "1:15", /quotes around the whole text/],
	["the same in a list", "cues: ['It's', b]\n", "1:12", /item between brackets had ended/],
	["a text that starts with a sign", "title: @home\n", "1:8", /start with `@`/],
	["a text that starts with a backquote", "title: `x`\n", "1:8", /start with a backquote/],
	["a colon inside a text", "summary: One: two\n", "1:10", /put quotes around the text/],
	["a colon inside a text in brackets", "b:\n  - {a: x, note: Go: now}\n", "2:18", /between brackets/],
	["a line indented too far", "a:\n  b: 1\n   c: 2\n", "3:4", /further left or right/],
	[
		"the same at the left, below a text of two lines",
		"a: one\n  two\n b: 2\n",
		"3:2",
		/further left or right/,
	],
	[
		"a field of a list's item that misses its column",
		"a:\n   - b: 1\n    c: 2\n",
		"3:5",
		/further left or right/,
	],
	["a line not indented far enough", "a:\n    b: 1\n  c: 2\n", "3:3", /further left or right/],
	["a tab", "a:\n\tb: 1\n", "2:1", /A tab stands/],
	["a backslash", 'title: "C:\\dir"\n', "1:11", /use single quotes/],
	["a field twice", "a: 1\na: 2\n", "2:1", /same field stands here twice/],
];

describe("a slip in the fields", () => {
	it.each(SLIPS)("%s", (_slip, text, at, words) => {
		const faults = explainYaml(text);
		expect(faults.map(({ line, column }) => `${line}:${column}`)).toEqual([at]);
		expect(faults[0]?.what).toMatch(words);
		expect(faults[0]?.what).not.toMatch(JARGON);
	});

	it("is told with the text that was meant: quotes that held an apostrophe are none of it", () => {
		expect(explainYaml("title: 'Coach's egg'\n")[0]?.fix).toBe('Write `title: "Coach\'s egg"`.');
	});
});
