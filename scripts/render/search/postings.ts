/**
 * A compact full-text index: for every term the drills and fields it stands in, scored by BM25+.
 *
 * It is written as one list of whole numbers beside one string of terms, which compresses to about a
 * quarter of a general library's index and opens without being rebuilt. The terms come ready-made
 * (normalise.ts), and how parts of a query combine is the engine's business, so nothing else is needed.
 */

/** As it stands in a data file. */
export interface PostingsFile {
	/** Terms in alphabetical order. */
	readonly terms: string;
	/**
	 * For each term: the number of fields it stands in, then for each of them the field, the number of
	 * drills, and for each drill twice the step from the drill before, plus one where the term stands
	 * there more than once, followed by how often.
	 */
	readonly postings: readonly number[];
	/** For each field, the number of terms of each drill. */
	readonly lengths: readonly (readonly number[])[];
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
	readonly #file: PostingsFile;
	readonly #weights: readonly number[];
	/** Where each term's numbers begin. */
	readonly #starts: ReadonlyMap<string, number>;
	readonly #means: readonly number[];
	readonly #kept = new Map<string, Found>();

	/** @param weights what a match in each field counts, in the order of the fields */
	constructor(file: PostingsFile, weights: readonly number[]) {
		this.#file = file;
		this.#weights = weights;
		this.#means = file.lengths.map(
			(lengths) => lengths.reduce((sum, length) => sum + length, 0) / Math.max(1, lengths.length),
		);
		this.#starts = startsOf(file);
	}

	/** Indexes drills given as lists of terms for each field. */
	static of(drills: readonly (readonly (readonly string[])[])[], weights: readonly number[]): Postings {
		const byTerm = new Map<string, number[][]>();
		const lengths = weights.map(() => new Array<number>(drills.length).fill(0));
		drills.forEach((fields, drill) => {
			fields.forEach((terms, field) => {
				(lengths[field] as number[])[drill] = terms.length;
				for (const [term, times] of countEach(terms)) {
					let byField = byTerm.get(term);
					if (byField === undefined) {
						byField = weights.map(() => []);
						byTerm.set(term, byField);
					}
					byField[field]?.push(drill, times);
				}
			});
		});
		const terms = [...byTerm.keys()].sort();
		const postings: number[] = [];
		for (const term of terms) write(postings, byTerm.get(term) ?? []);
		return new Postings({ terms: terms.join(" "), postings, lengths }, weights);
	}

	toFile(): PostingsFile {
		return this.#file;
	}

	has(term: string): boolean {
		return this.#starts.has(term);
	}

	find(term: string): Found {
		const start = this.#starts.get(term);
		if (start === undefined) return NOTHING;
		let found = this.#kept.get(term);
		if (found === undefined) {
			found = this.#read(start);
			if (this.#kept.size >= MOST_KEPT) this.#kept.clear();
			this.#kept.set(term, found);
		}
		return found;
	}

	#read(start: number): Found {
		const { postings, lengths } = this.#file;
		const size = lengths[0]?.length ?? 0;
		const scores = new Map<number, number>();
		let at = start;
		for (let fields = postings[at++] as number; fields > 0; fields--) {
			const field = postings[at++] as number;
			const count = postings[at++] as number;
			const rarity = Math.log(1 + (size - count + 0.5) / (count + 0.5)) * (this.#weights[field] as number);
			const mean = this.#means[field] as number;
			const fieldLengths = lengths[field] as readonly number[];
			let drill = 0;
			for (let i = 0; i < count; i++) {
				const step = postings[at++] as number;
				drill += step >>> 1;
				const times = (step & 1) === 1 ? (postings[at++] as number) : 1;
				const length = fieldLengths[drill] as number;
				const damped = SATURATION * (1 - LENGTH + (LENGTH * length) / mean);
				const score = rarity * (LEAST + (times * (SATURATION + 1)) / (times + damped));
				scores.set(drill, (scores.get(drill) ?? 0) + score);
			}
		}
		return { drills: [...scores.keys()], scores: [...scores.values()] };
	}
}

function startsOf({ terms, postings }: PostingsFile): ReadonlyMap<string, number> {
	const starts = new Map<string, number>();
	let at = 0;
	for (const term of terms === "" ? [] : terms.split(" ")) {
		starts.set(term, at);
		for (let fields = postings[at++] as number; fields > 0; fields--) {
			const count = postings[at + 1] as number;
			at += 2;
			for (let i = 0; i < count; i++) at += ((postings[at] as number) & 1) + 1;
		}
	}
	return starts;
}

function write(postings: number[], byField: readonly (readonly number[])[]): void {
	postings.push(byField.filter((list) => list.length > 0).length);
	byField.forEach((list, field) => {
		if (list.length === 0) return;
		postings.push(field, list.length / 2);
		let last = 0;
		for (let i = 0; i < list.length; i += 2) {
			const drill = list[i] as number;
			const times = list[i + 1] as number;
			postings.push((drill - last) * 2 + (times > 1 ? 1 : 0));
			if (times > 1) postings.push(times);
			last = drill;
		}
	});
}

function countEach(terms: readonly string[]): ReadonlyMap<string, number> {
	const counts = new Map<string, number>();
	for (const term of terms) counts.set(term, (counts.get(term) ?? 0) + 1);
	return counts;
}
