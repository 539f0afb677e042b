/**
 * Where a block's coaches stand on its floor plan.
 *
 * Whose hands are needed stands inside the station, at the side of what is landed on or worked at, off the
 * run. Who watches or walks stands on free floor, nearest to the middle of the stations she is for.
 */

import type { ApparatusPlan, Block, Curriculum, WeekPlan } from "../model.ts";
import { type CoachPlace, coachesFor } from "./coaches.ts";
import type { Spot } from "./floor-routes.ts";
import type { Group } from "./groups.ts";
import { type FloorPlan, FREE_SPACE, gapOf, type PlacedStation } from "./placing.ts";
import type { Rect } from "./station-layout.ts";
import { waitingOf } from "./waiting.ts";
import { groupWorksIn } from "./work.ts";

export interface CoachSpot extends CoachPlace {
	/** In metres; undefined where the plan has no free floor for her. */
	readonly at: Spot | undefined;
}

/** The coaches of the group that needs most of them in a block, and who is where; nothing where none has enough. */
export function coachesIn(
	curriculum: Curriculum,
	week: WeekPlan,
	plan: ApparatusPlan,
	block: Block,
): { readonly group: Group; readonly places: readonly CoachPlace[] } | undefined {
	let most:
		| { readonly group: Group; readonly needed: number; readonly places: readonly CoachPlace[] }
		| undefined;
	for (const { group, blocks } of groupWorksIn(curriculum, week.week)) {
		for (const one of blocks) {
			if (one.block !== block || one.apparatus !== plan.apparatus) continue;
			const { needed, places } = coachesFor(one, group.coaches);
			if (places.length > 0 && needed > (most?.needed ?? -1)) most = { group, needed, places };
		}
	}
	return most;
}

/** Metres: inside a station's edge, between coaches, and from who waits. */
const INSIDE = 0.4;
const APART = 1;
const FROM_QUEUE = 0.6;
const STEP = 0.5;

export function coachSpots(plan: FloorPlan, places: readonly CoachPlace[]): readonly CoachSpot[] {
	const taken: Spot[] = [];
	return places.map((place): CoachSpot => {
		const [number = 0] = place.stations;
		const station = plan.stations[number - 1];
		const at =
			place.does === "spots" && station !== undefined
				? beside(station, taken)
				: onFreeFloor(plan, place.stations, taken);
		if (at !== undefined) taken.push(at);
		return { ...place, at };
	});
}

const middleOf = (rects: readonly Rect[]): Spot => {
	const left = Math.min(...rects.map((rect) => rect.left));
	const top = Math.min(...rects.map((rect) => rect.top));
	const right = Math.max(...rects.map((rect) => rect.left + rect.length));
	const bottom = Math.max(...rects.map((rect) => rect.top + rect.width));
	return { x: (left + right) / 2, y: (top + bottom) / 2 };
};

const apart = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y);
const asRect = ({ x, y }: Spot): Rect => ({ left: x, top: y, length: 0, width: 0 });

function beside(station: PlacedStation, taken: readonly Spot[]): Spot | undefined {
	const { left, top, length, width, props, run } = station;
	const landings = props.filter(({ landing }) => landing);
	const focus = middleOf(landings.length > 0 ? landings : props.length > 0 ? props : [station]);
	const shares = [0.25, 0.5, 0.75];
	const [wide, high] = [Math.min(INSIDE, length / 2), Math.min(INSIDE, width / 2)];
	const spots = [
		...[...shares, (focus.x - left) / length].flatMap((share) =>
			[top + width - high, top + high].map((y) => ({ x: left + share * length, y })),
		),
		...shares.flatMap((share) =>
			[left + length - wide, left + wide].map((x) => ({ x, y: top + share * width })),
		),
	];
	const cost = (spot: Spot): number =>
		apart(spot, focus) +
		5 * taken.filter((other) => apart(other, spot) < APART).length +
		(run !== undefined && gapOf(asRect(spot), run) < 0.1 ? 5 : 0);
	return spots.reduce((best, spot) => (cost(spot) < cost(best) - 1e-9 ? spot : best));
}

function onFreeFloor(plan: FloorPlan, numbers: readonly number[], taken: readonly Spot[]): Spot | undefined {
	const mine = plan.stations.filter(({ number }) => numbers.includes(number));
	if (mine.length === 0) return undefined;
	const middles = mine.map((station) => middleOf([station]));
	const goal = {
		x: middles.reduce((sum, { x }) => sum + x, 0) / middles.length,
		y: middles.reduce((sum, { y }) => sum + y, 0) / middles.length,
	};
	const queues = waitingOf(plan).flatMap(({ spots }) => spots);
	let best: { readonly spot: Spot; readonly far: number } | undefined;
	for (let x = STEP; x <= plan.length - STEP / 2; x += STEP) {
		for (let y = STEP; y <= plan.width - STEP / 2; y += STEP) {
			const spot = { x, y };
			const far = apart(spot, goal);
			if (best !== undefined && far >= best.far) continue;
			const free =
				taken.every((other) => apart(other, spot) >= APART) &&
				queues.every((other) => apart(other, spot) >= FROM_QUEUE) &&
				plan.stations.every(
					(station) =>
						gapOf(asRect(spot), station) >= INSIDE &&
						station.props.every((prop) => !prop.landing || gapOf(asRect(spot), prop) >= FREE_SPACE.landing),
				);
			if (free) best = { spot, far };
		}
	}
	return best?.spot;
}
