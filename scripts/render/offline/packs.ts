/**
 * How the texts of pages lie in packs: the format, and the way back from packs to texts.
 *
 * Pages of a handbook repeat each other: what a drill says stands on its page, on its week's pages, on
 * every class sheet and in lists. A host's compression cannot see that, since it packs each file by
 * itself and some look back over 32 kB only. So a pack writes a page's text (page-text.ts) as new text
 * and copies: from itself, from a page before it in the pack, or from a *source*, which is a page of any
 * pack.
 *
 *   1. a text is cut into tokens: tags, and strings with what follows them
 *   2. a copy names a file, the token it begins with, by its section, and how many tokens it takes; a
 *      changed word therefore changes its own page and none of those that copy it
 *   3. sources are read in the order of their rank, and copy from sources of lower rank, or before them
 *
 * Signs: the control characters below have a meaning here and may not stand in a page. The packs are text
 * for the host to compress as it likes. The build and the worker share this file.
 */

/** Between files, around copies, and in place of the page's way to the root and of the edition's name. */
export const FILE = "\u0001";
export const PART = "\u0002";
export const ROOT = "\u0003";
export const EDITION = "\u0004";
/** In place of a drill's id where its page says it of itself. */
export const OWN = "\u000b";
/** Between the texts of a pack and its copies. */
const COPIES = "\u0005";

/** Between the numbers, the words and the files of a bundle. */
const PACK = "\u0007";

/** Whether a text holds a sign that packs use. */
export function holdsSign(text: string): boolean {
	return [FILE, PART, ROOT, EDITION, OWN, COPIES, PACK].some((sign) => text.includes(sign));
}

/** A file as it stands in a pack. */
export interface PackedFile {
	/** From the root of the site. One with a `#` in it is only there to be copied from. */
	readonly path: string;
	/** Sources have a rank from 0; what may only be copied from within its pack has none. */
	readonly rank: number | undefined;
	/** New text at even places, copies at odd ones. */
	readonly parts: readonly string[];
}

const NO_RANK = "-";

/** Reads a pack, without following its copies. */
export function readPack(text: string): readonly PackedFile[] {
	const [texts = "", copies = ""] = text.split(COPIES);
	if (texts === "") return [];
	const copied = copies.split(FILE);
	return texts.split(FILE).map((file, i): PackedFile => {
		const [head = "", ...literals] = file.split(PART);
		const own = copied[i] === undefined || copied[i] === "" ? [] : copied[i].split(" ");
		const rank = head.charAt(0);
		return {
			path: head.slice(1),
			rank: rank === NO_RANK ? undefined : Number(rank),
			parts: literals.flatMap((literal, k) => (k < own.length ? [literal, own[k] ?? ""] : [literal])),
		};
	});
}

/** A file's two halves in a pack, each one text: parts would hold on to the whole page they were cut from. */
export interface WrittenFile {
	readonly path: string;
	readonly texts: string;
	readonly copies: string;
}

export function writeFile({ path, rank, parts }: PackedFile): WrittenFile {
	const every = (odd: 0 | 1) => parts.filter((_, i) => i % 2 === odd);
	return {
		path,
		texts: [`${rank ?? NO_RANK}${path}`, ...every(0)].join(PART),
		copies: every(1).join(" "),
	};
}

/** The pack that `readPack` reads: all new text first, then all copies, for they compress better apart. */
export function writePack(files: readonly WrittenFile[]): string {
	const texts = files.map((file) => file.texts).join(FILE);
	return texts + COPIES + files.map(({ copies }) => copies).join(FILE);
}

/**
 * Several packs as one text: for a device that has none of them. Their files stand in the order of their
 * paths, not pack by pack, so that what is alike stands together, and frequent words as one character
 * each: compression finds more in it. Before them the number of each file's pack, and the words.
 */
export function bundlePacks(packs: readonly string[]): string {
	const files = packs
		.flatMap((pack, number) => {
			const [texts = "", copies = ""] = pack.split(COPIES);
			const copied = copies.split(FILE);
			return texts
				.split(FILE)
				.map((text, i) => ({ number, path: pathIn(text), text, copies: copied[i] ?? "" }));
		})
		.sort(byUse);
	const numbers = files.map(({ number }) => number.toString(36)).join(" ");
	const { words, text } = shortened(files.map(({ text }) => text).join(FILE));
	return [numbers, words, text].join(PACK) + COPIES + files.map(({ copies }) => copies).join(FILE);
}

/** The packs of a bundle, each as it was. */
export function unbundle(bundle: string): readonly string[] {
	const [numbers = "", words = "", files = ""] = bundle.split(PACK);
	const [text = "", copies = ""] = files.split(COPIES);
	const texts = atFullLength(text, words);
	const copied = copies.split(FILE);
	const of = numbers.split(" ");
	const packs: { readonly texts: string[]; readonly copies: string[] }[] = [];
	texts.split(FILE).forEach((text, i) => {
		const number = Number.parseInt(of[i] ?? "", 36);
		packs[number] ??= { texts: [], copies: [] };
		packs[number].texts.push(text);
		packs[number].copies.push(copied[i] ?? "");
	});
	return packs.map((pack) => pack.texts.join(FILE) + COPIES + pack.copies.join(FILE));
}

/** Characters that stand for words, those of two bytes in UTF-8 beyond Latin-1, as far as the text has none of them. */
const FIRST_STAND_IN = 0x100;
const LAST_STAND_IN = 0x7ff;
const WORD = /[A-Za-z]{2,}/g;
/** A word that comes more seldom is not worth its place in the list. */
const LEAST_TIMES = 4;

/** A text with the words that it spends most on as one character each; the list is such a character, then its word. */
function shortened(text: string): { readonly words: string; readonly text: string } {
	const times = new Map<string, number>();
	for (const [word] of text.matchAll(WORD)) times.set(word, (times.get(word) ?? 0) + 1);
	const taken = new Set(text.match(/[\u0100-\u07ff]/g));
	const free: string[] = [];
	for (let code = FIRST_STAND_IN; code <= LAST_STAND_IN; code++) {
		const character = String.fromCharCode(code);
		if (!taken.has(character)) free.push(character);
	}
	const saves = ([word, count]: readonly [string, number]) => (word.length - 1) * count;
	const dearest = [...times]
		.filter(([, count]) => count >= LEAST_TIMES)
		.sort((a, b) => saves(b) - saves(a) || (a[0] < b[0] ? -1 : 1))
		.slice(0, free.length)
		// The most frequent first, as near characters compress better.
		.sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
	const standIns = new Map(dearest.map(([word], i) => [word, free[i] as string]));
	return {
		words: Array.from(standIns, ([word, character]) => character + word).join(""),
		text: text.replace(WORD, (word) => standIns.get(word) ?? word),
	};
}

function atFullLength(text: string, words: string): string {
	const standIns = new Map(
		Array.from(words.matchAll(/([\u0100-\u07ff])([A-Za-z]+)/g), ([, character = "", word = ""]) => [
			character,
			word,
		]),
	);
	return text.replace(/[\u0100-\u07ff]/g, (character) => standIns.get(character) ?? character);
}

/** The path in a file's text, as `readPack` finds it. */
function pathIn(text: string): string {
	const end = text.indexOf(PART);
	return text.slice(1, end < 0 ? undefined : end);
}

/** By path, so that what is alike stands together; what is made of others, class sheets, after them. */
export function byUse(a: { readonly path: string }, b: { readonly path: string }): number {
	const sheet = (path: string) => Number(path.startsWith("classes/"));
	return sheet(a.path) - sheet(b.path) || (a.path < b.path ? -1 : a.path > b.path ? 1 : 0);
}

/**
 * A token begins at `<` and `[`, behind `>`, where a string opens, and behind a string that is a value:
 * what a page says is then the same token, whatever comes after it. Whether one begins at a character
 * depends on nothing but that character and the one before it, so pieces of a text are cut as the whole is.
 *
 * These are characters, by their codes, behind which a quotation mark opens a string: `{`, `[`, `,`, `:`
 * and `=`; and those that follow one which ends a value: `,`, `]` and `}`.
 */
export const [OPENS_STRING, ENDS_VALUE] = ["{[,:=", ",]}"].map((characters) => {
	const codes = new Uint8Array(0x10000);
	for (const character of characters) codes[character.charCodeAt(0)] = 1;
	return codes;
}) as [Uint8Array, Uint8Array];

/** Tokens of a drill's text at which a section begins; what others copy comes first, lists of drills last. */
export const SECTION_TOKENS: readonly string[] = [
	'"levels":',
	'"cues":',
	'"faults":',
	'"setUp":{',
	'"safety":{',
	'"figures":{',
	'"title":',
];

/** A text and where its tokens begin. */
export interface Tokens {
	readonly text: string;
	readonly starts: Starts;
}

/** Where tokens begin: numbers in one piece of memory, since there are millions of them. */
export class Starts {
	#places = new Uint32Array(256);
	#length = 0;

	get length(): number {
		return this.#length;
	}

	at(token: number): number | undefined {
		return token >= 0 && token < this.#length ? this.#places[token] : undefined;
	}

	/** Cuts a text that stands at `offset`, each token as `TokenEdges` has it. */
	cut(text: string, offset: number): void {
		// What is private is looked up once a token, not once a character: this runs over every page.
		let places = this.#places;
		let length = this.#length;
		let before = 0;
		for (let i = 0; i < text.length; i++) {
			const sign = text.charCodeAt(i);
			if (
				i === 0 ||
				sign === 60 ||
				sign === 91 ||
				before === 62 ||
				(sign === 34 && OPENS_STRING[before] === 1) ||
				(before === 34 && ENDS_VALUE[sign] === 1)
			) {
				if (length === places.length) {
					this.#length = length;
					this.#makeRoom(1);
					places = this.#places;
				}
				places[length++] = offset + i;
			}
			before = sign;
		}
		this.#length = length;
	}

	/** All of them in order, as they are now. */
	all(): Uint32Array {
		return this.#places.subarray(0, this.#length);
	}

	/** Adds tokens of another text, or of this one, each moved by `shift`. */
	copy(from: Starts, token: number, count: number, shift: number): void {
		this.#makeRoom(count);
		const places = from.#places;
		for (let i = token; i < token + count; i++) this.#places[this.#length++] = (places[i] as number) + shift;
	}

	/** Gives memory back that is not needed once the text is whole. */
	close(): this {
		this.#places = this.#places.slice(0, this.#length);
		return this;
	}

	#makeRoom(count: number): void {
		if (this.#length + count <= this.#places.length) return;
		const larger = new Uint32Array(Math.max(this.#places.length * 2, this.#length + count));
		larger.set(this.#places);
		this.#places = larger;
	}
}

/** Room for the tokens of a section: one that has more goes on as the next. */
const SECTION = 1024;

/**
 * Names the tokens of a source by the section they stand in and their place there, as one number: what
 * comes or goes in one section of a page leaves the names in the others.
 */
export class Sections {
	/** The first token of each section. */
	readonly #firsts: number[] = [0];

	/**
	 * @param tokens how many there are
	 * @param begins whether a token begins a section
	 */
	constructor(tokens: number, begins: (token: number) => boolean) {
		let first = 0;
		for (let token = 1; token < tokens; token++) {
			if (token - first !== SECTION && !begins(token)) continue;
			this.#firsts.push(token);
			first = token;
		}
	}

	static of({ text, starts }: Tokens): Sections {
		return new Sections(starts.length, (token) => {
			const [from, to] = [starts.at(token), starts.at(token + 1)];
			return SECTION_TOKENS.includes(text.slice(from, to));
		});
	}

	nameOf(token: number): number {
		const section = this.#sectionOf(token);
		return section * SECTION + token - (this.#firsts[section] as number);
	}

	/** The token after the last one of the section that a token stands in; undefined for the last section. */
	endOf(token: number): number | undefined {
		return this.#firsts[this.#sectionOf(token) + 1];
	}

	#sectionOf(token: number): number {
		let low = 0;
		for (let high = this.#firsts.length - 1; low < high; ) {
			const middle = Math.ceil((low + high) / 2);
			if ((this.#firsts[middle] as number) <= token) low = middle;
			else high = middle - 1;
		}
		return low;
	}

	/** The token of a name; undefined where there is no such section. */
	tokenOf(name: number): number | undefined {
		const first = this.#firsts[Math.floor(name / SECTION)];
		return first === undefined ? undefined : first + (name % SECTION);
	}
}

/** A copy: tokens of another file, or of what is there of this one. */
export interface Copy {
	/** Key of the file. */
	readonly key: string;
	/** The name of the first token if the file is another and a source, else its number. */
	readonly from: number;
	readonly count: number;
}

/**
 * A copy as text: the key and the first token, or, from the file of the copy before, the step from
 * where that one ended by its name; then the number of tokens unless it is one.
 */
export function writeCopy({ key, from, count }: Copy, before: Copy | undefined): string {
	const at =
		before?.key === key ? `=${(from - before.from - before.count).toString(36)}` : key + from.toString(36);
	return count === 1 ? at : `${at},${count.toString(36)}`;
}

export function readCopy(text: string, before: Copy | undefined): Copy {
	const [at = "", count = "1"] = text.split(",");
	if (at.startsWith("=") && before !== undefined) {
		const from = before.from + before.count + Number.parseInt(at.slice(1), 36);
		return { key: before.key, from, count: Number.parseInt(count, 36) };
	}
	return {
		key: at.slice(0, KEY_LENGTH),
		from: Number.parseInt(at.slice(KEY_LENGTH), 36),
		count: Number.parseInt(count, 36),
	};
}

const KEY_SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
const KEY_LENGTH = 3;

/**
 * A short key for every path: by its hash, so that a page that comes or goes leaves the others theirs.
 * Paths that come later have what keys are left: the first ones are the same with and without them.
 */
export function keysOf(first: readonly string[], later: readonly string[]): ReadonlyMap<string, string> {
	const room = KEY_SIGNS.length ** KEY_LENGTH;
	const count = first.length + later.length;
	if (count > room / 2) throw new RangeError(`${count} files are more than the keys can name`);
	const taken = new Set<number>();
	const keys = new Map<string, string>();
	for (const path of [...[...first].sort(), ...[...later].sort()]) {
		let place = hashOf(path) % room;
		while (taken.has(place)) place = (place + 1) % room;
		taken.add(place);
		let key = "";
		for (let rest = place, i = 0; i < KEY_LENGTH; i++, rest = Math.floor(rest / KEY_SIGNS.length))
			key += KEY_SIGNS[rest % KEY_SIGNS.length];
		keys.set(path, key);
	}
	return keys;
}

/** FNV-1a, 32 bits: spreads paths evenly, and is the same everywhere. */
export function hashOf(text: string): number {
	let hash = 0x811c9dc5;
	for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
	return hash >>> 0;
}

/** The way from a page up to the root, which stands before every reference in it. */
export function wayUp(path: string): string {
	return "../".repeat(path.split("/").length - 1);
}

/**
 * Takes packs apart.
 *
 * @param first texts of the packs that stand by themselves, in any order
 * @param later texts of those that came later, where they are there
 * @param edition the name that pages say
 * @returns for each pack, as it is asked for, its files' paths and texts; what a pack needed for itself
 * alone is let go before the next. Throws where a copy leads nowhere: then these packs do not belong
 * together.
 */
export function* unpack(
	first: readonly string[],
	later: readonly string[],
	edition: string,
): Generator<readonly (readonly [path: string, text: string])[]> {
	const read = [...first, ...later].map(readPack);
	const pathsOf = (packs: readonly (readonly PackedFile[])[]) => packs.flat().map(({ path }) => path);
	const keys = keysOf(pathsOf(read.slice(0, first.length)), pathsOf(read.slice(first.length)));
	const sources = new Map<string, Source>();
	const ranked = read.flat().filter(({ rank }) => rank !== undefined);
	for (const file of ranked.sort(byRank)) {
		const key = keys.get(file.path) ?? "";
		const tokens = resolve(file, key, (other) => sources.get(other));
		sources.set(key, { ...tokens, sections: Sections.of(tokens) });
	}
	for (const files of read) {
		const own = new Map<string, Tokens>();
		yield files
			.map((file): readonly [string, string] => {
				const key = keys.get(file.path) ?? "";
				let tokens: Tokens | undefined = sources.get(key);
				if (tokens === undefined) {
					tokens = resolve(file, key, (other) => own.get(other) ?? sources.get(other));
					own.set(key, tokens);
				}
				return [file.path, restored(file.path, tokens.text, edition)];
			})
			.filter(([path]) => !path.includes("#"));
	}
}

/**
 * The order in which sources are read. Within a rank it is as good as any, but by names a new first one
 * would be what all others copy their common parts from.
 */
export function byRank(
	a: { readonly path: string; readonly rank: number | undefined },
	b: { readonly path: string; readonly rank: number | undefined },
): number {
	return (a.rank ?? 9) - (b.rank ?? 9) || hashOf(a.path) - hashOf(b.path) || (a.path < b.path ? -1 : 1);
}

interface Source extends Tokens {
	/** Of a ranked file. */
	readonly sections?: Sections;
}

function resolve(file: PackedFile, key: string, find: (key: string) => Source | undefined): Tokens {
	let text = "";
	const starts = new Starts();
	let before: Copy | undefined;
	file.parts.forEach((part, i) => {
		if (i % 2 === 0) {
			starts.cut(part, text.length);
			text += part;
			return;
		}
		const copy = readCopy(part, before);
		const source: Source | undefined = copy.key === key ? { text, starts } : find(copy.key);
		const sections = source?.sections;
		const first = sections === undefined ? copy.from : sections.tokenOf(copy.from);
		const end = (first ?? 0) + copy.count;
		const from = first === undefined ? undefined : source?.starts.at(first);
		if (source === undefined || first === undefined || from === undefined || end > source.starts.length)
			throw new RangeError(`${file.path} copies what is not there`);
		const piece = source.text.slice(from, source.starts.at(end) ?? source.text.length);
		starts.copy(source.starts, first, copy.count, text.length - from);
		text += piece;
		before = copy;
	});
	return { text, starts: starts.close() };
}

function restored(path: string, text: string, edition: string): string {
	return text
		.replaceAll(ROOT, wayUp(path))
		.replaceAll(EDITION, edition)
		.replaceAll(OWN, drillOf(path) ?? "");
}

/** The drill whose page stands at a path. */
export function drillOf(path: string): string | undefined {
	return /^drills\/([^/]+)\/index\.html$/.exec(path)?.[1];
}
