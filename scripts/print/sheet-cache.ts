/**
 * Keeps work of earlier runs by the hash of everything it depends on. The folder is safe to delete.
 *
 * An entry is written beside and renamed, so a run that is interrupted leaves no half entry; entries
 * that a finished run did not use are swept away.
 */

import { createHash, randomUUID } from "node:crypto";
import { mkdir, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";

export interface SheetCache {
	/** The entry of these ingredients, or what `make` gives, which is then kept. */
	keep(ingredients: readonly string[], make: () => Promise<Uint8Array>): Promise<Uint8Array>;
	/** Removes what was not asked for since the cache was opened. */
	sweep(): Promise<void>;
}

/** A cache in a folder; without one, nothing is kept. */
export function openCache(folder: string | undefined): SheetCache {
	if (folder === undefined) return { keep: (_, make) => make(), sweep: async () => undefined };
	const used = new Set<string>();
	return {
		async keep(ingredients, make) {
			const name = nameOf(ingredients);
			used.add(name);
			const found = await readFile(join(folder, name)).catch(() => undefined);
			if (found !== undefined) return found;
			const made = await make();
			await mkdir(folder, { recursive: true });
			const beside = join(folder, `${name}.${randomUUID().slice(0, 8)}`);
			await writeFile(beside, made);
			await rename(beside, join(folder, name));
			return made;
		},
		async sweep() {
			const names = await readdir(folder).catch(() => []);
			await Promise.all(
				names.filter((name) => !used.has(name)).map((name) => rm(join(folder, name), { force: true })),
			);
		},
	};
}

function nameOf(ingredients: readonly string[]): string {
	return digestOf(ingredients).slice(0, 40);
}

/** One short ingredient that stands for several long ones, which many entries share. */
export function digestOf(ingredients: readonly string[]): string {
	const hash = createHash("sha256");
	// Lengths keep two lists apart that only differ in where one text ends.
	for (const text of ingredients) hash.update(`${text.length}:`).update(text);
	return hash.digest("hex");
}
