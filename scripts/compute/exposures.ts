/** The atom of every count: who does which drill, when, where and for how long. */

import type { Block, Curriculum, Exposure, Id, LinkedDrill } from "../model.ts";
import { doseOf, optionShare } from "./dose-of.ts";

/**
 * Minutes that each station of a block gets where n of its stations count: the block's minutes less
 * those for showing it and for the changes between stations, divided by n; never below 0. A block of one
 * drill has no change. Of n options, `choose` share the minutes, and each counts its part of that.
 */
export function stationMinutes(
	block: Pick<Block, "kind" | "minutes" | "show" | "change">,
	stations: number,
): number {
	const changes = block.kind === "options" ? 0 : (stations - 1) * block.change;
	return Math.max(0, (block.minutes - block.show - changes) / stations);
}

/**
 * One row for each week, level, apparatus, block and drill, sorted in that order.
 *
 * A block counts for a level where it names the level (or none) and the drill offers it. A drill at
 * two stations of one block is one row, with the minutes and repetitions of both.
 *
 * @param only of this drill alone, where one page asks
 */
export function exposuresOf(curriculum: Curriculum, only?: Id): readonly Exposure[] {
	const rows: Exposure[] = [];
	const apparatusOrder = [...curriculum.apparatus.keys()];
	for (const { week, apparatus } of curriculum.weeks) {
		for (const level of curriculum.levels.keys()) {
			for (const id of apparatusOrder) {
				const plan = apparatus.find((p) => p.apparatus === id);
				for (const block of plan?.blocks ?? []) {
					if (block.levels.length > 0 && !block.levels.includes(level)) continue;
					if (only !== undefined && !block.stations.some(({ drill }) => drill === only)) continue;
					const drills = block.stations
						.map((station) => curriculum.drills.get(station.drill))
						.filter((drill): drill is LinkedDrill => drill?.levels.has(level) ?? false);
					const minutes = stationMinutes(block, drills.length);
					const share = optionShare(block, drills.length);
					for (const [drill, times] of countEach(drills)) {
						if (only !== undefined && drill.id !== only) continue;
						const { repetitions } = doseOf(drill, level, block);
						rows.push({
							week,
							level,
							apparatus: id,
							block: block.number,
							drill: drill.id,
							minutes: minutes * times,
							...(repetitions === undefined ? {} : { repetitions: repetitions * times * share }),
						});
					}
				}
			}
		}
	}
	return rows;
}

/** Each drill with how often it stands in the list, by id. */
function countEach(drills: readonly LinkedDrill[]): readonly (readonly [LinkedDrill, number])[] {
	const counts = new Map<LinkedDrill, number>();
	for (const drill of drills) counts.set(drill, (counts.get(drill) ?? 0) + 1);
	return [...counts].sort(([a], [b]) => (a.id < b.id ? -1 : 1));
}
