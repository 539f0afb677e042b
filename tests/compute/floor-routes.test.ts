/**
 * Ways between the stations of a floor plan: on random plans none crosses a station or a wall, and there is
 * one wherever a flood over the same floor finds one.
 */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coachSpots } from "../../scripts/compute/coach-spots.ts";
import { crosses, routesOf, type Spot } from "../../scripts/compute/floor-routes.ts";
import { type FloorPlan, gapOf, type PlacedStation } from "../../scripts/compute/placing.ts";
import type { Rect } from "../../scripts/compute/station-layout.ts";
import { waitingOf } from "../../scripts/compute/waiting.ts";
import { isOpen } from "../../scripts/compute/ways.ts";
import type { Side } from "../../scripts/model.ts";
import { cases } from "../random-cases.ts";

function station(number: number, rect: Rect, more: Partial<PlacedStation> = {}): PlacedStation {
	return {
		number,
		drill: `d${number}`,
		...rect,
		props: [],
		run: undefined,
		written: true,
		fromWall: undefined,
		...more,
	};
}

const landingAt = (rect: Rect) => ({
	...rect,
	item: "mat",
	symbol: "landing" as const,
	turn: 0 as const,
	landing: true,
});

function planOf(
	stations: readonly PlacedStation[],
	walls: readonly Side[] = [],
	length = 12,
	width = 8,
): FloorPlan {
	return { length, width, border: 0, walls, landmarks: [], from: "club", stations, crowding: [] };
}

const rect = (left: number, top: number, length: number, width: number): Rect => ({
	left,
	top,
	length,
	width,
});

const metres = (way: readonly Spot[]): number =>
	way.slice(1).reduce((sum, to, i) => sum + Math.hypot(to.x - (way[i]?.x ?? 0), to.y - (way[i]?.y ?? 0)), 0);

const onEdge = ({ left, top, length, width }: Rect, { x, y }: Spot): boolean =>
	x >= left - 0.001 &&
	x <= left + length + 0.001 &&
	y >= top - 0.001 &&
	y <= top + width + 0.001 &&
	Math.min(Math.abs(x - left), Math.abs(x - left - length), Math.abs(y - top), Math.abs(y - top - width)) <
		0.001;

const EVERY_SIDE: readonly Side[] = ["start", "end", "left", "right"];

const anyPlan = fc
	.record({
		length: fc.integer({ min: 6, max: 26 }),
		width: fc.integer({ min: 6, max: 12 }),
		walls: fc.subarray([...EVERY_SIDE]),
		rects: fc.array(
			fc.record({
				left: fc.integer({ min: 0, max: 100 }),
				top: fc.integer({ min: 0, max: 100 }),
				length: fc.integer({ min: 4, max: 20 }),
				width: fc.integer({ min: 3, max: 10 }),
			}),
			{ minLength: 2, maxLength: 5 },
		),
	})
	.map(({ length, width, walls, rects }) =>
		planOf(
			rects.map((one, i) => {
				const long = Math.min(one.length / 2, length);
				const wide = Math.min(one.width / 2, width);
				const cell = (share: number, room: number) => Math.round((share / 100) * room * 10) / 10;
				return station(i + 1, rect(cell(one.left, length - long), cell(one.top, width - wide), long, wide));
			}),
			walls,
			length,
			width,
		),
	);

describe("the ways between stations", () => {
	it("never cross a station or a wall, and lead from the edge of one to the edge of the next", () => {
		fc.assert(
			fc.property(anyPlan, (plan) => {
				const { stations, length, width, walls } = plan;
				const routes = routesOf(plan);
				expect(routes.map(({ from, to }) => [from, to])).toEqual(
					stations.map(({ number }) => [number, (number % stations.length) + 1]),
				);
				for (const { from, to, way } of routes) {
					const [first] = way;
					const last = way.at(-1);
					if (first === undefined || last === undefined) continue;
					expect(onEdge(stations[from - 1] ?? rect(0, 0, 0, 0), first)).toBe(true);
					expect(onEdge(stations[to - 1] ?? rect(0, 0, 0, 0), last)).toBe(true);
					for (const [i, spot] of way.slice(1).entries()) {
						for (const one of stations) expect(crosses(way[i] ?? spot, spot, one)).toBe(false);
					}
					for (const { x, y } of way) {
						expect(x).toBeGreaterThanOrEqual(walls.includes("start") ? 0 : -0.5);
						expect(y).toBeGreaterThanOrEqual(walls.includes("left") ? 0 : -0.5);
						expect(x).toBeLessThanOrEqual(length + (walls.includes("end") ? 0 : 0.5));
						expect(y).toBeLessThanOrEqual(width + (walls.includes("right") ? 0 : 0.5));
					}
				}
			}),
			{ seed: 21, numRuns: cases(2000) },
		);
	});

	it("are found wherever a flood over the floor comes from one to the other", () => {
		let found = 0;
		fc.assert(
			fc.property(anyPlan, (plan) => {
				for (const { from, to, way } of routesOf(plan)) {
					const [a, b] = [plan.stations[from - 1], plan.stations[to - 1]];
					const clear = (one: Rect | undefined) =>
						plan.stations.every((other) => one === undefined || other === one || gapOf(one, other) > 0.7);
					// Nobody can leave a station that another lies on.
					if (!clear(a) || !clear(b) || !flooded(plan, from, to)) continue;
					found++;
					expect(way.length).toBeGreaterThan(1);
				}
			}),
			{ seed: 22, numRuns: cases(800) },
		);
		expect(found).toBeGreaterThan(cases(100));
	});

	it("are there on every plan that is called open without a search", () => {
		let open = 0;
		fc.assert(
			fc.property(anyPlan, (plan) => {
				if (!isOpen(plan)) return;
				open++;
				for (const { from, to, way } of routesOf(plan))
					expect(way.length, `${from} ${to}`).toBeGreaterThan(1);
			}),
			{ seed: 23, numRuns: cases(800) },
		);
		expect(open).toBeGreaterThan(cases(30));
	});

	it("go straight where nothing stands between, and round what does", () => {
		const two = [station(1, rect(1, 3, 2, 2)), station(2, rect(9, 3, 2, 2))];
		expect(metres(routesOf(planOf(two))[0]?.way ?? [])).toBeCloseTo(6, 5);
		const around = routesOf(planOf([...two, station(3, rect(5, 1, 1, 6))]))[0]?.way ?? [];
		// To 0.6 m off the nearer corners of what stands between, and back: the length by Pythagoras.
		expect(around.length).toBeGreaterThan(3);
		expect(metres(around)).toBeGreaterThan(2 * Math.hypot(1.4, 2.6) + 2.2);
		expect(metres(around)).toBeLessThan(2 * Math.hypot(1.4, 4.6) + 2.2);
	});

	it("come to the beginning of a run, and leave at its end", () => {
		const run = { left: 2, top: 1.5, length: 5, width: 1 };
		const lane = (turn: 0 | 2) => [
			station(1, rect(2, 1, 9, 2), { run: { ...run, left: turn === 0 ? 2 : 6, turn } }),
			station(2, rect(5, 5, 2, 2)),
		];
		for (const [turn, begins, ends] of [
			[0, 2, 11],
			[2, 11, 2],
		] as const) {
			const [away, back] = routesOf(planOf(lane(turn), [], 14, 8));
			expect(Math.abs((away?.way[0]?.x ?? 99) - ends)).toBeLessThan(1);
			expect(Math.abs((back?.way.at(-1)?.x ?? 99) - begins)).toBeLessThan(1);
		}
	});

	it("do not come in over a landing area", () => {
		const landing = {
			item: "mat",
			symbol: "landing" as const,
			left: 5,
			top: 3,
			length: 2,
			width: 2,
			turn: 0 as const,
			landing: true,
		};
		const plan = planOf([station(1, rect(1, 3, 2, 2)), station(2, rect(5, 3, 4, 2), { props: [landing] })]);
		const end = routesOf(plan)[0]?.way.at(-1);
		expect(end?.x).toBeGreaterThan(7);
	});

	it("are none where stations and walls shut each other in", () => {
		const shut = planOf(
			[station(1, rect(0, 0, 4, 8)), station(2, rect(4, 0, 4, 8)), station(3, rect(8, 0, 4, 8))],
			EVERY_SIDE,
		);
		expect(routesOf(shut).map(({ way }) => way)).toEqual([[], [], []]);
		// Round the outside, where no wall is.
		const open = { ...shut, walls: ["left"] as const };
		for (const { way } of routesOf(open)) expect(way.every(({ y }) => y >= 0)).toBe(true);
		expect(routesOf(open).every(({ way }) => way.some(({ y }) => y > 8))).toBe(true);
	});
});

/** Whether floor that has 60 cm of room around leads from one station to another: a flood, 10 cm by 10 cm. */
function flooded({ stations, length, width, walls }: FloorPlan, from: number, to: number): boolean {
	const beyond = (side: Side) => (walls.includes(side) ? 0 : 5);
	const [left, right] = [-beyond("start"), length * 10 + beyond("end")];
	const [top, bottom] = [-beyond("left"), width * 10 + beyond("right")];
	const near = (one: Rect, x: number, y: number, by: number) =>
		x > one.left * 10 - by &&
		x < (one.left + one.length) * 10 + by &&
		y > one.top * 10 - by &&
		y < (one.top + one.width) * 10 + by;
	const [a, b] = [stations[from - 1], stations[to - 1]];
	if (a === undefined || b === undefined) throw new Error("no such station");
	const columns = right - left + 1;
	const dry = new Set<number>();
	for (let x = left; x <= right; x++)
		for (let y = top; y <= bottom; y++)
			if (!stations.some((one) => near(one, x, y, 6))) dry.add((y - top) * columns + x - left);
	const touches = (one: Rect, at: number) =>
		near(one, (at % columns) + left, Math.floor(at / columns) + top, 8);
	const wet = [...dry].filter((at) => touches(a, at));
	for (const at of wet) dry.delete(at);
	for (const at of wet) {
		if (touches(b, at)) return true;
		for (const step of [1, -1, columns, -columns]) {
			if (Math.abs(step) === 1 && Math.floor((at + step) / columns) !== Math.floor(at / columns)) continue;
			if (dry.delete(at + step)) wet.push(at + step);
		}
	}
	return false;
}

/** The same plans with landing mats in the last part of every second station, and gymnasts who wait. */
const peopled = anyPlan.map((plan) => ({
	...plan,
	stations: plan.stations.map((one, i) => ({
		...one,
		queue: 2 + (i % 4),
		props:
			i % 2 === 0
				? [
						landingAt({
							left: one.left + one.length / 2,
							top: one.top,
							length: one.length / 2,
							width: one.width,
						}),
					]
				: [],
	})),
}));

describe("who waits, and who coaches", () => {
	it("never stand on a station, near a landing area, behind a wall or on each other", () => {
		let waiting = 0;
		let standing = 0;
		fc.assert(
			fc.property(peopled, (plan) => {
				const at = ({ x, y }: Spot): Rect => ({ left: x, top: y, length: 0, width: 0 });
				const lines = waitingOf(plan);
				const spots = lines.flatMap((line) => line.spots);
				waiting += spots.length;
				const coaches = coachSpots(plan, [
					{ coach: 1, does: "watches", stations: plan.stations.map(({ number }) => number) },
				]).flatMap((coach) => coach.at ?? []);
				standing += coaches.length;
				for (const spot of [...spots, ...coaches]) {
					for (const station of plan.stations) {
						expect(gapOf(at(spot), station)).toBeGreaterThan(0.1);
						for (const prop of station.props) expect(gapOf(at(spot), prop)).toBeGreaterThan(1.18);
					}
					expect(spot.x).toBeGreaterThan(plan.walls.includes("start") ? 0 : -0.5);
					expect(spot.y).toBeGreaterThan(plan.walls.includes("left") ? 0 : -0.5);
					expect(spot.x).toBeLessThan(plan.length + (plan.walls.includes("end") ? 0 : 0.5));
					expect(spot.y).toBeLessThan(plan.width + (plan.walls.includes("right") ? 0 : 0.5));
				}
				for (const [i, a] of [...spots, ...coaches].entries()) {
					for (const b of [...spots, ...coaches].slice(i + 1)) {
						expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(0.45);
					}
				}
			}),
			{ seed: 24, numRuns: cases(300) },
		);
		expect(waiting).toBeGreaterThan(cases(500));
		expect(standing).toBeGreaterThan(cases(100));
	});

	it("wait at the beginning of a run, as many as have no turn", () => {
		const run = { left: 2, top: 1.5, length: 5, width: 1, turn: 0 as const };
		const plan = planOf(
			[station(1, rect(2, 1, 9, 2), { run, queue: 4 }), station(2, rect(5, 5, 2, 2))],
			[],
			14,
			8,
		);
		const [line] = waitingOf(plan);
		expect(line?.station).toBe(1);
		expect(line?.spots).toHaveLength(4);
		for (const { x } of line?.spots ?? []) expect(x).toBeLessThan(4);
	});

	it("spot inside their station, two of them apart", () => {
		const one = station(1, rect(2, 1, 6, 3), { props: [landingAt(rect(5, 1.5, 2, 2))] });
		const spots = coachSpots(planOf([one]), [
			{ coach: 1, does: "spots", stations: [1] },
			{ coach: 2, does: "spots", stations: [1] },
		]).flatMap(({ at }) => at ?? []);
		expect(spots).toHaveLength(2);
		const [a, b] = spots;
		if (a === undefined || b === undefined) throw new Error("no coaches");
		expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThanOrEqual(1);
		for (const { x, y } of spots) expect(x > 2 && x < 8 && y > 1 && y < 4).toBe(true);
	});
});
