/** How many drills each filter value would leave. */

import { FACETS, type Facet, type Filters } from "./choice.ts";

/** For each facet, by value, drills under the other facets' filters. */
export type FacetCounts = Readonly<Record<Facet, ReadonlyMap<string, number>>>;

/** Value ids of a drill. */
export type ValuesOf = (drill: number, facet: Facet) => readonly string[];

/** Whether a drill has a chosen value of every facet in which something is chosen, but for one. */
export function fits(drill: number, filters: Filters, valuesOf: ValuesOf, but?: Facet): boolean {
	return FACETS.every((facet) => {
		const chosen = filters[facet];
		if (facet === but || chosen === undefined || chosen.length === 0) return true;
		return valuesOf(drill, facet).some((value) => chosen.includes(value));
	});
}

/** @param values every value of each facet: those of no drill are counted as 0 */
export function countValues(
	drills: Iterable<number>,
	filters: Filters,
	values: Readonly<Record<Facet, readonly { readonly id: string }[]>>,
	valuesOf: ValuesOf,
): FacetCounts {
	const counts = new Map(FACETS.map((facet) => [facet, new Map(values[facet].map(({ id }) => [id, 0]))]));
	const chosen = FACETS.filter((facet) => (filters[facet]?.length ?? 0) > 0);
	for (const drill of drills) {
		const missed = chosen.filter((facet) => !fits(drill, { [facet]: filters[facet] ?? [] }, valuesOf));
		// What misses one facet's filter still counts for that facet's values, what misses two for none.
		const [only] = missed;
		if (missed.length > 1) continue;
		for (const facet of only === undefined ? FACETS : [only]) {
			const byValue = counts.get(facet);
			for (const id of valuesOf(drill, facet)) byValue?.set(id, (byValue.get(id) ?? 0) + 1);
		}
	}
	return Object.fromEntries(counts) as unknown as FacetCounts;
}
