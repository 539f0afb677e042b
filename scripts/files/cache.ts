/**
 * What was made once and need not be made again, by a name that says all it depends on.
 *
 * Each entry begins with this machine's seal of its name and its bytes: one that was damaged, cut short,
 * renamed, or that somebody put there is made anew. A cache that cannot be read or written keeps nothing,
 * and that is no fault.
 */

import type { Folder } from "./folder.ts";
import { sealOf } from "./machine-key.ts";
import { cachePlace, clubPlace } from "./places.ts";

/** Bytes of the seal before the content. */
const SEAL_LENGTH = 32;

export class Cache {
	readonly #folder: Folder | undefined;
	readonly #keep: boolean;
	readonly #used = new Set<string>();

	/** @param keep whether new entries are kept, and old ones swept */
	constructor(folder: Folder | undefined, keep: boolean) {
		this.#folder = folder;
		this.#keep = keep;
	}

	/** An entry; undefined where there is none that is sound. */
	find(name: string): Uint8Array | undefined {
		this.#used.add(name);
		try {
			const entry = this.#folder?.read(name);
			if (entry === undefined || entry.length <= SEAL_LENGTH) return undefined;
			const content = entry.subarray(SEAL_LENGTH);
			return entry.subarray(0, SEAL_LENGTH).toString("hex") === sealOf([name, content]) ? content : undefined;
		} catch {
			return undefined;
		}
	}

	/** An entry that is JSON; undefined also where it is none. */
	findJson(name: string): unknown {
		const entry = this.find(name);
		try {
			return entry === undefined ? undefined : JSON.parse(new TextDecoder().decode(entry));
		} catch {
			return undefined;
		}
	}

	/** Keeps an entry; says whether it is kept. */
	put(name: string, content: Uint8Array): boolean {
		this.#used.add(name);
		if (this.#folder === undefined || !this.#keep) return false;
		try {
			this.#folder.write(name, Buffer.concat([Buffer.from(sealOf([name, content]), "hex"), content]));
			return true;
		} catch {
			// It is made again the next time.
			return false;
		}
	}

	/** Says that an entry is of use, without reading it. */
	hold(name: string): void {
		this.#used.add(name);
	}

	/** Gives what reads the entry when it is wanted; where there is none that is kept, what `make` gives. */
	async keep(name: string, make: () => Promise<Uint8Array>): Promise<() => Uint8Array> {
		if (this.find(name) === undefined) {
			const made = await make();
			if (!this.put(name, made)) return () => made;
		}
		return () => {
			const kept = this.find(name);
			if (kept === undefined) throw new Error(`${name} was taken out of the cache while it was in use`);
			return kept;
		};
	}

	/** Removes what was not asked for since the cache was opened. */
	sweep(): void {
		if (this.#folder === undefined || !this.#keep) return;
		try {
			for (const { name, kind } of this.#folder.list())
				if (kind !== "folder" && !this.#used.has(name)) this.#folder.remove(name);
		} catch {
			// The next run sweeps.
		}
	}

	/** Removes the oldest entries, but for so many. */
	leave(most: number): void {
		try {
			const folder = this.#folder;
			const names = folder?.list() ?? [];
			if (folder === undefined || names.length <= most) return;
			const byAge = names
				.map(({ name }) => ({ name, time: folder.info(name)?.mtimeMs ?? 0 }))
				.sort((a, b) => a.time - b.time);
			for (const { name } of byAge.slice(0, names.length - most)) folder.remove(name);
		} catch {
			// The next run does.
		}
	}
}

/** A part of what is kept for one club; undefined where it cannot be. It is made when something is kept. */
export function cacheFolder(clubDir: Folder, part: string): Folder | undefined {
	try {
		return cachePlace().inner(`${clubPlace(clubDir.path)}/${part}`);
	} catch {
		return undefined;
	}
}

/** A part of what is kept for all clubs. Where it cannot be written, all is made anew each time. */
export function programCache(part: string): Cache {
	try {
		return new Cache(cachePlace().inner(`program/${part}`), true);
	} catch {
		return new Cache(undefined, false);
	}
}
