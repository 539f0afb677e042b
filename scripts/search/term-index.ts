/**
 * Ready-made terms (normalise.ts) in the search library: what stands in which field of what, and how well
 * a term fits it (BM25+ by MiniSearch). How parts of a query combine is the engine's business.
 */

import MiniSearch from "minisearch";

/** What has a term, each once, and how well the term fits it. */
export interface Found {
	readonly ids: readonly number[];
	readonly scores: readonly number[];
}

/** Terms of each field. */
export type Fields<F extends string> = Readonly<Partial<Record<F, readonly string[]>>>;

/** More answers than this are not remembered. */
const MOST_KEPT = 500;
/** No term has one in it. */
const BETWEEN = " ";

export class TermIndex<F extends string> {
	readonly #library: MiniSearch<{ readonly id: number; readonly fields: Fields<F> }>;
	readonly #kept = new Map<string, Found>();

	/** @param weights what a match in each field counts */
	constructor(weights: Readonly<Record<F, number>>) {
		const split = (text: string) => text.split(BETWEEN);
		this.#library = new MiniSearch({
			fields: Object.keys(weights),
			extractField: (document, name) =>
				name === "id" ? document.id : (document.fields[name as F]?.join(BETWEEN) as string),
			tokenize: split,
			processTerm: (term) => term,
			searchOptions: { boost: weights as Record<string, number> },
		});
	}

	add(id: number, fields: Fields<F>): void {
		this.#library.add({ id, fields });
		this.#kept.clear();
	}

	has(term: string): boolean {
		return this.find(term).ids.length > 0;
	}

	find(term: string): Found {
		let found = this.#kept.get(term);
		if (found === undefined) {
			found = this.#search([term], () => 1);
			if (this.#kept.size >= MOST_KEPT) this.#kept.clear();
			this.#kept.set(term, found);
		}
		return found;
	}

	/** What has any of the terms: their scores by their weights, added up. */
	findAny(terms: readonly string[], weights: readonly number[]): Found {
		const [only] = terms;
		if (terms.length === 1 && weights[0] === 1 && only !== undefined) return this.find(only);
		return this.#search(terms, (place) => weights[place] ?? 1);
	}

	/** What has all of the terms in these fields, the last of which may be only begun; best first. */
	findAll(terms: readonly string[], isLastBegun: boolean, fields: readonly F[]): readonly number[] {
		const prefix = (_: string, place: number) => isLastBegun && place === terms.length - 1;
		const results = this.#library.search(terms.join(BETWEEN), {
			combineWith: "AND",
			prefix,
			fields: [...fields],
		});
		return results.map(({ id }) => id);
	}

	#search(terms: readonly string[], weightAt: (place: number) => number): Found {
		const results = this.#library.search(terms.join(BETWEEN), { boostTerm: (_, place) => weightAt(place) });
		return {
			ids: results.map(({ id }) => id),
			// The library multiplies by how many of the terms were met: here they are ways to say one thing.
			scores: results.map(({ score, queryTerms }) => score / queryTerms.length),
		};
	}
}
