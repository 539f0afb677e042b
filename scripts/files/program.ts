/** This program's own files and packages, wherever they are installed: they are read, never written. */

import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

/** The folder that holds `scripts/` and `layouts/`. */
export const PROGRAM = fileURLToPath(new URL("../../", import.meta.url));

export function readProgram(path: string): Buffer {
	return readFileSync(join(PROGRAM, path));
}

/** The files below a folder of the program, from its own folder, sorted. */
export function programFiles(folder: string): readonly string[] {
	return readdirSync(join(PROGRAM, folder), { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => relative(PROGRAM, join(entry.parentPath, entry.name)).split(sep).join("/"))
		.sort();
}
