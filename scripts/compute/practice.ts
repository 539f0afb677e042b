/**
 * Practice: what each group plans to do of each drill, what fits into its turns, and so what is done.
 *
 * One row for each week, group, apparatus, block and drill; a drill at two stations of one block is one
 * row with the turns and repetitions of both. The closed form of the turns is held against a queue that
 * is played turn by turn in tests.
 */

import type { Column, Curriculum, Id } from "../model.ts";
import type { Measure } from "./measure.ts";
import { sortedRows } from "./tables.ts";
import { groupWorks } from "./work.ts";

export interface PracticeRow {
	readonly week: number;
	/** `class`, or `class/group`. */
	readonly group: string;
	readonly apparatus: Id;
	readonly block: number;
	readonly drill: Id;
	readonly turns: number | undefined;
	readonly planned: number | undefined;
	readonly fits: number | undefined;
	readonly done: number | undefined;
}

/** By week, then group as in the term, then in the order in which the group meets them. */
export function practice(curriculum: Curriculum): readonly PracticeRow[] {
	return groupWorks(curriculum).flatMap(({ week, group, blocks }) =>
		blocks.flatMap(({ apparatus, block, stations }) =>
			[...Map.groupBy(stations, (s) => s.drill.id)].map(([drill, same]) => ({
				week,
				group: group.name,
				apparatus,
				block: block.number,
				drill,
				turns: total(same.map((s) => s.turns)),
				planned: total(same.map((s) => s.planned)),
				fits: total(same.map((s) => s.fits)),
				done: total(same.map((s) => s.done)),
			})),
		),
	);
}

/** The sum of what is known; undefined where nothing is. */
function total(values: readonly (number | undefined)[]): number | undefined {
	const known = values.filter((value) => value !== undefined);
	return known.length === 0 ? undefined : known.reduce((sum, value) => sum + value, 0);
}

const COLUMNS: readonly Column[] = [
	{ name: "week", order: "number" },
	{ name: "group", order: "group" },
	{ name: "apparatus", order: "apparatus" },
	{ name: "block", order: "number" },
	{ name: "drill", order: "drill" },
	{ name: "turns", order: "number" },
	{ name: "planned", order: "number" },
	{ name: "fits", order: "number" },
	{ name: "done", order: "number" },
];

/** practice.csv. */
export const practiceMeasure: Measure = {
	name: "practice",
	tables: ({ curriculum }) => [
		{
			name: "practice",
			columns: COLUMNS,
			rows: sortedRows(
				curriculum,
				COLUMNS,
				practice(curriculum).map((r) => [
					r.week,
					r.group,
					r.apparatus,
					r.block,
					r.drill,
					r.turns,
					r.planned,
					r.fits,
					r.done,
				]),
			),
		},
	],
	findings: () => [],
};
