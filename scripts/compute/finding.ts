/** Findings in the words of the catalogue. */

import type { Curriculum, DataPath, Finding, Source } from "../model.ts";
import type { FindingCode } from "../problems.ts";
import type { Words } from "../words/words.ts";

/** The file that plans a week; the term's where nothing does. */
export function sourceOfWeek(curriculum: Curriculum, week: number): Source {
	return curriculum.weeks.find((plan) => plan.week === week)?.source ?? curriculum.term.source;
}

/**
 * A finding of this code, with a fix of its own where the case allows a better one.
 *
 * @param count how often the one cause shows, where it does so more than once
 */
export function finding(
	words: Words,
	code: FindingCode,
	weight: Finding["weight"],
	what: string,
	at: { readonly source: Source; readonly path: DataPath },
	about: Finding["about"],
	fix?: string,
	count = 1,
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
		...(count === 1 ? {} : { count }),
	};
}
