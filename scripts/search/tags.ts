/**
 * Drills by the words of what they are tagged with. A tag is a whole name and stands once, so that only
 * its kind and its rarity say how much it counts (the rarity of BM25, as in the library); lists are made
 * for the words that somebody asks for, and opening the search costs nothing for the others.
 */

import type { Found } from "./term-index.ts";

export interface TagField {
	/** What a match counts. */
	readonly weight: number;
	/** By drill, the places of its values. */
	readonly drills: readonly (readonly number[])[];
	/** By value, its terms. */
	readonly values: readonly (readonly string[])[];
}

/** What a term that stands once in a field of usual length counts, beside its rarity (BM25+, delta .5). */
const ONCE = 1.5;

export class TagIndex {
	readonly #fields: readonly TagField[];
	/** By term: the fields and places of values that have it. */
	readonly #values = new Map<string, Map<number, Set<number>>>();
	readonly #kept = new Map<string, Found>();

	constructor(fields: readonly TagField[]) {
		this.#fields = fields;
		fields.forEach(({ values }, field) => {
			values.forEach((terms, place) => {
				for (const term of terms) {
					const byField = this.#values.get(term) ?? new Map<number, Set<number>>();
					this.#values.set(term, byField);
					byField.set(field, (byField.get(field) ?? new Set()).add(place));
				}
			});
		});
	}

	find(term: string): Found {
		let found = this.#kept.get(term);
		if (found === undefined) {
			found = this.#look(term);
			this.#kept.set(term, found);
		}
		return found;
	}

	findAny(terms: readonly string[], weights: readonly number[]): Found {
		const scores = new Map<number, number>();
		terms.forEach((term, i) => {
			const found = this.find(term);
			found.ids.forEach((id, at) => {
				scores.set(id, (scores.get(id) ?? 0) + (found.scores[at] ?? 0) * (weights[i] ?? 1));
			});
		});
		return { ids: [...scores.keys()], scores: [...scores.values()] };
	}

	#look(term: string): Found {
		const scores = new Map<number, number>();
		for (const [field, places] of this.#values.get(term) ?? []) {
			const { weight, drills } = this.#fields[field] as TagField;
			const tagged = drills.flatMap((own, drill) => (own.some((place) => places.has(place)) ? [drill] : []));
			const rarity = Math.log(1 + (drills.length - tagged.length + 0.5) / (tagged.length + 0.5));
			for (const drill of tagged) scores.set(drill, (scores.get(drill) ?? 0) + weight * rarity * ONCE);
		}
		return { ids: [...scores.keys()], scores: [...scores.values()] };
	}
}
