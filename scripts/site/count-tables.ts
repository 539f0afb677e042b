/**
 * The counted tables for people: names beside ids, and in CSV the signs of the club's language, so that a
 * spreadsheet of that language opens them in columns.
 */

import Papa from "papaparse";
import { rounded } from "../compute/tables.ts";
import type { Cell, Curriculum, Id, Table } from "../model.ts";

/** What the ids of a column stand for. */
const NAMED: Readonly<
	Record<string, keyof Curriculum & ("drills" | "levels" | "apparatus" | "shapes" | "skills" | "equipment")>
> = {
	drill: "drills",
	level: "levels",
	apparatus: "apparatus",
	shape: "shapes",
	skill: "skills",
	item: "equipment",
	equipment: "equipment",
};

export interface NamedTable {
	readonly name: string;
	readonly headings: readonly string[];
	readonly rows: readonly (readonly (string | number | null)[])[];
}

/** A table with a column of names behind each column of ids. */
export function withNames({ name, columns, rows }: Table, curriculum: Curriculum): NamedTable {
	const classes = new Map(curriculum.term.classes.map((group) => [group.id, group.name]));
	const nameOf = (column: string, id: Id): string => {
		if (column === "class" || column === "group") return classes.get(id.split("/")[0] ?? "") ?? "";
		const kind = NAMED[column];
		const thing = kind === undefined ? undefined : curriculum[kind].get(id);
		return thing === undefined ? "" : "title" in thing ? thing.title : thing.name;
	};
	const isNamed = (column: string) => column in NAMED || column === "class" || column === "group";
	return {
		name,
		headings: columns.flatMap((column) =>
			isNamed(column.name) ? [column.name, `${column.name} name`] : [column.name],
		),
		rows: rows.map((row) =>
			row.flatMap((cell, i) => {
				const column = columns[i]?.name ?? "";
				const own = plain(cell);
				return isNamed(column) ? [own, own === null ? null : nameOf(column, String(own))] : [own];
			}),
		),
	};
}

function plain(cell: Cell): string | number | null {
	return cell === undefined ? null : typeof cell === "number" ? rounded(cell) : cell;
}

/** CSV as spreadsheets of a language read it: where a comma parts decimals, a semicolon parts cells. */
export function csvFor(language: string, { headings, rows }: NamedTable): string {
	const decimal = new Intl.NumberFormat(language)
		.formatToParts(1.5)
		.find(({ type }) => type === "decimal")?.value;
	const comma = decimal === ",";
	const written = rows.map((row) =>
		row.map((cell) =>
			cell === null ? "" : typeof cell === "number" ? String(cell).replace(".", comma ? "," : ".") : cell,
		),
	);
	return `\uFEFF${Papa.unparse([[...headings], ...written], { newline: "\r\n", delimiter: comma ? ";" : ",", escapeFormulae: true })}\r\n`;
}
