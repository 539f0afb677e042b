/**
 * Keeps work of earlier runs by the hash of everything it depends on. The folder is safe to delete.
 *
 * An entry is written beside and renamed, so a run that is interrupted leaves no half entry. It begins
 * with the hash of its content: one that was damaged is made anew. Entries that a finished run did not
 * use are swept away.
 */

import { createHash, randomUUID } from "node:crypto";
import { mkdir, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";

export interface SheetCache {
	/** Whether anything is kept. */
	readonly keeps: boolean;
	/** The entry of these ingredients, or what `make` gives, which is then kept. */
	keep(ingredients: readonly string[], make: () => Promise<Uint8Array>): Promise<Uint8Array>;
	/** The entry of these ingredients, undefined where there is none or it is damaged. */
	find(ingredients: readonly string[]): Promise<Uint8Array | undefined>;
	/** Keeps an entry. */
	put(ingredients: readonly string[], content: Uint8Array): Promise<void>;
	/** Says that an entry is of use, without reading it. */
	hold(ingredients: readonly string[]): void;
	/** Removes what was not asked for since the cache was opened. */
	sweep(): Promise<void>;
}

/** Without a folder nothing is kept. */
const NO_CACHE: SheetCache = {
	keeps: false,
	keep: (_, make) => make(),
	find: async () => undefined,
	put: async () => undefined,
	hold: () => undefined,
	sweep: async () => undefined,
};

/** Bytes of the hash before the content. */
const HASH_LENGTH = 32;

/** A cache in a folder; without one, nothing is kept. */
export function openCache(folder: string | undefined): SheetCache {
	if (folder === undefined) return NO_CACHE;
	const used = new Set<string>();
	const nameOf = (ingredients: readonly string[]) => {
		const name = digestOf(ingredients).slice(0, 40);
		used.add(name);
		return name;
	};
	const read = async (name: string): Promise<Uint8Array | undefined> => {
		const entry = await readFile(join(folder, name)).catch(() => undefined);
		if (entry === undefined || entry.length < HASH_LENGTH) return undefined;
		const content = entry.subarray(HASH_LENGTH);
		return hashOf(content).equals(entry.subarray(0, HASH_LENGTH)) ? content : undefined;
	};
	const write = async (name: string, content: Uint8Array): Promise<void> => {
		await mkdir(folder, { recursive: true });
		const beside = join(folder, `${name}.${randomUUID().slice(0, 8)}`);
		await writeFile(beside, [hashOf(content), content]);
		await rename(beside, join(folder, name));
	};
	return {
		keeps: true,
		async keep(ingredients, make) {
			const name = nameOf(ingredients);
			const found = await read(name);
			if (found !== undefined) return found;
			const made = await make();
			await write(name, made);
			return made;
		},
		find: (ingredients) => read(nameOf(ingredients)),
		put: (ingredients, content) => write(nameOf(ingredients), content),
		hold: (ingredients) => void nameOf(ingredients),
		async sweep() {
			const names = await readdir(folder).catch(() => []);
			await Promise.all(
				names.filter((name) => !used.has(name)).map((name) => rm(join(folder, name), { force: true })),
			);
		},
	};
}

function hashOf(content: Uint8Array): Buffer {
	return createHash("sha256").update(content).digest();
}

/** One short ingredient that stands for several long ones, which many entries share. */
export function digestOf(ingredients: readonly string[]): string {
	const hash = createHash("sha256");
	// Lengths keep two lists apart that only differ in where one text ends.
	for (const text of ingredients) hash.update(`${text.length}:`).update(text);
	return hash.digest("hex");
}
