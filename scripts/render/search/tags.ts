/**
 * What drills are tagged with, as an index: a drill has, in each facet's field, the terms of all its
 * values. It is worked out for a term when that is asked for, from the values that have the term, so
 * that opening the search costs nothing for tags nobody asks about.
 */

import type { Places, PostingsSource } from "./postings.ts";

export interface TagField {
	/** For each drill, the places of its values. */
	readonly drills: readonly (readonly number[])[];
	/** For each value, its terms. */
	readonly values: readonly (readonly string[])[];
}

/** The index of some facets, one field for each. */
export function indexTags(fields: readonly TagField[]): PostingsSource {
	/** For each term and field, how often each of its values has the term. */
	const at = new Map<string, Map<number, Map<number, number>>>();
	fields.forEach(({ values }, field) => {
		values.forEach((terms, value) => {
			for (const term of terms) {
				const byField = made(at, term, () => new Map<number, Map<number, number>>());
				const byValue = made(byField, field, () => new Map<number, number>());
				byValue.set(value, (byValue.get(value) ?? 0) + 1);
			}
		});
	});
	const lists: (readonly (readonly number[])[] | undefined)[] = [];
	const drillsOf = (field: number, value: number) => {
		lists[field] ??= listsOf(fields[field] as TagField);
		return lists[field]?.[value] ?? [];
	};
	return {
		lengths: fields.map(({ drills, values }) =>
			Uint32Array.from(drills, (own) => {
				let length = 0;
				for (const value of own) length += values[value]?.length ?? 0;
				return length;
			}),
		),
		has: (term) => at.has(term),
		places(term): Places | undefined {
			const byField = at.get(term);
			if (byField === undefined) return undefined;
			const places = { fields: [] as number[], drills: [] as number[], times: [] as number[] };
			for (const [field, byValue] of byField) {
				const times = new Map<number, number>();
				for (const [value, often] of byValue) {
					for (const drill of drillsOf(field, value)) times.set(drill, (times.get(drill) ?? 0) + often);
				}
				for (const [drill, often] of times) {
					places.fields.push(field);
					places.drills.push(drill);
					places.times.push(often);
				}
			}
			return places;
		},
	};
}

/** For each value, its drills. */
function listsOf({ drills, values }: TagField): readonly (readonly number[])[] {
	const lists = values.map((): number[] => []);
	drills.forEach((own, drill) => {
		for (const value of own) lists[value]?.push(drill);
	});
	return lists;
}

function made<K, V>(map: Map<K, V>, key: K, make: () => V): V {
	let value = map.get(key);
	if (value === undefined) {
		value = make();
		map.set(key, value);
	}
	return value;
}
