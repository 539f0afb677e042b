/**
 * Ways between the stations of a block: told where there is none.
 *
 * Most plans need no search: where every station has room around it and none reaches from wall to wall,
 * there is a way (`isOpen`). The others are searched as the drawing is (floor-routes.ts).
 */

import type { Finding } from "../model.ts";
import { finding } from "./finding.ts";
import { routesOf } from "./floor-routes.ts";
import type { Measure } from "./measure.ts";
import { type FloorPlan, floorPlanOf, gapOf } from "./placing.ts";

/** Metres between two stations, or from one to a wall, that are surely enough for a way. */
const ENOUGH = 0.35;

/** Whether there surely is a way from each station to the next; false where it has to be searched. */
export function isOpen({ stations, walls, length, width }: FloorPlan): boolean {
	const apart = stations.every((a, i) => stations.slice(i + 1).every((b) => gapOf(a, b) > ENOUGH));
	const inside = stations.every(
		({ left, top, length: long, width: wide }) =>
			left >= 0 && top >= 0 && left + long <= length && top + wide <= width,
	);
	const spans = stations.some(
		({ left, top, length: long, width: wide }) =>
			(walls.includes("start") && walls.includes("end") && left < ENOUGH && left + long > length - ENOUGH) ||
			(walls.includes("left") && walls.includes("right") && top < ENOUGH && top + wide > width - ENOUGH),
	);
	return apart && inside && !spans;
}

/** H346: at most one for a block. */
export const waysMeasure: Measure = {
	name: "ways",
	tables: () => [],
	findings: ({ curriculum }, words) =>
		curriculum.weeks.flatMap((week) =>
			week.apparatus.flatMap((plan) =>
				plan.blocks.flatMap((block): readonly Finding[] => {
					if (block.kind !== "stations") return [];
					const floorPlan = floorPlanOf(curriculum, plan, block);
					if (isOpen(floorPlan)) return [];
					// Who stands on another station cannot leave it: that is told as an overlap.
					const over = new Set(
						floorPlan.crowding.flatMap(({ kind, stations }) => (kind === "overlap" ? stations : [])),
					);
					const shut = routesOf(floorPlan).filter(
						({ from, to, way }) => way.length === 0 && !over.has(from) && !over.has(to),
					);
					if (shut.length === 0) return [];
					const say = words.findings.placing;
					const where = {
						week: week.week,
						apparatus: curriculum.apparatus.get(plan.apparatus)?.name ?? plan.apparatus,
						block: block.number,
					};
					const movable = shut
						.flatMap(({ from, to }) => [to, from])
						.find((number) => floorPlan.stations[number - 1]?.written === true);
					return [
						finding(
							words,
							"H346",
							"worth a look",
							say.what(
								where,
								[floorPlan.length, floorPlan.width],
								shut.map(({ from, to }) => say.noWay(from, to)),
							),
							{
								source: week.source,
								path: movable === undefined ? block.path : [...block.path, "stations", movable - 1, "at"],
							},
							{ week: week.week, apparatus: plan.apparatus },
						),
					];
				}),
			),
		),
};
