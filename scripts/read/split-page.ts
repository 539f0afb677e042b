/**
 * Splits a page into its front matter and its body with gray-matter, whose other languages are
 * switched off: front matter that would run as code is refused before it is looked at.
 */

import matter from "gray-matter";
import type { Code } from "../problems.ts";

export type SplitPage =
	| {
			readonly fault?: undefined;
			/** The YAML between the fences. */
			readonly matter: string;
			readonly body: string;
			/** The line, from 1, on which the body starts. */
			readonly bodyLine: number;
	  }
	| { readonly fault: { readonly code: Code; readonly line: number; readonly what: string } };

const FENCE = /^---[ \t]*$/;

/** Splits a text with Unix line ends. */
export function splitPage(text: string): SplitPage {
	const lines = text.split("\n");
	const first = lines[0] ?? "";
	const language = /^---[ \t]*([^\s-].*)$/.exec(first)?.[1];
	if (language !== undefined && !/^ya?ml\s*$/i.test(language)) {
		return fault("H103", 1, `The front matter says it is \`${language.trim()}\`.`);
	}
	if (!/^---[ \t]*(ya?ml)?[ \t]*$/i.test(first)) {
		return fault("H101", 1, "The page does not start with front matter.");
	}
	const end = lines.findIndex((line, i) => i > 0 && line.startsWith("---"));
	if (end < 0)
		return fault("H101", 1, "The front matter is not closed: no second line of three hyphens follows.");
	if (!FENCE.test(lines[end] ?? "")) {
		return fault("H101", end + 1, "This line should close the front matter and hold three hyphens alone.");
	}
	const page = matter(text, {
		// gray-matter would call the engine for the language it detects; all of them hand the text through unread.
		engines: Object.fromEntries(LANGUAGES.map((name) => [name, { parse: unread, stringify: refuse }])),
	});
	return { matter: page.matter.replace(/^\n/, ""), body: page.content, bodyLine: end + 2 };
}

/** Every name under which gray-matter knows an engine; those that run code are among them. */
const LANGUAGES = [
	"yaml",
	"yml",
	"json",
	"javascript",
	"js",
	"jsLegacy",
	"coffee",
	"coffeescript",
	"cson",
	"toml",
];

function unread(): object {
	return {};
}

function refuse(): never {
	throw new Error("front matter is never written through gray-matter");
}

function fault(code: Code, line: number, what: string): SplitPage {
	return { fault: { code, line, what } };
}
