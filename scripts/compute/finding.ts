/** Findings in the words of the catalogue. */

import type { DataPath, Finding, Source } from "../model.ts";
import type { Code } from "../problems.ts";
import type { Words } from "../words/words.ts";

/** A finding of this code, with a fix of its own where the case allows a better one. */
export function finding(
	words: Words,
	code: Extract<Code, `H3${string}`>,
	weight: Finding["weight"],
	what: string,
	at: { readonly source: Source; readonly path: DataPath },
	about: Finding["about"],
	fix?: string,
): Finding {
	const entry = words.catalogue[code];
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
