/**
 * Whether a build would write what is there already: the content, the program and what was asked for are
 * those of the last build of this folder, and nobody has changed a file of it since.
 */

import { createHash } from "node:crypto";
import { statSync } from "node:fs";
import { join, resolve } from "node:path";
import { keep, readKeptJson } from "../render/kept.ts";
import { programFingerprint } from "../render/program-fingerprint.ts";

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
	return createHash("sha256")
		.update(JSON.stringify([programFingerprint(), ...parts]))
		.digest("hex");
}

/** Whether the folder holds what was made of this, untouched. */
export function isThere(outDir: string, of: string): boolean {
	const made = readKeptJson(nameOf(outDir)) as Made | undefined;
	if (made?.of !== of || !Array.isArray(made.files)) return false;
	return made.files.every(([path, size, changed]) => {
		const now = statSync(join(outDir, path), { throwIfNoEntry: false });
		return now !== undefined && now.size === size && now.mtimeMs === changed;
	});
}

/** Remembers what the files of a folder were made of. */
export function remember(outDir: string, of: string, paths: readonly string[]): void {
	const files = paths.map((path): Stamp => {
		const { size, mtimeMs } = statSync(join(outDir, path));
		return [path, size, mtimeMs];
	});
	keep(nameOf(outDir), JSON.stringify({ of, files } satisfies Made), MOST);
}

function nameOf(outDir: string): string {
	return `outputs/${createHash("sha256").update(resolve(outDir)).digest("hex").slice(0, 32)}.json`;
}
