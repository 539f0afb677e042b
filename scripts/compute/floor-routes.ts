/**
 * How groups go from each station of a floor plan to the next: over free floor, round the outside of
 * every station, never over a run or a landing.
 *
 * Steps:
 *   1. doors: places along the sides of a station where one may leave or come; who comes to a run comes to
 *      its beginning, who leaves one leaves at its end; nobody comes in over a landing area
 *   2. corners: a place off each corner of each station, as far as one walks from what stands there
 *   3. the shortest way from a door over corners to a door (A* on what sees each other, the gap to the station ahead);
 *      first with room to walk inside the plan, then through narrow gaps, then round the plan's open
 *      edges. Never through a wall
 *
 * Where there is no free way, none is given: a way over a run is worse than none.
 */

import type { Side } from "../model.ts";
import { onceEach } from "./get-or-make.ts";
import { type FloorPlan, gapOf, type PlacedStation } from "./placing.ts";
import type { Rect } from "./station-layout.ts";

/** Metres from the plan's corner, its length first. */
export interface Spot {
	readonly x: number;
	readonly y: number;
}

export interface Route {
	/** Station numbers. */
	readonly from: number;
	readonly to: number;
	/** From the edge of one station to the edge of the next; empty where there is no free way. */
	readonly way: readonly Spot[];
}

/**
 * Metres that one keeps from stations, the best first, and what a way costs more, in metres, where it is
 * narrower or goes round outside the plan. With the most room ways stay clear of labels on corners.
 */
const CLEAR = [
	{ clear: 0.6, more: 0 },
	{ clear: 0.35, more: 0.5 },
	{ clear: 0.1, more: 2 },
] as const;
const OUTSIDE = 2;
/** Metres beyond an open edge that one may walk. */
const BEYOND = 0.5;

/** From each station to the next, the last back to the first. The same plan is drawn on pages, in the binder and on sheets. */
export const routesOf = onceEach((plan: FloorPlan): readonly Route[] => {
	const { stations } = plan;
	if (stations.length < 2) return [];
	return stations.flatMap((from, i) => {
		const to = stations[(i + 1) % stations.length];
		return to === undefined ? [] : [{ from: from.number, to: to.number, way: wayBetween(plan, from, to) }];
	});
});

function wayBetween(plan: FloorPlan, from: PlacedStation, to: PlacedStation): readonly Spot[] {
	let best: { readonly way: readonly Spot[]; readonly cost: number } | undefined;
	const tries = [0, BEYOND].flatMap((beyond) =>
		CLEAR.map(({ clear, more }) => ({ clear, beyond, more: more + (beyond > 0 ? OUTSIDE : 0) })),
	);
	for (const { clear, beyond, more } of tries) {
		// The gap is the least that any way takes.
		if (best !== undefined && best.cost <= gapOf(from, to) + more) continue;
		const found = search(plan, from, to, clear, beyond);
		if (found !== undefined && (best === undefined || found.cost + more < best.cost)) {
			best = { way: found.way, cost: found.cost + more };
		}
	}
	return best?.way ?? [];
}

/** A place on a station's edge, the place straight out from it, which is free, and what it costs to use it. */
interface Door {
	readonly edge: Spot;
	readonly out: Spot;
	readonly cost: number;
}

interface Node {
	readonly at: Spot;
	/** A door of the station that is left or come to. */
	readonly door?: Door;
	readonly isGoal: boolean;
	/** Metres that are left at the least. */
	readonly ahead: number;
	cost: number;
	before: Node | undefined;
	settled: boolean;
}

/** Metres by which a way may come nearer than its corners, which it goes straight between, and leaves an edge. */
const SLACK = 0.05;

function search(
	plan: FloorPlan,
	from: PlacedStation,
	to: PlacedStation,
	clear: number,
	beyond: number,
): { readonly way: readonly Spot[]; readonly cost: number } | undefined {
	const others = plan.stations.filter((station) => station !== from && station !== to);
	// Of the two themselves one may walk along the edge; of the others one keeps clear.
	const closed = [from, to, ...others.map((station) => grown(station, clear - SLACK))];
	const inside = floorOf(plan, beyond);
	const free = ({ x, y }: Spot): boolean =>
		x >= inside.left && y >= inside.top && x <= inside.left + inside.length && y <= inside.top + inside.width;
	const sees = (a: Spot, b: Spot): boolean => !closed.some((rect) => crosses(a, b, rect));
	const usable = ({ edge, out }: Door): boolean => free(edge) && free(out) && sees(edge, out);
	const node = (at: Spot, cost: number, isGoal: boolean, door?: Door): Node => {
		const ahead = gapOf({ left: at.x, top: at.y, length: 0, width: 0 }, to);
		return { at, ...(door && { door }), isGoal, ahead, cost, before: undefined, settled: false };
	};
	const nodes: readonly Node[] = [
		...doorsOf(from, "leave", clear)
			.filter(usable)
			.map((door) => node(door.edge, door.cost, false, door)),
		...doorsOf(to, "come", clear)
			.filter(usable)
			.map((door) => node(door.edge, Number.POSITIVE_INFINITY, true, door)),
		...plan.stations
			.flatMap((station) => cornersOf(grown(station, clear)))
			.filter(free)
			.map((at) => node(at, Number.POSITIVE_INFINITY, false)),
	];
	for (;;) {
		let next: Node | undefined;
		let least = Number.POSITIVE_INFINITY;
		for (const one of nodes) {
			if (one.settled || one.cost + one.ahead >= least) continue;
			next = one;
			least = one.cost + one.ahead;
		}
		if (next === undefined) return undefined;
		next.settled = true;
		if (next.isGoal) return { way: wayTo(next), cost: next.cost };
		for (const one of nodes) {
			if (one.settled || (one.door !== undefined && !one.isGoal)) continue;
			const cost = next.cost + apart(next.at, one.at) + (one.isGoal ? (one.door?.cost ?? 0) : 0);
			if (cost < one.cost && goesOff(next, one) && goesOff(one, next) && sees(next.at, one.at)) {
				one.cost = cost;
				one.before = next;
			}
		}
	}
}

/** Whether who goes from a door to a place goes away from the station, and not along its edge. */
function goesOff({ at, door }: Node, to: Node): boolean {
	if (door === undefined) return true;
	const { edge, out } = door;
	const far = apart(edge, out);
	const off = ((to.at.x - at.x) * (out.x - edge.x) + (to.at.y - at.y) * (out.y - edge.y)) / far;
	return off >= SLACK;
}

function wayTo(goal: Node): readonly Spot[] {
	const spots: Spot[] = [];
	for (let node: Node | undefined = goal; node !== undefined; node = node.before) spots.push(node.at);
	return straightened(spots.reverse());
}

/** Without the places on a straight stretch. */
function straightened(spots: readonly Spot[]): readonly Spot[] {
	const kept: Spot[] = [];
	for (const [i, spot] of spots.entries()) {
		const before = kept.at(-1);
		const after = spots[i + 1];
		if (before !== undefined && after !== undefined) {
			const turn = (spot.x - before.x) * (after.y - spot.y) - (spot.y - before.y) * (after.x - spot.x);
			if (Math.abs(turn) < 1e-6) continue;
		}
		kept.push(spot);
	}
	return kept;
}

/** Metres between doors along a side, and the most of them there. */
const DOORS = { apart: 0.5, most: 9 } as const;
/** How much dearer a metre away from where a run begins or ends is, and coming in over a landing area. */
const WRONG = { run: 3, landing: 20 } as const;
/** Metres to a corner from which on a door there is dearer by what is missing: labels stand on corners. */
const CORNER = 0.8;

function doorsOf(station: PlacedStation, way: "leave" | "come", clear: number): readonly Door[] {
	const { left, top, length, width, run, props } = station;
	const wanted = run === undefined ? undefined : runPlace(station, run.turn, way);
	const landings = props.filter(({ landing }) => landing).map((prop) => grown(prop, 0.1));
	const corners = cornersOf(station);
	const door = (x: number, y: number, outX: number, outY: number): Door => {
		const edge = { x, y };
		const near = Math.max(0, CORNER - Math.min(...corners.map((corner) => apart(corner, edge))));
		const out = { x: x + outX * clear, y: y + outY * clear };
		const onLanding =
			way === "come" && landings.some((rect) => crosses(edge, out, rect) || holds(rect, edge));
		const cost =
			near + (wanted === undefined ? 0 : WRONG.run * apart(edge, wanted)) + (onLanding ? WRONG.landing : 0);
		return { edge, out, cost };
	};
	const along = (size: number): readonly number[] => {
		const count = Math.min(DOORS.most, Math.max(1, Math.floor(size / DOORS.apart) - 1));
		return Array.from({ length: count }, (_, i) => ((i + 1) / (count + 1)) * size);
	};
	return [
		...along(length).flatMap((at) => [door(left + at, top, 0, -1), door(left + at, top + width, 0, 1)]),
		...along(width).flatMap((at) => [door(left, top + at, -1, 0), door(left + length, top + at, 1, 0)]),
	];
}

/** The middle of the side where a station with a run begins, or of that where it ends. */
export function runPlace({ left, top, length, width }: Rect, turn: number, way: "leave" | "come"): Spot {
	const sides = [
		{ x: left, y: top + width / 2 },
		{ x: left + length / 2, y: top },
		{ x: left + length, y: top + width / 2 },
		{ x: left + length / 2, y: top + width },
	];
	return sides[(turn + (way === "leave" ? 2 : 0)) % 4] ?? { x: left, y: top };
}

/** Where one may walk: the plan, and some of what lies beyond its open edges. */
function floorOf({ length, width, walls }: FloorPlan, beyond: number): Rect {
	const more = (side: Side): number => (walls.includes(side) ? 0 : beyond);
	return {
		left: -more("start"),
		top: -more("left"),
		length: length + more("start") + more("end"),
		width: width + more("left") + more("right"),
	};
}

function grown({ left, top, length, width }: Rect, by: number): Rect {
	return { left: left - by, top: top - by, length: length + 2 * by, width: width + 2 * by };
}

function cornersOf({ left, top, length, width }: Rect): readonly Spot[] {
	return [
		{ x: left, y: top },
		{ x: left + length, y: top },
		{ x: left + length, y: top + width },
		{ x: left, y: top + width },
	];
}

function holds({ left, top, length, width }: Rect, { x, y }: Spot): boolean {
	return x >= left && y >= top && x <= left + length && y <= top + width;
}

/** A stretch that only touches an edge does not cross it. */
const TOUCH = 0.005;

/** Whether the straight way from a to b goes through a rectangle (Liang and Barsky's clipping). */
export function crosses(a: Spot, b: Spot, { left, top, length, width }: Rect): boolean {
	const right = left + length - TOUCH;
	const bottom = top + width - TOUCH;
	// Most ways pass by on one side: nothing more is worked out for them.
	if (Math.max(a.x, b.x) <= left + TOUCH || Math.min(a.x, b.x) >= right) return false;
	if (Math.max(a.y, b.y) <= top + TOUCH || Math.min(a.y, b.y) >= bottom) return false;
	let from = 0;
	let to = 1;
	for (const [start, move, low, high] of [
		[a.x, b.x - a.x, left + TOUCH, right],
		[a.y, b.y - a.y, top + TOUCH, bottom],
	] as const) {
		if (Math.abs(move) < 1e-9) {
			if (start <= low || start >= high) return false;
			continue;
		}
		const first = (low - start) / move;
		const second = (high - start) / move;
		from = Math.max(from, Math.min(first, second));
		to = Math.min(to, Math.max(first, second));
	}
	return from < to;
}

function apart(a: Spot, b: Spot): number {
	return Math.hypot(b.x - a.x, b.y - a.y);
}
