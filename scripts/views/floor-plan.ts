/**
 * The floor plan of a block as pages and sheets show it: positions, the list of equipment, and where its
 * sizes are from.
 */

import { coachesIn, coachSpots } from "../compute/coach-spots.ts";
import { equipmentForBlock } from "../compute/equipment.ts";
import { routesOf } from "../compute/floor-routes.ts";
import { footprintOf } from "../compute/footprints.ts";
import { groupName } from "../compute/names.ts";
import { FREE_SPACE, floorPlanOf } from "../compute/placing.ts";
import { waitingOf } from "../compute/waiting.ts";
import type { ApparatusPlan, Block, Curriculum, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";

export type FloorPlanView = NonNullable<ReturnType<typeof floorPlanView>>;

/** The plan of a block of stations; nothing for a block of one drill. */
export function floorPlanView(
	curriculum: Curriculum,
	week: WeekPlan,
	plan: ApparatusPlan,
	block: Block,
	words: Words,
) {
	if (block.kind !== "stations") return undefined;
	const sources = new Map<string, string[]>();
	const equipment = equipmentForBlock(curriculum, plan, block).flatMap(({ item, needed, stations }) => {
		const known = curriculum.equipment.get(item);
		if (known === undefined) return [];
		const { symbol, source } = footprintOf(known);
		if (source !== undefined) sources.set(source, [...(sources.get(source) ?? []), known.name]);
		return [{ item, name: known.name, count: needed, stations: [...new Set(stations)], symbol }];
	});
	const name = curriculum.apparatus.get(plan.apparatus)?.name ?? plan.apparatus;
	const placed = floorPlanOf(curriculum, plan, block);
	const coaches = coachesIn(curriculum, week, plan, block);
	return {
		block: block.number,
		apparatus: name,
		week: week.week,
		plan: placed,
		/** Stations between which there is no free way. */
		blocked: routesOf(placed).filter(({ way }) => way.length === 0),
		/** Metres that are kept free. */
		free: FREE_SPACE,
		/** Whether anybody waits for a turn. */
		waits: waitingOf(placed).length > 0,
		/** In rotation order. */
		stations: block.stations.map(({ drill }) => ({ name: curriculum.drills.get(drill)?.title ?? drill })),
		equipment,
		/** Who coaches where, of the group that needs most coaches; nobody where none has enough. */
		coaches: coaches && {
			group: groupName(words, coaches.group),
			spots: coachSpots(placed, coaches.places),
		},
		/** Who published sizes that are drawn here, and of what. */
		sources: Array.from(sources, ([source, items]) => ({ source, items })),
	};
}
