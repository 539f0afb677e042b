/**
 * From what is written to what is looked up, the same in the build and in the browser.
 *
 *   fold       lower case, accents and ligatures off: `Passé` → `passe`
 *   split      into words; a hyphen splits too, and the pair is remembered as a compound
 *   terms      endings off; a pair that is also written as one word gives both forms (push up, pushup)
 *   phrases    names and aliases of shapes, skills, equipment … found as wholes (`dish` is hollow)
 *   short      what coaches shorten, written out (`hs` is handstand), unless the club uses the short word itself
 *   repair     a word nobody wrote: joined from two, split in two, or corrected to the nearest head word
 *   held       a level, an apparatus, a week or a direction, and "without …", are filters and not words
 *
 * Corrections look only at the words of titles, aliases and names: a slip somewhere in a body never
 * becomes a spelling, and no word becomes one that only stands in running text.
 */

import { getOrMake } from "../compute/get-or-make.ts";
import { type SearchLanguage, searchLanguage } from "./languages.ts";

/** A thing of the club that words can name: its term in the index, and every phrase that means it. */
export interface Concept {
	/** `shape:hollow`. */
	readonly term: string;
	readonly phrases: readonly string[];
	/**
	 * `filter`: drills that do not have it are not meant (a level). `item`: something to set out, which
	 * the last word of its name may stand for (`no mats`).
	 */
	readonly use?: "filter" | "item";
}

/** Lower case, without accents, ligatures and typographic apostrophes. */
export function fold(text: string): string {
	// Most text is plain already, and normalising is the dear part.
	return /^[\n -~]*$/.test(text)
		? text.toLowerCase()
		: text
				.normalize("NFKD")
				.toLowerCase()
				.replace(/\p{M}+/gu, "")
				.replace(/[’‘ʼ]/g, "'")
				.replace(/[‐‑‒]/g, "-")
				.replace(/⁄/g, "/")
				.replace(/[ßæœøłđı]/g, (letter) => LETTERS[letter] ?? letter);
}

const LETTERS: Readonly<Record<string, string>> = {
	ß: "ss",
	æ: "ae",
	œ: "oe",
	ø: "o",
	ł: "l",
	đ: "d",
	ı: "i",
};

/** A word and whether a hyphen ties it to the one before. */
interface Word {
	readonly text: string;
	readonly tied: boolean;
}

const WORD = /\d+\/\d+|[\p{L}\p{N}]+(?:'[\p{L}]+)*/gu;

function split(text: string): readonly Word[] {
	const words: Word[] = [];
	let end = -1;
	const folded = fold(text);
	for (const match of folded.matchAll(WORD)) {
		const word = match[0];
		words.push({ text: withoutPossessive(word), tied: end === match.index - 1 && folded[end] === "-" });
		end = match.index + word.length;
	}
	return words;
}

/** `coach's` → `coach`; other apostrophes close up: `don't` → `dont`. */
function withoutPossessive(word: string): string {
	return word.includes("'") ? word.replace(/'s$/, "").replaceAll("'", "") : word;
}

/** The folded words of a text, parts of hyphenated words apart. */
export function wordsOf(text: string): readonly string[] {
	return fold(text).match(WORD)?.map(withoutPossessive) ?? [];
}

/** Two words that are also written as one: the joined form and its parts. */
export type Compounds = ReadonlyMap<string, readonly [string, string]>;

/**
 * The compounds of a club's texts: what somebody ties with a hyphen, anywhere; and in heads, neighbours
 * that somebody else writes as one word.
 */
export function findCompounds(heads: Iterable<string>, bodies: Iterable<string>): Compounds {
	const words = new Set<string>();
	const neighbours = new Map<string, readonly [string, string]>();
	const compounds = new Map<string, readonly [string, string]>();
	for (const text of heads) {
		let last: Word | undefined;
		for (const word of split(text)) {
			words.add(word.text);
			if (last !== undefined && isLettered(last.text) && isLettered(word.text)) {
				const joined = last.text + word.text;
				if (word.tied) compounds.set(joined, [last.text, word.text]);
				else if (!neighbours.has(joined)) neighbours.set(joined, [last.text, word.text]);
			}
			last = word;
		}
	}
	for (const [joined, parts] of neighbours) {
		if (words.has(joined) && !compounds.has(joined)) compounds.set(joined, parts);
	}
	for (const text of bodies) {
		if (!text.includes("-")) continue;
		for (const [, first = "", second = ""] of text.matchAll(/(?<![\p{L}-])(\p{L}{2,})-(?=(\p{L}{2,}))/gu)) {
			const parts = [fold(first), fold(second)] as const;
			if (!compounds.has(parts.join(""))) compounds.set(parts.join(""), parts);
		}
	}
	return compounds;
}

function isLettered(word: string): boolean {
	return word.length > 1 && /^\p{L}+$/u.test(word);
}

/** What a name's words count by themselves, where a stop word among them cannot be looked for. */
const LESS_THAN_SAID = 0.5;
/** So many letters are only the beginning of a word. */
const MOST_BEGUN = 2;
/** So many words that an unfinished one may become are looked for, the most frequent ones. */
const MOST_BEGINNINGS = 12;
/** Words up to this length are short: a slip in them easily makes another word. */
const SHORT = 4;
/** Words that may stand between "without" and what is meant. */
const MOST_BETWEEN = 4;
/** More corrections than this are not remembered. */
const MOST_CORRECTIONS = 200;

/** How a query's word was understood. */
export interface Repair {
	readonly typed: string;
	readonly used: string;
}

/** A query in parts; a drill answers a part by any of the part's ways. */
export interface QueryPart {
	readonly typed: string;
	/** Ways to answer: all terms of a way must be met. Weight 1 is what was typed itself. */
	readonly ways: readonly { readonly terms: readonly string[]; readonly weight: number }[];
	/** Whether it is the name of something, by which drills are tagged. */
	readonly named: boolean;
	/** Whether it is the first letter or two of a word that is still being typed. */
	readonly begun: boolean;
}

/** Words of a query that are a filter. */
export interface HeldWords {
	readonly typed: string;
	/** Any of these. */
	readonly terms: readonly string[];
	/** Whether they must not be there. */
	readonly without: boolean;
}

export interface ReadQuery {
	readonly held: readonly HeldWords[];
	readonly parts: readonly QueryPart[];
	/** Terms of words that were typed one after the other. */
	readonly pairs: readonly string[];
	/** The same the other way round: arms bend, bent arms. */
	readonly turned: readonly string[];
	readonly repairs: readonly Repair[];
}

interface FilterWords {
	/** How many words it takes. */
	readonly length: number;
	readonly terms: readonly string[];
	readonly without: boolean;
}

export interface NormaliserOptions {
	/** BCP 47. */
	readonly language: string;
	readonly concepts: readonly Concept[];
	readonly compounds: Compounds;
}

/** What is known of a folded word; found out once, as the same few words make up all texts. */
interface WordFacts {
	readonly word: string;
	readonly stem: string;
	readonly stops: boolean;
	/** Stems of its two parts, where it is a compound. */
	readonly parts: readonly [string, string] | undefined;
	/** Words that make a compound with it when they follow, and the compound's stem. */
	readonly joins: ReadonlyMap<string, string> | undefined;
	/** The phrases that begin with it. */
	readonly phrases: PhraseNode | undefined;
	/** In how many drills' heads it stands, a name counting as one. */
	count: number;
	/** Whether it stands in a title, an alias or a name, so that a slip may be mended to it. */
	spells: boolean;
	/** The drill it was last counted in. */
	counted: number;
}

/** Phrases by their stems, one after the other. */
interface PhraseNode {
	/** What the phrase names that ends here. */
	readonly terms: string[];
	readonly next: Map<string, PhraseNode>;
}

/** A head word as a possible correction. */
interface LexiconWord {
	readonly word: string;
	readonly count: number;
	readonly spells: boolean;
	/** A bit for each letter in it. */
	readonly letters: number;
	/** Found out when it is first compared. */
	sound: string | undefined;
}

/** Reads texts and queries with one vocabulary. */
export class Normaliser {
	readonly #language: SearchLanguage;
	readonly #compounds: Compounds;
	/** First parts of compounds → second parts → stem of the whole. */
	readonly #joins = new Map<string, Map<string, string>>();
	readonly #facts = new Map<string, WordFacts>();
	/** What stood between two spaces, with the words in it. */
	readonly #pieces = new Map<string, readonly WordFacts[]>();
	readonly #headStems = new Set<string>();
	/** Stems of a phrase joined by spaces → terms of what it names. */
	readonly #phrases = new Map<string, string[]>();
	/** The same, stem by stem. */
	readonly #phraseTree: PhraseNode = { terms: [], next: new Map() };
	/** Terms that are filters where they are named. */
	readonly #filters = new Set<string>();
	/** Last words of items' names, as stems → the items' terms. */
	readonly #items = new Map<string, string[]>();
	/** Words of a numbered name (`level`, `week`) → numbers → terms. */
	readonly #numbered = new Map<string, Map<string, string>>();
	/** Head words, to find beginnings and slips; made when first needed. */
	#lexicon: readonly LexiconWord[] | undefined;
	/** Corrections found already. */
	readonly #corrections = new Map<string, string | undefined>();

	constructor({ language, concepts, compounds }: NormaliserOptions) {
		this.#language = searchLanguage(language);
		this.#compounds = compounds;
		for (const [joined, [first, second]] of compounds) {
			getOrMake(this.#joins, first, () => new Map()).set(second, this.stem(joined));
		}
		for (const concept of concepts) {
			for (const phrase of concept.phrases) this.#addPhrase(phrase, concept.term);
			this.#addUse(concept);
		}
		for (const phrase of concepts.flatMap((concept) => concept.phrases)) this.learn(phrase, -1);
	}

	/** A folded word without its ending, in the spelling that the index uses. */
	stem(word: string): string {
		return this.#language.stem(this.#language.spellings.get(word) ?? word);
	}

	/** Takes the words of a head text as spellings; the drill's number, or below 0 what is of no drill. */
	learn(text: string, drill: number): void {
		for (const word of wordsOf(text)) this.#count(this.#factsOf(word), drill, true);
	}

	/**
	 * Gives out the terms under which a text is found, in the text's order.
	 *
	 * @param isMeant whether a phrase of the text means the thing that a term is, sure or not: what names
	 * several things (`block`) is not sure
	 * @param pairs whether words that follow each other are terms together as well, for short texts
	 */
	eachTerm(
		text: string,
		isMeant: (term: string, isSure: boolean) => boolean,
		give: (term: string) => void,
		pairs = false,
	): void {
		this.#read(this.#wordsIn(text), isMeant, give, pairs);
	}

	/**
	 * The same for a head text, whose words are known from then on; as `spells` says, slips may be mended
	 * to them.
	 */
	eachHeadTerm(
		text: string,
		drill: number,
		isMeant: (term: string, isSure: boolean) => boolean,
		give: (term: string) => void,
		spells = true,
	): void {
		const words = this.#wordsIn(text);
		for (const facts of words) this.#count(facts, drill, spells);
		this.#read(words, isMeant, give, false);
	}

	#read(
		words: readonly WordFacts[],
		isMeant: (term: string, isSure: boolean) => boolean,
		give: (term: string) => void,
		pairs: boolean,
	): void {
		let last: string | undefined;
		for (let i = 0; i < words.length; i++) {
			const { stem, stops, parts, joins, phrases } = words[i] as WordFacts;
			if (!stops) {
				give(stem);
				if (pairs && last !== undefined) give(pairOf(last, stem));
				last = stem;
			}
			if (parts !== undefined) {
				give(parts[0]);
				give(parts[1]);
			}
			const next = words[i + 1];
			const join = next === undefined ? undefined : joins?.get(next.word);
			if (join !== undefined) give(join);
			let node = phrases;
			for (let end = i + 1; node !== undefined; end++) {
				const named = node.terms;
				for (const term of named) if (isMeant(term, named.length === 1)) give(term);
				const following = words[end];
				node = following && node.next.get(following.stem);
			}
		}
	}

	/** What is known of each word of a text: what stands between two spaces is folded once. */
	#wordsIn(text: string): readonly WordFacts[] {
		return text
			.split(" ")
			.flatMap((piece) =>
				getOrMake(this.#pieces, piece, () => wordsOf(piece).map((word) => this.#factsOf(word))),
			);
	}

	#factsOf(word: string): WordFacts {
		return getOrMake(this.#facts, word, () => {
			const stem = this.stem(word);
			const parts = this.#compounds.get(word);
			return {
				word,
				stem,
				stops: this.#language.stopWords.has(word),
				parts: parts && ([this.stem(parts[0]), this.stem(parts[1])] as const),
				joins: this.#joins.get(word),
				phrases: this.#phraseTree.next.get(stem),
				count: 0,
				spells: false,
				counted: -1,
			};
		});
	}

	#count(facts: WordFacts, drill: number, spells: boolean): void {
		if (spells && !facts.spells) {
			facts.spells = true;
			this.#lexicon = undefined;
			this.#corrections.clear();
		}
		if (drill >= 0 && facts.counted === drill) return;
		if (facts.count === 0) this.#headStems.add(facts.stem);
		facts.count++;
		facts.counted = drill;
		if (this.#lexicon !== undefined) {
			this.#lexicon = undefined;
			this.#corrections.clear();
		}
	}

	#words(): readonly LexiconWord[] {
		this.#lexicon ??= [...this.#facts.values()]
			.filter(({ count }) => count > 0)
			.map(({ word, count, spells }) => ({ word, count, spells, letters: lettersOf(word), sound: undefined }))
			.sort((a, b) => (a.word < b.word ? -1 : 1));
		return this.#lexicon;
	}

	/**
	 * Reads a query.
	 *
	 * @param alsoKnown whether a term stands in texts whose words are not spellings (bodies): such a word
	 * is searched as it is
	 * @param isText whether words that could be a filter are words all the same
	 */
	readQuery(
		query: string,
		alsoKnown: (term: string) => boolean = () => false,
		isText: (typed: string) => boolean = () => false,
	): ReadQuery {
		const typed = this.#writtenOut(split(query).map((word) => word.text));
		// A word is still being typed while nothing follows it.
		const open = /[\p{L}\p{N}]$/u.test(query);
		const { words, repairs } = this.#repair(typed, open, alsoKnown);
		const { held, rest } = this.#hold(words, isText);
		// What came last is a filter: nothing is being typed any more.
		const typing = open && rest.at(-1) === words.at(-1);
		const parts = this.#partsOf(rest, typing);
		const stems = rest.filter((word) => !this.#skips(word)).map((word) => this.stem(word));
		return {
			held,
			parts: parts.length > 0 || held.length > 0 ? parts : this.#literalParts(rest, typing),
			pairs: stems.slice(1).map((stem, i) => pairOf(stems[i] as string, stem)),
			turned: stems.slice(1).map((stem, i) => pairOf(stem, stems[i] as string)),
			repairs,
		};
	}

	/** The stems of a text's words, without those that say nothing. */
	stemsOf(text: string): readonly string[] {
		return wordsOf(text).flatMap((word) => (this.#skips(word) ? [] : [this.stem(word)]));
	}

	/** A query as stems alone, repaired; and whether the last is still being typed. */
	wordsAsked(query: string): { readonly terms: readonly string[]; readonly isLastBegun: boolean } {
		const open = /[\p{L}\p{N}]$/u.test(query);
		const { words } = this.#repair(this.#writtenOut(wordsOf(query)), open, () => false);
		const asked = words.filter((word) => !this.#skips(word));
		return {
			terms: asked.map((word) => this.stem(word)),
			isLastBegun: open && asked.length > 0 && asked.at(-1) === words.at(-1),
		};
	}

	/** Short forms written out; a short form that the club itself uses, in a title or a name, stays. */
	#writtenOut(typed: readonly string[]): readonly string[] {
		return typed.flatMap((word) => {
			const long = this.#language.abbreviations.get(word);
			return long === undefined || this.#facts.get(word)?.spells === true ? [word] : long.split(" ");
		});
	}

	/** Takes the words out that are filters. */
	#hold(
		words: readonly string[],
		isText: (typed: string) => boolean,
	): { readonly held: readonly HeldWords[]; readonly rest: readonly string[] } {
		const held: HeldWords[] = [];
		const rest: string[] = [];
		const stems = words.map((word) => this.stem(word));
		for (let i = 0; i < words.length; ) {
			const [length] = this.#phraseAt(stems, i);
			// What is a name itself says nothing of what must not be there.
			const found = this.#filterAt(stems, i) ?? (length > 1 ? undefined : this.#withoutAt(words, stems, i));
			const typed = words.slice(i, i + (found?.length ?? 0)).join(" ");
			if (found !== undefined && !isText(typed)) {
				held.push({ typed, terms: found.terms, without: found.without });
				i += found.length;
				continue;
			}
			// A name stays whole: of `floor beam` no word is an apparatus.
			const end = i + Math.max(1, length, found?.length ?? 0);
			while (i < end) rest.push(words[i++] as string);
		}
		return { held, rest };
	}

	/** A name, at this place, of something that is a filter; of numbered things (level 1 and 2) several. */
	#filterAt(stems: readonly string[], at: number): FilterWords | undefined {
		const [length, named] = this.#phraseAt(stems, at);
		const terms = named.filter((term) => this.#filters.has(term));
		if (terms.length === 0) return undefined;
		const numbers = length === 2 ? this.#numbered.get(stems[at] as string) : undefined;
		let end = at + length;
		while (numbers !== undefined) {
			const next = this.#language.and.has(stems[end] ?? "") ? end + 1 : end;
			const another = numbers.get(stems[next] ?? "");
			if (another === undefined) break;
			terms.push(another);
			end = next + 1;
		}
		return { length: end - at, terms, without: false };
	}

	/** `no mats`, `not on beam`, `without a springboard`: what drills must not have. */
	#withoutAt(words: readonly string[], stems: readonly string[], at: number): FilterWords | undefined {
		if (!this.#language.negations.has(words[at] as string)) return undefined;
		let from = at + 1;
		while (from < words.length && from - at < MOST_BETWEEN && this.#isBetween(words, stems, from)) from++;
		// `no need of equipment` is `no equipment`, which has a name.
		const nothing = this.#phrases
			.get(`${stems[at]} ${stems[from]}`)
			?.filter((term) => this.#filters.has(term));
		if (nothing !== undefined && nothing.length > 0) {
			return { length: from + 1 - at, terms: nothing, without: false };
		}
		const [length, named] = this.#phraseAt(stems, from);
		const filters = named.filter((term) => this.#filters.has(term));
		const items = length > 1 ? [] : (this.#items.get(stems[from] ?? "") ?? []);
		const terms = filters.length > 0 ? filters : items.length > 0 ? items : named;
		return terms.length === 0 ? undefined : { length: from + Math.max(1, length) - at, terms, without: true };
	}

	/** A word that may stand between `without` and what is meant. */
	#isBetween(words: readonly string[], stems: readonly string[], at: number): boolean {
		return this.#skips(words[at] as string) && this.#phraseAt(stems, at)[0] === 0;
	}

	#skips(word: string): boolean {
		return this.#language.stopWords.has(word) || this.#language.negations.has(word);
	}

	#addUse({ term, phrases, use }: Concept): void {
		if (use === "filter") this.#filters.add(term);
		for (const phrase of use === undefined ? [] : phrases) {
			const words = wordsOf(phrase);
			const last = this.stem(words.at(-1) ?? "");
			if (use === "item") pushTo(this.#items, last, term);
			else if (words.length === 2 && /^\d+$/.test(last)) {
				const first = this.stem(words[0] as string);
				getOrMake(this.#numbered, first, () => new Map()).set(last, term);
			}
		}
	}

	/** Head words that begin so, most frequent first. */
	startingWith(prefix: string, most: number): readonly string[] {
		if (prefix === "") return [];
		return this.#words()
			.filter(({ word }) => word.startsWith(prefix))
			.sort((a, b) => b.count - a.count || (a.word < b.word ? -1 : 1))
			.slice(0, most)
			.map(({ word }) => word);
	}

	#addPhrase(phrase: string, term: string): void {
		const words = wordsOf(phrase);
		for (const form of [words, ...this.#joinedForms(words)]) {
			if (form.length === 0) continue;
			const stems = form.map((word) => this.stem(word));
			const key = stems.join(" ");
			pushTo(this.#phrases, key, term);
			let node = this.#phraseTree;
			for (const stem of stems) {
				node = getOrMake(node.next, stem, () => ({ terms: [], next: new Map() }));
			}
			if (!node.terms.includes(term)) node.terms.push(term);
		}
	}

	/** The phrase with each known pair written as one word, and each known compound as two. */
	#joinedForms(words: readonly string[]): readonly (readonly string[])[] {
		const forms: string[][] = [];
		words.forEach((word, i) => {
			const next = words[i + 1];
			const parts = this.#compounds.get(word);
			if (parts !== undefined) forms.push([...words.slice(0, i), ...parts, ...words.slice(i + 1)]);
			if (next !== undefined && this.#compounds.has(word + next)) {
				forms.push([...words.slice(0, i), word + next, ...words.slice(i + 2)]);
			}
		});
		return forms;
	}

	/** In how many drills' heads a word stands. */
	#countOf(word: string): number {
		return this.#facts.get(word)?.count ?? 0;
	}

	#known(word: string): boolean {
		return (
			this.#countOf(word) > 0 ||
			this.#compounds.has(word) ||
			this.#skips(word) ||
			this.#headStems.has(this.stem(word)) ||
			this.#phrases.has(this.stem(word))
		);
	}

	/** Step one of reading: every word becomes one that somebody wrote, where that can be done. */
	#repair(
		typed: readonly string[],
		open: boolean,
		alsoKnown: (term: string) => boolean,
	): { words: readonly string[]; repairs: readonly Repair[] } {
		const words: string[] = [];
		const repairs: Repair[] = [];
		for (let i = 0; i < typed.length; i++) {
			const asTyped = typed[i] as string;
			const word = this.#language.spellings.get(asTyped) ?? asTyped;
			const next = typed[i + 1];
			// hand stand → handstand. A pair that is a phrase of its own (squat on) stays as it is.
			// A number stays a word of its own: level 1 is no level1.
			const joined = next !== undefined && isLettered(word) && isLettered(next) ? word + next : "";
			if (this.#countOf(joined) > 0 && !this.#compounds.has(joined)) {
				words.push(joined);
				i++;
				continue;
			}
			const unfinished = open && i === typed.length - 1;
			if (this.#known(word) || (unfinished && this.startingWith(word, 1).length > 0)) {
				words.push(word);
				continue;
			}
			const parts = this.#partsOfJoined(word);
			if (parts !== undefined) {
				words.push(...parts);
				continue;
			}
			if (alsoKnown(this.stem(word))) {
				words.push(word);
				continue;
			}
			const used = this.#nearest(word);
			if (used !== undefined) repairs.push({ typed: word, used });
			words.push(used ?? word);
		}
		return { words, repairs };
	}

	/** bearwalk → bear walk: the split whose parts are both head words, the most frequent pair first. */
	#partsOfJoined(word: string): readonly [string, string] | undefined {
		let best: readonly [string, string] | undefined;
		let bestCount = 0;
		for (let at = 2; at <= word.length - 2; at++) {
			const first = word.slice(0, at);
			const second = word.slice(at);
			// A part of two letters is a particle (up, on) and stands beside a longer word.
			if (Math.min(first.length, second.length) === 2 && word.length < 6) continue;
			if (first.length === 2 && !this.#language.stopWords.has(first)) continue;
			const rarest = Math.min(this.#countOfStem(first), this.#countOfStem(second));
			if (rarest > bestCount) {
				best = [first, second];
				bestCount = rarest;
			}
		}
		return best;
	}

	#countOfStem(word: string): number {
		const count = this.#countOf(word);
		if (count > 0) return count;
		const stem = this.stem(word);
		return stem !== word && this.#headStems.has(stem) ? Math.max(1, this.#countOf(stem)) : 0;
	}

	#nearest(word: string): string | undefined {
		if (!this.#corrections.has(word)) {
			if (this.#corrections.size >= MOST_CORRECTIONS) this.#corrections.clear();
			this.#corrections.set(word, this.#findNearest(word));
		}
		return this.#corrections.get(word);
	}

	/** The head word that was most likely meant: nearest, then same beginning, then most frequent. */
	#findNearest(word: string): string | undefined {
		const limit = slips(word.length);
		const alikeLimit = slipsAlike(word.length);
		if (limit === 0 || !/^\p{L}+$/u.test(word)) return undefined;
		const sound = this.#language.sound(word);
		const letters = lettersOf(word);
		let best: string | undefined;
		let bestRank: readonly number[] = [];
		for (const candidate of this.#words()) {
			const other = candidate.word;
			if (!candidate.spells) continue;
			if (Math.abs(other.length - word.length) > alikeLimit || other.length < 3) continue;
			// Every letter that only one of the two has is a slip of its own, or half of one.
			if (bitsIn(letters & ~candidate.letters) > alikeLimit) continue;
			if (bitsIn(candidate.letters & ~letters) > alikeLimit) continue;
			const distance = slipsBetween(word, other, alikeLimit);
			if (distance > alikeLimit) continue;
			candidate.sound ??= this.#language.sound(other);
			const alike = candidate.sound === sound;
			if (distance > (alike ? alikeLimit : limit)) continue;
			// roue is no rope: in a short word a wrong letter makes another word, unless it sounds the same.
			if (word.length <= SHORT && !alike && lettersOff(word, other)) continue;
			const rank = [alike ? distance - 1 : distance, other[0] === word[0] ? 0 : 1, -candidate.count];
			if (best === undefined || isBefore(rank, bestRank)) {
				best = other;
				bestRank = rank;
			}
		}
		return best;
	}

	/** Step two of reading: names as wholes, longest first; then single words; stop words fall out. */
	#partsOf(words: readonly string[], open: boolean): readonly QueryPart[] {
		const parts: QueryPart[] = [];
		const stems = words.map((word) => this.stem(word));
		for (let i = 0; i < words.length; ) {
			const [length, terms] = this.#phraseAt(stems, i);
			const lasts = open && i + Math.max(1, length) === words.length;
			if (length > 0 && !(length === 1 && this.#skips(words[i] as string))) {
				parts.push(this.#part(words.slice(i, i + length), terms, lasts));
				i += length;
			} else {
				const word = words[i] as string;
				if (!this.#skips(word)) {
					const next = words[i + 1];
					if (next !== undefined && this.#compounds.has(word + next)) {
						parts.push(this.#part([word, next], [], open && i + 2 === words.length));
						i++;
					} else parts.push(this.#part([word], [], lasts));
				}
				i++;
			}
		}
		return parts;
	}

	/** A query of stop words alone is taken at its word. */
	#literalParts(words: readonly string[], open: boolean): readonly QueryPart[] {
		return words.map((word, i) => this.#part([word], [], open && i === words.length - 1));
	}

	/** The longest phrase that begins at a stem: how many stems it has, and what it names. */
	#phraseAt(stems: readonly string[], at: number): readonly [number, readonly string[]] {
		let found: readonly [number, readonly string[]] = [0, []];
		let node: PhraseNode | undefined = this.#phraseTree;
		for (let end = at; end < stems.length && node !== undefined; end++) {
			node = node.next.get(stems[end] as string);
			if (node !== undefined && node.terms.length > 0) found = [end - at + 1, node.terms];
		}
		return found;
	}

	#part(words: readonly string[], concepts: readonly string[], open: boolean): QueryPart {
		const ways: { terms: readonly string[]; weight: number }[] = [];
		const literal = new Set<string>();
		for (const word of words) {
			if (words.length === 1 || !this.#language.stopWords.has(word)) literal.add(this.stem(word));
		}
		// Of `run up` only `run` can be looked for: that is less than what was said, unlike `runup`.
		ways.push({ terms: [...literal], weight: literal.size < words.length ? LESS_THAN_SAID : 1 });
		for (const [i, word] of words.entries()) {
			const next = words[i + 1];
			if (next !== undefined && words.length === 2 && this.#compounds.has(word + next)) {
				ways.push({ terms: [this.stem(word + next)], weight: 1 });
			}
		}
		for (const term of concepts) ways.push({ terms: [term], weight: 1 });
		if (open) this.#addBeginnings(words, ways);
		const begun = open && words.length === 1 && (words[0] as string).length <= MOST_BEGUN;
		return { typed: words.join(" "), ways, named: concepts.length > 0, begun };
	}

	/**
	 * The last word may be unfinished: everything it may become counts, less the further it is away,
	 * and so does every name that begins with the words typed so far.
	 */
	#addBeginnings(words: readonly string[], ways: { terms: readonly string[]; weight: number }[]): void {
		const last = words.at(-1) as string;
		const before = words.slice(0, -1).map((word) => this.stem(word));
		const seen = new Set(ways.map((way) => way.terms.join(" ")));
		for (const word of this.startingWith(last, MOST_BEGINNINGS)) {
			const weight = 0.6 * (last.length / word.length);
			const stem = this.stem(word);
			const named = this.#phrases.get([...before, stem].join(" ")) ?? [];
			for (const terms of [[...before, stem], ...named.map((term) => [term])]) {
				const key = terms.join(" ");
				if (seen.has(key)) continue;
				seen.add(key);
				ways.push({ terms, weight });
			}
		}
		const begun = [...before, this.stem(last)].join(" ");
		for (const [phrase, terms] of this.#phrases) {
			if (!phrase.startsWith(`${begun} `)) continue;
			for (const term of terms) {
				if (seen.has(term)) continue;
				seen.add(term);
				ways.push({ terms: [term], weight: 0.3 });
			}
		}
	}
}

function pairOf(first: string, second: string): string {
	return `${first}_${second}`;
}

/** How many slips a word of this length may have: none in three letters, one in seven, two in nine, then three. */
function slips(length: number): number {
	if (length < 4) return 0;
	if (length < 8) return 1;
	return length < 10 ? 2 : 3;
}

/** The same for a word that sounds like the one meant: people write what they hear. */
function slipsAlike(length: number): number {
	if (length < 5) return slips(length);
	return length < 6 ? 2 : length < 10 ? 3 : 4;
}

/** Whether one letter stands for another, and none is missing, extra or in its neighbour's place. */
function lettersOff(a: string, b: string): boolean {
	return a.length === b.length && [...a].sort().join("") !== [...b].sort().join("");
}

function pushTo<K, V>(map: Map<K, V[]>, key: K, value: V): void {
	const values = getOrMake(map, key, () => []);
	if (!values.includes(value)) values.push(value);
}

/** How many of 32 bits are set, added up in pairs, fours and eights. */
function bitsIn(word: number): number {
	let n = word - ((word >>> 1) & 0x55555555);
	n = (n & 0x33333333) + ((n >>> 2) & 0x33333333);
	return (((n + (n >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}

/**
 * Slips between two words: letters missing, extra, wrong, or two neighbours swapped (each one slip).
 * Anything above the limit comes back as limit + 1. A library's Levenshtein counts a swap, the most
 * common slip of all, as two.
 */
export function slipsBetween(a: string, b: string, limit: number): number {
	if (Math.abs(a.length - b.length) > limit) return limit + 1;
	let older: number[] = [];
	let previous = Array.from({ length: b.length + 1 }, (_, i) => i);
	for (let i = 1; i <= a.length; i++) {
		const row = [i];
		let least = i;
		for (let j = 1; j <= b.length; j++) {
			const cost = a[i - 1] === b[j - 1] ? 0 : 1;
			let value = Math.min(
				(previous[j] as number) + 1,
				(row[j - 1] as number) + 1,
				(previous[j - 1] as number) + cost,
			);
			if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
				value = Math.min(value, (older[j - 2] as number) + 1);
			}
			row.push(value);
			if (value < least) least = value;
		}
		if (least > limit) return limit + 1;
		older = previous;
		previous = row;
	}
	return Math.min(previous[b.length] as number, limit + 1);
}

function isBefore(a: readonly number[], b: readonly number[]): boolean {
	for (let i = 0; i < a.length; i++) {
		const difference = (a[i] as number) - (b[i] ?? 0);
		if (difference !== 0) return difference < 0;
	}
	return false;
}

/** One bit for each letter a word has; letters of other scripts share the bits among them. */
function lettersOf(word: string): number {
	let letters = 0;
	for (let i = 0; i < word.length; i++) letters |= 1 << (word.charCodeAt(i) & 31);
	return letters;
}
