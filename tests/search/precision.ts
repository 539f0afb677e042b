/** Precision at 5 of the held queries, as their rule says (held-queries.ts). */

import type { HeldQuery } from "./held-queries.ts";
import type { Find } from "./judge.ts";
import type { WrittenDrill } from "./second-reader.ts";

export interface Precision {
	readonly query: HeldQuery;
	readonly precision: number;
	/** How many drills answer. */
	readonly answers: number;
	/** The first five, those that do not answer in brackets. */
	readonly first: readonly string[];
}

export function precisionOf(
	find: Find,
	query: HeldQuery,
	drills: ReadonlyMap<string, WrittenDrill>,
): Precision {
	const answers = [...drills.values()].filter(query.fits);
	const places = Math.min(5, answers.length);
	const right = new Set(answers.map(({ id }) => id));
	const first = find(query.words).slice(0, places);
	return {
		query,
		precision: first.filter((id) => right.has(id)).length / Math.max(1, places),
		answers: answers.length,
		first: first.map((id) => (right.has(id) ? id : `(${id})`)),
	};
}
