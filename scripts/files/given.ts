/**
 * Files outside every folder of ours: those that somebody named on the command line, and those that the
 * system has. They may stand anywhere, and are read, never written.
 */

import { accessSync, constants, readFileSync, statSync } from "node:fs";

/** What stands at a path, links followed; undefined where nothing does. */
export function givenKind(path: string): "file" | "folder" | "other" | undefined {
	const info = statSync(path, { throwIfNoEntry: false });
	return info === undefined ? undefined : info.isFile() ? "file" : info.isDirectory() ? "folder" : "other";
}

/** Bytes of a file that is there. */
export function givenSize(path: string): number {
	return statSync(path).size;
}

/** The bytes of a file. Throws what the file system says; for what is no file, as for one that is not there. */
export function readGiven(path: string): Buffer {
	// Opening a pipe would wait for its other end.
	if (givenKind(path) !== "file") {
		throw Object.assign(new Error(`There is no file ${path}.`), { code: "ENOENT", path });
	}
	return readFileSync(path);
}

/** Whether a file can be run as a program. */
export function isExecutable(path: string): boolean {
	try {
		accessSync(path, constants.X_OK);
		return givenKind(path) === "file";
	} catch {
		return false;
	}
}
