/**
 * The changes that a sheet makes to files that are there: each taken cell is one field of one file, written
 * where it stands, so that comments and whatever else a person wrote in the file stay.
 */

import { isDeepStrictEqual } from "node:util";
import type { Change } from "../../edit/change-set.ts";
import { type FieldEdit, setFields } from "../../edit/set-fields.ts";
import type { Folder } from "../../files/folder.ts";
import type { DataPath, FileKind, SourceFile } from "../../model.ts";
import { splitPage } from "../../read/split-page.ts";
import { clubFileText } from "../write-club-file.ts";
import type { WrittenFile } from "./club-sheets.ts";
import { COLUMNS, type SheetKind } from "./columns.ts";
import type { CellChange } from "./three-way.ts";

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
	const isOf = (kind: SheetKind, id: string, file: WrittenFile) =>
		file.kind === fileKindOf(kind) &&
		(!["drill", "week", "guide", "plan"].includes(kind) ||
			(kind === "plan" ? String((file.data as Fields).week) === id.split("/")[0] : file.id === id));
	for (const file of files) {
		const own = taken.filter(({ kind, id }) => isOf(kind, id, file));
		const more = added.filter(({ kind, id }) => isOf(kind, id, file));
		const draft = drafts.find((one) => one.kind === file.kind && (one.id === file.id || sameWeek(one, file)));
		if (own.length + more.length === 0 || draft === undefined || !club.has(file.file)) continue;
		const before = club.readText(file.file);
		const wanted = updated(file, draft, own, more);
		const edits = editsBetween(file.kind, file.data, wanted.data);
		const withFields = edits.length === 0 ? before : setFields(file.file, before, edits);
		if (withFields === undefined) writtenAnew.push(file.file);
		const text = withFields ?? clubFileText(file.kind, wanted.data, file.body);
		const after = wanted.body === file.body ? text : withBody(text, wanted.body);
		if (after !== before) changes.push({ path: file.file, before, after });
	}
	return { changes, writtenAnew };
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

function valueAt(data: unknown, path: DataPath): unknown {
	let value = data;
	for (const step of path)
		value = typeof value === "object" && value !== null ? (value as Fields)[step] : undefined;
	return value;
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

/** The smallest edits from one state of a file's data to another: fields, of entries, and of blocks. */
function editsBetween(
	kind: FileKind,
	before: unknown,
	after: unknown,
	path: DataPath = [],
): readonly FieldEdit[] {
	if (isDeepStrictEqual(before, after)) return [];
	if (Array.isArray(before) && Array.isArray(after)) {
		if (after.length < before.length || !after.every(isMap) || !before.every(isMap))
			return [{ path, value: after }];
		// Blocks have no names: more or fewer of them are another list.
		if (kind === "week" && after.length !== before.length) return [{ path, value: after }];
		return after.flatMap((item, i): readonly FieldEdit[] =>
			i < before.length
				? editsBetween(kind, before[i], item, [...path, i])
				: [{ path: [...path, i], value: item }],
		);
	}
	if (!isMap(before) || !isMap(after) || isLeaf(path)) return [{ path, value: after }];
	const names = [...new Set([...Object.keys(before), ...Object.keys(after)])];
	return names.flatMap((name) => editsBetween(kind, before[name], after[name], [...path, name]));
}

/** A field of a drill, an entry or a block is written whole. */
function isLeaf(path: DataPath): boolean {
	const last = path.at(-1);
	return typeof last === "string" && !["apparatus", "classes"].includes(last) && path.at(-2) !== "apparatus";
}

function isMap(value: unknown): value is Fields {
	return typeof value === "object" && value !== null && !Array.isArray(value);
}

function withBody(text: string, body: string): string {
	const page = splitPage(text.replaceAll("\r\n", "\n"));
	const old = "matter" in page ? page.body : "";
	const newline = text.includes("\r\n") ? "\r\n" : "\n";
	const kept = text.slice(0, text.length - old.replaceAll("\n", newline).length);
	return `${kept}${body.replaceAll("\n", newline)}`;
}
