/**
 * Keeps work of earlier runs by the hash of everything it depends on. The folder is safe to delete, and
 * entries that a finished run did not use are swept away.
 */

import { Cache } from "../files/cache.ts";
import type { Folder } from "../files/folder.ts";
import { startHash } from "../files/hash.ts";

export interface SheetCache {
	/** The entry of these ingredients, or what `make` gives, which is then kept. */
	keep(ingredients: readonly string[], make: () => Promise<Uint8Array>): Promise<Uint8Array>;
	/** The entry of these ingredients, undefined where there is none or it is damaged. */
	find(ingredients: readonly string[]): Uint8Array | undefined;
	/** Keeps an entry; says whether it is kept. */
	put(ingredients: readonly string[], content: Uint8Array): boolean;
	/** Says that an entry is of use, without reading it. */
	hold(ingredients: readonly string[]): void;
	/** Removes what was not asked for since the cache was opened. */
	sweep(): void;
}

/** A cache in a folder; without one, nothing is kept. */
export function openCache(folder: Folder | undefined): SheetCache {
	const cache = new Cache(folder, true);
	const nameOf = (ingredients: readonly string[]) => digestOf(ingredients).slice(0, 40);
	return {
		async keep(ingredients, make) {
			const name = nameOf(ingredients);
			const found = cache.find(name);
			if (found !== undefined) return found;
			const made = await make();
			cache.put(name, made);
			return made;
		},
		find: (ingredients) => cache.find(nameOf(ingredients)),
		put: (ingredients, content) => cache.put(nameOf(ingredients), content),
		hold: (ingredients) => cache.hold(nameOf(ingredients)),
		sweep: () => cache.sweep(),
	};
}

/** One short ingredient that stands for several long ones, which many entries share. */
export function digestOf(ingredients: readonly string[]): string {
	const hash = startHash();
	// Lengths keep two lists apart that only differ in where one text ends.
	for (const text of ingredients) {
		hash.update(`${text.length}:`);
		hash.update(text);
	}
	return hash.digest("hex");
}

/** Bytes behind what is to be known of them, a line of JSON. */
export function withHead(head: unknown, bytes: Uint8Array): Uint8Array {
	return Buffer.concat([Buffer.from(`${JSON.stringify(head)}\n`), bytes]);
}

/** The two apart. What the cache gives is as this program put it there. */
export function headAndBytes<Head>(packed: Uint8Array): { readonly head: Head; readonly bytes: Uint8Array } {
	const end = packed.indexOf(10);
	return { head: jsonOf(packed.subarray(0, end)), bytes: packed.subarray(end + 1) };
}

/** What was put into the cache as JSON. */
export function jsonOf<Value>(bytes: Uint8Array): Value {
	return JSON.parse(new TextDecoder().decode(bytes));
}
