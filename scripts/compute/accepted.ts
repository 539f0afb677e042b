/**
 * Accepted findings: what the director lets stand on purpose, with her reason.
 *
 * A finding is accepted where an entry of _data/accepted.yaml names its code and everything the entry
 * says it is about is so. An entry that matches nothing is told, and so is one whose last day is before
 * the term's end and past the week of the finding.
 */

import type { Acceptance, Curriculum, Finding } from "../model.ts";
import type { Words } from "../words/words.ts";
import { teachingWeeks } from "./calendar.ts";
import { finding } from "./finding.ts";

export interface AcceptedFinding {
	readonly finding: Finding;
	readonly by: Acceptance;
}

/** Findings parted into those that stand and those that are accepted; entries that match nothing are findings of their own. */
export function partAccepted(
	curriculum: Curriculum,
	all: readonly Finding[],
	words: Words,
): { readonly standing: readonly Finding[]; readonly accepted: readonly AcceptedFinding[] } {
	const { accepted: entries } = curriculum;
	if (entries.length === 0) return { standing: all, accepted: [] };
	const used = new Set<Acceptance>();
	const standing: Finding[] = [];
	const accepted: AcceptedFinding[] = [];
	for (const one of all) {
		const by = entries.find((entry) => matches(entry, one) && holdsFor(curriculum, entry, one));
		if (by === undefined) standing.push(one);
		else {
			used.add(by);
			accepted.push({ finding: one, by });
		}
	}
	const say = words.findings.hall;
	const idle = entries
		.filter((entry) => !used.has(entry))
		.map((entry) =>
			finding(
				words,
				"H342",
				"note",
				entry.until !== undefined && all.some((one) => matches(entry, one))
					? say.ended(entry.finding, entry.until, entry.reason)
					: say.unmatched(entry.finding, entry.reason),
				{ source: entry.source, path: entry.path },
				entry.about,
			),
		);
	return { standing: [...standing, ...idle], accepted };
}

/** Whether the director accepts a finding of this code about these things. */
export function isAccepted(curriculum: Curriculum, one: Pick<Finding, "code" | "about">): boolean {
	return curriculum.accepted.some((entry) => matches(entry, one) && holdsFor(curriculum, entry, one));
}

function matches(entry: Acceptance, one: Pick<Finding, "code" | "about">): boolean {
	return (
		entry.finding === one.code &&
		Object.entries(entry.about).every(([key, value]) => Reflect.get(one.about, key) === value)
	);
}

/** Whether the entry still holds in the week of the finding; of the whole term, at its start. */
function holdsFor({ term }: Curriculum, { until }: Acceptance, one: Pick<Finding, "about">): boolean {
	if (until === undefined) return true;
	const weeks = teachingWeeks(term);
	const monday = weeks[(one.about.week ?? 1) - 1]?.monday;
	return monday === undefined || monday <= until;
}
