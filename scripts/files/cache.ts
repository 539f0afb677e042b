/**
 * What was made once and need not be made again, by a name that says all it depends on.
 *
 * Each entry begins with this machine's seal of its name and its bytes: one that was damaged, cut short,
 * renamed, or that came with somebody's folder is made anew. A cache that cannot be read or written, or
 * whose folder leads out of the club, keeps nothing, and that is no fault.
 */

import type { Folder } from "./folder.ts";
import { sealOf } from "./machine-key.ts";

/** The folder, inside the club's, for what can be made again. */
export const CACHE_FOLDER = ".handbook-cache";

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
}

/** A part of a club's cache; undefined where its folder is a link out of the club. */
export function cacheFolder(clubDir: Folder, part: string): Folder | undefined {
	try {
		return clubDir.inner(`${CACHE_FOLDER}/${part}`);
	} catch {
		return undefined;
	}
}
