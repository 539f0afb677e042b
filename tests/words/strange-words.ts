/**
 * A language that nobody speaks, for finding words that stand outside of the languages' files: every
 * Latin letter of the English words is put into a circle (ⓐ). And a club that writes in another
 * alphabet: every Latin letter of its own texts becomes a Greek one. What is left in Latin letters on
 * a page was written by the program.
 */

import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parse, stringify } from "yaml";
import type { Words } from "../../scripts/words/words.ts";

/** Put into circles; markup and placeholders have no letters of their own in words. */
function circled(text: string): string {
	return text.replace(/[A-Za-z]/g, (letter) => {
		const code = letter.charCodeAt(0);
		return String.fromCodePoint(code >= 97 ? 0x24d0 + code - 97 : 0x24b6 + code - 65);
	});
}

/** Every word of a language in circles; what a function is given may be there already. */
export function strangeWords(words: Words): Words {
	const kept = { language: words.language };
	return { ...(strange(words) as Words), ...kept };
}

function strange(value: unknown, key = ""): unknown {
	// Not a word: it decides how a message is treated.
	if (key === "severity") return value;
	if (typeof value === "string") return circled(value);
	if (typeof value === "function") return (...args: readonly unknown[]) => strange(value(...args));
	if (Array.isArray(value)) return value.map((item) => strange(item));
	if (typeof value !== "object" || value === null) return value;
	// Markup made of words that are circled already.
	if (Object.getPrototypeOf(value) !== Object.prototype && Object.getPrototypeOf(value) !== null)
		return value;
	return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, strange(item, name)]));
}

const GREEK = "αβψδεφγηιξκλμνοπϑρστθωβχυζ";

/** In Greek letters, but for `code` and the ids of `[[links]]`. */
function greek(text: string): string {
	return text.replace(/`[^`]*`|\[\[[^\]|]*\]\]|\[\[[^\]|]*\||[A-Za-z]/g, (part) =>
		part.length > 1
			? part
			: ((part === part.toLowerCase() ? GREEK : GREEK.toUpperCase())[part.toLowerCase().charCodeAt(0) - 97] ??
				part),
	);
}

/** Fields that hold a club's own words. */
const TEXTS = new Set(
	"title name summary description do cues see say spotting caution alt caption note theme focus stored emergency aliases easier harder criteria reason text".split(
		" ",
	),
);

/** Writes a club's own words in Greek letters, in place. Files that no page shows are left. */
export function writeInGreek(clubDir: string): void {
	for (const file of readdirSync(clubDir, { recursive: true }).map(String)) {
		const path = join(clubDir, file);
		if (!statSync(path).isFile()) continue;
		const text = /\.(md|yaml)$/.test(file) ? readFileSync(path, "utf8") : "";
		if (file.endsWith(".yaml")) writeFileSync(path, stringify(inGreek(parse(text), "")));
		const [, front = "", body = ""] = /^---\n([\s\S]*?)\n---\n([\s\S]*)$/.exec(text) ?? [];
		if (file.endsWith(".md")) {
			writeFileSync(path, `---\n${stringify(inGreek(parse(front), ""))}---\n${greek(body)}`);
		}
	}
}

function inGreek(value: unknown, key: string): unknown {
	if (typeof value === "string") {
		// What must be seen first is a text among maps; a landmark is named where a station stands.
		return TEXTS.has(key) || key === "ready" || key === "at" ? greek(value) : value;
	}
	if (Array.isArray(value)) return value.map((item) => inGreek(item, key));
	if (typeof value !== "object" || value === null) return value;
	return Object.fromEntries(
		Object.entries(value).map(([name, item]) => [
			// Heights are a map from what stands there, in words.
			key === "heights" ? greek(name) : name,
			inGreek(item, name),
		]),
	);
}
