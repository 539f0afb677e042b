/**
 * Pages kept from build to build, each beside the fingerprint of all that it was made from.
 *
 * A page is a function of its view, of what its frame says, of the words and of this program. So its key
 * is made of the whole view, of the frame without the edition's name, of the language, and of every file
 * of the program. Where the key is the same, so is the page: it is taken as it is, with the name of the
 * present edition in place of the one that it was made for. That name is of all content, so no content
 * holds it.
 *
 * The texts lie in a few large files, one for each build that made pages, and an index names where. The
 * index is written last, by renaming; whatever is missing or damaged is made again. A cache that cannot
 * be read or written is none, and never a fault.
 */

import { randomUUID } from "node:crypto";
import {
	closeSync,
	existsSync,
	fstatSync,
	mkdirSync,
	openSync,
	readdirSync,
	readFileSync,
	readSync,
	renameSync,
	rmSync,
	writeFileSync,
	writeSync,
} from "node:fs";
import { join } from "node:path";
import { crc32 } from "node:zlib";
import type { FrameFacts, SitePage } from "./site.ts";
import { fingerprint, valueText } from "./value-text.ts";

const INDEX = "index.json";
const TEXTS = ".pages";

/** Where a page's text lies. */
interface Kept {
	readonly key: string;
	/** The file of texts, without its ending. */
	readonly file: string;
	readonly at: number;
	readonly length: number;
	/** CRC-32 of the bytes. */
	readonly sum: number;
	/** The edition that it was made for. */
	readonly edition: string;
}

/** Where pages of a club are kept. */
export function pageCacheOf(clubDir: string): string {
	return join(clubDir, ".handbook-cache", "pages");
}

export class PageCache {
	readonly #dir: string;
	readonly #program: string;
	readonly #edition: string;
	readonly #before: ReadonlyMap<string, Kept>;
	readonly #now = new Map<string, Kept>();
	readonly #open = new Map<string, number>();
	readonly #frames = new WeakMap<FrameFacts, string>();
	readonly #own = randomUUID().slice(0, 8);
	#end = 0;
	#failed = false;

	/**
	 * @param program stands for all files of the program
	 * @param edition the name that pages say
	 */
	constructor(dir: string, program: string, edition: string) {
		this.#dir = dir;
		this.#program = program;
		this.#edition = edition;
		this.#before = readIndex(dir);
	}

	/** The fingerprint of what a page is made from; undefined where text cannot stand for it. */
	keyOf(page: SitePage, view: unknown): string | undefined {
		const { kind, address, title, description, crumbs, picture, frame } = page;
		try {
			const about = valueText([kind, address, title, description, crumbs, picture]);
			return fingerprint(this.#frameText(frame) + about + valueText(view));
		} catch (error) {
			if (error instanceof TypeError) return undefined;
			throw error;
		}
	}

	/** Whether a page of this address was kept. */
	knows(address: string): boolean {
		return this.#before.has(address);
	}

	/** The page of this address and key as it was made before. */
	textOf(address: string, key: string): string | undefined {
		const kept = this.#before.get(address);
		if (kept?.key !== key) return undefined;
		const bytes = this.#read(kept);
		if (bytes === undefined) return undefined;
		this.#now.set(address, kept);
		const text = bytes.toString("latin1");
		return kept.edition === this.#edition ? text : text.replaceAll(kept.edition, this.#edition);
	}

	/** Keeps a page that was made; its characters take a byte each. */
	keep(address: string, key: string, text: string): void {
		this.#write(address, key, this.#edition, Buffer.from(text, "latin1"));
	}

	/** Ends the build: what it neither took nor made is let go. */
	close(): void {
		this.#safely(() => {
			if (!this.#isNews()) return;
			for (const [file, live] of Map.groupBy(this.#now, ([, kept]) => kept.file)) {
				const used = live.reduce((sum, [, kept]) => sum + kept.length, 0);
				const all = file === this.#own ? 0 : fstatSync(this.#fileOf(file)).size;
				// A file of which most is of no use any more gives the rest to the new one.
				if (used * 2 >= all) continue;
				for (const [address, kept] of live) {
					const bytes = this.#read(kept);
					this.#now.delete(address);
					if (bytes !== undefined) this.#write(address, kept.key, kept.edition, bytes);
				}
			}
			const index = join(this.#dir, `${this.#own}.json`);
			writeFileSync(index, JSON.stringify([...this.#now]));
			renameSync(index, join(this.#dir, INDEX));
			const used = new Set(Array.from(this.#now.values(), ({ file }) => `${file}${TEXTS}`));
			for (const name of readdirSync(this.#dir)) {
				if (name !== INDEX && !used.has(name)) rmSync(join(this.#dir, name), { force: true });
			}
		});
		for (const file of this.#open.values()) closeSync(file);
		this.#open.clear();
	}

	#isNews(): boolean {
		return this.#end > 0 || this.#now.size !== this.#before.size;
	}

	#frameText(frame: FrameFacts): string {
		const known = this.#frames.get(frame);
		if (known !== undefined) return known;
		// Words are the program's, by language; the edition's name is put in afterwards.
		const { words, edition, ...facts } = frame;
		const text = fingerprint(valueText([this.#program, words.language, facts]));
		this.#frames.set(frame, text);
		return text;
	}

	#read({ file, at, length, sum }: Kept): Buffer | undefined {
		try {
			const bytes = Buffer.allocUnsafe(length);
			const read = readSync(this.#fileOf(file), bytes, 0, length, at);
			return read === length && crc32(bytes) === sum ? bytes : undefined;
		} catch {
			return undefined;
		}
	}

	#write(address: string, key: string, edition: string, bytes: Buffer): void {
		this.#safely(() => {
			if (this.#end === 0) mkdirSync(this.#dir, { recursive: true });
			const at = this.#end;
			const { length } = bytes;
			if (writeSync(this.#fileOf(this.#own), bytes, 0, length, at) !== length) throw new Error("not written");
			this.#end += length;
			this.#now.set(address, { key, file: this.#own, at, length, sum: crc32(bytes), edition });
		});
	}

	#fileOf(name: string): number {
		const known = this.#open.get(name);
		if (known !== undefined) return known;
		const file = openSync(join(this.#dir, `${name}${TEXTS}`), name === this.#own ? "wx+" : "r");
		this.#open.set(name, file);
		return file;
	}

	/** After the first failure nothing more is tried: the disk is full, or the folder is not ours. */
	#safely(step: () => void): void {
		if (this.#failed) return;
		try {
			step();
		} catch {
			this.#failed = true;
		}
	}
}

/** The index as the last build left it; empty where it cannot be read. */
function readIndex(dir: string): ReadonlyMap<string, Kept> {
	const file = join(dir, INDEX);
	if (!existsSync(file)) return new Map();
	try {
		const index: unknown = JSON.parse(readFileSync(file, "utf8"));
		return new Map(Array.isArray(index) ? index.filter(isEntry) : []);
	} catch {
		return new Map();
	}
}

function isEntry(entry: unknown): entry is [string, Kept] {
	if (!Array.isArray(entry) || typeof entry[0] !== "string") return false;
	const kept: unknown = entry[1];
	if (typeof kept !== "object" || kept === null) return false;
	const { key, file, at, length, sum, edition } = kept as Partial<Record<keyof Kept, unknown>>;
	return (
		typeof key === "string" &&
		typeof edition === "string" &&
		edition !== "" &&
		typeof file === "string" &&
		/^[\da-f]{8}$/.test(file) &&
		[at, length, sum].every((n) => typeof n === "number" && Number.isSafeInteger(n) && n >= 0)
	);
}
