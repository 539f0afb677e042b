/**
 * A club's files to the sheets of a spreadsheet: one row a drill, a week, a guide, an entry; the plan
 * one row a station. What is written is what is exported: implied things are not made explicit.
 */

import type { DataPath, FileKind } from "../../model.ts";
import { type Cell, writeCell } from "./cells.ts";
import { COLUMNS, SHEET_NAMES, type SheetKind } from "./columns.ts";
import type { SheetOut } from "./write-sheets.ts";

/** A file of a club as it was written: sound data of its kind. */
export interface WrittenFile {
	readonly kind: FileKind;
	readonly id: string;
	readonly data: unknown;
	readonly body: string;
}

type Json = Readonly<Record<string, unknown>>;

/** The sheets of a club, those that hold nothing left out. `only` narrows them to some. */
export function clubSheets(
	files: readonly WrittenFile[],
	only: ReadonlySet<SheetKind> = new Set(SHEET_NAMES.keys()),
): readonly SheetOut[] {
	const plain = files.map((file) => ({
		...file,
		data: JSON.parse(JSON.stringify(file.data ?? {})) as unknown,
	}));
	return [...SHEET_NAMES].flatMap(([kind, title]) => {
		if (!only.has(kind)) return [];
		const columns = COLUMNS.get(kind) ?? [];
		const rows = rowsOf(kind, plain);
		if (rows.length === 0) return [];
		const cells = rows.map((row) =>
			columns.map((column) =>
				writeCell(column, column.path.length === 0 ? row[""] : valueAt(row, column.path)),
			),
		);
		// Columns that no row uses are kept: they show what else may be written.
		return [
			{ title, headings: columns.map(({ heading }) => heading), rows: cells as readonly (readonly Cell[])[] },
		];
	});
}

function rowsOf(kind: SheetKind, files: readonly WrittenFile[]): readonly Json[] {
	const of = (wanted: FileKind) => files.filter((file) => file.kind === wanted);
	switch (kind) {
		case "drill":
		case "week":
		case "guide":
			return of(kind).map(({ id, data, body }) => ({
				...drillLists(kind, data as Json),
				id,
				...(body.trim() === "" ? {} : { "": body }),
			}));
		case "plan":
			return of("week").flatMap(({ data }) => planRows(data as Json));
		case "classes":
			return of("term")
				.flatMap(({ data }) => ((data as Json).classes ?? []) as readonly Json[])
				.map(idsAsText);
		case "club":
		case "term":
		case "targets":
			return of(kind).map(({ data }) => data as Json);
		default:
			return of(kind)
				.flatMap(({ data }) => data as readonly Json[])
				.map(idsAsText);
	}
}

/** One id where a list may stand as a list, and numbers that are ids as text. */
function drillLists(kind: SheetKind, data: Json): Json {
	return kind === "drill" ? idsAsText(data) : data;
}

const LISTS = new Set([
	"apparatus",
	"levels",
	"level",
	"shapes",
	"skills",
	"performs",
	"purpose",
	"after",
	"needs",
	"entry",
	"rotation",
	"sequence",
]);
const SINGLE = new Set(["id", "partner", "opposite", "same-as"]);

function idsAsText(data: Json): Json {
	return Object.fromEntries(
		Object.entries(data).map(([name, value]) => {
			if (value === undefined) return [name, value];
			if (SINGLE.has(name)) return [name, String(value)];
			if (!LISTS.has(name) || (typeof value === "object" && !Array.isArray(value))) return [name, value];
			const list = Array.isArray(value) ? (value as readonly unknown[]) : [value];
			const ids = list.map((item) => (typeof item === "object" && item !== null ? item : String(item)));
			return [name, ids.length === 0 ? undefined : ids];
		}),
	);
}

/** The blocks of a week, one row a station or option. The words on an apparatus stand in its first row. */
function planRows(week: Json): readonly Json[] {
	return Object.entries(week.apparatus as Json).flatMap(([apparatus, plan]) => {
		const { focus, blocks } = plan as { readonly focus?: string; readonly blocks: readonly Json[] };
		const head = { week: week.week, apparatus };
		const rows = blocks.flatMap((block, i): readonly Json[] => {
			const { drill, stations, options, levels, ...rest } = block;
			const several = (stations ?? options) as readonly Json[] | undefined;
			const common = {
				...head,
				...rest,
				block: i + 1,
				kind: stations !== undefined ? "stations" : options !== undefined ? "options" : "drill",
				...idsAsText({ levels }),
			};
			if (several === undefined) return [{ ...common, drill: String(drill) }];
			return several.map((station, s) => ({
				...(s === 0 ? common : { ...head, block: i + 1 }),
				drill: String(station.drill),
				at: station.at,
				"station note": station.note,
			}));
		});
		const [first, ...others] = rows.length === 0 ? [head] : rows;
		return [{ ...first, focus }, ...others];
	});
}

/** What stands at a path of data; undefined where nothing does. */
export function valueAt(data: unknown, path: DataPath): unknown {
	let value = data;
	for (const step of path)
		value = typeof value === "object" && value !== null ? (value as Json)[step] : undefined;
	return value;
}
