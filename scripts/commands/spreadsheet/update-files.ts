/**
 * The changes that a sheet makes to files that are there: each taken cell is one field of one file, written
 * where it stands, so that comments and whatever else a person wrote in the file stay.
 */

import type { Change } from "../../edit/change-set.ts";
import { EditRefused } from "../../edit/move-block.ts";
import { dataIn, writeData } from "../../edit/write-data.ts";
import type { Folder } from "../../files/folder.ts";
import { type DataPath, type FileKind, isPageKind, type SourceFile } from "../../model.ts";
import { clubFileText } from "../write-club-file.ts";
import { valueAt, type WrittenFile } from "./club-sheets.ts";
import { COLUMNS, type SheetKind } from "./columns.ts";
import type { CellChange, Gone } from "./three-way.ts";

type Fields = Record<string, unknown>;

export interface FileUpdates {
	readonly changes: readonly Change[];
	/** Files whose own way of writing could not be kept. */
	readonly writtenAnew: readonly string[];
}

/**
 * @param added ids of entries, by the kind of their list, that the sheet has and the folder has not
 */
export function updateFiles(
	club: Folder,
	files: readonly SourceFile[],
	drafts: readonly WrittenFile[],
	taken: readonly CellChange[],
	added: readonly { readonly kind: SheetKind; readonly id: string }[],
): FileUpdates {
	const changes: Change[] = [];
	const writtenAnew: string[] = [];
	for (const file of files) {
		const own = taken.filter(({ kind, id }) => isOf(kind, id, file));
		const more = added.filter(({ kind, id }) => isOf(kind, id, file));
		const draft = drafts.find((one) => one.kind === file.kind && (one.id === file.id || sameWeek(one, file)));
		if (own.length + more.length === 0 || draft === undefined || !club.has(file.file)) continue;
		const before = club.readText(file.file);
		const wanted = updated(file, draft, own, more);
		const after = textOf(file, before, wanted);
		if (after === undefined) writtenAnew.push(file.file);
		const text = after ?? clubFileText(file.kind, wanted.data, wanted.body);
		if (text !== before) changes.push({ path: file.file, before, after: text });
	}
	return { changes, writtenAnew };
}

/** The changes with what is gone from the sheets taken out of the folder as well. */
export function withoutGone(
	club: Folder,
	files: readonly SourceFile[],
	changes: readonly Change[],
	gone: readonly Gone[],
): readonly Change[] {
	const byPath = new Map(changes.map((change) => [change.path, change]));
	for (const { kind, id } of gone) {
		const path = files.find((file) => isOf(kind, id, file))?.file;
		if (path === undefined || !club.has(path)) continue;
		const { before = club.readText(path), after = before } = byPath.get(path) ?? {};
		const data = dataIn(path, after);
		byPath.set(path, {
			path,
			before,
			...(isPageKind(kind) ? {} : { after: writeData(path, after, dataWithout(data, kind, id)) }),
		});
	}
	return [...byPath.values()];
}

function dataWithout(data: unknown, kind: SheetKind, id: string): unknown {
	const rest = structuredClone(data);
	if (kind === "plan") delete ((rest as Fields).apparatus as Fields)[id.split("/")[1] ?? ""];
	else {
		const list = listIn(rest, kind);
		list?.splice(
			list.findIndex((entry) => String(entry.id) === id),
			1,
		);
	}
	return rest;
}

/** Whether a file is where a thing is written: a page of its own, the week of a plan, or the list it is in. */
export function isOf(kind: SheetKind, id: string, file: WrittenFile): boolean {
	if (file.kind !== fileKindOf(kind)) return false;
	if (kind === "plan") return String((file.data as Fields).week) === id.split("/")[0];
	return !isPageKind(kind) || file.id === id;
}

function fileKindOf(kind: SheetKind): FileKind {
	return kind === "plan" ? "week" : kind === "classes" ? "term" : kind;
}

function sameWeek(one: WrittenFile, other: WrittenFile): boolean {
	return (
		one.kind === "week" && other.kind === "week" && (one.data as Fields).week === (other.data as Fields).week
	);
}

/** The data and text of a file with the sheet's words in the place of its own. */
function updated(
	file: SourceFile,
	draft: WrittenFile,
	taken: readonly CellChange[],
	added: readonly { readonly kind: SheetKind; readonly id: string }[],
): { readonly data: unknown; readonly body: string } {
	const data = structuredClone(file.data) as Fields | Fields[];
	let { body } = file;
	for (const { kind, id, heading } of taken) {
		if (kind === "accepted" || kind === "words") return { data: draft.data, body };
		if (kind === "plan") {
			const area = id.split("/")[1] ?? "";
			const plans = (data as Fields).apparatus as Fields;
			plans[area] = ((draft.data as Fields).apparatus as Fields)[area];
			continue;
		}
		const path = COLUMNS.get(kind)?.find((column) => column.heading === heading)?.path ?? [];
		if (path.length === 0) {
			body = draft.body;
			continue;
		}
		const [to, from] = [entryOf(data, kind, id), entryOf(draft.data, kind, id)];
		if (to !== undefined) put(to, path, valueAt(from, path));
	}
	for (const { kind, id } of added) {
		const entry = entryOf(draft.data, kind, id);
		if (entry !== undefined) listIn(data, kind)?.push(entry);
	}
	return { data, body };
}

function listIn(data: unknown, kind: SheetKind): Fields[] | undefined {
	const list = kind === "classes" ? ((data as Fields).classes ?? undefined) : data;
	return Array.isArray(list) ? (list as Fields[]) : undefined;
}

/** The fields of an entry of a list, or of the file where it holds one thing. */
function entryOf(data: unknown, kind: SheetKind, id: string): Fields | undefined {
	const list = listIn(data, kind);
	return list === undefined ? (data as Fields) : list.find((entry) => String(entry.id) === id);
}

function put(data: Fields, [name = "", ...rest]: DataPath, value: unknown): void {
	if (rest.length === 0) {
		if (value === undefined) delete data[name];
		else data[name] = value;
		return;
	}
	const inner = (typeof data[name] === "object" && data[name] !== null ? data[name] : {}) as Fields;
	put(inner, rest, value);
	if (Object.keys(inner).length === 0) delete data[name];
	else data[name] = inner;
}

/** The file's own text with other data and words; undefined where it cannot be made to say them. */
function textOf(
	file: SourceFile,
	before: string,
	{ data, body }: { readonly data: unknown; readonly body: string },
): string | undefined {
	try {
		return writeData(file.file, before, data, ...(body === file.body ? [] : [body]));
	} catch (error) {
		if (error instanceof EditRefused) return undefined;
		throw error;
	}
}
