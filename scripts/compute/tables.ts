/**
 * Tables in the order and the form of the data files: rows sorted by the columns from the left,
 * weeks as numbers, ids in the club's own order; numbers rounded to three decimals.
 */

import type { Cell, Column, Curriculum, Id, Table } from "../model.ts";
import { groupsOf } from "./groups.ts";

/** A directions column sorts in this order. */
export const DIRECTIONS = ["forward", "backward", "sideways", "none"] as const;

/** What columns of these names are sorted by; all others hold numbers. */
const ORDERS: Readonly<Record<string, Column["order"]>> = {
	apparatus: "apparatus",
	class: "class",
	direction: "direction",
	drill: "drill",
	group: "group",
	id: "kind",
	item: "equipment",
	kind: "text",
	level: "level",
	met: "text",
	rule: "text",
	shape: "shape",
	skill: "skill",
};

/**
 * A data file of things, with what each column has of one.
 *
 * @param orders where a column is not sorted as its name says
 */
export function tableOf<Thing>(
	curriculum: Curriculum,
	name: string,
	things: readonly Thing[],
	cells: Readonly<Record<string, (thing: Thing) => Cell>>,
	orders: Readonly<Record<string, Column["order"]>> = {},
): Table {
	const columns = Object.keys(cells).map((column): Column => {
		return { name: column, order: orders[column] ?? ORDERS[column] ?? "number" };
	});
	const all = Object.values(cells);
	const rows = things.map((thing) => all.map((cell) => cell(thing)));
	return { name, columns, rows: sortedRows(curriculum, columns, rows) };
}

/** Rows sorted by the columns from the left; an empty cell comes first. */
function sortedRows(
	curriculum: Curriculum,
	columns: readonly Column[],
	rows: readonly (readonly Cell[])[],
): readonly (readonly Cell[])[] {
	const ranks = columns.map((column) => rankOf(curriculum, column, columns));
	// Most measures count in the order of their table already: two ranks are asked for only as far as they are equal.
	return [...rows].sort((a, b) => {
		for (let i = 0; i < ranks.length; i++) {
			const x = ranks[i]?.(a[i], a) ?? 0;
			const y = ranks[i]?.(b[i], b) ?? 0;
			if (x !== y) return x < y ? -1 : 1;
		}
		return 0;
	});
}

/** Rounds to at most three decimals, halves away from zero as a spreadsheet does; -0 becomes 0. */
export function rounded(value: number): number {
	const scaled = Math.abs(value) * 1000;
	// Binary fractions such as 1.0005 stand a hair below the half they were written as.
	const whole = Math.round(scaled + scaled * Number.EPSILON);
	return whole === 0 ? 0 : (Math.sign(value) * whole) / 1000;
}

/** A table as records by column name, for JSON and for tests. */
export function asRecords(table: Table): readonly Readonly<Record<string, Cell>>[] {
	return table.rows.map((row) => Object.fromEntries(table.columns.map((c, i) => [c.name, row[i]])));
}

type Rank = (cell: Cell, row: readonly Cell[]) => number | string;

function rankOf(curriculum: Curriculum, column: Column, columns: readonly Column[]): Rank {
	const order = column.order;
	if (order === "kind") {
		// A shape and a skill may share an id, so the rank depends on the row's kind.
		const kind = columns.findIndex((c) => c.name === "kind");
		const shape = rankOf(curriculum, { name: column.name, order: "shape" }, columns);
		const skill = rankOf(curriculum, { name: column.name, order: "skill" }, columns);
		return (cell, row) => (row[kind] === "shape" ? shape(cell, row) : skill(cell, row));
	}
	if (order === "number") return (cell) => (typeof cell === "number" ? cell : Number.NEGATIVE_INFINITY);
	if (order === "text") return (cell) => String(cell ?? "");
	const rank = new Map<string, number>([...IDS[order](curriculum)].map((id, i) => [id, i]));
	return (cell) => rank.get(String(cell ?? "")) ?? Number.NEGATIVE_INFINITY;
}

/** Ids in the club's own order. */
const IDS: Readonly<
	Record<Exclude<Column["order"], "number" | "text" | "kind">, (of: Curriculum) => Iterable<Id>>
> = {
	level: ({ levels }) => levels.keys(),
	apparatus: ({ apparatus }) => apparatus.keys(),
	shape: ({ shapes }) => shapes.keys(),
	skill: ({ skills }) => skills.keys(),
	drill: ({ drills }) => drills.keys(),
	equipment: ({ equipment }) => equipment.keys(),
	thing: ({ skills, drills }) => new Set([...skills.keys(), ...drills.keys()]),
	class: ({ term }) => term.classes.map(({ id }) => id),
	group: (curriculum) => groupsOf(curriculum).map(({ name }) => name),
	direction: () => DIRECTIONS,
};
