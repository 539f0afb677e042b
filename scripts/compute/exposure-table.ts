/** exposures.csv: the atom of every count, as a table. */

import type { Column } from "../model.ts";
import type { Measure } from "./measure.ts";
import { sortedRows } from "./tables.ts";

const COLUMNS: readonly Column[] = [
	{ name: "week", order: "number" },
	{ name: "level", order: "level" },
	{ name: "apparatus", order: "apparatus" },
	{ name: "block", order: "number" },
	{ name: "drill", order: "text" },
	{ name: "minutes", order: "number" },
	{ name: "repetitions", order: "number" },
];

export const exposureMeasure: Measure = {
	name: "exposures",
	tables: ({ curriculum, exposures }) => [
		{
			name: "exposures",
			columns: COLUMNS,
			rows: sortedRows(
				curriculum,
				COLUMNS,
				exposures.map((e) => [e.week, e.level, e.apparatus, e.block, e.drill, e.minutes, e.repetitions]),
			),
		},
	],
	findings: () => [],
};
