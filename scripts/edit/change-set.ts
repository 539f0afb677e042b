/**
 * A change of a club's files: what it was and what it becomes, shown before it is made, made whole or
 * not at all, and taken back.
 *
 *   record   the texts before and after are written into `.handbook/changes/` first
 *   write    each text beside its file, then all renamed into place, then what is gone is removed
 *   close    the record is marked as made; one that is not was interrupted, and is taken back first
 *
 * Nothing is written where a file is no longer what the change was worked out from.
 */

import {
	existsSync,
	mkdirSync,
	readdirSync,
	readFileSync,
	renameSync,
	rmdirSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { createTwoFilesPatch } from "diff";
import type { ClubTexts } from "./club-texts.ts";

/** The folder, inside the club's, for what this program keeps there. Nothing in it is read as content. */
export const KEPT_FOLDER = ".handbook";
const RECORDS = `${KEPT_FOLDER}/changes`;
/** Older changes are forgotten. */
const MOST_RECORDS = 50;

/** One file: a text that is undefined stands for no file. */
export interface Change {
	readonly path: string;
	readonly before?: string;
	readonly after?: string;
}

export interface ChangeRecord {
	/** The command, as it was given. */
	readonly what: string;
	readonly state: "begun" | "made";
	readonly changes: readonly Change[];
}

/** What differs between two states of a club's texts, by path. */
export function changesBetween(before: ClubTexts, after: ClubTexts): readonly Change[] {
	const paths = [...new Set([...before.keys(), ...after.keys()])].sort();
	return paths.flatMap((path) => {
		const old = before.get(path);
		const now = after.get(path);
		if (old === now) return [];
		return [
			{ path, ...(old === undefined ? {} : { before: old }), ...(now === undefined ? {} : { after: now }) },
		];
	});
}

/** A change as a person reads it: renamed files in a line, changed lines with what stands around them. */
export function describeChanges(changes: readonly Change[]): readonly string[] {
	const lines: string[] = [];
	const renamed = renames(changes);
	for (const { path, before, after } of changes) {
		const from = renamed.get(path);
		if (after === undefined) {
			if (![...renamed.values()].includes(path)) lines.push(`- ${path}`);
			continue;
		}
		const old = from === undefined ? before : changes.find((one) => one.path === from)?.before;
		if (from !== undefined) lines.push(`${from} → ${path}`);
		else lines.push(old === undefined ? `+ ${path}` : path);
		if (old === undefined || old === after) continue;
		const patch = createTwoFilesPatch(
			"",
			"",
			old.replaceAll("\r\n", "\n"),
			after.replaceAll("\r\n", "\n"),
			"",
			"",
			{
				context: 1,
			},
		);
		for (const line of patch.split("\n").slice(4)) {
			if (line !== "" && !line.startsWith("\\"))
				lines.push(`    ${line.replace(/^@@ -(\d+).*$/, "line $1")}`);
		}
	}
	return lines;
}

/** Paths and the other ones that they continue: whose lines they have, more than their own old ones. */
function renames(changes: readonly Change[]): ReadonlyMap<string, string> {
	const found = new Map<string, string>();
	const taken = new Set<string>();
	for (const { path, before, after } of changes) {
		if (after === undefined) continue;
		const lines = new Set(after.split("\n"));
		const alike = (text: string) => {
			const own = text.split("\n");
			return own.filter((line) => lines.has(line)).length / own.length;
		};
		let best: string | undefined;
		let most = Math.max(0.5, before === undefined ? 0 : alike(before));
		for (const other of changes) {
			if (other.path === path || other.before === undefined || taken.has(other.path)) continue;
			const share = alike(other.before);
			if (share > most) [best, most] = [other.path, share];
		}
		if (best === undefined) continue;
		taken.add(best);
		found.set(path, best);
	}
	return found;
}

/** A file that is not what it was when the change was worked out. */
export class FilesChanged extends Error {
	readonly paths: readonly string[];
	constructor(paths: readonly string[]) {
		super(`changed in the meantime: ${paths.join(", ")}`);
		this.paths = paths;
	}
}

/** Makes a change. Throws `FilesChanged` before anything is written, and what the file system throws. */
export function makeChanges(clubDir: string, what: string, changes: readonly Change[]): void {
	mustBe(clubDir, changes, "before");
	const file = join(clubDir, RECORDS, `${nextNumber(clubDir)}.json`);
	mkdirSync(dirname(file), { recursive: true });
	write(file, { what, state: "begun", changes });
	put(clubDir, changes, "after");
	write(file, { what, state: "made", changes });
	for (const old of recordFiles(clubDir).slice(0, -MOST_RECORDS)) rmSync(join(clubDir, RECORDS, old));
}

/** Takes the last change back and gives it; undefined where there is none. Throws `FilesChanged`. */
export function takeBack(clubDir: string): ChangeRecord | undefined {
	const name = recordFiles(clubDir).at(-1);
	if (name === undefined) return undefined;
	const file = join(clubDir, RECORDS, name);
	const record = readRecord(file);
	mustBe(clubDir, record.changes, "after");
	put(clubDir, record.changes, "before");
	rmSync(file);
	return record;
}

/** Takes back a change that was interrupted; gives it, or undefined where none was. */
export function mendInterrupted(clubDir: string): ChangeRecord | undefined {
	const name = recordFiles(clubDir).at(-1);
	if (name === undefined) return undefined;
	const file = join(clubDir, RECORDS, name);
	const record = readRecord(file);
	if (record.state === "made") return undefined;
	put(clubDir, record.changes, "before");
	rmSync(file);
	return record;
}

function put(clubDir: string, changes: readonly Change[], to: "before" | "after"): void {
	const written: (readonly [string, string])[] = [];
	for (const change of changes) {
		const text = change[to];
		if (text === undefined) continue;
		const file = join(clubDir, change.path);
		mkdirSync(dirname(file), { recursive: true });
		writeFileSync(`${file}.part`, text);
		written.push([`${file}.part`, file]);
	}
	for (const [part, file] of written) renameSync(part, file);
	for (const change of changes) {
		if (change[to] !== undefined) continue;
		const file = join(clubDir, change.path);
		rmSync(file, { force: true });
		removeIfEmpty(dirname(file));
	}
}

/** A folder that a renamed apparatus leaves behind. */
function removeIfEmpty(folder: string): void {
	if (existsSync(folder) && readdirSync(folder).length === 0) rmdirSync(folder);
}

function mustBe(clubDir: string, changes: readonly Change[], state: "before" | "after"): void {
	const other = changes.filter((change) => {
		const file = join(clubDir, change.path);
		const text = existsSync(file) ? readFileSync(file, "utf8") : undefined;
		return text !== change[state];
	});
	if (other.length > 0) throw new FilesChanged(other.map(({ path }) => path));
}

function recordFiles(clubDir: string): readonly string[] {
	const folder = join(clubDir, RECORDS);
	if (!existsSync(folder)) return [];
	return readdirSync(folder)
		.filter((name) => /^\d+\.json$/.test(name))
		.sort();
}

function nextNumber(clubDir: string): string {
	const last = Number.parseInt(recordFiles(clubDir).at(-1) ?? "0", 10);
	return String(last + 1).padStart(6, "0");
}

function readRecord(file: string): ChangeRecord {
	return JSON.parse(readFileSync(file, "utf8")) as ChangeRecord;
}

function write(file: string, record: ChangeRecord): void {
	writeFileSync(`${file}.part`, `${JSON.stringify(record, null, "\t")}\n`);
	renameSync(`${file}.part`, file);
}
