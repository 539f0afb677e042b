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
 * A real folder that stands in the way of the link (empty, or of single sheets) is taken over once by two
 * renames, and where links cannot be made (Windows, some drives) or are not wanted (`--plain`, for programs
 * that follow none) that is how every build publishes. If
 * the second fails the first is taken back; if the build is killed between them the next one does so.
 */

import { randomUUID } from "node:crypto";
import { basename, join, resolve } from "node:path";
import type { Folder } from "../files/folder.ts";
import { claimOutput, isClaim } from "./claim-output.ts";
import {
	isList,
	isOurs,
	listedFiles,
	type OutputPlace,
	openOutput,
	sweepLists,
	writeList,
} from "./output-folder.ts";

/** Whoever runs the build, a web server reads what it wrote, and only the builder changes it. */
const FILE_MODE = 0o644;
const FOLDER_MODE = 0o755;

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
	readonly #place: OutputPlace;
	readonly #around: Folder;
	readonly #name: string;
	/** The folder that is written into, from the one around. */
	#own: string;
	readonly #release: () => void;
	readonly #plain: boolean;

	/**
	 * Claims the output, clears what interrupted builds left, and makes the folder. Throws OutputBusy
	 * where another build has the claim, and OutputRefused where the output is somebody's.
	 */
	constructor(outDir: string, { plain = false }: { readonly plain?: boolean } = {}) {
		this.#plain = plain;
		this.#place = openOutput(outDir);
		const { around, name, editions } = this.#place;
		this.#around = around;
		this.#name = name;
		around.makeFolder(editions);
		this.#release = claimOutput(around.inner(editions));
		this.#own = `${editions}/${randomUUID().slice(0, 8)}`;
		try {
			clearLeftovers(this.#place);
			around.makeFolder(this.#own);
		} catch (error) {
			this.discard();
			throw error;
		}
	}

	/** The folder to write into. */
	get dir(): string {
		return join(this.#around.path, this.#own);
	}

	/** The folder of the output as it is now, which stays as it is until this one is published; undefined where there is none. */
	get before(): string | undefined {
		return this.#around.has(this.#name) ? this.#around.place(this.#name) : undefined;
	}

	/** Begins another edition of the same output, when one has been published. */
	begin(): void {
		this.#own = `${this.#place.editions}/${randomUUID().slice(0, 8)}`;
		this.#around.makeFolder(this.#own);
	}

	write(path: string, content: string | Uint8Array): void {
		this.#around.write(`${this.#own}/${path}`, content);
	}

	/** Writes a file that somebody may have one of their own of: theirs stays. */
	writeUnlessTheirs(path: string, content: string): void {
		const isThere = this.#around.isLink(`${this.#name}/${path}`) || this.#around.has(`${this.#name}/${path}`);
		if (!isThere || listedFiles(this.#place, this.#name).includes(path)) this.write(path, content);
	}

	/** Keeps a file of the last output that this build did not make anew. */
	keep(path: string): void {
		const old = `${this.#name}/${path}`;
		if (!this.#around.has(old) || this.#around.has(`${this.#own}/${path}`)) return;
		this.#around.bring(old, `${this.#own}/${path}`);
	}

	/** Changes the output to this edition, and gives its files. Throws OutputConflict where that would overwrite somebody else's file. */
	publish(): readonly string[] {
		const around = this.#around;
		const made = around.files(this.#own);
		const others = foreignFiles(this.#place, this.#name);
		const conflicts = inTheWay(others, made);
		if (conflicts.length > 0) throw new OutputConflict(conflicts);
		letRead(around, this.#own, made);
		bringOthers(this.#place, this.#name, this.#own, others);
		for (const file of made) keepUnchanged(around, `${this.#name}/${file}`, `${this.#own}/${file}`);
		writeList(this.#place, this.#own, made);
		const old = takePlace(this.#place, this.#own, this.#plain);
		// What cannot be removed now is tried again by the next build.
		if (old !== undefined) tryTo(() => removeEdition(this.#place, old));
		tryTo(() => sweepLists(this.#place));
		return made;
	}

	/** Ends the build: without `publish` nothing of it stays. */
	discard(): void {
		try {
			if (!isEdition(this.#place, this.#own)) this.#around.removeAll(this.#own);
		} finally {
			this.#release();
			// Only an empty folder is removed; one in use is not, and that is right.
			if (!this.#around.isLink(this.#name)) this.#around.removeIfEmpty(this.#place.editions);
		}
	}
}

/** Says, before it is written into, that a folder which is not there or is empty is this program's. Throws OutputRefused. */
export function claimFolder(outDir: string): Claim {
	const place = openOutput(outDir);
	place.around.makeFolder(place.name);
	if (!isOurs(place, place.name)) writeList(place, place.name, []);
	return { place, files: listedFiles(place, place.name) };
}

/** An output folder that was found to be the program's own, and what is in it. */
export interface Claim {
	readonly place: OutputPlace;
	readonly files: readonly string[];
}

/** Adds files, each written whole, to the list of an output folder. */
export function addToOutput(claim: Claim, paths: readonly string[]): void {
	// Asked before anything was written: a folder of which every file is new is known by none of them.
	const { place } = claim;
	const list = new Set([...claim.files, ...paths]);
	letRead(place.around, place.name, paths);
	writeList(place, place.name, [...list].sort());
}

/** Lets everybody read our files, and go through our folders, whatever the mask of whoever builds. */
function letRead(around: Folder, dir: string, files: readonly string[]): void {
	const folders = new Set(files.flatMap(foldersAround));
	for (const folder of ["", ...folders]) setMode(around, `${dir}/${folder}`, FOLDER_MODE);
	for (const file of files) setMode(around, `${dir}/${file}`, FILE_MODE);
}

function setMode(around: Folder, path: string, mode: number): void {
	if (around.info(path)?.mode !== mode) tryTo(() => around.setMode(path, mode));
}

/** Whether the output is a link to this edition. */
function isEdition({ around, name }: OutputPlace, edition: string): boolean {
	return around.isLink(name) && resolve(around.path, around.target(name)) === join(around.path, edition);
}

/** Makes the edition the output, whole and at once where it can be; gives the edition before, to be removed. */
function takePlace(
	{ around, name, editions }: OutputPlace,
	edition: string,
	plain: boolean,
): string | undefined {
	setMode(around, editions, FOLDER_MODE);
	const link = `${editions}/link-${basename(edition)}`;
	// Made where it will stand, so that what it says is right there.
	const linked = !plain && process.platform !== "win32" && tryTo(() => around.symlinkAs(edition, link, name));
	const next = linked ? link : edition;
	try {
		const isLink = around.isLink(name);
		if (!(isLink || around.has(name)) || (linked && isLink)) {
			const old = isLink ? `${editions}/${basename(around.target(name))}` : undefined;
			around.rename(next, name);
			return old;
		}
		const aside = `${editions}/${SET_ASIDE}${basename(edition)}`;
		around.rename(name, aside);
		try {
			around.rename(next, name);
		} catch (error) {
			around.rename(aside, name);
			throw error;
		}
		return aside;
	} finally {
		if (linked) around.remove(link);
	}
}

/** Removes an edition that is no longer the output; what was put into it late goes with the output. */
function removeEdition(place: OutputPlace, old: string): void {
	const { around, name } = place;
	if (!around.isLink(old) && isOurs(place, old)) {
		const late = foreignFiles(place, old).filter(
			(file) => !(around.isLink(`${name}/${file}`) || around.has(`${name}/${file}`)),
		);
		bringOthers(place, old, name, late);
	}
	around.removeAll(old);
}

function clearLeftovers(place: OutputPlace): void {
	const { around, name, editions } = place;
	const names = around.list(editions).filter((entry) => !isClaim(entry.name) && !isList(entry.name));
	const aside = names.find(
		(entry) =>
			entry.name.startsWith(SET_ASIDE) &&
			entry.kind === "folder" &&
			isOurs(place, `${editions}/${entry.name}`),
	);
	if (aside !== undefined && !(around.isLink(name) || around.has(name))) {
		// Interrupted between the two renames: the folder set aside is the last good output.
		around.rename(`${editions}/${aside.name}`, name);
	}
	for (const { name: one } of names) {
		const path = `${editions}/${one}`;
		if (!isEdition(place, path) && (around.isLink(path) || around.has(path))) removeEdition(place, path);
	}
	sweepLists(place);
}

/** Brings somebody else's files over, and their folders, empty ones too, with the permissions they had. */
function bringOthers(place: OutputPlace, from: string, to: string, files: readonly string[]): void {
	const { around } = place;
	const ours = new Set(listedFiles(place, from).flatMap(foldersAround));
	for (const file of files) around.bring(`${from}/${file}`, `${to}/${file}`);
	const folders = around.folders(from).filter((folder) => !ours.has(folder));
	for (const folder of folders) around.makeFolder(`${to}/${folder}`);
	for (const folder of folders) {
		const mode = around.info(`${from}/${folder}`)?.mode;
		if (mode !== undefined) setMode(around, `${to}/${folder}`, mode);
	}
}

/**
 * Where the old file holds the same bytes it takes the new one's place, so that its time and its number
 * stay. Nothing writes into an edition after it is published, so sharing one file between two is safe.
 */
function keepUnchanged(around: Folder, old: string, made: string): void {
	if (around.isLink(old)) return;
	const before = around.info(old);
	const now = around.info(made);
	if (before?.kind !== "file" || before.size !== now?.size || before.ino === now.ino) return;
	if (!around.read(old).equals(around.read(made))) return;
	const beside = `${made}.${randomUUID().slice(0, 8)}`;
	if (!tryTo(() => around.link(old, beside))) return;
	around.rename(beside, made);
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

function foreignFiles(place: OutputPlace, path: string): readonly string[] {
	const ours = new Set(listedFiles(place, path));
	return place.around.files(path).filter((file) => !ours.has(file));
}
