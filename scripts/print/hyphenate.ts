/**
 * Marks where words of the sheets may be broken, with soft hyphens: browsers without their own
 * dictionaries, as most that print without a window are, break no word by `hyphens: auto`.
 *
 *   1. find the patterns of the club's language (Liang's algorithm, the patterns that TeX uses)
 *   2. go through the markup; leave headings, numbers of pages, drawings and code as they are
 *   3. put soft hyphens into the words of at least seven letters that are left
 */

import createHyphenator from "hyphen";
import { isProgramFile, loadFromPackage, packageFolder } from "../files/program.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";
import { digestOf } from "./sheet-cache.ts";

/** Shorter words stay whole. */
const SHORTEST = 7;

/** Classes whose text stays as it is: numbers of pages, and the edition, which is found again by its words. */
const KEPT_CLASS = / class="(?:ref|cover-edition)[" ]/;

/** Elements whose text stays as it is. */
const LEFT_ALONE = /^(h[1-6]|svg|code|pre|thead|title|style)$/;

/** A way to hyphenate, and what stands for it: where two have the same name, so are their results. */
export interface Hyphenation {
	readonly name: string;
	readonly hyphenate: (markup: string) => string;
}

/** The hyphenation of a language; markup is hyphenated when it is asked for, since most was before. */
export function hyphenationOf(language: string): Hyphenation {
	let own: ((markup: string) => string) | undefined;
	return {
		name: digestOf([language, programFingerprint()]),
		hyphenate: (markup) => {
			own ??= hyphenatorOf(language);
			return own(markup);
		},
	};
}

/**
 * A function that hyphenates markup; for a language without patterns it leaves it as it is.
 *
 * @param language BCP 47; a bare "en" is British
 */
export function hyphenatorOf(language: string): (markup: string) => string {
	const patterns = patternsOf(language);
	if (patterns === undefined) return (markup) => markup;
	const hyphenate = createHyphenator(patterns, { async: false, minWordLength: SHORTEST });
	return (markup) => {
		/** The elements left alone that are open: within them all depends on the outermost. */
		let alone: string | undefined;
		let depth = 0;
		return markup.replace(/<(\/?)([a-z][a-z0-9]*)\b[^>]*>|[^<]+/gi, (piece, end: string, name = "") => {
			if (name === "") return alone === undefined ? hyphenate(piece) : piece;
			if (alone === undefined) {
				if (end === "" && (LEFT_ALONE.test(name) || KEPT_CLASS.test(piece))) {
					alone = name;
					depth = 1;
				}
			} else if (name === alone && !piece.endsWith("/>")) {
				depth += end === "" ? 1 : -1;
				if (depth === 0) alone = undefined;
			}
			return piece;
		});
	};
}

function patternsOf(language: string): object | undefined {
	const fileOf = (name: string) => `patterns/${name}.js`;
	const isThere = (name: string) => isProgramFile(`${packageFolder("hyphen")}/${fileOf(name)}`);
	const [base = ""] = language.toLowerCase().split("-");
	const names = [language.toLowerCase(), FIRST_CHOICE[base] ?? base];
	const name = names.find((one) => /^[a-z0-9-]+$/.test(one) && isThere(one));
	if (name === undefined) return undefined;
	const patterns: unknown = loadFromPackage("hyphen", fileOf(name));
	return typeof patterns === "object" && patterns !== null ? patterns : undefined;
}

/** Languages with several sets of patterns. */
const FIRST_CHOICE: Readonly<Record<string, string>> = { en: "en-gb", de: "de-1996", el: "el-monoton" };
