/**
 * The search: one engine, and the build opens exactly what the browser opens.
 *
 *   writeIndex     drills and names → three compact data files
 *   openIndex      the first, heads: titles, other names, tags; from here on it answers. As it comes over a
 *                  net, names and tags are taken in first, then `addDrill` one by one (head-text.ts)
 *   addSummaries   the second: what results say of a drill, and more words to find it by
 *   addBodies      the third: cues, faults and descriptions, as a ready-made index without their texts
 *   search         words and filters → drills in order of fit, and a count for every filter value
 *   suggest        an unfinished query → filters it may mean
 *
 * Heads and summaries travel as the texts they are, and are indexed where they are opened: an index of
 * them would be as large again, and takes longer to come over a weak net than to make.
 *
 * A query is read in parts (normalise.ts). Each part scores the drills that answer it; a drill that
 * answers every part comes first. Where hardly any does, drills that answer most follow, and say what
 * they lack. A part that names something the club tags (a shape, a level) is answered by tags and
 * heads alone, and so are the first letters of a word that is still being typed, which stand in nearly
 * every body; other words are looked for in bodies as well, and weigh less there.
 */

import { type Alike, alikeOf } from "./alike.ts";
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
	wordsOf,
} from "./normalise.ts";
import { packNumbers, unpackNumbers } from "./numbers.ts";
import { openPostings, Postings, PostingsBuilder, type PostingsFile } from "./postings.ts";
import { indexTags } from "./tags.ts";

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
	/** Best first; without words, in the order of the drills. As many as were asked for. */
	readonly hits: readonly Hit[];
	/** How many drills are found, whether asked for or not. */
	readonly found: number;
	/** How many of these answer every part. */
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

/** A drill in the list of all drills. */
export interface Entry {
	readonly id: string;
	readonly title: string;
}

/** What comes first of the heads: what all drills need. */
export interface HeadStart {
	readonly language: string;
	/** By facet: id, name, aliases. */
	readonly values: readonly (readonly (readonly [string, string, ...string[]])[])[];
	/** Parts of compounds, a hyphen between. */
	readonly compounds: string;
	/**
	 * For each facet, packed: every set of values that drills have, as its size and the values' places;
	 * then for each drill the place of its set.
	 */
	readonly facets: readonly { readonly sets: string; readonly drills: string }[];
}

export interface HeadFile extends HeadStart {
	/**
	 * A line for each drill, with tabs in it: title; id with spaces for hyphens, so that compression finds
	 * the title's words in it; other names.
	 */
	readonly drills: readonly string[];
}

export interface SummariesFile {
	/** In the order of the drills. */
	readonly summaries: readonly string[];
}

export interface BodiesFile {
	readonly index: PostingsFile;
}

export interface SearchFiles {
	readonly head: HeadFile;
	readonly summaries: SummariesFile;
	readonly bodies: BodiesFile;
}

/** Facets whose values words can name. Weeks and minutes are chosen, not written. */
const NAMED_FACETS = ["shape", "level", "apparatus", "skill", "direction", "equipment"] as const;

/** How much a match counts in titles and in other names. */
const HEAD_WEIGHTS = [4, 3];
/** The same in summaries. */
const SUMMARY_WEIGHTS = [1.5];
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

/** Scores are sorted as whole numbers: so many parts of one, and so many drills. */
const SCORE_PARTS = 2 ** 20;
const MOST_DRILLS = 2 ** 20;
/** Answers to the words before the last are kept while the last is typed. */
const MOST_COUNTS_KEPT = 32;
const NO_LACKS: readonly string[] = [];

/** Writes the search over all drills, the same bytes for the same drills. */
export function writeIndex(documents: readonly SearchDocument[], options: SearchOptions): SearchFiles {
	const head = writeHead(documents, options);
	return {
		head,
		summaries: { summaries: documents.map(({ summary }) => oneLine(summary)) },
		bodies: writeBodies(head, documents),
	};
}

/**
 * Writes the third file: the index of cues, faults and bodies, of all drills in the order of the first
 * file. A device that has the drills' pages makes it of their texts, so that it need not be sent.
 */
export function writeBodies(
	head: HeadStart,
	texts: readonly Pick<SearchDocument, "cues" | "faults" | "body">[],
): BodiesFile {
	const values = valuesOf(head);
	const tagged = NAMED_FACETS.map((facet) => ({
		terms: values[facet].map(({ id }) => termOf(facet, id)),
		sets: unpackSets(head.facets[FACETS.indexOf(facet)]),
	}));
	const normaliser = normaliserOf(head);
	const bodies = new PostingsBuilder(texts.length, BODY_WEIGHTS.length);
	texts.forEach(({ cues, faults, body }, drill) => {
		const tags = new Set(
			tagged.flatMap(({ terms, sets }) => (sets[drill] ?? []).flatMap((value) => terms[value] ?? [])),
		);
		[cues, faults, [body]].forEach((texts, field) => {
			for (const text of texts) {
				normaliser.eachTerm(
					text,
					(term) => tags.has(term),
					(term) => bodies.add(drill, field, term),
					field < 2,
				);
			}
		});
	});
	return { index: bodies.toFile() };
}

function writeHead(documents: readonly SearchDocument[], options: SearchOptions): HeadFile {
	const names = conceptsOf(options.values).flatMap((concept) => concept.phrases);
	const compounds = findCompounds(
		[...names, ...documents.flatMap(({ title, aliases, summary }) => [title, ...aliases, summary])],
		documents.flatMap(({ cues, faults, body }) => [...cues, ...faults, body]),
	);
	return {
		language: options.language,
		values: FACETS.map((facet) =>
			options.values[facet].map(({ id, name, aliases }) => [id, name, ...aliases] as const),
		),
		compounds: [...compounds.values()].map((pair) => pair.join("-")).join(" "),
		drills: documents.map(({ id, title, aliases }) =>
			[title, id.replaceAll("-", " "), ...aliases].map(oneLine).join("\t"),
		),
		facets: FACETS.map((facet) => {
			const places = new Map(options.values[facet].map((value, i) => [value.id, i]));
			const sets = documents.map((document) =>
				(document.facets[facet] ?? []).flatMap((id) => places.get(id) ?? []).sort((a, b) => a - b),
			);
			return packSets(sets);
		}),
	};
}

/** Sets that occur often have the small numbers. */
function packSets(sets: readonly (readonly number[])[]): HeadStart["facets"][number] {
	const kinds = new Map<string, { set: readonly number[]; count: number }>();
	for (const set of sets) {
		const kind = kinds.get(set.join());
		if (kind === undefined) kinds.set(set.join(), { set, count: 1 });
		else kind.count++;
	}
	const sorted = [...kinds].sort(([, a], [, b]) => b.count - a.count);
	const place = new Map(sorted.map(([key], i) => [key, i]));
	return {
		sets: packNumbers(sorted.flatMap(([, { set }]) => [set.length, ...set])),
		drills: packNumbers(sets.map((set) => place.get(set.join()) ?? 0)),
	};
}

function unpackSets(packed: HeadStart["facets"][number] | undefined): readonly (readonly number[])[] {
	const numbers = unpackNumbers(packed?.sets ?? "");
	const sets: (readonly number[])[] = [];
	for (let at = 0; at < numbers.length; ) {
		const size = numbers[at++] as number;
		sets.push(numbers.slice(at, at + size));
		at += size;
	}
	return unpackNumbers(packed?.drills ?? "").map((place) => sets[place] ?? []);
}

/** The whole search over drills, as the browser has it when all three files are there. */
export function createIndex(documents: readonly SearchDocument[], options: SearchOptions): SearchIndex {
	const { head, summaries, bodies } = writeIndex(documents, options);
	const index = openIndex(head);
	index.addSummaries(summaries);
	index.addBodies(bodies);
	return index;
}

/** Opens the search from its first data file; give it the others as they come. */
export function openIndex({ drills, ...start }: HeadFile): SearchIndex {
	const index = new SearchIndex(start);
	for (const line of drills) index.addDrill(line);
	return index;
}

export class SearchIndex {
	readonly options: SearchOptions;
	/** Those that are there so far, in order. */
	readonly #entries: Entry[] = [];
	/** How many drills there are when all are. */
	readonly #size: number;
	readonly #normaliser: Normaliser;
	/** Places of each drill's values, by facet. */
	readonly #places: readonly (readonly (readonly number[])[])[];
	/** By facet and value: the drills that have it. */
	readonly #sets: ReadonlyMap<Facet, ReadonlyMap<string, Bits>>;
	/** By term of a named value: the drills tagged with it. */
	readonly #tagged: ReadonlyMap<string, Bits>;
	readonly #tags: Postings;
	readonly #headTerms: PostingsBuilder;
	/** Made when it is first asked, since drills may still come. */
	#heads: Postings | undefined;
	#summaries: Postings | undefined;
	#bodies: Postings | undefined;
	#summaryTexts: readonly string[] = [];
	/** Folded titles, made as they are asked for. */
	readonly #titles: (string | undefined)[] = [];
	/** Folded names and aliases of every value, for suggestions; made for the first. */
	#names: readonly ValueNames[] | undefined;
	#placesById: ReadonlyMap<string, number> | undefined;
	/** What the words asked last found, before filters: these change while the words stay. */
	#asked: (Asked & { readonly query: string; readonly like: string | undefined }) | undefined;
	/** Counts of queries that stand before the word being typed. */
	readonly #countsKept = new Map<string, SearchResult["counts"]>();

	constructor(file: HeadStart) {
		const values = valuesOf(file);
		this.options = { language: file.language, values };
		this.#normaliser = normaliserOf(file);
		this.#places = FACETS.map((_, f) => unpackSets(file.facets[f]));
		this.#size = this.#places[0]?.length ?? 0;
		this.#sets = setsOf(this.#places, values, this.#size);
		this.#tagged = new Map(
			NAMED_FACETS.flatMap((facet) =>
				Array.from(this.#sets.get(facet) ?? [], ([id, bits]) => [termOf(facet, id), bits] as const),
			),
		);
		this.#tags = new Postings(
			indexTags(
				NAMED_FACETS.map((facet) => ({
					drills: this.#places[FACETS.indexOf(facet)] ?? [],
					values: values[facet].map(({ id, name }) => [
						termOf(facet, id),
						...wordsOf(withoutMeasure(name)).map((word) => this.#normaliser.stem(word)),
					]),
				})),
			),
			TAG_WEIGHTS,
		);
		this.#headTerms = new PostingsBuilder(this.#size, HEAD_WEIGHTS.length);
	}

	/** Takes the next drill in, by its line in the first data file. */
	addDrill(line: string): void {
		const [title = "", id = "", ...aliases] = line.split("\t");
		const drill = this.#entries.push({ id: id.replaceAll(" ", "-"), title }) - 1;
		this.#addHead(this.#headTerms, title, drill, 0);
		for (const alias of aliases) this.#addHead(this.#headTerms, alias, drill, 1);
		this.#heads = undefined;
		this.#placesById = undefined;
		this.#forget();
	}

	get entries(): readonly Entry[] {
		return this.#entries;
	}

	/** Whether all drills are there. */
	get isWhole(): boolean {
		return this.#entries.length === this.#size;
	}

	/** Takes the second data file in: from now on results have summaries, and are found by them. */
	addSummaries(file: SummariesFile): void {
		const index = new PostingsBuilder(this.#size, SUMMARY_WEIGHTS.length);
		file.summaries.forEach((text, drill) => {
			this.#addHead(index, text, drill, 0);
		});
		this.#summaries = new Postings(index, SUMMARY_WEIGHTS);
		this.#summaryTexts = file.summaries;
		this.#forget();
	}

	/** Takes the third in: from now on words are looked for in cues, faults and descriptions as well. */
	addBodies(file: BodiesFile): void {
		this.#bodies = new Postings(openPostings(file.index), BODY_WEIGHTS);
		this.#forget();
	}

	/**
	 * Makes ready what only the first word asked would make (the lexicon in order, terms by drills), so that
	 * the first letter is answered as soon as the others. For a moment when nobody waits.
	 */
	prepare(): void {
		const asked = this.#asked;
		this.search("a", {}, undefined, 0);
		this.suggest("a");
		this.#asked = asked;
	}

	/** Lets go of answers to which what has come may add. */
	#forget(): void {
		this.#asked = undefined;
		this.#countsKept.clear();
	}

	#addHead(index: PostingsBuilder, text: string, drill: number, field: number): void {
		this.#normaliser.eachHeadTerm(
			text,
			drill,
			(term) => this.#tagged.get(term)?.has(drill) ?? false,
			(term) => index.add(drill, field, term),
		);
	}

	/** What a drill is tagged with, in the order of the values. */
	valuesOf(drill: number, facet: Facet): readonly FacetValue[] {
		const places = this.#places[FACETS.indexOf(facet)]?.[drill] ?? [];
		return places.flatMap((place) => this.options.values[facet][place] ?? []);
	}

	/** Empty until the summaries are there. */
	summaryOf(drill: number): string {
		return this.#summaryTexts[drill] ?? "";
	}

	/** A drill's place in the list of all drills. */
	placeOf(id: string): number | undefined {
		this.#placesById ??= new Map(this.entries.map((entry, drill) => [entry.id, drill]));
		return this.#placesById.get(id);
	}

	/**
	 * Finds drills. Filter values that do not exist match nothing, and so does an unknown drill to be like.
	 *
	 * @param like the id of a drill: only drills that train what it does are found, nearest first
	 * @param most hits wanted, the best ones; the others are counted, and not put in order
	 */
	search(query: string, filters: Filters = {}, like?: string, most = Number.POSITIVE_INFINITY): SearchResult {
		if (this.#asked?.query !== query || this.#asked.like !== like) {
			this.#asked = { query, like, ...this.#ask(query, like) };
		}
		const { alike, read, found, matched } = this.#asked;
		const chosen = this.#chosenSets(filters);
		const kept = [...chosen.values()].reduce((bits, set) => bits.and(set), matched);
		const near = found?.near ?? [];
		// Those that lack something are only looked for where hardly any drill lacks nothing.
		const whole =
			near.length === 0 ? kept.count() : (found?.whole ?? []).filter((drill) => kept.has(drill)).length;
		const total = near.length === 0 ? whole : kept.count();
		const scores = found?.scores ?? alike?.scores;
		const first =
			scores === undefined
				? kept.first(most)
				: firstOf(found?.whole ?? alike?.drills ?? [], kept, scores, most);
		const after = scores === undefined ? [] : firstOf(near, kept, scores, most - first.length);
		const hit = (drill: number, lacks: readonly string[]): Hit => ({
			drill,
			score: scores?.[drill] ?? 0,
			lacks,
		});
		const hits = [
			...first.map((drill) => hit(drill, NO_LACKS)),
			...after.map((drill) => hit(drill, found?.lacks(drill) ?? NO_LACKS)),
		];
		const countAll = () => this.#count(matched, chosen);
		// Counted when they are asked for: results can be shown before that.
		let counts: SearchResult["counts"] | undefined;
		return {
			hits,
			found: total,
			whole,
			get counts() {
				counts ??= countAll();
				return counts;
			},
			repairs: read.repairs,
			unknown: found?.unknown ?? [],
		};
	}

	#ask(query: string, like: string | undefined): Asked {
		const alike = like === undefined ? undefined : this.alike(like);
		const among = alike && bitsOf(alike.drills, this.#size);
		const read = this.#normaliser.readQuery(query, (term) => this.#bodies?.has(term) ?? false);
		const found =
			read.parts.length === 0 ? undefined : this.#findParts(read, wordsOf(query).join(" "), among);
		const matched =
			found === undefined
				? (among ?? (this.isWhole ? Bits.full(this.#size) : bitsOf(this.#everyDrill(), this.#size)))
				: bitsOf([...found.whole, ...found.near], this.#size);
		return { alike, read, found, matched };
	}

	#everyDrill(): readonly number[] {
		return this.entries.map((_, drill) => drill);
	}

	/** The drills that train what a drill does, and how near they come to it; none for an unknown id. */
	alike(id: string): Alike {
		const drill = this.placeOf(id);
		const places = (facet: Facet) => this.#places[FACETS.indexOf(facet)] ?? [];
		return drill === undefined
			? { drills: [], scores: new Float64Array(this.#size) }
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
		// The longest ending of the query that begins a name wins: "level 2 hol" offers Hollow.
		for (let from = Math.max(0, words.length - 4); from < words.length; from++) {
			const typed = words.slice(from).join(" ");
			const rest = words.slice(0, from).join(" ");
			this.#names ??= namesOf(this.options.values);
			const begun = this.#names.filter(
				({ facet, value, names }) =>
					!seen.has(termOf(facet, value.id)) &&
					!isChosen(filters, facet, value.id) &&
					names.some((name) => name.startsWith(typed) || name.includes(` ${typed}`)),
			);
			if (begun.length === 0) continue;
			const counts = this.#countsOf(rest, filters, like);
			for (const { facet, value } of begun) {
				const count = counts[facet].get(value.id) ?? 0;
				if (count === 0) continue;
				seen.add(termOf(facet, value.id));
				suggestions.push({ facet, value, count, rest });
			}
		}
		return suggestions.slice(0, most);
	}

	#countsOf(query: string, filters: Filters, like: string | undefined): SearchResult["counts"] {
		const key = JSON.stringify([query, like, FACETS.map((facet) => filters[facet])]);
		let counts = this.#countsKept.get(key);
		if (counts === undefined) {
			counts = this.search(query, filters, like, 0).counts;
			if (this.#countsKept.size >= MOST_COUNTS_KEPT) this.#countsKept.clear();
			this.#countsKept.set(key, counts);
		}
		return counts;
	}

	/** Scores every drill by the parts it answers. */
	#findParts({ parts, pairs }: ReadQuery, typed: string, among: Bits | undefined): FoundParts {
		const size = this.#size;
		const answers = parts.map((part) => this.#answer(part));
		// A part that few drills answer says more about what is meant; one that none answers, nothing.
		const weights = answers.map(({ drills }) =>
			drills.length === 0 ? 0 : Math.log(2 + size / drills.length),
		);
		const total = weights.reduce((sum, weight) => sum + weight, 0);
		const scores = new Float64Array(size);
		const met = new Float64Array(size);
		const metParts = new Uint16Array(size);
		const touched: number[] = [];
		answers.forEach((answer, i) => {
			let best = 0;
			for (const drill of answer.drills) best = Math.max(best, answer.scores[drill] as number);
			const weight = weights[i] as number;
			for (const drill of answer.drills) {
				if (metParts[drill] === 0) touched.push(drill);
				scores[drill] = (scores[drill] as number) + (weight * (answer.scores[drill] as number)) / best;
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
		const isPhrase = typed.includes(" ");
		const whole: number[] = [];
		for (const drill of touched) {
			if (metParts[drill] !== parts.length || among?.has(drill) === false) continue;
			whole.push(drill);
			// Somebody who types a title, or the beginning of one, knows which drill she wants.
			const title = isPhrase ? this.#title(drill) : "";
			if (isPhrase && title.startsWith(typed)) {
				scores[drill] = (scores[drill] as number) + (title === typed ? total : bonus);
			}
		}
		const near: number[] = [];
		for (const drill of whole.length < FEW ? touched : []) {
			const share = (met[drill] as number) / total;
			if (metParts[drill] === parts.length || share < MOST || among?.has(drill) === false) continue;
			near.push(drill);
			scores[drill] = (scores[drill] as number) * share;
		}
		return {
			whole,
			near,
			scores,
			lacks: (drill) => parts.filter((_, i) => answers[i]?.scores[drill] === 0).map((part) => part.typed),
			unknown: parts.filter((_, i) => answers[i]?.drills.length === 0).map((part) => part.typed),
		};
	}

	#title(drill: number): string {
		let title = this.#titles[drill];
		if (title === undefined) {
			title = wordsOf(this.entries[drill]?.title ?? "").join(" ");
			this.#titles[drill] = title;
		}
		return title;
	}

	/** The drills that answer one part, and how well each does. */
	#answer(part: QueryPart): Answer {
		const answer: Answer = { drills: [], scores: new Float64Array(this.#size) };
		this.#heads ??= new Postings(this.#headTerms, HEAD_WEIGHTS);
		const heads = [this.#heads, this.#tags, ...(this.#summaries === undefined ? [] : [this.#summaries])];
		meetAny(heads, part, answer);
		if (this.#bodies !== undefined && !((part.named || part.begun) && answer.drills.length >= FEW)) {
			meetAny([this.#bodies], part, answer);
		}
		return answer;
	}

	/** The drills that each chosen facet lets through. */
	#chosenSets(filters: Filters): ReadonlyMap<Facet, Bits> {
		const chosen = new Map<Facet, Bits>();
		for (const facet of FACETS) {
			const values = filters[facet] ?? [];
			if (values.length === 0) continue;
			let set = new Bits(this.#size);
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

/** What words, and a drill to be like, find before any filter. */
interface Asked {
	readonly alike: Alike | undefined;
	readonly read: ReadQuery;
	/** Undefined without words. */
	readonly found: FoundParts | undefined;
	readonly matched: Bits;
}

interface FoundParts {
	/** Drills that answer every part. */
	readonly whole: readonly number[];
	/** Drills that answer most. */
	readonly near: readonly number[];
	/** By drill. */
	readonly scores: Float64Array;
	lacks(drill: number): readonly string[];
	/** Parts that no drill answers. */
	readonly unknown: readonly string[];
}

interface Answer {
	readonly drills: number[];
	/** By drill, 0 where it does not answer. */
	readonly scores: Float64Array;
}

function add(answer: Answer, drill: number, score: number): void {
	const before = answer.scores[drill] as number;
	if (before === 0) answer.drills.push(drill);
	answer.scores[drill] = before + score;
}

/** Adds the score of every way that a drill meets a part by. */
function meetAny(indexes: readonly Postings[], part: QueryPart, answer: Answer): void {
	for (const { terms, weight } of part.ways) {
		if (terms.length > 1) {
			meetAll(indexes, terms, weight, answer);
			continue;
		}
		for (const index of indexes) {
			const { drills, scores } = index.find(terms[0] ?? "");
			for (let i = 0; i < drills.length; i++) {
				add(answer, drills[i] as number, (scores[i] as number) * weight);
			}
		}
	}
}

/** Adds the drills that have all the terms, each in any of the indexes. */
function meetAll(
	indexes: readonly Postings[],
	terms: readonly string[],
	weight: number,
	answer: Answer,
): void {
	/** Terms met so far without a gap, and what they add up to. */
	const met = new Map<number, { terms: number; score: number }>();
	terms.forEach((term, t) => {
		for (const index of indexes) {
			const { drills, scores } = index.find(term);
			for (let i = 0; i < drills.length; i++) {
				const drill = drills[i] as number;
				const so = met.get(drill);
				if (so === undefined) {
					if (t === 0) met.set(drill, { terms: 1, score: scores[i] as number });
				} else if (so.terms >= t) {
					so.terms = t + 1;
					so.score += scores[i] as number;
				}
			}
		}
	});
	for (const [drill, so] of met) if (so.terms === terms.length) add(answer, drill, so.score * weight);
}

/**
 * The first of those drills that are kept, up to so many: by score, best first, and by their order where
 * it is the same.
 */
function firstOf(
	drills: readonly number[],
	kept: Bits,
	scores: Float64Array,
	most: number,
): readonly number[] {
	if (most <= 0) return [];
	// One number for each drill sorts many times faster than a comparison of two does.
	const keyOf = (drill: number) => drill - Math.round((scores[drill] as number) * SCORE_PARTS) * MOST_DRILLS;
	// What is in the running: twice as many as are wanted, so that they are sorted once in a while. After
	// the first time, most drills are passed over by one comparison.
	const running = new Float64Array(Math.min(drills.length, most * 2));
	let count = 0;
	let limit = Number.POSITIVE_INFINITY;
	for (const drill of drills) {
		if (!kept.has(drill)) continue;
		const key = keyOf(drill);
		if (key >= limit) continue;
		if (count === running.length) {
			running.sort();
			count = most;
			limit = running[most - 1] as number;
			if (key >= limit) continue;
		}
		running[count++] = key;
	}
	const keys = running.subarray(0, count).sort().subarray(0, most);
	return Array.from(keys, (key) => key - Math.floor(key / MOST_DRILLS) * MOST_DRILLS);
}

function bitsOf(drills: readonly number[], size: number): Bits {
	const bits = new Bits(size);
	for (const drill of drills) bits.add(drill);
	return bits;
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

/** Without the line breaks and tabs that part the heads of drills. */
function oneLine(text: string): string {
	return text.replace(/\s+/g, " ").trim();
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

function setsOf(
	places: readonly (readonly (readonly number[])[])[],
	values: SearchOptions["values"],
	size: number,
): ReadonlyMap<Facet, ReadonlyMap<string, Bits>> {
	return new Map(
		FACETS.map((facet, f) => {
			const sets = values[facet].map((value) => [value.id, new Bits(size)] as const);
			places[f]?.forEach((own, drill) => {
				for (const place of own) sets[place]?.[1].add(drill);
			});
			return [facet, new Map(sets)];
		}),
	);
}
