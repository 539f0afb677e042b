/**
 * Practice: what each group plans to do of each drill, what fits into its turns, and so what is done.
 *
 * One row for each week, group, apparatus, block and drill; a drill at two stations of one block is one
 * row with the turns and repetitions of both. The closed form of the turns is held against a queue that
 * is played turn by turn in tests.
 */

import type { Curriculum, Id } from "../model.ts";
import type { Measure } from "./measure.ts";
import { tableOf } from "./tables.ts";
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
		blocks.flatMap(({ apparatus, block, stations }) => {
			const rows = new Map<Id, PracticeRow>();
			for (const { drill, turns, planned, fits, done } of stations) {
				const before = rows.get(drill.id);
				rows.set(drill.id, {
					week,
					group: group.name,
					apparatus,
					block: block.number,
					drill: drill.id,
					turns: total(before?.turns, turns),
					planned: total(before?.planned, planned),
					fits: total(before?.fits, fits),
					done: total(before?.done, done),
				});
			}
			return [...rows.values()];
		}),
	);
}

/** The sum of what is known; undefined where nothing is. */
function total(a: number | undefined, b: number | undefined): number | undefined {
	return a === undefined ? b : b === undefined ? a : a + b;
}

/** practice.csv. */
export const practiceMeasure: Measure = {
	name: "practice",
	tables: ({ curriculum }) => [
		tableOf(curriculum, "practice", practice(curriculum), {
			week: (r) => r.week,
			group: (r) => r.group,
			apparatus: (r) => r.apparatus,
			block: (r) => r.block,
			drill: (r) => r.drill,
			turns: (r) => r.turns,
			planned: (r) => r.planned,
			fits: (r) => r.fits,
			done: (r) => r.done,
		}),
	],
	findings: () => [],
};
