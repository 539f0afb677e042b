/**
 * Numbers for texts, and where pairs of them stand: what packing asks millions of times.
 *
 * Plain maps would hold on to the page that every text was cut from, and take a small object for each
 * answer. Here everything lies in a few pieces of memory, found by open addressing: the place of a key
 * is its hash, or the next free one behind it.
 */

import { ENDS_VALUE, OPENS_STRING, SECTION_TOKENS } from "./packs.ts";

/** Of the places of a table at most so many in a hundred are taken; then it doubles. */
const FULL = 60;

/** FNV-1a, 32 bits. */
const HASH_START = 0x811c9dc5;

/** Numbers of tokens one after the other, of many files. */
export class TokenRow {
	#row: Int32Array;
	#length = 0;

	/** @param room for so many numbers at first */
	constructor(room = 1 << 16) {
		this.#row = new Int32Array(room);
	}

	/** Those up to its length are meant; behind it lies room, or what was taken off. */
	get row(): Int32Array {
		return this.#row;
	}

	get length(): number {
		return this.#length;
	}

	set length(length: number) {
		if (length > this.#row.length) this.#row = grown(this.#row, length);
		this.#length = length;
	}

	add(numbers: Int32Array): void {
		const begin = this.#length;
		this.length += numbers.length;
		this.#row.set(numbers, begin);
	}

	/** The number at a place; 0, which no token has, behind the last. */
	at(place: number): number {
		return place < this.#length ? (this.#row[place] as number) : 0;
	}
}

/** Above it a character takes two bytes. */
const LATIN_1 = 0xff;

/** Gives equal tokens the same number, from 1, and numbers their text back. */
export class TokenNumbers {
	/** Numbers by the hash of their text; 0 is free. */
	#table = new Int32Array(1 << 14);
	#hashes = new Int32Array(1 << 13);
	/** Where the text of a number ends in the pool; it begins where the one before ends. */
	#ends = new Uint32Array(1 << 13);
	#pool = new Uint16Array(1 << 16);
	#count = 0;
	/** Of the text at hand. */
	#numbers = new Int32Array(1 << 12);
	#length = 0;
	#bytes = Buffer.alloc(1 << 12);

	/** The numbers of a text's tokens, cut as `Starts.cut` does; one walk cuts and hashes. */
	of(text: string): Int32Array {
		this.#length = 0;
		let begin = 0;
		let hash = HASH_START;
		let before = 0;
		for (let i = 0; i < text.length; i++) {
			const sign = text.charCodeAt(i);
			if (
				i > 0 &&
				(sign === 60 ||
					sign === 91 ||
					before === 62 ||
					(sign === 34 && OPENS_STRING[before] === 1) ||
					(before === 34 && ENDS_VALUE[sign] === 1))
			) {
				this.#makeRoom(1);
				this.#numbers[this.#length++] = this.#numberOf(text, begin, i, hash);
				begin = i;
				hash = HASH_START;
			}
			hash = Math.imul(hash ^ sign, 0x01000193);
			before = sign;
		}
		if (text !== "") {
			this.#makeRoom(1);
			this.#numbers[this.#length++] = this.#numberOf(text, begin, text.length, hash);
		}
		return this.#numbers.slice(0, this.#length);
	}

	#makeRoom(count: number): void {
		const length = this.#length + count;
		if (length > this.#numbers.length) this.#numbers = grown(this.#numbers, length);
	}

	/** Characters of a token. */
	lengthOf(number: number): number {
		return (this.#ends[number] as number) - (this.#ends[number - 1] as number);
	}

	beginsSection(number: number): boolean {
		const length = this.lengthOf(number);
		return SECTION_TOKENS.some((token) => token.length === length && this.#begins(number, token));
	}

	/** The text of numbers that follow each other in a row. */
	textOf(row: Int32Array, from: number, to: number): string {
		let length = 0;
		for (let at = from; at < to; at++) length += this.lengthOf(row[at] as number);
		if (this.#bytes.length < 2 * length) this.#bytes = Buffer.alloc(4 * length);
		const bytes = this.#bytes;
		const pool = this.#pool;
		let all = 0;
		let end = 0;
		for (let at = from; at < to; at++) {
			const number = row[at] as number;
			const last = this.#ends[number] as number;
			for (let i = this.#ends[number - 1] as number; i < last; i++) {
				const sign = pool[i] as number;
				all |= sign;
				bytes[end++] = sign;
			}
		}
		if (all <= LATIN_1) return bytes.toString("latin1", 0, end);
		end = 0;
		for (let at = from; at < to; at++) {
			const number = row[at] as number;
			const last = this.#ends[number] as number;
			for (let i = this.#ends[number - 1] as number; i < last; i++) {
				end = bytes.writeUInt16LE(pool[i] as number, end);
			}
		}
		return bytes.toString("utf16le", 0, end);
	}

	#numberOf(text: string, from: number, to: number, walked: number): number {
		const hash = walked ^ (walked >>> 15);
		const mask = this.#table.length - 1;
		for (let place = hash & mask; ; place = (place + 1) & mask) {
			const known = this.#table[place] as number;
			if (known === 0) {
				const number = this.#keep(text, from, to, hash);
				this.#table[place] = number;
				if (this.#count * 100 > this.#table.length * FULL) this.#widen();
				return number;
			}
			if (this.#hashes[known] === hash && this.#holds(known, text, from, to)) return known;
		}
	}

	#holds(number: number, text: string, from: number, to: number): boolean {
		const pool = this.#pool;
		const begin = this.#ends[number - 1] as number;
		if ((this.#ends[number] as number) - begin !== to - from) return false;
		for (let i = from, at = begin; i < to; i++, at++) if (pool[at] !== text.charCodeAt(i)) return false;
		return true;
	}

	#begins(number: number, text: string): boolean {
		const begin = this.#ends[number - 1] as number;
		for (let i = 0; i < text.length; i++) if (this.#pool[begin + i] !== text.charCodeAt(i)) return false;
		return true;
	}

	#keep(text: string, from: number, to: number, hash: number): number {
		const number = ++this.#count;
		const begin = this.#ends[number - 1] as number;
		const end = begin + to - from;
		if (number >= this.#ends.length) {
			this.#ends = grown(this.#ends, number + 1);
			this.#hashes = grown(this.#hashes, number + 1);
		}
		if (end > this.#pool.length) this.#pool = grown(this.#pool, end);
		const pool = this.#pool;
		for (let i = from, at = begin; i < to; i++, at++) pool[at] = text.charCodeAt(i);
		this.#ends[number] = end;
		this.#hashes[number] = hash;
		return number;
	}

	#widen(): void {
		const table = new Int32Array(this.#table.length * 2);
		const mask = table.length - 1;
		for (let number = 1; number <= this.#count; number++) {
			let place = (this.#hashes[number] as number) & mask;
			while (table[place] !== 0) place = (place + 1) & mask;
			table[place] = number;
		}
		this.#table = table;
	}
}

/** No place: the end of a list. */
const NONE = -1;

/** Where two tokens stand one after the other, in which file: the first few places of each pair. */
export class Beginnings<File> {
	readonly #most: number;
	/** Numbers of pairs, from 1, by the hash of the pair; 0 is free. */
	#table = new Int32Array(1 << 8);
	#pairs = 0;
	/** Of each pair: its two tokens, its first and last place, and how many it has. */
	#one = new Int32Array(1 << 7);
	#two = new Int32Array(1 << 7);
	#head = new Int32Array(1 << 7);
	#tail = new Int32Array(1 << 7);
	#size = new Uint8Array(1 << 7);
	/** Of each place: the file, the token, and the pair's next place. */
	readonly #files: File[] = [];
	#fileOf = new Int32Array(1 << 7);
	#tokenOf = new Int32Array(1 << 7);
	#next = new Int32Array(1 << 7);
	#places = 0;

	/** @param most places remembered of a pair, at most 255 */
	constructor(most: number) {
		this.#most = most;
	}

	/** The first place of a pair, or a negative number. */
	first(one: number, two: number): number {
		const pair = this.#table[this.#placeOf(one, two)] as number;
		return pair === 0 ? NONE : (this.#head[pair] as number);
	}

	/** The place after a place, or a negative number. */
	after(place: number): number {
		return this.#next[place] as number;
	}

	fileAt(place: number): File {
		return this.#files[this.#fileOf[place] as number] as File;
	}

	tokenAt(place: number): number {
		return this.#tokenOf[place] as number;
	}

	/** Remembers a place, unless the pair has its most already. Places of one file come one after the other. */
	add(one: number, two: number, file: File, token: number): void {
		const pair = this.#pairOf(one, two);
		if (this.#size[pair] === this.#most) return;
		if (this.#files.at(-1) !== file) this.#files.push(file);
		const place = this.#places++;
		if (place === this.#next.length) {
			this.#fileOf = grown(this.#fileOf, place + 1);
			this.#tokenOf = grown(this.#tokenOf, place + 1);
			this.#next = grown(this.#next, place + 1);
		}
		this.#fileOf[place] = this.#files.length - 1;
		this.#tokenOf[place] = token;
		this.#next[place] = NONE;
		if (this.#size[pair] === 0) this.#head[pair] = place;
		else this.#next[this.#tail[pair] as number] = place;
		this.#tail[pair] = place;
		this.#size[pair] = (this.#size[pair] as number) + 1;
	}

	#pairOf(one: number, two: number): number {
		const at = this.#placeOf(one, two);
		const known = this.#table[at] as number;
		if (known !== 0) return known;
		const pair = ++this.#pairs;
		if (pair === this.#one.length) {
			this.#one = grown(this.#one, pair + 1);
			this.#two = grown(this.#two, pair + 1);
			this.#head = grown(this.#head, pair + 1);
			this.#tail = grown(this.#tail, pair + 1);
			this.#size = grown(this.#size, pair + 1);
		}
		this.#one[pair] = one;
		this.#two[pair] = two;
		this.#table[at] = pair;
		if (this.#pairs * 100 > this.#table.length * FULL) this.#widen();
		return pair;
	}

	/** Where a pair lies in the table, or would lie. */
	#placeOf(one: number, two: number): number {
		const mask = this.#table.length - 1;
		let place = hashOfPair(one, two) & mask;
		for (;;) {
			const pair = this.#table[place] as number;
			if (pair === 0 || (this.#one[pair] === one && this.#two[pair] === two)) return place;
			place = (place + 1) & mask;
		}
	}

	#widen(): void {
		const table = new Int32Array(this.#table.length * 2);
		const mask = table.length - 1;
		for (let pair = 1; pair <= this.#pairs; pair++) {
			let place = hashOfPair(this.#one[pair] as number, this.#two[pair] as number) & mask;
			while (table[place] !== 0) place = (place + 1) & mask;
			table[place] = pair;
		}
		this.#table = table;
	}
}

function hashOfPair(one: number, two: number): number {
	const mixed = Math.imul(one, 0x9e3779b1) ^ Math.imul(two, 0x85ebca6b);
	return mixed ^ (mixed >>> 15);
}

/** The same numbers in at least so much room. */
function grown<A extends Int32Array | Uint32Array | Uint16Array | Uint8Array>(numbers: A, least: number): A {
	const larger = new (numbers.constructor as new (length: number) => A)(Math.max(numbers.length * 2, least));
	larger.set(numbers);
	return larger;
}

/** The same text, in memory of its own: a piece cut from a page would keep the whole page. */
export function apart(piece: string): string {
	return Buffer.from(piece).toString();
}
