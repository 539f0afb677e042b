/**
 * Compact full-text indexes: for every term the drills and fields it stands in, scored by BM25+.
 *
 *   PostingsBuilder   terms read one after the other → where each stands; in the browser for heads and
 *                     summaries, whose texts it has anyway, in the build for bodies
 *   PostingsFile      the same as text, unpacked term by term as they are asked for
 *   Postings          scores of a term's drills, from either
 *
 * The terms come ready-made (normalise.ts), and how parts of a query combine is the engine's business.
 */

import { packNumbers, unpackNumbers } from "./numbers.ts";

/** As it stands in a data file. */
export interface PostingsFile {
	/** Terms in alphabetical order. */
	readonly terms: string;
	/**
	 * For each term, packed and with a space between: for every field it stands in the number of drills
	 * times the number of fields, plus the field; then for each drill twice the step from the drill
	 * before, plus one where the term stands there more than once, followed by how often.
	 */
	readonly postings: string;
	/** For each field, the number of terms of each drill, packed. */
	readonly lengths: readonly string[];
}

/** Where a term stands: by field, and within a field in the order of the drills. */
export interface Places {
	readonly fields: ArrayLike<number>;
	readonly drills: ArrayLike<number>;
	/** How often it stands there. */
	readonly times: ArrayLike<number>;
}

/** Where terms stand, from wherever that is known. */
export interface PostingsSource {
	/** For each field, the number of terms of each drill. */
	readonly lengths: readonly ArrayLike<number>[];
	has(term: string): boolean;
	places(term: string): Places | undefined;
}

/** Drills that have a term, each once, and how well it fits them. */
export interface Found {
	readonly drills: readonly number[];
	readonly scores: readonly number[];
}

// BM25+ (Lv and Zhai 2011) with the usual constants: how soon a repeated term stops counting, how far
// a long field is marked down, and what a match is worth at least.
const SATURATION = 1.2;
const LENGTH = 0.7;
const LEAST = 0.5;
const NOTHING: Found = { drills: [], scores: [] };
/** More terms than this are not remembered. */
const MOST_KEPT = 500;

export class Postings {
	readonly #source: PostingsSource;
	readonly #weights: readonly number[];
	readonly #means: readonly number[];
	readonly #kept = new Map<string, Found>();

	/** @param weights what a match in each field counts, in the order of the fields */
	constructor(source: PostingsSource, weights: readonly number[]) {
		this.#source = source;
		this.#weights = weights;
		this.#means = source.lengths.map((lengths) => {
			let sum = 0;
			for (let i = 0; i < lengths.length; i++) sum += lengths[i] as number;
			return sum / Math.max(1, lengths.length);
		});
	}

	has(term: string): boolean {
		return this.#source.has(term);
	}

	find(term: string): Found {
		let found = this.#kept.get(term);
		if (found === undefined) {
			const places = this.#source.places(term);
			if (places === undefined) return NOTHING;
			found = this.#score(places);
			if (this.#kept.size >= MOST_KEPT) this.#kept.clear();
			this.#kept.set(term, found);
		}
		return found;
	}

	#score({ fields, drills, times }: Places): Found {
		const total = drills.length;
		const found: number[] = [];
		const scores: number[] = [];
		/** Places in `found`, once there is a second field. */
		let at: Map<number, number> | undefined;
		for (let from = 0; from < total; ) {
			const field = fields[from] as number;
			let to = from;
			while (to < total && fields[to] === field) to++;
			const lengths = this.#source.lengths[field] as ArrayLike<number>;
			const mean = this.#means[field] as number;
			const count = to - from;
			const rarity =
				Math.log(1 + (lengths.length - count + 0.5) / (count + 0.5)) * (this.#weights[field] as number);
			if (from > 0) at ??= new Map(found.map((drill, i) => [drill, i]));
			for (let i = from; i < to; i++) {
				const drill = drills[i] as number;
				const often = times[i] as number;
				const damped = SATURATION * (1 - LENGTH + (LENGTH * (lengths[drill] as number)) / mean);
				const score = rarity * (LEAST + (often * (SATURATION + 1)) / (often + damped));
				const before = at?.get(drill);
				if (before === undefined) {
					at?.set(drill, found.length);
					found.push(drill);
					scores.push(score);
				} else scores[before] = (scores[before] as number) + score;
			}
			from = to;
		}
		return { drills: found, scores };
	}
}

/** Takes terms drill by drill, in the order of the drills. */
export class PostingsBuilder implements PostingsSource {
	readonly lengths: readonly Uint32Array[];
	readonly #numbers = new Map<string, number>();
	/** Two numbers for each term read: the term's own, and the drill's times the fields plus the field. */
	#read = new Uint32Array(1 << 12);
	#size = 0;
	/** What has been read, put together by terms when it is first asked for. */
	#grouped: { readonly starts: Uint32Array; readonly at: Uint32Array } | undefined;

	constructor(drills: number, fields: number) {
		this.lengths = Array.from({ length: fields }, () => new Uint32Array(drills));
	}

	add(drill: number, field: number, term: string): void {
		const lengths = this.lengths[field] as Uint32Array;
		lengths[drill] = (lengths[drill] as number) + 1;
		let number = this.#numbers.get(term);
		if (number === undefined) {
			number = this.#numbers.size;
			this.#numbers.set(term, number);
		}
		if (this.#size === this.#read.length) {
			const larger = new Uint32Array(this.#read.length * 2);
			larger.set(this.#read);
			this.#read = larger;
		}
		this.#read[this.#size++] = number;
		this.#read[this.#size++] = drill * this.lengths.length + field;
		this.#grouped = undefined;
	}

	has(term: string): boolean {
		return this.#numbers.has(term);
	}

	places(term: string): Places | undefined {
		const number = this.#numbers.get(term);
		if (number === undefined) return undefined;
		this.#grouped ??= this.#group();
		const { starts, at } = this.#grouped;
		const from = starts[number] as number;
		const to = starts[number + 1] as number;
		const places = { fields: [] as number[], drills: [] as number[], times: [] as number[] };
		const fieldCount = this.lengths.length;
		for (let field = 0; field < fieldCount; field++) {
			let last = -1;
			for (let i = from; i < to; i++) {
				const place = at[i] as number;
				if (place % fieldCount !== field) continue;
				if (place === last) {
					places.times[places.times.length - 1] = (places.times.at(-1) as number) + 1;
					continue;
				}
				last = place;
				places.fields.push(field);
				places.drills.push((place - field) / fieldCount);
				places.times.push(1);
			}
		}
		return places;
	}

	/** A counting sort by terms, which keeps the drills' order. */
	#group(): { readonly starts: Uint32Array; readonly at: Uint32Array } {
		const starts = new Uint32Array(this.#numbers.size + 1);
		for (let i = 0; i < this.#size; i += 2) {
			const next = (this.#read[i] as number) + 1;
			starts[next] = (starts[next] as number) + 1;
		}
		for (let i = 1; i < starts.length; i++) {
			starts[i] = (starts[i] as number) + (starts[i - 1] as number);
		}
		const ends = starts.slice();
		const at = new Uint32Array(this.#size / 2);
		for (let i = 0; i < this.#size; i += 2) {
			const number = this.#read[i] as number;
			const end = ends[number] as number;
			at[end] = this.#read[i + 1] as number;
			ends[number] = end + 1;
		}
		return { starts, at };
	}

	toFile(): PostingsFile {
		const terms = [...this.#numbers.keys()].sort();
		const postings = terms.map((term) => {
			const numbers: number[] = [];
			const { fields, drills, times } = this.places(term) as Places;
			for (let i = 0; i < drills.length; ) {
				const field = fields[i] as number;
				let end = i;
				while (end < drills.length && fields[end] === field) end++;
				numbers.push((end - i) * this.lengths.length + field);
				for (let last = 0; i < end; i++) {
					const drill = drills[i] as number;
					const often = times[i] as number;
					numbers.push((drill - last) * 2 + (often > 1 ? 1 : 0));
					if (often > 1) numbers.push(often);
					last = drill;
				}
			}
			return packNumbers(numbers);
		});
		return {
			terms: terms.join(" "),
			postings: postings.join(" "),
			lengths: this.lengths.map((lengths) => packNumbers(lengths)),
		};
	}
}

/** Reads a data file, each term's numbers when they are asked for. */
export function openPostings(file: PostingsFile): PostingsSource {
	const postings = file.postings.split(" ");
	const at = new Map(file.terms.split(" ").map((term, i) => [term, postings[i] ?? ""]));
	return {
		lengths: file.lengths.map(unpackNumbers),
		has: (term) => at.has(term),
		places(term) {
			const text = at.get(term);
			return text === undefined ? undefined : unpackPlaces(unpackNumbers(text), file.lengths.length);
		},
	};
}

function unpackPlaces(numbers: readonly number[], fieldCount: number): Places {
	const fields: number[] = [];
	const drills: number[] = [];
	const times: number[] = [];
	for (let at = 0; at < numbers.length; ) {
		const head = numbers[at++] as number;
		const field = head % fieldCount;
		let drill = 0;
		for (let left = Math.floor(head / fieldCount); left > 0; left--) {
			const step = numbers[at++] as number;
			drill += step >>> 1;
			fields.push(field);
			drills.push(drill);
			times.push((step & 1) === 1 ? (numbers[at++] as number) : 1);
		}
	}
	return { fields, drills, times };
}
