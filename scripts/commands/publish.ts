/**
 * Publishing: a build writes beside the last good output and takes its place when it is whole.
 *
 * The output `_site` is a link into a folder of editions beside it, `._site.editions`. Changing a link
 * to another edition is one step of the file system: whoever looks, and whenever the build is killed,
 * `_site` is one whole edition, the old or the new. Changing a real folder would be two steps, with
 * nothing published between them.
 *
 * Steps: claim the output; clear what a build that was interrupted left; write into a new edition;
 * bring over files that somebody else put into the output; put unchanged files back as they were, so
 * that programs which upload a site see what changed; change the link; remove the old edition.
 *
 * A real folder that stands in the way of the link (somebody made it by hand) is taken over once by two
 * renames, and where links cannot be made (Windows, some drives) that is how every build publishes. If
 * the second fails the first is taken back; if the build is killed between them the next one does so.
 */

import { randomUUID } from "node:crypto";
import {
	copyFileSync,
	existsSync,
	linkSync,
	lstatSync,
	mkdirSync,
	readdirSync,
	readFileSync,
	readlinkSync,
	realpathSync,
	renameSync,
	rmdirSync,
	rmSync,
	statSync,
	symlinkSync,
	writeFileSync,
} from "node:fs";
import { basename, dirname, join, relative, resolve, sep } from "node:path";
import { claimOutput, isClaim } from "./claim-output.ts";

/** The list of files a build made, inside the output folder. */
const LIST = ".handbook-files.json";
/** The list while it is being written. */
const NEW_LIST = `${LIST}.new`;

/** The start of the name under which a real folder waits while it is taken over. */
const SET_ASIDE = "before-";

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
	readonly #out: string;
	readonly #editions: string;
	#dir: string;
	readonly #release: () => void;

	/**
	 * Claims the output, clears what interrupted builds left, and makes the folder. Throws OutputBusy
	 * where another build has the claim.
	 */
	constructor(outDir: string) {
		this.#out = followForeignLinks(resolve(outDir));
		this.#editions = editionsOf(this.#out);
		mkdirSync(this.#editions, { recursive: true });
		this.#release = claimOutput(this.#editions);
		this.#dir = join(this.#editions, randomUUID().slice(0, 8));
		try {
			clearLeftovers(this.#out, this.#editions);
			mkdirSync(this.#dir);
		} catch (error) {
			this.discard();
			throw error;
		}
	}

	/** The folder to write into. */
	get dir(): string {
		return this.#dir;
	}

	/**
	 * Begins another edition of the same output, when one has been published.
	 *
	 * @param of "nothing", or the files of the one that is published: each may be replaced, and none written into
	 */
	begin(of: "nothing" | "published"): void {
		this.#dir = join(this.#editions, randomUUID().slice(0, 8));
		mkdirSync(this.#dir);
		if (of === "nothing") return;
		for (const file of listedFiles(this.#out)) this.keep(file);
	}

	write(path: string, content: string | Uint8Array): void {
		const file = join(this.dir, path);
		mkdirSync(dirname(file), { recursive: true });
		writeFileSync(file, content);
	}

	/** Writes a file that somebody may have one of their own of: theirs stays. */
	writeUnlessTheirs(path: string, content: string): void {
		const isThere = lstatSync(join(this.#out, path), { throwIfNoEntry: false }) !== undefined;
		if (!isThere || listedFiles(this.#out).includes(path)) this.write(path, content);
	}

	/** Keeps a file of the last output that this build did not make anew. */
	keep(path: string): void {
		const old = join(this.#out, path);
		if (!existsSync(old) || existsSync(join(this.dir, path))) return;
		bringOver(old, join(this.dir, path));
	}

	/** Changes the output to this edition, and gives its files. Throws OutputConflict where that would overwrite somebody else's file. */
	publish(): readonly string[] {
		const made = filesIn(this.dir);
		const others = foreignFiles(this.#out);
		const conflicts = inTheWay(others, made);
		if (conflicts.length > 0) throw new OutputConflict(conflicts);
		for (const file of others) bringOver(join(this.#out, file), join(this.dir, file));
		for (const file of made) keepUnchanged(join(this.#out, file), join(this.dir, file));
		writeList(this.dir, made);
		const old = takePlace(this.dir, this.#out, this.#editions);
		// What cannot be removed now is tried again by the next build.
		if (old !== undefined) tryTo(() => removeEdition(old, this.#out));
		return made;
	}

	/** Ends the build: without `publish` nothing of it stays. */
	discard(): void {
		try {
			if (!isEditionOf(this.#out, this.dir)) rmSync(this.dir, { recursive: true, force: true });
		} finally {
			this.#release();
			// Only an empty folder is removed; one in use is not, and that is right.
			if (!isLink(this.#out)) tryTo(() => rmdirSync(this.#editions));
		}
	}
}

/** Adds files to an output folder that is there already, each written whole, and to its list. */
export function addToOutput(outDir: string, paths: readonly string[]): void {
	const list = new Set([...listedFiles(outDir), ...paths]);
	mkdirSync(outDir, { recursive: true });
	writeList(outDir, [...list].sort());
}

/** Writes the list under another name first: a list cut short would make our files somebody else's. */
function writeList(dir: string, files: readonly string[]): void {
	writeFileSync(join(dir, NEW_LIST), `${JSON.stringify(files, null, "\t")}\n`, { flush: true });
	renameSync(join(dir, NEW_LIST), join(dir, LIST));
}

function editionsOf(out: string): string {
	return join(dirname(out), `.${basename(out)}.editions`);
}

/** Where the output really is: a link that somebody else made is a way to it, not part of it. */
function followForeignLinks(out: string): string {
	if (!isLink(out) || dirname(resolve(dirname(out), readlinkSync(out))) === editionsOf(out)) return out;
	return existsSync(out) ? followForeignLinks(realpathSync(out)) : resolve(dirname(out), readlinkSync(out));
}

function isLink(path: string): boolean {
	return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() ?? false;
}

/** Whether the output is this edition, by link or because the folder was moved there. */
function isEditionOf(out: string, edition: string): boolean {
	return isLink(out) && resolve(dirname(out), readlinkSync(out)) === edition;
}

/** Makes the edition the output, whole and at once where it can be; gives the edition before, to be removed. */
function takePlace(edition: string, out: string, editions: string): string | undefined {
	const link = join(editions, `link-${basename(edition)}`);
	const linked =
		process.platform !== "win32" && tryTo(() => symlinkSync(relative(dirname(out), edition), link));
	const next = linked ? link : edition;
	try {
		const now = lstatSync(out, { throwIfNoEntry: false });
		if (now === undefined || (linked && now.isSymbolicLink())) {
			const old = now === undefined ? undefined : resolve(dirname(out), readlinkSync(out));
			renameSync(next, out);
			return old;
		}
		const aside = join(editions, SET_ASIDE + basename(edition));
		renameSync(out, aside);
		try {
			renameSync(next, out);
		} catch (error) {
			renameSync(aside, out);
			throw error;
		}
		return aside;
	} finally {
		if (linked) rmSync(link, { force: true });
	}
}

/** Removes an edition that is no longer the output; what was put into it late goes with the output. */
function removeEdition(old: string, out: string): void {
	for (const file of isLink(old) ? [] : foreignFiles(old)) {
		if (lstatSync(join(out, file), { throwIfNoEntry: false }) === undefined) {
			bringOver(join(old, file), join(out, file));
		}
	}
	rmSync(old, { recursive: true, force: true });
}

function clearLeftovers(out: string, editions: string): void {
	const names = readdirSync(editions).filter((name) => !isClaim(name));
	const aside = names.find((name) => name.startsWith(SET_ASIDE));
	if (aside !== undefined && lstatSync(out, { throwIfNoEntry: false }) === undefined) {
		// Interrupted between the two renames: the folder set aside is the last good output.
		renameSync(join(editions, aside), out);
	}
	for (const name of names) {
		const path = join(editions, name);
		if (isEditionOf(out, path) || lstatSync(path, { throwIfNoEntry: false }) === undefined) continue;
		// An old edition that was not yet removed may hold what somebody put there late.
		if (existsSync(join(path, LIST)) || name.startsWith(SET_ASIDE)) removeEdition(path, out);
		else rmSync(path, { recursive: true, force: true });
	}
}

/** Puts a file, a link or a special file at another place as well, as it is. */
function bringOver(from: string, to: string): void {
	mkdirSync(dirname(to), { recursive: true });
	if (isLink(from)) symlinkSync(readlinkSync(from), to);
	else if (!tryTo(() => linkSync(from, to))) {
		const beside = `${to}.${randomUUID().slice(0, 8)}`;
		copyFileSync(from, beside);
		renameSync(beside, to);
	}
}

/**
 * Where the old file holds the same bytes it takes the new one's place, so that its time and its number
 * stay. Nothing writes into an edition after it is published, so sharing one file between two is safe.
 */
function keepUnchanged(old: string, made: string): void {
	const before = lstatSync(old, { throwIfNoEntry: false });
	const now = statSync(made);
	if (before === undefined || !before.isFile() || before.size !== now.size || before.ino === now.ino) return;
	if (!readFileSync(old).equals(readFileSync(made))) return;
	const beside = `${made}.${randomUUID().slice(0, 8)}`;
	if (!tryTo(() => linkSync(old, beside))) return;
	renameSync(beside, made);
}

/** Whether the step worked; for steps that some file systems do not know. */
function tryTo(step: () => void): boolean {
	try {
		step();
		return true;
	} catch (error) {
		if (error instanceof Error && "code" in error && error.code !== "ENOSPC") return false;
		throw error;
	}
}

/** Files that stand where one of ours goes, or where one of our folders goes, or the other way round. */
function inTheWay(others: readonly string[], made: readonly string[]): readonly string[] {
	const taken = new Set(made);
	const folders = new Set(made.flatMap(foldersAround));
	return others.filter(
		(file) => taken.has(file) || folders.has(file) || foldersAround(file).some((folder) => taken.has(folder)),
	);
}

function foldersAround(file: string): readonly string[] {
	const parts = file.split("/");
	return parts.slice(1).map((_, i) => parts.slice(0, i + 1).join("/"));
}

function foreignFiles(out: string): readonly string[] {
	if (!existsSync(out)) return [];
	const ours = new Set([...listedFiles(out), LIST, NEW_LIST]);
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
