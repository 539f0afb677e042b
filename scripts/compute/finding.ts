/** Findings in the words of the catalogue. */

import type { DataPath, Finding, Source } from "../model.ts";
import { CATALOGUE, type CatalogueEntry, type Code } from "../problems.ts";

/** A finding of this code, with a fix of its own where the case allows a better one. */
export function finding(
	code: Extract<Code, `H3${string}`>,
	weight: Finding["weight"],
	what: string,
	at: { readonly source: Source; readonly path: DataPath },
	about: Finding["about"],
	fix?: string,
): Finding {
	const entry: CatalogueEntry = CATALOGUE[code];
	return {
		code,
		weight,
		what,
		why: entry.why,
		fix: fix ?? entry.fix,
		source: at.source,
		path: at.path,
		about,
	};
}

/** "1 week", "3 weeks". */
export function counted(count: number, one: string, many = `${one}s`): string {
	return `${count} ${count === 1 ? one : many}`;
}

/** "a", "a and b", "a, b and c"; beyond `most`, the rest is counted. */
export function listed(words: readonly string[], most = 4, join: "and" | "or" = "and"): string {
	const shown =
		words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words;
	return shown.length < 2 ? (shown[0] ?? "") : `${shown.slice(0, -1).join(", ")} ${join} ${shown.at(-1)}`;
}

/** A number for a sentence, to one decimal. */
export function inWords(value: number): string {
	return String(Math.round(value * 10) / 10);
}

/** "1 minute", "2.5 minutes". */
export function inMinutes(value: number): string {
	return `${inWords(value)} ${inWords(value) === "1" ? "minute" : "minutes"}`;
}
