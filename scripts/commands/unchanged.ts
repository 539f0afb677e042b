/**
 * Whether a build would write what is there already: the content, the program and what was asked for are
 * those of the last build of this folder, and nobody has changed a file of it since.
 */

import { resolve } from "node:path";
import { programCache } from "../files/cache.ts";
import { openFolder } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
import { sha256 } from "../files/hash.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";

/** A file's path from the output folder, its size, and the time of its last change. */
type Stamp = readonly [path: string, size: number, changed: number];

interface Made {
	readonly of: string;
	readonly files: readonly Stamp[];
}

/** Outputs that are remembered. */
const MOST = 20;

/** Stands for everything that an output depends on, `parts` being what the program does not know by itself. */
export function madeOf(parts: readonly unknown[]): string {
	return sha256(JSON.stringify([programFingerprint(), ...parts]));
}

/** Whether the folder holds what was made of this, untouched. */
export function isThere(outDir: string, of: string): boolean {
	const made = programCache("outputs").findJson(nameOf(outDir)) as Made | undefined;
	if (made?.of !== of || !Array.isArray(made.files) || givenKind(outDir) !== "folder") return false;
	const out = openFolder(outDir);
	return made.files.every(([path, size, changed]) => {
		const now = out.info(path);
		return now !== undefined && now.size === size && now.mtimeMs === changed;
	});
}

/** Remembers what the files of a folder were made of. */
export function remember(outDir: string, of: string, paths: readonly string[]): void {
	const out = openFolder(outDir);
	const files = paths.map((path): Stamp => {
		const { size = 0, mtimeMs = 0 } = out.info(path) ?? {};
		return [path, size, mtimeMs];
	});
	const cache = programCache("outputs");
	cache.put(nameOf(outDir), Buffer.from(JSON.stringify({ of, files } satisfies Made)));
	cache.leave(MOST);
}

function nameOf(outDir: string): string {
	return `${sha256(resolve(outDir)).slice(0, 32)}.json`;
}
