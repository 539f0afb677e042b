/**
 * What a spreadsheet says of a club, taken apart into units: one drill, one entry of a list, the plan of one
 * area in one week; each with its cells by heading. Two units are the same where a spreadsheet would say the
 * same of both, however the files are written.
 */

import { clubSheets, type WrittenFile } from "./club-sheets.ts";
import { SHEET_NAMES, type SheetKind } from "./columns.ts";

/** A unit's cells by heading; what is empty is "". */
export type UnitCells = ReadonlyMap<string, string>;

export interface Unit {
	readonly kind: SheetKind;
	/** An id; of a plan week/apparatus. */
	readonly id: string;
	readonly cells: UnitCells;
}

/** All units of files, by kind and id. */
export function unitsOf(files: readonly WrittenFile[]): ReadonlyMap<string, Unit> {
	const kinds = new Map(Array.from(SHEET_NAMES, ([kind, title]) => [title, kind]));
	const units = new Map<string, Unit>();
	const add = (unit: Unit) => units.set(`${unit.kind} ${unit.id}`, unit);
	for (const { title, headings, rows } of clubSheets(files)) {
		const kind = kinds.get(title);
		if (kind === undefined) continue;
		if (kind === "plan") {
			for (const unit of planUnits(headings, rows)) add(unit);
			continue;
		}
		if (kind === "accepted" || kind === "words") {
			add({ kind, id: kind, cells: new Map([["all", JSON.stringify(rows)]]) });
			continue;
		}
		const idAt = headings.indexOf("id");
		for (const row of rows) {
			add({
				kind,
				id: idAt < 0 ? kind : String(row[idAt]),
				cells: new Map(headings.flatMap((name, i) => (i === idAt ? [] : [[name, textOf(row[i])] as const]))),
			});
		}
	}
	return units;
}

/** The rows of one week and area together are one cell: blocks have no names of their own. */
function planUnits(headings: readonly string[], rows: readonly (readonly unknown[])[]): readonly Unit[] {
	const [week, area] = [headings.indexOf("week"), headings.indexOf("apparatus")];
	const units = Map.groupBy(rows, (row) => `${textOf(row[week])}/${textOf(row[area])}`);
	return Array.from(units, ([id, own]) => {
		const said = own.map((row) =>
			headings.flatMap((name, i) =>
				i === week || i === area || textOf(row[i]) === "" ? [] : [`${name} ${textOf(row[i])}`],
			),
		);
		return { kind: "plan", id, cells: new Map([["blocks", said.map((line) => line.join(", ")).join("\n")]]) };
	});
}

function textOf(cell: unknown): string {
	return cell === null || cell === undefined ? "" : String(cell);
}
