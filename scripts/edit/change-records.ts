/**
 * Records of what commands changed in a club folder, one file each in `.handbook/changes/`.
 *
 * A record can write and delete, so it is believed only where it is this program's own work on this
 * machine, in this folder: it bears the seal of the machine's key over the folder's real path and all
 * that it says. One that came with a folder, or lies in a folder that was moved, is left alone and told.
 * Its form is held against a schema, and its paths may name what a club holds and nothing else. The
 * folder tells version control to leave it out.
 */

import { Ajv, type ValidateFunction } from "ajv";
import type { Folder } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";
import { sealOf } from "../files/machine-key.ts";
import schema from "./change-record.schema.json" with { type: "json" };
import type { Change } from "./change-set.ts";
import { kindOf } from "./club-texts.ts";

/** The folder, inside the club's, for what this program keeps there. Nothing in it is read as content. */
export const KEPT_FOLDER = ".handbook";
const RECORDS = `${KEPT_FOLDER}/changes`;
/** Older changes are forgotten: an evening at the desk makes hundreds, each to be taken back. */
const MOST_RECORDS = 1000;

/** One file of a record. Of a file that the change made, the hash is enough to know it again. */
export interface RecordedChange extends Change {
	readonly afterHash?: string;
}

/** A folder that was made whole, outside the club's. */
export interface MadeFolder {
	readonly folder: string;
	/** Where it was put together. */
	readonly beside: string;
	readonly files: Readonly<Record<string, string>>;
}

export interface ChangeRecord {
	/** The command, as it was given. */
	readonly what: string;
	/** `begun` and `undoing` are what a command that was ended in the middle leaves. */
	readonly state: "begun" | "made" | "undoing";
	readonly changes?: readonly RecordedChange[];
	readonly made?: MadeFolder;
}

export interface KeptRecord {
	/** Its number, which its file is named by. */
	readonly number: string;
	readonly record: ChangeRecord;
}

interface WrittenRecord extends ChangeRecord {
	readonly format: 1;
	readonly seal: string;
}

let compiled: ValidateFunction<WrittenRecord> | undefined;

/** The latest record that is this machine's own; undefined where there is none. */
export function lastRecord(club: Folder): KeptRecord | undefined {
	for (const number of numbers(club).toReversed()) {
		const record = recordOf(club, number);
		if (record !== undefined) return { number, record };
	}
	return undefined;
}

/** Files that lie among the records and are not this machine's own of this folder. */
export function strangeRecords(club: Folder): readonly string[] {
	return numbers(club)
		.filter((number) => recordOf(club, number) === undefined)
		.map((number) => `${RECORDS}/${number}.json`);
}

/** Writes a new record; gives its number. */
export function addRecord(club: Folder, record: ChangeRecord): string {
	const number = String(Number(numbers(club).at(-1) ?? 0) + 1).padStart(6, "0");
	const ignore = `${KEPT_FOLDER}/.gitignore`;
	if (!club.has(ignore)) club.write(ignore, "*\n");
	writeRecord(club, number, record);
	return number;
}

export function writeRecord(club: Folder, number: string, record: ChangeRecord): void {
	const said: ChangeRecord = record;
	const written: WrittenRecord = { format: 1, ...said, seal: seal(club, said) };
	club.write(`${RECORDS}/${number}.json`, `${JSON.stringify(written, null, "\t")}\n`, { flush: true });
}

export function removeRecord(club: Folder, number: string): void {
	club.remove(`${RECORDS}/${number}.json`);
}

/** Forgets the oldest records. */
export function forgetOld(club: Folder): void {
	for (const number of numbers(club).slice(0, -MOST_RECORDS)) removeRecord(club, number);
}

/** Whether a command may have made or changed a file at a path: content, data, and what `new club` lays down. */
function isChangeable(path: string): boolean {
	if (path.split("/").some((part) => part === ".." || part === ".")) return false;
	return kindOf(path) !== undefined || path === ".gitignore" || /^\.vscode\/[\w./-]+\.json$/.test(path);
}

function recordOf(club: Folder, number: string): ChangeRecord | undefined {
	let read: unknown;
	try {
		read = JSON.parse(club.readText(`${RECORDS}/${number}.json`));
	} catch {
		return undefined;
	}
	compiled ??= new Ajv({ strict: true, strictRequired: false }).compile<WrittenRecord>(schema);
	if (!compiled(read)) return undefined;
	const { format: _, seal: given, ...record } = read;
	if (given !== seal(club, record)) return undefined;
	return (record.changes ?? []).every(({ path }) => isChangeable(path)) ? record : undefined;
}

/** Bound to this machine, by its key, and to this folder, by its real path. */
function seal(club: Folder, { what, state, changes, made }: ChangeRecord): string {
	return sealOf(["change record", club.path, sha256(JSON.stringify([what, state, changes, made]))]);
}

function numbers(club: Folder): readonly string[] {
	if (club.info(RECORDS)?.kind !== "folder") return [];
	return club
		.list(RECORDS)
		.flatMap(({ name }) => /^(\d{6,12})\.json$/.exec(name)?.[1] ?? [])
		.sort((a, b) => Number(a) - Number(b));
}
