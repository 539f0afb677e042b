/**
 * The search: one engine, from the same records, in the build and on every device. Nothing here knows
 * Node, a clock or a network.
 *
 *   searchData     drills, names and pages → three plain values, to be sent or made where they are used
 *   createIndex    the same, opened whole
 *   openIndex      the first, heads: titles, other names, tags; from here on it answers
 *   addSummaries   the second: what results say of a drill, more words to find it by, and other pages
 *   addTexts       the third: cues, faults and descriptions
 *   search         words and filters → drills in order of fit, and a count for every filter value
 *   suggest        an unfinished query → filters it may mean
 *   pages          words → pages that are no drill
 *
 * A query is read in parts (normalise.ts). What names a level, an apparatus, a week or a direction is a
 * filter, and so is "without" something: the answer says so, and the filter can be taken off. Each other
 * part scores the drills that answer it; a drill that answers every part comes first, and before all a
 * drill of which one fault's line does. Where hardly any does, drills that answer most follow, and say
 * what was not found in them. A part that names something the club tags (a shape, a skill) is answered by
 * tags and heads alone, and so are the first letters of a word that is still being typed, which stand in
 * nearly every text; other words are looked for in texts as well, and weigh less there.
 */

import { getOrMake } from "../compute/get-or-make.ts";
import { type Alike, alikeOf } from "./alike.ts";
import { FACETS, type Facet, type Filters, isChosen } from "./choice.ts";
import { chosenPlaces, countValues, type FacetCounts, fits } from "./facet-counts.ts";
import {
	type Compounds,
	type Concept,
	findCompounds,
	Normaliser,
	type QueryPart,
	type ReadQuery,
	type Repair,
	wordsOf,
} from "./normalise.ts";
import { PageIndex, type SearchPage } from "./pages.ts";
import { TagIndex } from "./tags.ts";
import { TermIndex } from "./term-index.ts";

/** What a fault looks like, and what to say. */
export interface SearchFault {
	readonly see: string;
	readonly say: string;
}

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
	readonly faults: readonly SearchFault[];
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
	/** The fault whose line answers the query. */
	readonly fault?: SearchFault;
}

/** Words of the query that are a filter. */
export interface Held {
	readonly typed: string;
	readonly facet: Facet;
	/** Drills have any of these; or none of them, if `without`. */
	readonly values: readonly FacetValue[];
	readonly without: boolean;
}

export interface SearchResult {
	/** Best first; without words, in the order of the drills. As many as were asked for. */
	readonly hits: readonly Hit[];
	/** How many drills are found, whether asked for or not. */
	readonly found: number;
	/** How many of these answer every part. */
	readonly whole: number;
	/** For each facet, drills under the present words and the other facets' filters, by value. */
	readonly counts: FacetCounts;
	/** Words that are filters. */
	readonly held: readonly Held[];
	/** Words that were read as other words. */
	readonly repairs: readonly Repair[];
	/** Parts that no drill answers. */
	readonly unknown: readonly string[];
}

export interface SearchWish {
	/** The id of a drill: only drills that train what it does are found, nearest first. */
	readonly like?: string | undefined;
	/** Hits wanted, the best ones; the others are counted. */
	readonly most?: number;
	/** Words that are looked for as they stand, though they could be a filter. */
	readonly asText?: readonly string[];
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

/** A drill in the list of all drills. */
export interface Entry {
	readonly id: string;
	readonly title: string;
}

/** A drill's title, id and other names. */
export type DrillHead = readonly [title: string, id: string, ...aliases: string[]];

/** What comes first of the heads: what all drills need. */
export interface HeadStart {
	readonly language: string;
	/** By facet: id, name, aliases. */
	readonly values: readonly (readonly (readonly [string, string, ...string[]])[])[];
	/** Parts of compounds, a hyphen between. */
	readonly compounds: string;
	/** By facet and drill: the places of its values. */
	readonly facets: readonly (readonly (readonly number[])[])[];
}

export interface HeadFile extends HeadStart {
	readonly drills: readonly DrillHead[];
}

export interface SummariesFile {
	/** In the order of the drills. */
	readonly summaries: readonly string[];
	readonly pages: readonly SearchPage[];
}

export interface TextsFile {
	/** In the order of the drills: cues, pairs of what is seen and said, description. */
	readonly drills: readonly (readonly [
		readonly string[],
		readonly (readonly [see: string, say: string])[],
		string,
	])[];
}

export interface SearchData {
	readonly head: HeadFile;
	readonly summaries: SummariesFile;
	readonly texts: TextsFile;
}

/** The value of the equipment filter that drills without any have; no id of a club begins so. */
export const NO_EQUIPMENT = "-none";

/** Facets whose values words can name. Minutes are chosen, not written. */
const NAMED_FACETS = ["shape", "level", "apparatus", "skill", "direction", "equipment", "week"] as const;
/** Those of which a name is a filter. */
const HELD_FACETS: ReadonlySet<Facet> = new Set(["level", "apparatus", "week", "direction"]);

/** How much a match counts in titles and other names, and in the tags of each named facet. */
const HEAD_WEIGHTS = { title: 4, alias: 3 };
const TAG_WEIGHTS = {
	shape: 2,
	level: 0.8,
	apparatus: 0.8,
	skill: 2.5,
	direction: 1,
	equipment: 1,
	week: 0.5,
};
const SUMMARY_WEIGHTS = { summary: 1.5 };
const TEXT_WEIGHTS = { cues: 0.8, see: 1, say: 0.5, body: 0.5 };
const LINE_WEIGHTS = { see: 1 };

/** Fewer drills than this that answer everything, and those that answer most of it are shown as well. */
const FEW = 8;
/** What two words side by side are worth, against one part of the query. */
const PAIR = 0.3;
/** The share of the query, by rarity of its parts, that a drill must answer to be shown at all. */
const MOST = 0.5;
const NO_LACKS: readonly string[] = [];

/** What is searched, as plain values; the same for the same drills. */
export function searchData(
	documents: readonly SearchDocument[],
	options: SearchOptions,
	pages: readonly SearchPage[] = [],
): SearchData {
	const names = conceptsOf(options.values).flatMap((concept) => concept.phrases);
	const compounds = findCompounds(
		[...names, ...documents.flatMap(({ title, aliases, summary }) => [title, ...aliases, summary])],
		documents.flatMap(({ cues, faults, body }) => [
			...cues,
			...faults.flatMap(({ see, say }) => [see, say]),
			body,
		]),
	);
	return {
		head: {
			language: options.language,
			values: FACETS.map((facet) =>
				options.values[facet].map(({ id, name, aliases }) => [id, name, ...aliases] as const),
			),
			compounds: [...compounds.values()].map((pair) => pair.join("-")).join(" "),
			drills: documents.map(({ id, title, aliases }) => [title, id, ...aliases]),
			facets: FACETS.map((facet) => {
				const places = new Map(options.values[facet].map((value, i) => [value.id, i]));
				return documents.map((document) =>
					(document.facets[facet] ?? []).flatMap((id) => places.get(id) ?? []).sort((a, b) => a - b),
				);
			}),
		},
		summaries: { summaries: documents.map(({ summary }) => summary), pages },
		texts: {
			drills: documents.map(({ cues, faults, body }) => [
				cues,
				faults.map(({ see, say }) => [see, say] as const),
				body,
			]),
		},
	};
}

/** The whole search, opened. */
export function createIndex(
	documents: readonly SearchDocument[],
	options: SearchOptions,
	pages: readonly SearchPage[] = [],
): SearchIndex {
	const { head, summaries, texts } = searchData(documents, options, pages);
	const index = openIndex(head);
	index.addSummaries(summaries);
	index.addTexts(texts);
	return index;
}

/** Opens the search from its first data file; give it the others as they come. */
export function openIndex({ drills, ...start }: HeadFile): SearchIndex {
	const index = new SearchIndex(start);
	for (const drill of drills) index.addDrill(drill);
	return index;
}

/** Where in a text file a line of a fault stands. */
interface Line {
	readonly drill: number;
	readonly fault: SearchFault;
}

export class SearchIndex {
	readonly options: SearchOptions;
	/** Those that are there so far, in order. */
	readonly #entries: Entry[] = [];
	readonly #normaliser: Normaliser;
	/** Places of each drill's values, by facet. */
	readonly #places: HeadStart["facets"];
	/** Terms of each drill's named values. */
	readonly #tags: ReadonlySet<string>[] = [];
	readonly #heads = new TermIndex(HEAD_WEIGHTS);
	readonly #tagTerms: TagIndex;
	#summaries: TermIndex<keyof typeof SUMMARY_WEIGHTS> | undefined;
	#texts: TermIndex<keyof typeof TEXT_WEIGHTS> | undefined;
	/** What faults look like, each by itself. */
	#lineTerms: TermIndex<keyof typeof LINE_WEIGHTS> | undefined;
	#lines: readonly Line[] = [];
	#pages: PageIndex | undefined;
	#summaryTexts: readonly string[] = [];
	/** Folded titles and other names of drills: who types one means no filter. */
	readonly #titles: string[] = [];
	readonly #drillNames = new Set<string>();
	/** Words of other names of tags → the tags: looked at where nothing else has a word. */
	readonly #aliasWords: ReadonlyMap<string, readonly string[]>;
	/** Folded names and aliases of every value, for suggestions; made for the first. */
	#names: readonly ValueNames[] | undefined;
	readonly #placesById = new Map<string, number>();
	/** What the words asked last found, before filters: these change while the words stay. */
	#asked: (Asked & { readonly key: string }) | undefined;

	constructor(head: HeadStart) {
		const values = valuesOf(head);
		this.options = { language: head.language, values };
		this.#normaliser = normaliserOf(head);
		this.#places = head.facets;
		this.#aliasWords = this.#wordsOfAliases();
		this.#tagTerms = new TagIndex(
			NAMED_FACETS.map((facet) => ({
				weight: TAG_WEIGHTS[facet],
				drills: head.facets[FACETS.indexOf(facet)] ?? [],
				values: values[facet].map(({ id, name }) => [
					termOf(facet, id),
					...wordsOf(withoutMeasure(name)).map((word) => this.#normaliser.stem(word)),
				]),
			})),
		);
	}

	/** Takes the next drill in. */
	addDrill([title, id, ...aliases]: DrillHead): void {
		const drill = this.#entries.push({ id, title }) - 1;
		this.#placesById.set(id, drill);
		this.#titles.push(wordsOf(title).join(" "));
		for (const name of [title, ...aliases]) this.#drillNames.add(wordsOf(name).join(" "));
		this.#tags.push(
			new Set(NAMED_FACETS.flatMap((facet) => this.#idsOf(drill, facet).map((tag) => termOf(facet, tag)))),
		);
		this.#heads.add(drill, {
			title: this.#headTerms([title], drill),
			alias: this.#headTerms(aliases, drill),
		});
		this.#forget();
	}

	get entries(): readonly Entry[] {
		return this.#entries;
	}

	/** Whether all drills are there. */
	get isWhole(): boolean {
		return this.#entries.length === (this.#places[0]?.length ?? 0);
	}

	#headTerms(texts: readonly string[], drill: number, spells = true): readonly string[] {
		const terms: string[] = [];
		for (const text of texts) {
			this.#normaliser.eachHeadTerm(
				text,
				drill,
				(term, isSure) => this.#isMeant(drill, term, isSure),
				(term) => terms.push(term),
				spells,
			);
		}
		return terms;
	}

	/**
	 * Whether a name in a drill's text means the thing: where its author says what it trains, only that is
	 * meant (a ball is no tuck, though coaches call a tuck so).
	 */
	#isMeant(drill: number, term: string, isSure: boolean): boolean {
		if (this.#tags[drill]?.has(term) === true) return true;
		const [facet] = facetAndId(term);
		return isSure && this.#idsOf(drill, facet).length === 0;
	}

	#wordsOfAliases(): ReadonlyMap<string, readonly string[]> {
		const words = new Map<string, string[]>();
		for (const facet of NAMED_FACETS) {
			for (const { id, aliases } of this.options.values[facet]) {
				for (const stem of new Set(aliases.flatMap((alias) => this.#normaliser.stemsOf(alias)))) {
					getOrMake(words, stem, () => []).push(termOf(facet, id));
				}
			}
		}
		return words;
	}

	/** Takes the second data file in: from now on results have summaries, and other pages are found. */
	addSummaries({ summaries, pages }: SummariesFile): void {
		const index = new TermIndex(SUMMARY_WEIGHTS);
		summaries.forEach((text, drill) => {
			index.add(drill, { summary: this.#headTerms([text], drill, false) });
		});
		this.#summaries = index;
		this.#summaryTexts = summaries;
		this.#pages = new PageIndex(pages, this.#normaliser);
		this.#forget();
	}

	/** Takes the third in: from now on words are looked for in cues, faults and descriptions as well. */
	addTexts(file: TextsFile): void {
		const steps = this.takeTexts(file, Number.POSITIVE_INFINITY);
		while (steps.next().done !== true);
	}

	/**
	 * The same in steps of so many drills, so that a phone can answer in between; it is found from the last
	 * step on.
	 */
	*takeTexts({ drills }: TextsFile, drillsAtOnce: number): Generator<void, void, void> {
		const texts = new TermIndex(TEXT_WEIGHTS);
		const lineTerms = new TermIndex(LINE_WEIGHTS);
		const lines: Line[] = [];
		for (const [drill, [cues, faults, body]] of drills.entries()) {
			const terms = (of: readonly string[], pairs: boolean) => this.#textTerms(of, drill, pairs);
			const see = faults.map(([line]) => terms([line], true));
			texts.add(drill, {
				cues: terms(cues, true),
				see: see.flat(),
				say: terms(
					faults.map(([, say]) => say),
					true,
				),
				body: terms([body], false),
			});
			faults.forEach(([line, say], i) => {
				lineTerms.add(lines.push({ drill, fault: { see: line, say } }) - 1, { see: see[i] ?? [] });
			});
			if (drill % drillsAtOnce === drillsAtOnce - 1) yield;
		}
		this.#texts = texts;
		this.#lineTerms = lineTerms;
		this.#lines = lines;
		this.#forget();
	}

	#textTerms(texts: readonly string[], drill: number, pairs: boolean): readonly string[] {
		const terms: string[] = [];
		for (const text of texts) {
			this.#normaliser.eachTerm(
				text,
				(term, isSure) => this.#isMeant(drill, term, isSure),
				(term) => terms.push(term),
				pairs,
			);
		}
		return terms;
	}

	/**
	 * Makes ready what only the first word asked would make, so that the first letter is answered as soon
	 * as the others. For a moment when nobody waits.
	 */
	prepare(): void {
		const asked = this.#asked;
		this.search("a", {}, { most: 0 });
		this.suggest("a");
		this.#asked = asked;
	}

	/** Lets go of answers to which what has come may add. */
	#forget(): void {
		this.#asked = undefined;
	}

	/** What a drill is tagged with, in the order of the values. */
	valuesOf(drill: number, facet: Facet): readonly FacetValue[] {
		const places = this.#places[FACETS.indexOf(facet)]?.[drill] ?? [];
		return places.flatMap((place) => this.options.values[facet][place] ?? []);
	}

	#idsOf(drill: number, facet: Facet): readonly string[] {
		return this.valuesOf(drill, facet).map(({ id }) => id);
	}

	/** Empty until the summaries are there. */
	summaryOf(drill: number): string {
		return this.#summaryTexts[drill] ?? "";
	}

	/** A drill's place in the list of all drills. */
	placeOf(id: string): number | undefined {
		return this.#placesById.get(id);
	}

	/** Pages that are no drill and answer all words, best first; none until the second file is there. */
	pages(query: string, most = 3): readonly SearchPage[] {
		// A page is not without anything.
		const { held } = this.#normaliser.readQuery(query);
		const isWithout = held.some(({ without, terms }) => without || terms.includes(NO_EQUIPMENT_TERM));
		return isWithout ? [] : (this.#pages?.find(query, most) ?? []);
	}

	/** Finds drills. Filter values that do not exist match nothing, and so does an unknown drill to be like. */
	search(query: string, filters: Filters = {}, wish: SearchWish = {}): SearchResult {
		const { like, most = Number.POSITIVE_INFINITY, asText = [] } = wish;
		const key = JSON.stringify([query, like, asText]);
		if (this.#asked?.key !== key) this.#asked = { key, ...this.#ask(query, like, asText) };
		const { alike, read, held, found, matched } = this.#asked;
		const all = withHeld(filters, held);
		const chosen = chosenPlaces(all, this.options.values);
		const keep = (drills: readonly number[]) =>
			chosen.length === 0 ? drills : drills.filter((drill) => fits(drill, chosen, this.#places));
		const scores = found?.scores ?? alike?.scores;
		const whole = keep(found?.whole ?? matched);
		const near = keep(found?.near ?? []);
		const inOrder = [...sorted(whole, scores), ...sorted(near, scores)].slice(0, most);
		let counts: FacetCounts | undefined;
		const count = () => countValues(matched, chosen, this.options.values, this.#places);
		return {
			hits: inOrder.map((drill, place): Hit => {
				const fault = found?.faults.get(drill)?.fault;
				return {
					drill,
					score: scores?.[drill] ?? 0,
					lacks: place < whole.length ? NO_LACKS : (found?.lacks(drill) ?? NO_LACKS),
					...(fault === undefined ? {} : { fault }),
				};
			}),
			found: whole.length + near.length,
			whole: whole.length,
			// Counted when they are asked for: results can be shown before that.
			get counts() {
				counts ??= count();
				return counts;
			},
			held,
			repairs: read.repairs,
			unknown: found?.unknown ?? [],
		};
	}

	#ask(query: string, like: string | undefined, asText: readonly string[]): Asked {
		const alike = like === undefined ? undefined : this.alike(like);
		const typed = wordsOf(query).join(" ");
		const isName = typed.includes(" ") && this.#drillNames.has(typed);
		const read = this.#normaliser.readQuery(
			query,
			(term) => this.#texts?.has(term) ?? false,
			(words) => isName || asText.includes(words),
		);
		const held = read.held.map((words) => this.#heldOf(words));
		const without = held.filter((words) => words.without);
		const isMeant = (drill: number) =>
			without.every(({ facet, values }) => {
				const own = this.#idsOf(drill, facet);
				return values.every(({ id }) => !own.includes(id));
			});
		const among = (alike?.drills ?? this.entries.map((_, drill) => drill)).filter(isMeant);
		const found = read.parts.length === 0 ? undefined : this.#findParts(read, typed, new Set(among));
		return {
			alike,
			read,
			held,
			found,
			matched: found === undefined ? among : [...found.whole, ...found.near],
		};
	}

	#heldOf({ typed, terms, without }: ReadQuery["held"][number]): Held {
		// Words that name things of several kinds mean the first of them.
		const [facet] = facetAndId(terms[0] ?? "");
		const ids = terms.map(facetAndId).flatMap(([of, id]) => (of === facet ? [id] : []));
		return {
			typed,
			facet,
			values: this.options.values[facet].filter(({ id }) => ids.includes(id)),
			without,
		};
	}

	/** The drills that train what a drill does, and how near they come to it; none for an unknown id. */
	alike(id: string): Alike {
		const drill = this.placeOf(id);
		const places = (facet: Facet) => this.#places[FACETS.indexOf(facet)] ?? [];
		return drill === undefined
			? { drills: [], scores: new Float64Array(this.entries.length) }
			: alikeOf(drill, {
					same: [places("shape"), places("skill")],
					other: [places("apparatus"), places("level")],
				});
	}

	/** Up to `most` filters that the end of an unfinished query may mean; most words taken first. */
	suggest(query: string, filters: Filters = {}, like?: string, most = 4): readonly Suggestion[] {
		const words = wordsOf(query);
		if (words.length === 0 || /\s$/.test(query)) return [];
		const suggestions: Suggestion[] = [];
		const seen = new Set<string>();
		const held = new Set(
			this.search(query, {}, { most: 0 }).held.flatMap((words) =>
				words.values.map(({ id }) => termOf(words.facet, id)),
			),
		);
		// The longest ending of the query that begins a name wins: "level 2 hol" offers Hollow.
		for (let from = Math.max(0, words.length - 4); from < words.length; from++) {
			const typed = words.slice(from).join(" ");
			const rest = words.slice(0, from).join(" ");
			this.#names ??= namesOf(this.options.values);
			const begun = this.#names.filter(
				({ facet, value, names }) =>
					!seen.has(termOf(facet, value.id)) &&
					!isChosen(filters, facet, value.id) &&
					!held.has(termOf(facet, value.id)) &&
					names.some((name) => name.startsWith(typed) || name.includes(` ${typed}`)),
			);
			if (begun.length === 0) continue;
			const { counts } = this.search(rest, filters, { like, most: 0 });
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
	#findParts({ parts, pairs, turned }: ReadQuery, typed: string, among: ReadonlySet<number>): FoundParts {
		const size = this.entries.length;
		const answers = parts.map((part) => this.#answer(part));
		const faults = this.#faultsFor(parts, answers, [...pairs, ...turned]);
		// A part that few drills answer says more about what is meant; one that none answers, nothing.
		const weights = answers.map(({ drills }) =>
			drills.length === 0 ? 0 : Math.log(2 + size / drills.length),
		);
		const total = weights.reduce((sum, weight) => sum + weight, 0);
		const scores = new Float64Array(size);
		const met = new Float64Array(size);
		const metParts = new Uint16Array(size);
		const touched = new Set<number>();
		answers.forEach((answer, i) => {
			let best = 0;
			for (const drill of answer.drills) best = Math.max(best, answer.scores[drill] as number);
			const weight = weights[i] as number;
			for (const drill of answer.drills) {
				if (!among.has(drill)) continue;
				touched.add(drill);
				scores[drill] = (scores[drill] as number) + (weight * (answer.scores[drill] as number)) / best;
				met[drill] = (met[drill] as number) + weight;
				metParts[drill] = (metParts[drill] as number) + 1;
			}
		});
		const bonus = (PAIR * total) / parts.length;
		for (const pair of pairs) {
			for (const drill of this.#texts?.find(pair).ids ?? []) {
				scores[drill] = (scores[drill] as number) + bonus;
			}
		}
		if (parts.length > 1) {
			for (const [drill, { pairs: sideBySide }] of faults) {
				if (!among.has(drill)) continue;
				touched.add(drill);
				metParts[drill] = parts.length;
				scores[drill] = (scores[drill] as number) + total + sideBySide * bonus;
			}
		}
		const isPhrase = typed.includes(" ");
		const whole: number[] = [];
		for (const drill of touched) {
			if (metParts[drill] !== parts.length) continue;
			whole.push(drill);
			// Somebody who types a title, or the beginning of one, knows which drill she wants.
			const title = isPhrase ? (this.#titles[drill] ?? "") : "";
			if (isPhrase && title.startsWith(typed)) {
				scores[drill] = (scores[drill] as number) + (title === typed ? 2 * total : bonus);
			}
		}
		const near: number[] = [];
		for (const drill of whole.length < FEW ? touched : []) {
			const share = (met[drill] as number) / total;
			if (metParts[drill] === parts.length || share < MOST) continue;
			near.push(drill);
			scores[drill] = (scores[drill] as number) * share;
		}
		return {
			whole,
			near,
			scores,
			faults,
			lacks: (drill) => parts.filter((_, i) => answers[i]?.scores[drill] === 0).map((part) => part.typed),
			unknown: parts.filter((_, i) => answers[i]?.drills.length === 0).map((part) => part.typed),
		};
	}

	/**
	 * By drill, the fault whose line has all parts of the query. To one part alone many lines answer: those
	 * are told of drills of which neither title, tags nor summary does.
	 */
	#faultsFor(
		parts: readonly QueryPart[],
		answers: readonly Answer[],
		pairs: readonly string[],
	): ReadonlyMap<number, FoundFault> {
		const best = new Map<number, FoundFault>();
		const lines = this.#lineTerms;
		if (lines === undefined || parts.some(({ begun }) => begun)) return new Map();
		const met = parts.map((part) => meetAny([lines], part, this.#lines.length));
		for (const line of met[0]?.drills ?? []) {
			if (met.some(({ scores }) => scores[line] === 0)) continue;
			const { drill, fault } = this.#lines[line] as Line;
			if (parts.length === 1 && answers[0]?.inHead?.has(drill) === true) continue;
			const sideBySide = pairs.filter((pair) => lines.find(pair).ids.includes(line)).length;
			const score = met.reduce((sum, { scores }) => sum + (scores[line] as number), sideBySide);
			if (score > (best.get(drill)?.score ?? 0)) best.set(drill, { fault, score, pairs: sideBySide });
		}
		return best;
	}

	/** The drills that answer one part, and how well each does. */
	#answer(part: QueryPart): Answer & { readonly inHead: ReadonlySet<number> } {
		const heads = [this.#heads, this.#tagTerms, ...(this.#summaries === undefined ? [] : [this.#summaries])];
		const size = this.entries.length;
		const answer = meetAny(heads, part, size);
		if (answer.drills.length === 0) {
			const { terms = [] } = part.ways[0] ?? {};
			const word = terms.length === 1 ? (terms[0] ?? "") : "";
			for (const tag of this.#aliasWords.get(word) ?? []) addAll(answer, this.#tagTerms.find(tag), 1);
		}
		const inHead = new Set(answer.drills);
		if (this.#texts !== undefined && !((part.named || part.begun) && answer.drills.length >= FEW)) {
			meetAny([this.#texts], part, size, answer);
		}
		return { ...answer, inHead };
	}
}

/** What words, and a drill to be like, find before any filter. */
interface Asked {
	readonly alike: Alike | undefined;
	readonly read: ReadQuery;
	readonly held: readonly Held[];
	/** Undefined without words that are no filter. */
	readonly found: FoundParts | undefined;
	readonly matched: readonly number[];
}

interface FoundParts {
	/** Drills that answer every part. */
	readonly whole: readonly number[];
	/** Drills that answer most. */
	readonly near: readonly number[];
	/** By drill. */
	readonly scores: Float64Array;
	/** By drill, the fault whose line answers. */
	readonly faults: ReadonlyMap<number, FoundFault>;
	lacks(drill: number): readonly string[];
	/** Parts that no drill answers. */
	readonly unknown: readonly string[];
}

interface FoundFault {
	readonly fault: SearchFault;
	readonly score: number;
	/** How many words stand side by side in its line as they do in the query, one way or the other. */
	readonly pairs: number;
}

interface Answer {
	/** Drills, or lines. */
	readonly drills: number[];
	/** By drill, 0 where it does not answer. */
	readonly scores: Float64Array;
	/** Those whose title, tags or summary answer. */
	readonly inHead?: ReadonlySet<number>;
}

type AnyTerms = Pick<TermIndex<never>, "find" | "findAny">;

function addAll(answer: Answer, found: ReturnType<AnyTerms["find"]>, weight: number): void {
	found.ids.forEach((drill, i) => {
		const before = answer.scores[drill] as number;
		if (before === 0) answer.drills.push(drill);
		answer.scores[drill] = before + (found.scores[i] as number) * weight;
	});
}

/** Adds the score of every way that a drill meets a part by. */
function meetAny(
	indexes: readonly AnyTerms[],
	part: QueryPart,
	size: number,
	answer: Answer = { drills: [], scores: new Float64Array(size) },
): Answer {
	const single = part.ways.filter(({ terms }) => terms.length === 1);
	if (single.length > 0) {
		const terms = single.map((way) => way.terms[0] as string);
		const weights = single.map(({ weight }) => weight);
		for (const index of indexes) addAll(answer, index.findAny(terms, weights), 1);
	}
	for (const { terms, weight } of part.ways) if (terms.length > 1) meetAll(indexes, terms, weight, answer);
	return answer;
}

/** Adds the drills that have all the terms, each in any of the indexes. */
function meetAll(
	indexes: readonly AnyTerms[],
	terms: readonly string[],
	weight: number,
	answer: Answer,
): void {
	/** Terms met so far without a gap, and what they add up to. */
	const met = new Map<number, { terms: number; score: number }>();
	terms.forEach((term, t) => {
		for (const index of indexes) {
			const { ids, scores } = index.find(term);
			ids.forEach((drill, i) => {
				const so = met.get(drill);
				if (so === undefined) {
					if (t === 0) met.set(drill, { terms: 1, score: scores[i] as number });
				} else if (so.terms >= t) {
					so.terms = t + 1;
					so.score += scores[i] as number;
				}
			});
		}
	});
	const whole = [...met].filter(([, so]) => so.terms === terms.length);
	addAll(answer, { ids: whole.map(([drill]) => drill), scores: whole.map(([, { score }]) => score) }, weight);
}

/** By score, best first, and by their order where it is the same. */
function sorted(drills: readonly number[], scores: Float64Array | undefined): readonly number[] {
	return drills.toSorted((a, b) => (scores?.[b] ?? 0) - (scores?.[a] ?? 0) || a - b);
}

/** The filters chosen, and those that words are. */
function withHeld(filters: Filters, held: readonly Held[]): Filters {
	const all: Partial<Record<Facet, readonly string[]>> = { ...filters };
	for (const { facet, values, without } of held) {
		if (!without) all[facet] = [...new Set([...(all[facet] ?? []), ...values.map(({ id }) => id)])];
	}
	return all;
}

interface ValueNames {
	readonly facet: Facet;
	readonly value: FacetValue;
	/** Folded. */
	readonly names: readonly string[];
}

function namesOf(values: SearchOptions["values"]): readonly ValueNames[] {
	return NAMED_FACETS.flatMap((facet) =>
		values[facet].map((value) => ({
			facet,
			value,
			names: [value.name, ...value.aliases].map((name) => wordsOf(name).join(" ")),
		})),
	);
}

function valuesOf(file: HeadStart): SearchOptions["values"] {
	return Object.fromEntries(
		FACETS.map((facet, f) => [
			facet,
			(file.values[f] ?? []).map(([id, name, ...aliases]) => ({ id, name, aliases })),
		]),
	) as unknown as SearchOptions["values"];
}

function normaliserOf(file: HeadStart): Normaliser {
	const compounds: Compounds = new Map(
		(file.compounds === "" ? [] : file.compounds.split(" ")).map((pair) => {
			const [first = "", second = ""] = pair.split("-");
			return [first + second, [first, second] as const];
		}),
	);
	return new Normaliser({ language: file.language, concepts: conceptsOf(valuesOf(file)), compounds });
}

function conceptsOf(values: SearchOptions["values"]): readonly Concept[] {
	return NAMED_FACETS.flatMap((facet) =>
		values[facet].map((value) => ({
			term: termOf(facet, value.id),
			phrases: [...new Set([value.name, ...value.aliases].flatMap((name) => [withoutMeasure(name), name]))],
			...(HELD_FACETS.has(facet) || value.id === NO_EQUIPMENT
				? { use: "filter" as const }
				: facet === "equipment"
					? { use: "item" as const }
					: {}),
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

const NO_EQUIPMENT_TERM = termOf("equipment", NO_EQUIPMENT);

function facetAndId(term: string): readonly [Facet, string] {
	const at = term.indexOf(":");
	return [term.slice(0, at) as Facet, term.slice(at + 1)];
}
