/**
 * What this program keeps for the next time, beside its packages: what was made of the program itself and
 * of drawings that all clubs share, by names that say what it was made of. It is no part of a club's
 * folder, which may be a synchronised one. Nobody writes there who may not change the program itself;
 * where it cannot be written, everything is made anew each time.
 */

import { randomUUID } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const FOLDER = fileURLToPath(new URL("../../node_modules/.cache/handbook/", import.meta.url));

/** What is kept under a name; undefined where nothing is. */
export function readKept(name: string): Buffer | undefined {
	try {
		return readFileSync(join(FOLDER, name));
	} catch {
		return undefined;
	}
}

/** JSON that is kept under a name; undefined where nothing is that can be read. */
export function readKeptJson(name: string): unknown {
	try {
		return JSON.parse(readFileSync(join(FOLDER, name), "utf8"));
	} catch {
		return undefined;
	}
}

/**
 * Keeps something, whole or not at all: another run may read it, and this one may be ended.
 *
 * @param most how many things the folder of the name holds; the oldest go
 */
export function keep(name: string, content: string | Uint8Array, most: number): void {
	const file = join(FOLDER, name);
	try {
		mkdirSync(dirname(file), { recursive: true });
		const beside = `${file}.${randomUUID().slice(0, 8)}`;
		writeFileSync(beside, content);
		renameSync(beside, file);
		sweep(dirname(file), most);
	} catch {
		// It is made again the next time.
	}
}

function sweep(folder: string, most: number): void {
	const names = readdirSync(folder);
	if (names.length <= most) return;
	const byAge = names
		.map((name) => ({ name, time: statSync(join(folder, name), { throwIfNoEntry: false })?.mtimeMs ?? 0 }))
		.sort((a, b) => a.time - b.time);
	for (const { name } of byAge.slice(0, names.length - most)) rmSync(join(folder, name), { force: true });
}
