/**
 * A spreadsheet that comes a second time, beside what it said last and what the folder says now.
 *
 *   only the sheet changed       its word is taken
 *   only the folder changed      the folder's word stays
 *   both changed                 both are shown; the folder's word stays unless the sheet's is preferred
 *   nothing is known of before   as if both had changed
 *   the sheet lost a row         told; taken out of the folder only where that was asked for
 *
 * What was last said is kept in the club's folder for what the program keeps, cell by cell, written by
 * `import --write` and by `export`. Only columns that the sheet has are looked at.
 */

import type { Folder } from "../../files/folder.ts";
import type { SheetKind } from "./columns.ts";
import type { Unit, UnitCells } from "./sheet-units.ts";

/** Where it is kept, in the club's folder; nothing there is content. */
const MERGE_BASE = ".handbook/sheets.json";

/** The cells of every unit as a sheet said them last. Of one that was said whole, what is missing is empty. */
export type MergeBase = ReadonlyMap<string, { readonly whole: boolean; readonly cells: UnitCells }>;

export interface CellChange {
	readonly kind: SheetKind;
	readonly id: string;
	readonly heading: string;
	/** `sheet`: taken. `folder`: changed there since. `both`: changed on both sides, or nobody knows. */
	readonly by: "sheet" | "folder" | "both";
	readonly before: string | undefined;
	readonly sheet: string;
	readonly folder: string;
}

/**
 * Every cell on which the sheet and the folder differ.
 * @param covers whether the sheet has a column for a heading
 */
export function threeWay(
	sheet: ReadonlyMap<string, Unit>,
	folder: ReadonlyMap<string, Unit>,
	last: MergeBase,
	covers: (kind: SheetKind, heading: string) => boolean,
): readonly CellChange[] {
	return [...sheet].flatMap(([key, { kind, id, cells }]) => {
		const own = folder.get(key)?.cells;
		if (own === undefined) return [];
		const said = last.get(key);
		const headings = new Set([...cells.keys(), ...own.keys()]);
		return [...headings].flatMap((heading): readonly CellChange[] => {
			if (!covers(kind, heading)) return [];
			const [now, here] = [cells.get(heading) ?? "", own.get(heading) ?? ""];
			if (now === here) return [];
			const before = said?.cells.get(heading) ?? (said?.whole === true ? "" : undefined);
			const by =
				before === undefined ? "both" : now === before ? "folder" : here === before ? "sheet" : "both";
			return [{ kind, id, heading, by, before, sheet: now, folder: here }];
		});
	});
}

/** Something that the sheet had when it was last brought in or handed out, and has no longer. */
export interface Gone {
	readonly kind: SheetKind;
	readonly id: string;
	/** Whether the folder changed it since. */
	readonly isChanged: boolean;
}

/** What is gone from sheets of its kind, and still in the folder. */
export function goneFrom(
	sheet: ReadonlyMap<string, Unit>,
	folder: ReadonlyMap<string, Unit>,
	last: MergeBase,
	covers: (kind: SheetKind, heading: string) => boolean,
): readonly Gone[] {
	const kinds = new Set(Array.from(sheet.values(), ({ kind }) => kind));
	return [...last].flatMap(([key, said]) => {
		const own = folder.get(key);
		// A list that is one unit, or the club itself, loses cells and no rows.
		if (own === undefined || sheet.has(key) || !kinds.has(own.kind) || own.id === own.kind) return [];
		const { kind, id, cells } = own;
		const isChanged = [...cells].some(
			([heading, text]) => covers(kind, heading) && text !== (said.cells.get(heading) ?? ""),
		);
		return [{ kind, id, isChanged }];
	});
}

/** What sheets said last; empty where nothing was kept, or it cannot be read. */
export function readMergeBase(club: Folder): MergeBase {
	try {
		const kept = JSON.parse(club.readText(MERGE_BASE)) as {
			readonly format?: unknown;
			readonly units?: Readonly<Record<string, { whole?: boolean; cells?: Record<string, string> }>>;
		};
		if (kept.format !== 1) return new Map();
		return new Map(
			Object.entries(kept.units ?? {}).map(([key, { whole = false, cells = {} }]) => [
				key,
				{ whole, cells: new Map(Object.entries(cells)) },
			]),
		);
	} catch {
		return new Map();
	}
}

/** Keeps what a sheet says, over what was kept before; columns it has not are left as they were. */
export function keepMergeBase(
	club: Folder,
	units: ReadonlyMap<string, Unit>,
	covers: (kind: SheetKind, heading: string) => boolean,
	whole: boolean,
): void {
	const kept = new Map(readMergeBase(club));
	for (const [key, { kind, cells }] of units) {
		const before = kept.get(key);
		const now = [...cells].filter(([heading, text]) => covers(kind, heading) && (text !== "" || !whole));
		kept.set(key, {
			whole: whole || (before?.whole ?? false),
			cells: new Map([...(whole ? [] : (before?.cells ?? [])), ...now]),
		});
	}
	const ignore = ".handbook/.gitignore";
	if (!club.has(ignore)) club.write(ignore, "*\n");
	const plain = Object.fromEntries(
		Array.from(kept, ([key, { whole: all, cells }]) => [
			key,
			{ whole: all, cells: Object.fromEntries(cells) },
		]),
	);
	club.write(MERGE_BASE, `${JSON.stringify({ format: 1, units: plain })}\n`);
}
