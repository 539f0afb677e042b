/** exposures.csv: the atom of every count, as a table. */

import type { Measure } from "./measure.ts";
import { tableOf } from "./tables.ts";

export const exposureMeasure: Measure = {
	name: "exposures",
	tables: ({ curriculum, exposures }) => [
		tableOf(
			curriculum,
			"exposures",
			exposures,
			{
				week: (e) => e.week,
				level: (e) => e.level,
				apparatus: (e) => e.apparatus,
				block: (e) => e.block,
				drill: (e) => e.drill,
				minutes: (e) => e.minutes,
				repetitions: (e) => e.repetitions,
			},
			{ drill: "text" },
		),
	],
	findings: () => [],
};
