/**
 * Holds a search against the judged queries: what a coach typed, and the drills that somebody who
 * read all of them says answer it. `best` is what was meant, `also` is of use.
 *
 * The queries were written from how coaches talk, before there was an index to look at.
 */

import { readFileSync } from "node:fs";
import type { SearchIndex } from "../../scripts/search/engine.ts";

export interface JudgedQuery {
	readonly words: string;
	/** Of its kind: plain, misspelt, joined (or split), synonym, inside (cues, faults, bodies), nothing. */
	readonly kind: string;
	readonly best: readonly string[];
	readonly also: readonly string[];
}

export interface Verdict {
	readonly query: JudgedQuery;
	/** Normalised discounted cumulative gain of the first ten; gain 3 for best, 1 for also. */
	readonly ndcg: number;
	/** Share of all that answer (of twenty, where more do) among the first twenty. */
	readonly recall: number;
	readonly found: readonly string[];
}

/** Finds ids for words, best first. */
export type Find = (words: string) => readonly string[];

/** The judged queries, kept beside this file. */
export function judgedQueries(): readonly JudgedQuery[] {
	return JSON.parse(readFileSync(new URL("./judged.json", import.meta.url), "utf8"));
}

export function findWith(index: SearchIndex): Find {
	return (words) => index.search(words).hits.map((hit) => index.entries[hit.drill]?.id ?? "");
}

/** Verdicts on all queries that have an answer. */
export function judge(find: Find, queries: readonly JudgedQuery[]): readonly Verdict[] {
	return queries.filter((query) => query.best.length > 0).map((query) => verdict(find, query));
}

function verdict(find: Find, query: JudgedQuery): Verdict {
	const found = find(query.words);
	const gains = new Map<string, number>([
		...query.also.map((id) => [id, 1] as const),
		...query.best.map((id) => [id, 3] as const),
	]);
	const ideal = [...gains.values()].sort((a, b) => b - a);
	const dcg = (values: readonly number[]) =>
		values.slice(0, 10).reduce((sum, gain, i) => sum + gain / Math.log2(i + 2), 0);
	const answered = found.slice(0, 20).filter((id) => gains.has(id)).length;
	return {
		query,
		ndcg: dcg(found.map((id) => gains.get(id) ?? 0)) / dcg(ideal),
		recall: answered / Math.min(20, gains.size),
		found,
	};
}

export function mean(values: readonly number[]): number {
	return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}
