/**
 * Files of several layers as one: a page whose fields come of more than one file, and a list of entries of
 * which some, or some fields, do. Each value keeps the way back to the file that says it.
 */

import type { DataPath, FileKind, Id, SourceFile } from "../model.ts";
import type { Place } from "../place.ts";
import { type Data, isData } from "../read/data.ts";

/** Says that nothing is taken of what libraries have under this id. */
const WHOLE_FIELD = "from-library";

/** Whether a page or an entry takes nothing of libraries. */
export function isWhole(data: unknown): boolean {
	return isData(data) && data[WHOLE_FIELD] === false;
}

/** Fields of a thing, those of `over` before those of `under`; one that is null in `over` is gone. */
function joinFields(over: Data, under: Data): Data {
	const all = { ...under, ...over };
	const kept = Object.entries(all).filter(([field, value]) => value !== null && field !== WHOLE_FIELD);
	return Object.fromEntries(kept);
}

/** A page of two layers. */
export function joinPages(over: SourceFile, under: SourceFile): SourceFile {
	if (!isData(over.data) || !isData(under.data) || isWhole(over.data)) return over;
	const own = over.data;
	const bodyOf = over.body.trim() === "" ? under : over;
	return {
		kind: over.kind,
		id: over.id,
		file: over.file,
		data: joinFields(own, under.data),
		body: bodyOf.body,
		place: (path, what) => sayer(own, over, under, path).place(path, what),
		bodyPlace: (line, column) => bodyOf.bodyPlace(line, column),
	};
}

function sayer(own: Data, over: SourceFile, under: SourceFile, path: DataPath): SourceFile {
	const [field] = path;
	return field === undefined || Object.hasOwn(own, field) ? over : under;
}

/** A file with other data: what was taken out of a list has no place, and its field stands for it. */
export function withData(file: SourceFile, data: unknown, body: string = file.body): SourceFile {
	return {
		kind: file.kind,
		id: file.id,
		file: file.file,
		data,
		body,
		place: (path, what) => {
			const [field] = path;
			const isSame =
				field !== undefined && isData(file.data) && isData(data) && file.data[field] === data[field];
			return file.place(isSame ? path : path.slice(0, 1), what);
		},
		bodyPlace: (line, column) => file.bodyPlace(line, column),
	};
}

/** An entry of a list file, with the files that say it, nearest first. */
export interface Part {
	readonly id: Id;
	readonly data: Data;
	readonly from: readonly { readonly file: SourceFile; readonly at: number; readonly own: Data }[];
}

/** Entries of one layer's list file; what has no id is left as it is, for the schema to judge. */
export function partsOf(file: SourceFile): readonly Part[] {
	if (!Array.isArray(file.data)) return [];
	return file.data.flatMap((entry: unknown, at): readonly Part[] =>
		isData(entry) && (typeof entry.id === "string" || typeof entry.id === "number")
			? [{ id: String(entry.id), data: entry, from: [{ file, at, own: entry }] }]
			: [],
	);
}

export function joinParts(over: Part, under: Part): Part {
	if (isWhole(over.data)) return over;
	return { id: over.id, data: joinFields(over.data, under.data), from: [...over.from, ...under.from] };
}

/** One list file of entries from several layers. */
export function listFile(kind: FileKind, first: SourceFile, parts: readonly Part[]): SourceFile {
	const placeOf = (path: DataPath, what?: "key" | "value"): Place => {
		const [at, field] = path;
		const part = typeof at === "number" ? parts[at] : undefined;
		if (part === undefined) return first.place([], what);
		const from =
			part.from.find(({ own }) => field === undefined || Object.hasOwn(own, field)) ?? part.from[0];
		return from === undefined ? first.place([]) : from.file.place([from.at, ...path.slice(1)], what);
	};
	return {
		kind,
		id: first.id,
		file: first.file,
		data: parts.map(({ data }) => data),
		body: "",
		place: placeOf,
		bodyPlace: (line, column) => first.bodyPlace(line, column),
	};
}
