/** A set of drills as one bit for each, so that a filter's count is a few machine words. */
export class Bits {
	readonly #words: Uint32Array;

	constructor(size: number, words = new Uint32Array((size + 31) >>> 5)) {
		this.#words = words;
	}

	static full(size: number): Bits {
		const bits = new Bits(size);
		bits.#words.fill(0xffffffff);
		const rest = size & 31;
		if (rest > 0) bits.#words[bits.#words.length - 1] = (1 << rest) - 1;
		return bits;
	}

	add(index: number): void {
		const at = index >>> 5;
		this.#words[at] = (this.#words[at] as number) | (1 << (index & 31));
	}

	has(index: number): boolean {
		return ((this.#words[index >>> 5] as number) & (1 << (index & 31))) !== 0;
	}

	/** Those in both. */
	and(other: Bits): Bits {
		return new Bits(
			0,
			this.#words.map((word, i) => word & (other.#words[i] as number)),
		);
	}

	/** Those in either. */
	or(other: Bits): Bits {
		return new Bits(
			0,
			this.#words.map((word, i) => word | (other.#words[i] as number)),
		);
	}

	/** The lowest, up to so many. */
	first(most: number): readonly number[] {
		const found: number[] = [];
		for (let i = 0; i < this.#words.length && found.length < most; i++) {
			for (let word = this.#words[i] as number; word !== 0 && found.length < most; word &= word - 1) {
				// The lowest bit alone, and its place from the right.
				found.push(i * 32 + 31 - Math.clz32(word & -word));
			}
		}
		return found;
	}

	count(): number {
		let count = 0;
		for (const word of this.#words) count += bitsIn(word);
		return count;
	}

	/** How many are in both, without building the set. */
	countWith(other: Bits): number {
		let count = 0;
		for (let i = 0; i < this.#words.length; i++) {
			count += bitsIn((this.#words[i] as number) & (other.#words[i] as number));
		}
		return count;
	}
}

/** How many of 32 bits are set, added up in pairs, fours and eights. */
export function bitsIn(word: number): number {
	let n = word - ((word >>> 1) & 0x55555555);
	n = (n & 0x33333333) + ((n >>> 2) & 0x33333333);
	return (((n + (n >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}
