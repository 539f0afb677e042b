/** Files that somebody named on the command line: they may stand anywhere, and are read, never written. */

import { readFileSync, statSync } from "node:fs";

/** What stands at a path, links followed; undefined where nothing does. */
export function givenKind(path: string): "file" | "folder" | "other" | undefined {
	const info = statSync(path, { throwIfNoEntry: false });
	return info === undefined ? undefined : info.isFile() ? "file" : info.isDirectory() ? "folder" : "other";
}

/** The bytes of a file. Throws what the file system says; for what is no file, as for one that is not there. */
export function readGiven(path: string): Buffer {
	// Opening a pipe would wait for its other end.
	if (givenKind(path) !== "file") {
		throw Object.assign(new Error(`There is no file ${path}.`), { code: "ENOENT", path });
	}
	return readFileSync(path);
}
