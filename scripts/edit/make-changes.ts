/**
 * Makes a change of a club's files, takes it back, and mends one that was interrupted. No text that
 * somebody wrote is ever thrown away, whenever it was written and wherever the program is ended.
 *
 *   record   what each file was and becomes, before anything else is written
 *   lay      every new text under `.handbook/new/`, so that a full drive stops the change here
 *   change   each file is moved aside, to `.handbook/kept/`, and the new text takes its free name: a text
 *            that an editor saved in that moment is either what was moved, or keeps the name
 *   look     what was moved aside is what the change was worked out from, and goes; anything else stays
 *   close    the record is marked as made
 *
 * Taking back goes by what is there now, file by file, so it can be stopped and gone on with anywhere: a
 * file as the change left it becomes what it was; one that is what it was stays; one that somebody wrote
 * in since has the change taken out of it and keeps the rest; and where that cannot be told apart, it
 * stays, and the old text lies beside, named.
 */

import { randomUUID } from "node:crypto";
import { basename, dirname, join, posix } from "node:path";
import { applyPatch, structuredPatch } from "diff";
import { type Folder, makeFolder, openFolder } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";
import {
	addRecord,
	type ChangeRecord,
	forgetOld,
	KEPT_FOLDER,
	type KeptRecord,
	lastRecord,
	type MadeFolder,
	type RecordedChange,
	removeRecord,
	writeRecord,
} from "./change-records.ts";
import type { Change } from "./change-set.ts";

/** A file that is not what it was when the change was worked out. */
export class FilesChanged extends Error {
	readonly paths: readonly string[];
	constructor(paths: readonly string[]) {
		super(`changed in the meantime: ${paths.join(", ")}`);
		this.paths = paths;
	}
}

/** A text that was saved here so that it is not lost. */
export interface KeptText {
	/** The file that it is a text of. */
	readonly path: string;
	/** Where the other text of the file lies. */
	readonly keptAs: string;
}

/** What became of the files of a change that was taken back. */
export interface TakenBack {
	readonly what: string;
	/** Files that are what they were, with what they were as the change had left them. */
	readonly changes: readonly Change[];
	/** Files that somebody wrote in since: the change is out of them, the later work is in. */
	readonly merged: readonly string[];
	/** Files that somebody wrote in since and that stay as they are; of some the old text lies beside. */
	readonly left: readonly string[];
	readonly kept: readonly KeptText[];
}

/**
 * Makes a change. Throws `FilesChanged` before anything is written, and what the file system throws, after
 * which nothing is changed, or the record says what is half done.
 *
 * @returns texts that somebody saved while the change was made, each of which is kept
 */
export function makeChanges(clubDir: string, what: string, changes: readonly Change[]): readonly KeptText[] {
	const club = openFolder(clubDir);
	const recorded = changes.map(recordedChange);
	mustBe(club, changes);
	const number = addRecord(club, { what, state: "begun", changes: recorded });
	const kept: KeptText[] = [];
	try {
		for (const { path, after } of changes) if (after !== undefined) club.write(newAt(number, path), after);
		for (const { path, before, after } of changes) {
			kept.push(...exchange(club, number, path, before, after === undefined ? undefined : "laid"));
		}
	} catch (error) {
		try {
			finish(club, { number, record: { what, state: "undoing", changes: recorded } });
		} catch {
			// The record says to the next command what is half done.
		}
		throw error;
	}
	writeRecord(club, number, { what, state: "made", changes: recorded });
	club.removeAll(`${KEPT_FOLDER}/new`);
	forgetOld(club);
	return kept;
}

/** The change of this folder's files that was interrupted, if there is one: to be told, where nothing may be written. */
export function interruptedChange(clubDir: string): string | undefined {
	const record = lastRecord(openFolder(clubDir))?.record;
	return record === undefined || record.state === "made" || record.made !== undefined
		? undefined
		: record.what;
}

/** What `takeBack` would take back; undefined where nothing is, or where it is a whole folder beside the club's. */
export function lastChange(clubDir: string): string | undefined {
	const record = lastRecord(openFolder(clubDir))?.record;
	return record === undefined || record.made !== undefined ? undefined : record.what;
}

/** Takes back a change that was interrupted; gives what became of it, or undefined where none was. */
export function mendInterrupted(clubDir: string): TakenBack | undefined {
	const club = openFolder(clubDir);
	const last = settled(club, lastRecord(club));
	return last === undefined || last.record.state === "made" ? undefined : finish(club, last);
}

/**
 * Takes the last change back and gives it; undefined where there is none. Throws `FilesChanged`, and writes
 * nothing, where somebody wrote in its files since. One that was interrupted is finished in any case.
 */
export function takeBack(clubDir: string): TakenBack | undefined {
	const club = openFolder(clubDir);
	const last = settled(club, lastRecord(club));
	if (last === undefined) return undefined;
	const { number, record } = last;
	if (record.state !== "made") return finish(club, last);
	const changed = record.made === undefined ? changedSince(club, record) : changedIn(record.made);
	if (changed.length > 0) throw new FilesChanged(changed);
	const undoing: ChangeRecord = { ...record, state: "undoing" };
	writeRecord(club, number, undoing);
	return finish(club, { number, record: undoing });
}

/** Makes a whole folder beside the club's, by a record. @param make puts it together in the folder it is given */
export function makeFolderBeside(
	clubDir: string,
	what: string,
	folder: string,
	make: (beside: Folder) => void,
): void {
	const club = openFolder(clubDir);
	const parent = makeFolder(dirname(folder));
	const name = basename(folder);
	const besideName = `.${name}.${randomUUID().slice(0, 8)}`;
	const place = { folder: join(parent.path, name), beside: join(parent.path, besideName) };
	const number = addRecord(club, { what, state: "begun", made: { ...place, files: {} } });
	try {
		parent.makeFolder(besideName);
		const beside = parent.inner(besideName);
		make(beside);
		const files = Object.fromEntries(beside.files().map((path) => [path, sha256(beside.read(path))]));
		const made = { ...place, files };
		writeRecord(club, number, { what, state: "begun", made });
		// An empty folder that has the name gives way; one that is not empty does not.
		parent.removeIfEmpty(name);
		parent.rename(besideName, name);
		writeRecord(club, number, { what, state: "made", made });
	} catch (error) {
		parent.removeAll(besideName);
		removeRecord(club, number);
		throw error;
	}
	forgetOld(club);
}

/** A folder that was put in its place before the end came was made; one that was not is cleared away. */
function settled(club: Folder, last: KeptRecord | undefined): KeptRecord | undefined {
	if (last?.record.made === undefined || last.record.state !== "begun") return last;
	const { folder, beside } = last.record.made;
	const parent = folderOrNone(dirname(folder));
	if (parent !== undefined && dirname(beside) === dirname(folder)) parent.removeAll(basename(beside));
	if (parent === undefined || !parent.has(basename(folder)) || changedIn(last.record.made).length > 0) {
		removeRecord(club, last.number);
		return settled(club, lastRecord(club));
	}
	const record: ChangeRecord = { ...last.record, state: "made" };
	writeRecord(club, last.number, record);
	return { ...last, record };
}

function finish(club: Folder, { number, record }: KeptRecord): TakenBack {
	const { what, made } = record;
	const result = made === undefined ? bringBack(club, number, record) : removeMade(what, made);
	club.removeAll(`${KEPT_FOLDER}/new`);
	removeRecord(club, number);
	return result;
}

function bringBack(club: Folder, number: string, { what, changes = [] }: ChangeRecord): TakenBack {
	const back: Change[] = [];
	const merged: string[] = [];
	const left: string[] = [];
	const kept: KeptText[] = [];
	const toOld = (path: string, now: string | undefined, before: string | undefined): void => {
		if (before !== undefined) club.write(newAt(number, path), before);
		kept.push(...exchange(club, number, path, now, before === undefined ? undefined : "laid"));
	};
	for (const change of changes) {
		const { path, before } = change;
		const aside = textAt(club, keptAt(number, path));
		const now = textAt(club, path);
		// Ended while the file was moved aside: what was moved is what was there.
		const wasMoved = now === undefined && aside !== undefined && before !== undefined;
		const known = wasMoved ? aside : now;
		if (wasMoved) club.moveNew(keptAt(number, path), path);
		else if (aside !== undefined) {
			if (aside === before || isAfter(change, aside)) club.remove(keptAt(number, path));
			else kept.push({ path, keptAs: outOfTheWay(club, keptAt(number, path)) });
		}
		if (known === before) {
			back.push({ path, ...(before === undefined ? {} : { before, after: before }) });
		} else if (isAfter(change, known)) {
			toOld(path, known, before);
			back.push({
				path,
				...(known === undefined ? {} : { before: known }),
				...(before === undefined ? {} : { after: before }),
			});
		} else if (known !== undefined && before !== undefined && change.after !== undefined) {
			const without = takenOut(known, change.after, before);
			if (without === known) left.push(path);
			else if (without !== undefined) {
				toOld(path, known, without);
				merged.push(path);
			} else {
				left.push(path);
				kept.push(keepText(club, number, path, before));
			}
		} else {
			left.push(path);
			if (before !== undefined) kept.push(keepText(club, number, path, before));
		}
	}
	const keptHere = `${KEPT_FOLDER}/kept/${number}`;
	for (const folder of club.folders(keptHere).toReversed()) club.removeIfEmpty(`${keptHere}/${folder}`);
	removeEmpty(club, [keptHere, `${KEPT_FOLDER}/kept`]);
	return { what, changes: back, merged, left, kept };
}

/** A text with a change taken out; the text itself where the change was not yet in; undefined where that cannot be told. */
function takenOut(now: string, after: string, before: string): string | undefined {
	if (linesApart(now, before) < linesApart(now, after)) return now;
	const patch = structuredPatch("", "", after, before, "", "", { context: 3 });
	const without = applyPatch(now, patch, { fuzzFactor: 0, autoConvertLineEndings: false });
	return without === false ? undefined : without;
}

/** Lines that are in one text and not in the other. */
function linesApart(a: string, b: string): number {
	const [one, other] = [new Set(a.split("\n")), new Set(b.split("\n"))];
	return one.symmetricDifference(other).size;
}

/**
 * Puts a new text, laid under `.handbook/new/`, in the place of a file, or removes the file.
 *
 * @param expected what the file is known to be
 * @returns what somebody saved in the meantime
 */
function exchange(
	club: Folder,
	number: string,
	path: string,
	expected: string | undefined,
	next: "laid" | undefined,
): readonly KeptText[] {
	const aside = keptAt(number, path);
	const found: KeptText[] = [];
	if (club.has(path) && expected !== undefined) {
		club.makeFolder(posix.dirname(aside));
		club.rename(path, aside);
	}
	if (next === "laid") {
		club.makeFolder(posix.dirname(path));
		try {
			club.moveNew(newAt(number, path), path);
		} catch (error) {
			if (!(error instanceof Error && "code" in error && error.code === "EEXIST")) throw error;
			// Saved in this very moment: it stays, and ours lies beside.
			const other = `${aside}.new`;
			club.makeFolder(posix.dirname(other));
			club.rename(newAt(number, path), other);
			found.push({ path, keptAs: other });
		}
	}
	const moved = textAt(club, aside);
	if (moved !== undefined && moved === expected) club.remove(aside);
	else if (moved !== undefined) found.push({ path, keptAs: aside });
	removeEmpty(club, foldersUp(aside, KEPT_FOLDER));
	if (next === undefined) removeEmpty(club, foldersUp(path, "").slice(0, 1));
	return found;
}

/** Gives a text that is kept a name that nothing else is moved to. */
function outOfTheWay(club: Folder, keptAs: string): string {
	let other = `${keptAs}.saved`;
	for (let n = 2; club.has(other); n++) other = `${keptAs}.saved-${n}`;
	club.rename(keptAs, other);
	return other;
}

/** Keeps a text beside that has no place of its own any more. */
function keepText(club: Folder, number: string, path: string, text: string): KeptText {
	const keptAs = `${keptAt(number, path)}.before`;
	club.write(keptAs, text);
	return { path, keptAs };
}

/** Removes what is left of a folder that was made, as far as it is still as it was made. */
function removeMade(what: string, { folder, files }: MadeFolder): TakenBack {
	const left: string[] = [];
	const own = folderOrNone(folder);
	for (const [path, hash] of own === undefined ? [] : Object.entries(files)) {
		if (own?.info(path)?.kind !== "file") continue;
		if (sha256(own.read(path)) === hash) own.remove(path);
		else left.push(path);
	}
	for (const path of own?.folders().toReversed() ?? []) own?.removeIfEmpty(path);
	folderOrNone(dirname(folder))?.removeIfEmpty(basename(folder));
	return { what, changes: [], merged: [], left, kept: [] };
}

/** Files of a folder that are not as they were made, or were put there since. */
function changedIn({ folder, files }: MadeFolder): readonly string[] {
	const own = folderOrNone(folder);
	if (own === undefined) return [];
	return own
		.files()
		.filter(
			(path) => own.isLink(path) || own.info(path)?.kind !== "file" || sha256(own.read(path)) !== files[path],
		);
}

function folderOrNone(path: string): Folder | undefined {
	try {
		return openFolder(path);
	} catch {
		return undefined;
	}
}

function recordedChange({ path, before, after }: Change): RecordedChange {
	const old = before === undefined ? {} : { before };
	if (after === undefined) return { path, ...old };
	return { path, ...old, ...(before === undefined ? { afterHash: sha256(after) } : { after }) };
}

/** Whether a text is what the change makes of the file; undefined stands for no file. */
function isAfter({ after, afterHash }: RecordedChange, text: string | undefined): boolean {
	if (afterHash === undefined) return text === after;
	return text !== undefined && sha256(text) === afterHash;
}

function changedSince(club: Folder, { changes = [] }: ChangeRecord): readonly string[] {
	return changes.filter((change) => !isAfter(change, textAt(club, change.path))).map(({ path }) => path);
}

function mustBe(club: Folder, changes: readonly Change[]): void {
	const other = changes.filter(({ path, before }) => textAt(club, path) !== before);
	if (other.length > 0) throw new FilesChanged(other.map(({ path }) => path));
}

function textAt(club: Folder, path: string): string | undefined {
	return club.info(path)?.kind === "file" ? club.readText(path) : undefined;
}

function newAt(number: string, path: string): string {
	return `${KEPT_FOLDER}/new/${number}/${path}`;
}

function keptAt(number: string, path: string): string {
	return `${KEPT_FOLDER}/kept/${number}/${path}`;
}

/** The folders around a path, inner ones first, up to one that stays. */
function foldersUp(path: string, end: string): readonly string[] {
	const folders: string[] = [];
	for (let at = posix.dirname(path); at !== end && at !== "." && at !== "/"; at = posix.dirname(at))
		folders.push(at);
	return folders;
}

/** Folders that a renamed apparatus leaves behind, and those that held what is kept no longer. */
function removeEmpty(club: Folder, folders: readonly string[]): void {
	// An inner one may be gone already, where a command was ended between the two.
	for (const folder of folders) if (club.has(folder) && !club.removeIfEmpty(folder)) return;
}
