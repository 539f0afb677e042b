/**
 * Finds the table in a sheet: what kind of things it lists, which row holds the headings, and which
 * field each column is. Titles and notes above the headings are passed over.
 */

import { nearestName } from "../../read/nearest-name.ts";
import { type Cell, clean, fold, isFilled } from "./cells.ts";
import {
	COLUMNS,
	type Column,
	columnFor,
	foldHeading,
	requiredOf,
	SHEET_NAMES,
	type SheetKind,
	sheetKindNamed,
} from "./columns.ts";
import { HEADINGS_WITHIN, letterOf, type Sheet } from "./read-sheets.ts";

/** Something to tell, at its cell. Rows count from 1, columns by their letters. */
export interface Note {
	readonly sheet: string;
	readonly row?: number;
	readonly column?: string;
	/** `unclear`: something was left out. `note`: how something was read. */
	readonly weight: "unclear" | "note";
	readonly what: string;
}

export interface Table {
	readonly sheet: Sheet;
	readonly kind: SheetKind;
	/** The field of each column, as far as it has one. */
	readonly columns: readonly (Column | undefined)[];
	readonly headings: readonly string[];
	/** Rows below the headings that are not empty, with their numbers. */
	readonly rows: readonly { readonly number: number; readonly cells: readonly Cell[] }[];
}

/** What a club says about a spreadsheet of its own, in a small YAML file. */
export interface Mapping {
	/** Kinds of sheets by their names; `skip` leaves one out. */
	readonly sheets: ReadonlyMap<string, SheetKind | "skip">;
	/** Fields by headings, both as written; `skip` leaves one out. */
	readonly columns: ReadonlyMap<string, string>;
	/** Ids by the words used for them, by kind. */
	readonly values: ReadonlyMap<string, ReadonlyMap<string, string>>;
	/** Minutes of a class in an area, shared out where a plan says none; under "" those of every area. */
	readonly minutes: ReadonlyMap<string, number>;
}

export const NO_MAPPING: Mapping = {
	sheets: new Map(),
	columns: new Map(),
	values: new Map(),
	minutes: new Map(),
};

interface Found {
	readonly kind: SheetKind;
	readonly row: number;
	readonly columns: readonly (Column | undefined)[];
	readonly score: number;
}

export function isSkipped({ title }: Sheet, mapping: Mapping): boolean {
	return mapping.sheets.get(fold(title)) === "skip";
}

export function findTable(sheet: Sheet, mapping: Mapping, tell: (note: Note) => void): Table | undefined {
	const said = mapping.sheets.get(fold(sheet.title));
	if (said === "skip") return undefined;
	const named = said ?? sheetKindNamed(sheet.title);
	const kinds = named === undefined ? [...COLUMNS.keys()] : [named];
	let best: Found | undefined;
	for (const [row, cells] of sheet.rows.slice(0, HEADINGS_WITHIN).entries()) {
		for (const kind of kinds) {
			const found = headingsIn(kind, row, cells, mapping, named !== undefined);
			if (found !== undefined && found.score > (best?.score ?? 0)) best = found;
		}
	}
	if (best === undefined) return undefined;
	const { kind, row, columns } = best;
	const headings = sheet.rows[row] ?? [];
	for (const [i, cell] of headings.entries()) {
		const words = headingOf(cell);
		if (words === "" || columns[i] !== undefined || mapping.columns.get(fold(words)) === "skip") continue;
		const twice = columnFor(kind, words);
		const nearest = nearestName(
			foldHeading(words),
			(COLUMNS.get(kind) ?? []).map(({ heading }) => heading),
		);
		tell({
			sheet: sheet.name,
			row: row + 1,
			column: letterOf(i),
			weight: "unclear",
			what:
				twice !== undefined
					? `the column “${words}” would be \`${twice.heading}\`, which another column is already; it is left out`
					: `the column “${words}” is no field of ${SHEET_NAMES.get(kind)?.toLowerCase() ?? kind} and is left out${nearest === undefined ? "" : `; did you mean \`${nearest}\`?`}`,
		});
	}
	const rows = sheet.rows
		.map((cells, i) => ({ number: i + 1, cells }))
		.slice(row + 1)
		.filter(({ cells }) => cells.some(isFilled));
	return { sheet, kind, columns, headings: headings.map(headingOf), rows };
}

/** The row that is most like headings, what it says, and what of it is known: for a sheet without a table. */
export function closestHeadings(sheet: Sheet): string | undefined {
	let best:
		| { readonly known: readonly string[]; readonly all: readonly string[]; readonly kind: SheetKind }
		| undefined;
	for (const cells of sheet.rows.slice(0, HEADINGS_WITHIN)) {
		const all = cells.map(headingOf).filter((words) => words !== "");
		if (all.length < 2) continue;
		for (const kind of ["drill", "plan"] as const) {
			const known = all.filter((words) => columnFor(kind, words) !== undefined);
			if (best === undefined || known.length > best.known.length) best = { known, all, kind };
		}
	}
	if (best === undefined) return undefined;
	const { known, all, kind } = best;
	const fields = new Set(known.map((words) => columnFor(kind, words)?.heading));
	const missing = [...requiredOf(kind), ...(kind === "plan" ? ["drill"] : [])].filter(
		(name) => !fields.has(name),
	);
	const quoted = (list: readonly string[]) =>
		list
			.slice(0, 12)
			.map((words) => `“${words}”`)
			.join(", ");
	return `its headings are ${quoted(all)}; ${known.length === 0 ? "none of them is known" : `known of them: ${quoted(known)}`}; as ${kind === "plan" ? "a plan" : "a list of drills"} it has no ${missing.join(" and no ")}`;
}

function headingsIn(
	kind: SheetKind,
	row: number,
	cells: readonly Cell[],
	mapping: Mapping,
	named: boolean,
): Found | undefined {
	const taken = new Set<string>();
	const columns: (Column | undefined)[] = cells.map(() => undefined);
	const own = COLUMNS.get(kind) ?? [];
	const take = (i: number, column: Column | undefined): void => {
		if (column === undefined || columns[i] !== undefined || taken.has(column.heading)) return;
		taken.add(column.heading);
		columns[i] = column;
	};
	// A field's own heading, and the mapping's word, go before another column's alias.
	for (const [i, cell] of cells.entries()) {
		const words = headingOf(cell);
		const mapped = mapping.columns.get(fold(words));
		take(
			i,
			own.find((column) => foldHeading(column.heading) === foldHeading(mapped ?? words)),
		);
	}
	for (const [i, cell] of cells.entries()) {
		const words = headingOf(cell);
		if (!mapping.columns.has(fold(words))) take(i, columnFor(kind, words));
	}
	const required = requiredOf(kind);
	const have = required.filter((name) => taken.has(name)).length;
	const filled = cells.filter((cell) => headingOf(cell) !== "").length;
	// One known word among many others is more likely a sentence than a heading.
	// Ids stand for things that are there: the other columns may be few.
	if (kind === "drill" && taken.has("id") && taken.size > 1)
		return { kind, row, columns, score: taken.size + 2 };
	if (taken.size === 0 || (required.length > 0 && have === 0) || taken.size * 3 < filled) return undefined;
	if (!named && (taken.size < 2 || have < Math.min(2, required.length))) return undefined;
	// A plan names drills: a list of drills that happens to have weeks and minutes is told by it.
	const plan = kind === "plan" && taken.has("drill") ? 1 : 0;
	return { kind, row, columns, score: taken.size + have * 3 + plan - (filled - taken.size) * 0.5 };
}

function headingOf(cell: Cell): string {
	return typeof cell === "string" ? clean(cell).replaceAll("\n", " ") : "";
}
