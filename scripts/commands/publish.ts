/**
 * Publishing: a build writes beside the last good output and takes its place when it is whole.
 *
 * Steps: clear what an interrupted build left behind; write into a folder beside the output; add a
 * list of the files the build made; bring over files that somebody else put into the output; swap
 * the folders. Until the swap the last good output is untouched.
 */

import {
	copyFileSync,
	existsSync,
	mkdirSync,
	readdirSync,
	readFileSync,
	renameSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";

/** The list of files a build made, inside the output folder. */
const LIST = ".handbook-files.json";

/** A file of somebody else's stands where the build wants to write. */
export class OutputConflict extends Error {
	readonly files: readonly string[];
	constructor(files: readonly string[]) {
		super(`not written by this program: ${files.join(", ")}`);
		this.files = files;
	}
}

/** A folder to write into that becomes the output folder when it is published. */
export class Staging {
	readonly dir: string;
	readonly #out: string;

	/** Makes the folder, and clears what earlier builds that were interrupted left beside it. */
	constructor(outDir: string) {
		this.#out = resolve(outDir);
		clearLeftovers(this.#out);
		this.dir = beside(this.#out, "new");
		rmSync(this.dir, { recursive: true, force: true });
		mkdirSync(this.dir, { recursive: true });
	}

	write(path: string, content: string | Uint8Array): void {
		const file = join(this.dir, path);
		mkdirSync(dirname(file), { recursive: true });
		writeFileSync(file, content);
	}

	/** Keeps a file of the last output that this build did not make anew. */
	keep(path: string): void {
		const old = join(this.#out, path);
		if (!existsSync(old) || existsSync(join(this.dir, path))) return;
		mkdirSync(dirname(join(this.dir, path)), { recursive: true });
		copyFileSync(old, join(this.dir, path));
	}

	/** Swaps the folders. Throws OutputConflict where that would overwrite somebody else's file. */
	publish(): { readonly files: number } {
		const made = filesIn(this.dir);
		const others = foreignFiles(this.#out);
		const conflicts = others.filter((file) => made.includes(file));
		if (conflicts.length > 0) throw new OutputConflict(conflicts);
		for (const file of others) {
			mkdirSync(dirname(join(this.dir, file)), { recursive: true });
			copyFileSync(join(this.#out, file), join(this.dir, file));
		}
		writeFileSync(join(this.dir, LIST), `${JSON.stringify(made, null, "\t")}\n`);
		const old = beside(this.#out, "old");
		if (existsSync(this.#out)) renameSync(this.#out, old);
		renameSync(this.dir, this.#out);
		rmSync(old, { recursive: true, force: true });
		return { files: made.length };
	}

	discard(): void {
		rmSync(this.dir, { recursive: true, force: true });
	}
}

/** Adds files to an output folder that is there already, each written whole, and to its list. */
export function addToOutput(outDir: string, paths: readonly string[]): void {
	const list = new Set([...listedFiles(outDir), ...paths]);
	mkdirSync(outDir, { recursive: true });
	const file = join(outDir, LIST);
	writeFileSync(`${file}.new`, `${JSON.stringify([...list].sort(), null, "\t")}\n`);
	renameSync(`${file}.new`, file);
}

function beside(out: string, what: "new" | "old"): string {
	return join(dirname(out), `.${basename(out)}.${what}-${process.pid}`);
}

function clearLeftovers(out: string): void {
	const parent = dirname(out);
	mkdirSync(parent, { recursive: true });
	const pattern = new RegExp(
		`^\\.${basename(out).replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}\\.(new|old)-(\\d+)$`,
	);
	for (const name of readdirSync(parent)) {
		const match = pattern.exec(name);
		if (match === null || (Number(match[2]) !== process.pid && isRunning(Number(match[2])))) continue;
		// Interrupted between the two renames: the old output is the last good one.
		if (match[1] === "old" && !existsSync(out)) renameSync(join(parent, name), out);
		else rmSync(join(parent, name), { recursive: true, force: true });
	}
}

function isRunning(pid: number): boolean {
	try {
		process.kill(pid, 0);
		return true;
	} catch {
		return false;
	}
}

function foreignFiles(out: string): readonly string[] {
	if (!existsSync(out)) return [];
	const ours = new Set([...listedFiles(out), LIST]);
	return filesIn(out).filter((file) => !ours.has(file));
}

function listedFiles(out: string): readonly string[] {
	const file = join(out, LIST);
	if (!existsSync(file)) return [];
	try {
		const list: unknown = JSON.parse(readFileSync(file, "utf8"));
		return Array.isArray(list) ? list.map(String) : [];
	} catch {
		// A list that cannot be read claims nothing: every file then counts as somebody else's.
		return [];
	}
}

function filesIn(dir: string): string[] {
	return readdirSync(dir, { recursive: true, withFileTypes: true })
		.filter((entry) => !entry.isDirectory())
		.map((entry) => relative(dir, join(entry.parentPath, entry.name)).split(sep).join("/"))
		.sort();
}
