/** How many drills each filter value would leave. */

import { FACETS, type Facet, type Filters } from "./choice.ts";

/** For each facet, by value, drills under the other facets' filters. */
export type FacetCounts = Readonly<Record<Facet, ReadonlyMap<string, number>>>;

/** By facet and drill: the places of its values. */
export type Places = readonly (readonly (readonly number[])[])[];

type Values = Readonly<Record<Facet, readonly { readonly id: string }[]>>;

/** The filters in which something is chosen: the facet's place, and for each of its values whether it is. */
export type ChosenPlaces = readonly { readonly facet: number; readonly chosen: readonly boolean[] }[];

export function chosenPlaces(filters: Filters, values: Values): ChosenPlaces {
	return FACETS.flatMap((facet, place) => {
		const ids = filters[facet] ?? [];
		return ids.length === 0
			? []
			: [{ facet: place, chosen: values[facet].map(({ id }) => ids.includes(id)) }];
	});
}

/** Which filter a drill misses: the facet's place; none, or more than one. */
const NONE = -1;
const SEVERAL = -2;

function missed(drill: number, filters: ChosenPlaces, places: Places): number {
	let miss = NONE;
	for (const { facet, chosen } of filters) {
		if (places[facet]?.[drill]?.some((place) => chosen[place]) === true) continue;
		if (miss !== NONE) return SEVERAL;
		miss = facet;
	}
	return miss;
}

/** Whether a drill has a chosen value of every facet in which something is chosen. */
export function fits(drill: number, filters: ChosenPlaces, places: Places): boolean {
	return missed(drill, filters, places) === NONE;
}

/** Values of no drill are counted as 0. */
export function countValues(
	drills: Iterable<number>,
	filters: ChosenPlaces,
	values: Values,
	places: Places,
): FacetCounts {
	const counts = FACETS.map((facet) => new Uint32Array(values[facet].length));
	const add = (facet: number, drill: number) => {
		const byPlace = counts[facet] as Uint32Array;
		for (const place of places[facet]?.[drill] ?? []) byPlace[place] = (byPlace[place] as number) + 1;
	};
	for (const drill of drills) {
		// What misses one facet's filter still counts for that facet's values, what misses two for none.
		const miss = missed(drill, filters, places);
		if (miss === SEVERAL) continue;
		if (miss !== NONE) add(miss, drill);
		else for (let facet = 0; facet < counts.length; facet++) add(facet, drill);
	}
	return Object.fromEntries(
		FACETS.map((facet, f) => [
			facet,
			new Map(values[facet].map(({ id }, place) => [id, counts[f]?.[place] ?? 0])),
		]),
	) as unknown as FacetCounts;
}
