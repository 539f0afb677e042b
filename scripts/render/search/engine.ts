/**
 * The search: one engine, built once from all drills and opened again in the browser.
 *
 *   createIndex   drills and names → two full-text indexes (heads; bodies) and a bitset for each filter value
 *   toFiles       the indexes as two compact data files: heads first, bodies when there is time
 *   openIndex     the same engine from the files
 *   search        words and filters → drills in order of fit, and a count for every filter value
 *   suggest       an unfinished query → filters it may mean
 *
 * A query is read in parts (normalise.ts). Each part scores the drills that answer it; a drill that
 * answers every part comes first. Where hardly any does, drills that answer most follow, and say what
 * they lack. A part that names something the club tags (a shape, a level) is answered by tags and
 * heads alone; other words are looked for in bodies as well, and weigh less there.
 */

import { Bits } from "./bits.ts";
import { FACETS, type Facet, type Filters, isChosen } from "./choice.ts";
import {
	type Compounds,
	type Concept,
	findCompounds,
	Normaliser,
	type QueryPart,
	type ReadQuery,
	type Repair,
	type WordCounts,
	wordsOf,
} from "./normalise.ts";
import { Postings, type PostingsFile } from "./postings.ts";

/** One drill as the search sees it. */
export interface SearchDocument {
	readonly id: string;
	readonly title: string;
	readonly aliases: readonly string[];
	readonly summary: string;
	/** Value ids of each facet. */
	readonly facets: Filters;
	/** Plain texts. */
	readonly cues: readonly string[];
	readonly faults: readonly string[];
	readonly body: string;
}

/** A value to filter by, with all its names. */
export interface FacetValue {
	readonly id: string;
	readonly name: string;
	readonly aliases: readonly string[];
}

export interface SearchOptions {
	/** BCP 47. */
	readonly language: string;
	/** Values of each facet in the order to offer them. */
	readonly values: Readonly<Record<Facet, readonly FacetValue[]>>;
}

export interface Hit {
	/** The drill's place in the list of all drills. */
	readonly drill: number;
	readonly score: number;
	/** Parts of the query that it does not answer. */
	readonly lacks: readonly string[];
}

export interface SearchResult {
	/** Best first; without words, in the order of the drills. */
	readonly hits: readonly Hit[];
	/** How many of the hits answer every part. */
	readonly whole: number;
	/** For each facet, drills under the present words and the other facets' filters, by value. */
	readonly counts: Readonly<Record<Facet, ReadonlyMap<string, number>>>;
	/** Words that were read as other words. */
	readonly repairs: readonly Repair[];
	/** Parts that no drill answers. */
	readonly unknown: readonly string[];
}

/** A filter that an unfinished query may mean. */
export interface Suggestion {
	readonly facet: Facet;
	readonly value: FacetValue;
	/** Drills under the other words and the filters chosen already. */
	readonly count: number;
	/** The words that stay when the filter takes its own away. */
	readonly rest: string;
}

/** What a list of results shows of a drill. */
export interface Entry {
	readonly id: string;
	readonly title: string;
	readonly summary: string;
	/** Places of its values in the list of values, by facet. */
	readonly facets: readonly (readonly number[])[];
}

export interface HeadFile {
	readonly language: string;
	/** By facet: id, name, aliases. */
	readonly values: readonly (readonly (readonly [string, string, ...string[]])[])[];
	/** Id, title, summary, places of values by facet. */
	readonly drills: readonly (readonly [string, string, string, readonly (readonly number[])[]])[];
	/** Head words in alphabetical order. */
	readonly words: string;
	readonly wordCounts: readonly number[];
	/** Parts of compounds, a hyphen between. */
	readonly compounds: string;
	readonly index: PostingsFile;
}

export interface BodiesFile {
	readonly index: PostingsFile;
}

/** Facets whose values words can name. Weeks and minutes are chosen, not written. */
const NAMED_FACETS = ["shape", "level", "apparatus", "skill", "direction", "equipment"] as const;

/** How much a match counts in titles, aliases and summaries. */
const HEAD_WEIGHTS = [4, 3, 1.5];
/** The same in the tags of each named facet. */
const TAG_WEIGHTS = [2, 0.8, 0.8, 2.5, 1, 1];
/** The same in cues, faults and bodies. */
const BODY_WEIGHTS = [0.8, 0.7, 0.5];

/** Fewer drills than this that answer everything, and those that answer most of it are shown as well. */
const FEW = 8;
/** What two words side by side are worth, against one part of the query. */
const PAIR = 0.3;
/** The share of the query, by rarity of its parts, that a drill must answer to be shown at all. */
const MOST = 0.5;

/** Builds the search over all drills. Heads and bodies are ready at once. */
export function createIndex(documents: readonly SearchDocument[], options: SearchOptions): SearchIndex {
	const concepts = conceptsOf(options.values);
	const names = concepts.flatMap((concept) => concept.phrases);
	const compounds = findCompounds(
		[...names, ...documents.flatMap(headTexts)],
		documents.flatMap(({ cues, faults, body }) => [...cues, ...faults, body]),
	);
	const words = countWords(documents, names);
	const normaliser = new Normaliser({ language: options.language, concepts, compounds, words });

	const places = FACETS.map((facet) => new Map(options.values[facet].map((value, i) => [value.id, i])));
	const entries: Entry[] = documents.map((document) => ({
		id: document.id,
		title: document.title,
		summary: document.summary,
		facets: FACETS.map((facet, f) =>
			(document.facets[facet] ?? []).flatMap((value) => places[f]?.get(value) ?? []),
		),
	}));

	const tags = documents.map(
		({ facets }) =>
			new Set(NAMED_FACETS.flatMap((facet) => (facets[facet] ?? []).map((id) => termOf(facet, id)))),
	);
	const termsOf = (texts: readonly string[], drill: number, pairs = false) =>
		texts.flatMap((text) => normaliser.terms(text, tags[drill] ?? new Set(), pairs));
	const head = Postings.of(
		documents.map(({ title, aliases, summary }, i) => [
			termsOf([title], i),
			termsOf(aliases, i),
			termsOf([summary], i),
		]),
		HEAD_WEIGHTS,
	);
	const bodies = Postings.of(
		documents.map(({ cues, faults, body }, i) => [
			termsOf(cues, i, true),
			termsOf(faults, i, true),
			termsOf([body], i),
		]),
		BODY_WEIGHTS,
	);
	return new SearchIndex({ options, entries, compounds, words, normaliser, head, bodies });
}

/** Opens the search from its first data file; give it the second with `addBodies`. */
export function openIndex(file: HeadFile): SearchIndex {
	const values = Object.fromEntries(
		FACETS.map((facet, f) => [
			facet,
			(file.values[f] ?? []).map(([id, name, ...aliases]) => ({ id, name, aliases })),
		]),
	) as unknown as SearchOptions["values"];
	const options: SearchOptions = { language: file.language, values };
	const words = new Map<string, number>();
	if (file.words !== "") {
		file.words.split(" ").forEach((word, i) => {
			words.set(word, file.wordCounts[i] ?? 1);
		});
	}
	const compounds: Compounds = new Map(
		file.compounds === ""
			? []
			: file.compounds.split(" ").map((pair) => {
					const [first = "", second = ""] = pair.split("-");
					return [first + second, [first, second] as const];
				}),
	);
	return new SearchIndex({
		options,
		entries: file.drills.map(([id, title, summary, facets]) => ({ id, title, summary, facets })),
		compounds,
		words,
		normaliser: new Normaliser({
			language: file.language,
			concepts: conceptsOf(values),
			compounds,
			words,
		}),
		head: new Postings(file.index, HEAD_WEIGHTS),
		bodies: undefined,
	});
}

export class SearchIndex {
	readonly options: SearchOptions;
	readonly entries: readonly Entry[];
	readonly #compounds: Compounds;
	readonly #words: WordCounts;
	readonly #normaliser: Normaliser;
	readonly #head: Postings;
	readonly #tags: Postings;
	#bodies: Postings | undefined;
	/** By facet and value: the drills that have it. */
	readonly #sets: ReadonlyMap<Facet, ReadonlyMap<string, Bits>>;
	/** Folded titles. */
	readonly #titles: readonly string[];
	/** Folded names and aliases of every value, for suggestions. */
	readonly #names: readonly { facet: Facet; value: FacetValue; names: readonly string[] }[];

	constructor(parts: {
		readonly options: SearchOptions;
		readonly entries: readonly Entry[];
		readonly compounds: Compounds;
		readonly words: WordCounts;
		readonly normaliser: Normaliser;
		readonly head: Postings;
		readonly bodies: Postings | undefined;
	}) {
		this.options = parts.options;
		this.entries = parts.entries;
		this.#compounds = parts.compounds;
		this.#words = parts.words;
		this.#normaliser = parts.normaliser;
		this.#head = parts.head;
		this.#tags = tagIndex(parts.entries, parts.options, parts.normaliser);
		this.#bodies = parts.bodies;
		this.#sets = setsOf(parts.entries, parts.options);
		this.#titles = parts.entries.map((entry) => wordsOf(entry.title).join(" "));
		this.#names = NAMED_FACETS.flatMap((facet) =>
			parts.options.values[facet].map((value) => ({
				facet,
				value,
				names: [value.name, ...value.aliases].map((name) => wordsOf(name).join(" ")),
			})),
		);
	}

	/** Takes the second data file in: from now on words are looked for in bodies as well. */
	addBodies(file: BodiesFile): void {
		this.#bodies = new Postings(file.index, BODY_WEIGHTS);
	}

	toFiles(): { readonly head: HeadFile; readonly bodies: BodiesFile } {
		if (this.#bodies === undefined) throw new Error("The bodies of this index have not been added.");
		const words = [...this.#words].sort(([a], [b]) => (a < b ? -1 : 1));
		return {
			head: {
				language: this.options.language,
				values: FACETS.map((facet) =>
					this.options.values[facet].map(({ id, name, aliases }) => [id, name, ...aliases] as const),
				),
				drills: this.entries.map(({ id, title, summary, facets }) => [id, title, summary, facets]),
				words: words.map(([word]) => word).join(" "),
				wordCounts: words.map(([, count]) => count),
				compounds: [...this.#compounds.values()].map((pair) => pair.join("-")).join(" "),
				index: this.#head.toFile(),
			},
			bodies: { index: this.#bodies.toFile() },
		};
	}

	/** Finds drills. Filter values that do not exist match nothing. */
	search(query: string, filters: Filters = {}): SearchResult {
		const read = this.#normaliser.readQuery(query, (term) => this.#bodies?.has(term) ?? false);
		const found = read.parts.length === 0 ? undefined : this.#findParts(read, wordsOf(query).join(" "));
		const size = this.entries.length;
		let matched = Bits.full(size);
		if (found !== undefined) {
			matched = new Bits(size);
			for (const hit of found.hits) matched.add(hit.drill);
		}
		const chosen = this.#chosenSets(filters);
		const kept = [...chosen.values()].reduce((bits, set) => bits.and(set), matched);
		const all: readonly Hit[] =
			found?.hits ?? this.entries.map((_, drill) => ({ drill, score: 0, lacks: [] }));
		const hits = all.filter((hit) => kept.has(hit.drill));
		return {
			hits,
			whole: hits.filter((hit) => hit.lacks.length === 0).length,
			counts: this.#count(matched, chosen),
			repairs: read.repairs,
			unknown: found?.unknown ?? [],
		};
	}

	/** Up to `most` filters that the end of an unfinished query may mean; most words taken first. */
	suggest(query: string, filters: Filters = {}, most = 4): readonly Suggestion[] {
		const words = wordsOf(query);
		if (words.length === 0 || /\s$/.test(query)) return [];
		const suggestions: Suggestion[] = [];
		const seen = new Set<string>();
		// The longest ending of the query that begins a name wins: "level 2 hol" offers Hollow.
		for (let from = Math.max(0, words.length - 4); from < words.length; from++) {
			const typed = words.slice(from).join(" ");
			const rest = words.slice(0, from).join(" ");
			const begun = this.#names.filter(
				({ facet, value, names }) =>
					!seen.has(termOf(facet, value.id)) &&
					!isChosen(filters, facet, value.id) &&
					names.some((name) => name.startsWith(typed) || name.includes(` ${typed}`)),
			);
			if (begun.length === 0) continue;
			const { counts } = this.search(rest, filters);
			for (const { facet, value } of begun) {
				const count = counts[facet].get(value.id) ?? 0;
				if (count === 0) continue;
				seen.add(termOf(facet, value.id));
				suggestions.push({ facet, value, count, rest });
			}
		}
		return suggestions.slice(0, most);
	}

	/** Scores every drill by the parts it answers. */
	#findParts(
		{ parts, pairs }: ReadQuery,
		typed: string,
	): { hits: readonly Hit[]; unknown: readonly string[] } {
		const size = this.entries.length;
		const answers = parts.map((part) => this.#answer(part));
		// A part that few drills answer says more about what is meant; one that none answers, nothing.
		const weights = answers.map(({ count }) => (count === 0 ? 0 : Math.log(2 + size / count)));
		const total = weights.reduce((sum, weight) => sum + weight, 0);
		const scores = new Float64Array(size);
		const met = new Float64Array(size);
		const metParts = new Uint16Array(size);
		answers.forEach((answer, i) => {
			const weight = weights[i] as number;
			const best = answer.scores.reduce((most, score) => Math.max(most, score), 0);
			for (let drill = 0; answer.count > 0 && drill < size; drill++) {
				const score = answer.scores[drill] as number;
				if (score === 0) continue;
				scores[drill] = (scores[drill] as number) + (weight * score) / best;
				met[drill] = (met[drill] as number) + weight;
				metParts[drill] = (metParts[drill] as number) + 1;
			}
		});
		const bonus = (PAIR * total) / parts.length;
		for (const pair of pairs) {
			for (const drill of this.#bodies?.find(pair).drills ?? []) {
				scores[drill] = (scores[drill] as number) + bonus;
			}
		}
		// Somebody who types a title, or the beginning of one, knows which drill she wants.
		const isPhrase = typed.includes(" ");
		const whole: Hit[] = [];
		for (let drill = 0; drill < size; drill++) {
			if (metParts[drill] !== parts.length) continue;
			const title = isPhrase ? (this.#titles[drill] as string) : "";
			const wanted = isPhrase && title.startsWith(typed) ? (title === typed ? total : bonus) : 0;
			whole.push({ drill, score: (scores[drill] as number) + wanted, lacks: [] });
		}
		const near: Hit[] = [];
		for (let drill = 0; whole.length < FEW && drill < size; drill++) {
			const share = (met[drill] as number) / total;
			if (metParts[drill] === 0 || metParts[drill] === parts.length || share < MOST) continue;
			const lacks = parts.filter((_, i) => answers[i]?.scores[drill] === 0).map((part) => part.typed);
			near.push({ drill, score: (scores[drill] as number) * share, lacks });
		}
		const byScore = (a: Hit, b: Hit) => b.score - a.score || a.drill - b.drill;
		return {
			hits: [...whole.sort(byScore), ...near.sort(byScore)],
			unknown: parts.filter((_, i) => answers[i]?.count === 0).map((part) => part.typed),
		};
	}

	/** How well each drill answers one part, and how many do at all. */
	#answer(part: QueryPart): { readonly scores: Float64Array; readonly count: number } {
		const scores = new Float64Array(this.entries.length);
		let count = 0;
		const add = (drill: number, score: number) => {
			if (scores[drill] === 0) count++;
			scores[drill] = (scores[drill] as number) + score;
		};
		meetAny([this.#head, this.#tags], part, add);
		if (this.#bodies !== undefined && !(part.named && count >= FEW)) meetAny([this.#bodies], part, add);
		return { scores, count };
	}

	/** The drills that each chosen facet lets through. */
	#chosenSets(filters: Filters): ReadonlyMap<Facet, Bits> {
		const chosen = new Map<Facet, Bits>();
		for (const facet of FACETS) {
			const values = filters[facet] ?? [];
			if (values.length === 0) continue;
			let set = new Bits(this.entries.length);
			for (const value of values) {
				const has = this.#sets.get(facet)?.get(value);
				if (has !== undefined) set = set.or(has);
			}
			chosen.set(facet, set);
		}
		return chosen;
	}

	#count(matched: Bits, chosen: ReadonlyMap<Facet, Bits>): SearchResult["counts"] {
		const counts = FACETS.map((facet) => {
			let base = matched;
			for (const [other, set] of chosen) if (other !== facet) base = base.and(set);
			const byValue = new Map<string, number>();
			for (const [value, set] of this.#sets.get(facet) ?? []) byValue.set(value, set.countWith(base));
			return [facet, byValue] as const;
		});
		return Object.fromEntries(counts) as unknown as SearchResult["counts"];
	}
}

/** Adds the score of every way that a drill meets a part by. */
function meetAny(
	indexes: readonly Postings[],
	part: QueryPart,
	add: (drill: number, score: number) => void,
): void {
	for (const { terms, weight } of part.ways) {
		if (terms.length > 1) {
			for (const [drill, score] of meetAll(indexes, terms)) add(drill, score * weight);
			continue;
		}
		for (const index of indexes) {
			const { drills, scores } = index.find(terms[0] ?? "");
			for (let i = 0; i < drills.length; i++) add(drills[i] as number, (scores[i] as number) * weight);
		}
	}
}

/** The drills that have all the terms, each in any of the indexes. */
function meetAll(indexes: readonly Postings[], terms: readonly string[]): ReadonlyMap<number, number> {
	let met: Map<number, number> | undefined;
	for (const term of terms) {
		const before: ReadonlyMap<number, number> | undefined = met;
		met = new Map();
		for (const index of indexes) {
			const { drills, scores } = index.find(term);
			for (let i = 0; i < drills.length; i++) {
				const drill = drills[i] as number;
				const score = met.get(drill) ?? (before === undefined ? 0 : before.get(drill));
				if (score !== undefined) met.set(drill, score + (scores[i] as number));
			}
		}
	}
	return met ?? new Map();
}

function conceptsOf(values: SearchOptions["values"]): readonly Concept[] {
	return NAMED_FACETS.flatMap((facet) =>
		values[facet].map((value) => ({
			term: termOf(facet, value.id),
			phrases: [...new Set([value.name, ...value.aliases].flatMap((name) => [withoutMeasure(name), name]))],
		})),
	);
}

/** A name without what stands in brackets behind it: `Landing mat (20 cm)`. */
function withoutMeasure(name: string): string {
	return name.replace(/\s*\([^)]*\)\s*$/, "");
}

function termOf(facet: Facet, id: string): string {
	return `${facet}:${id}`;
}

/**
 * An index of tags: for each drill and named facet, what it is tagged with and the words of its names.
 * It follows from the entries, so it is made when the search opens and never stored.
 */
function tagIndex(entries: readonly Entry[], options: SearchOptions, normaliser: Normaliser): Postings {
	const terms = NAMED_FACETS.map((facet) =>
		options.values[facet].map(({ id, name }) => [
			termOf(facet, id),
			...wordsOf(withoutMeasure(name)).map((word) => normaliser.stem(word)),
		]),
	);
	const places = NAMED_FACETS.map((facet) => FACETS.indexOf(facet));
	return Postings.of(
		entries.map((entry) =>
			places.map((place, f) => (entry.facets[place] ?? []).flatMap((value) => terms[f]?.[value] ?? [])),
		),
		TAG_WEIGHTS,
	);
}

function headTexts(document: SearchDocument): readonly string[] {
	return [document.title, ...document.aliases, document.summary];
}

/** In how many drills' heads each word stands; names of values count once. */
function countWords(documents: readonly SearchDocument[], names: readonly string[]): WordCounts {
	const counts = new Map<string, number>();
	const count = (words: Iterable<string>) => {
		for (const word of new Set(words)) counts.set(word, (counts.get(word) ?? 0) + 1);
	};
	for (const name of names) count(wordsOf(name));
	for (const document of documents) count(headTexts(document).flatMap(wordsOf));
	return counts;
}

function setsOf(
	entries: readonly Entry[],
	options: SearchOptions,
): ReadonlyMap<Facet, ReadonlyMap<string, Bits>> {
	return new Map(
		FACETS.map((facet, f) => {
			const sets = options.values[facet].map((value) => [value.id, new Bits(entries.length)] as const);
			entries.forEach((entry, drill) => {
				for (const place of entry.facets[f] ?? []) sets[place]?.[1].add(drill);
			});
			return [facet, new Map(sets)];
		}),
	);
}
