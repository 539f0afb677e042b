/**
 * French typography over every text of `words/fr.ts`, static or of a function: what stands before and
 * after marks, quotes, and one apostrophe throughout.
 *
 * Source of the rules: Lexique des règles typographiques en usage à l'Imprimerie nationale (from memory:
 * a no-break space before : ; ! ? % and inside « », none before . and ,). The thin space that it has
 * before ; ! ? is in no file of the handbook's typeface, so the whole no-break space stands for it.
 */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";

const FILE = "scripts/words/fr.ts";

/** What must not be found, and why. Backquoted code has been taken out before. */
const RULES: readonly (readonly [wrong: RegExp, why: string])[] = [
	[/(?<!\u00a0)[;!?%»](?=\s|$)/u, "a no-break space goes before ; ! ? % »"],
	[/(?<![\u00a0\d])(?<!https?):(?=\s|$)/u, "a no-break space goes before :"],
	[/«(?!\u00a0)/u, "a no-break space goes after «"],
	[/\u00a0(?![;:!?%»°\p{L}\p{N}])/u, "a no-break space stands before nothing"],
	[/\s[.,)\]…](?=\s|$)/u, "no space before . , ) ] …"],
	[/[’“”]|(?<![=>])"/u, "quotes are « », the apostrophe is the one of the keyboard"],
	[/\.\.\./u, "three dots are one sign"],
	[/ {2}/u, "two spaces"],
];

/** The texts that a file of words holds, by line; in a template `x` stands for what is filled in. */
function textsIn(source: string): readonly { readonly line: number; readonly text: string }[] {
	const found: { line: number; text: string }[] = [];
	let at = 0;
	const isAt = (text: string) => source.startsWith(text, at);
	const read = (end: string): void => {
		const line = source.slice(0, at).split("\n").length;
		let text = "";
		for (at += 1; !isAt(end); at += 1) {
			if (isAt("\\")) at += 1;
			if (end === "`" && isAt("${")) {
				at += 2;
				readCode("}");
				text += "x";
			} else text += source[at];
		}
		found.push({ line, text });
	};
	const readCode = (end: string): void => {
		for (; at < source.length && (end === "" || !isAt(end)); at += 1) {
			if (isAt("/*")) at = source.indexOf("*/", at) + 1;
			else if (isAt("//")) at = source.indexOf("\n", at);
			else if (isAt("{")) {
				at += 1;
				readCode("}");
			} else if (isAt('"') || isAt("'") || isAt("`")) read(source[at] ?? "");
		}
	};
	readCode("");
	return found;
}

describe("French typography", () => {
	it("holds over every text", () => {
		const all = textsIn(readFileSync(join(REPOSITORY, FILE), "utf8"));
		const wrong = all
			// The example of a file is YAML.
			.filter(({ text }) => !text.startsWith("---"))
			.flatMap(({ line, text }) => {
				const words = text.replaceAll(/`[^`]*`/g, "x");
				return RULES.filter(([rule]) => rule.test(words)).map(([, why]) => `${line}: ${why}: ${words}`);
			});
		expect(all.length).toBeGreaterThan(1500);
		expect(wrong).toEqual([]);
	});
});
