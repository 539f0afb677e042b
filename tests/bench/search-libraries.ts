/**
 * Two general search libraries over the same drills, set up as their documentation suggests for texts
 * of several fields: names of tags written out, titles and names counting most, slips and unfinished
 * words allowed.
 */

import Fuse from "fuse.js";
import MiniSearch from "minisearch";
import { FACETS } from "../../scripts/search/choice.ts";
import type { SearchDocument, SearchOptions } from "../../scripts/search/engine.ts";

/** A search by words, as the judge asks it. */
export interface Searcher {
	readonly name: string;
	/** Ids, best first. */
	find(words: string): readonly string[];
	/** Everything a page would have to load to search so. */
	readonly file: string;
}

interface FlatDrill {
	readonly id: string;
	readonly title: string;
	readonly aliases: string;
	readonly tags: string;
	readonly summary: string;
	readonly cues: string;
	readonly faults: string;
	readonly body: string;
}

/** How much a match counts, as in the handbook's own search. */
const WEIGHTS = { title: 4, aliases: 3, tags: 2, summary: 1.5, cues: 0.8, faults: 0.7, body: 0.5 };
const FIELDS = Object.keys(WEIGHTS) as (keyof typeof WEIGHTS)[];
/** Facets whose values have names that somebody may type. */
const TAGS = FACETS.filter((facet) => facet !== "week" && facet !== "minutes");

export function miniSearch(drills: readonly SearchDocument[], options: SearchOptions): Searcher {
	const index = new MiniSearch<FlatDrill>({
		fields: FIELDS,
		storeFields: ["title", "summary"],
		searchOptions: { boost: WEIGHTS, prefix: true, fuzzy: 0.2 },
	});
	index.addAll(flat(drills, options));
	return {
		name: "MiniSearch 7",
		find: (words) => index.search(words).map(({ id }) => String(id)),
		file: JSON.stringify(index),
	};
}

export function fuse(drills: readonly SearchDocument[], options: SearchOptions): Searcher {
	const all = flat(drills, options);
	const keys = FIELDS.map((name) => ({ name, weight: WEIGHTS[name] }));
	// Word by word: taken as one pattern, a query of several words finds next to nothing.
	const index = new Fuse(all, { keys, ignoreLocation: true, threshold: 0.3, useTokenSearch: true });
	return {
		name: "Fuse.js 7",
		find: (words) => index.search(words).map(({ item }) => item.id),
		file: JSON.stringify([all, index.getIndex().toJSON()]),
	};
}

function flat(drills: readonly SearchDocument[], { values }: SearchOptions): readonly FlatDrill[] {
	const names = new Map(
		TAGS.map((facet) => [
			facet,
			new Map(values[facet].map(({ id, name, aliases }) => [id, [name, ...aliases].join(" ")])),
		]),
	);
	return drills.map(({ id, title, aliases, summary, facets, cues, faults, body }) => ({
		id,
		title,
		aliases: aliases.join(" "),
		tags: TAGS.flatMap((facet) =>
			(facets[facet] ?? []).map((value) => names.get(facet)?.get(value) ?? ""),
		).join(" "),
		summary,
		cues: cues.join(" "),
		faults: faults.map(({ see, say }) => `${see}. ${say}`).join(" "),
		body,
	}));
}
