/**
 * Where gymnasts wait for their turn: one line at each station for those who are not moving.
 *
 *   1. lines along and away from each side of a station, a step outside it; in two rows where one is too long
 *   2. never where somebody works or lands: off every other station, off the free space around landing areas,
 *      inside the plan or a step beyond an open edge, and off the lines before it
 *   3. of those the nearest to where the work begins (the beginning of a run), rather not on an arrow
 */

import { crosses, routesOf, runPlace, type Spot } from "./floor-routes.ts";
import { onceEach } from "./get-or-make.ts";
import { type FloorPlan, FREE_SPACE, gapOf, overlapOf, type PlacedStation } from "./placing.ts";
import type { Rect } from "./station-layout.ts";

export interface Waiting {
	readonly station: number;
	/** One for each who waits, in metres; the first is next. */
	readonly spots: readonly Spot[];
}

/** Metres: from one who waits to the next, and from a line to what it keeps clear of. */
const APART = 0.5;
const CLEAR = { own: 0.15, others: 0.2 } as const;
/** The most that are drawn in a line, and metres beyond an open edge that one may stand. */
const MOST = 8;
const BEYOND = 0.5;
/** Metres that a place may be further off to be off an arrow. */
const ON_WAY = 2;

/** The lines of all stations at which somebody waits; a station that has no room for one is left out. The same plan is drawn on pages, in the binder and on sheets. */
export const waitingOf = onceEach((plan: FloorPlan): readonly Waiting[] => {
	const taken: Rect[] = [];
	const ways = routesOf(plan).flatMap(({ way }) => way.slice(1).map((to, i) => [way[i] ?? to, to] as const));
	return plan.stations.flatMap((station): readonly Waiting[] => {
		const count = Math.min(MOST, station.queue ?? 0);
		if (count === 0) return [];
		const wanted = beginningOf(plan, station);
		let best: { readonly line: Line; readonly cost: number } | undefined;
		for (const line of linesAt(station, count)) {
			if (!isFree(plan, station, line.rect, taken)) continue;
			const { left, top, length, width } = line.rect;
			const crossed = ways.filter(([a, b]) => crosses(a, b, line.rect)).length;
			const near = Math.hypot(left + length / 2 - wanted.x, top + width / 2 - wanted.y);
			const cost = near + ON_WAY * crossed + (line.rows - 1) * 0.5;
			if (best === undefined || cost < best.cost) best = { line, cost };
		}
		if (best === undefined) return [];
		taken.push(best.line.rect);
		return [{ station: station.number, spots: spotsIn(best.line, count, wanted) }];
	});
});

/** Where who comes next begins: at the beginning of a run, else where the way to the station ends. */
function beginningOf(plan: FloorPlan, station: PlacedStation): Spot {
	if (station.run !== undefined) return runPlace(station, station.run.turn, "come");
	const end = routesOf(plan)
		.find(({ to }) => to === station.number)
		?.way.at(-1);
	return end ?? { x: station.left, y: station.top + station.width / 2 };
}

interface Line {
	readonly rect: Rect;
	readonly rows: number;
}

/** Lines outside each side of a station: along it, and straight away from it. */
function linesAt({ left, top, length, width }: Rect, count: number): readonly Line[] {
	return [1, 2].flatMap((rows) => {
		if (rows > 1 && count < 4) return [];
		const long = Math.ceil(count / rows) * APART;
		const wide = rows * APART;
		return [
			[long, wide],
			[wide, long],
		].flatMap(([across = 0, down = 0]) => {
			const xs = along(left, length, across);
			const ys = along(top, width, down);
			const out = CLEAR.own;
			return [
				...xs.flatMap((x) => [top - out - down, top + width + out].map((y) => [x, y] as const)),
				...ys.flatMap((y) => [left - out - across, left + length + out].map((x) => [x, y] as const)),
			].map(([x, y]): Line => ({ rect: { left: x, top: y, length: across, width: down }, rows }));
		});
	});
}

/** Places along a side: from its beginning to its end, half a metre apart. */
function along(from: number, size: number, own: number): readonly number[] {
	const room = size - own;
	if (room <= 0) return [from + room / 2];
	const steps = Math.max(1, Math.round(room / APART));
	return Array.from({ length: steps + 1 }, (_, i) => from + (room * i) / steps);
}

function isFree(plan: FloorPlan, own: PlacedStation, line: Rect, taken: readonly Rect[]): boolean {
	const { walls, border } = plan;
	const beyond = (side: (typeof walls)[number]): number =>
		walls.includes(side) ? 0 : Math.max(BEYOND, border);
	return (
		line.left >= -beyond("start") &&
		line.top >= -beyond("left") &&
		line.left + line.length <= plan.length + beyond("end") &&
		line.top + line.width <= plan.width + beyond("right") &&
		taken.every((other) => gapOf(line, other) >= CLEAR.others) &&
		plan.stations.every(
			(station) =>
				(station === own ? overlapOf(line, station) === 0 : gapOf(line, station) >= CLEAR.others) &&
				station.props.every((prop) => !prop.landing || gapOf(line, prop) >= FREE_SPACE.landing - 0.01),
		)
	);
}

/** The places in a line, the nearest to where the work begins first. */
function spotsIn({ rect, rows }: Line, count: number, wanted: Spot): readonly Spot[] {
	const { left, top, length, width } = rect;
	const lies = length >= width;
	const spots = Array.from({ length: count }, (_, i): Spot => {
		const [step, row] = [Math.floor(i / rows), i % rows];
		const [a, b] = [(step + 0.5) * APART, (row + 0.5) * APART];
		return lies ? { x: left + a, y: top + b } : { x: left + b, y: top + a };
	});
	const far = ({ x, y }: Spot): number => Math.hypot(x - wanted.x, y - wanted.y);
	return spots.sort((a, b) => far(a) - far(b));
}
