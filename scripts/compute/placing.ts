/**
 * Where the stations of a block stand: positions in metres on the apparatus's floor plan, what overlaps,
 * and where there is too little free space.
 *
 * Steps:
 *   1. the plan: the club's, else the norm of the floor, else as large as its stations need
 *   2. the props of each station as they stand (station-layout.ts), for the gymnasts of the largest class
 *   3. stations with `at` stand with their middle there, turned so that they fit best
 *   4. the others, largest first, stand where they overlap least, keep most space free and are nearest to
 *      their corner of the round; then each is tried again while anything gets better
 *   5. gaps between neighbours and around landing areas, measured
 *
 * The same block always gives the same plan: there is no chance in it. Free space is common practice:
 * local codes and the makers' instructions come first.
 */

import { originalOf } from "../link/join-records.ts";
import type { ApparatusPlan, Block, Curriculum, Finding, Id, Side, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import { stationUses } from "./equipment.ts";
import { finding } from "./finding.ts";
import { FLOOR_NORM, footprintOf } from "./footprints.ts";
import type { Measure } from "./measure.ts";
import { type Arrangement, arrange, type Prop, type PropNeed, type Rect } from "./station-layout.ts";

/** Free space in metres that a plan should leave; chosen by us after common practice, no norm. */
export const FREE_SPACE = {
	/** Between two stations, so that a coach can walk through. */
	between: 0.8,
	/** Between a landing area and another station. */
	landing: 1.2,
	/** Between what needs a wall and the edge of the plan, where the wall is; no free space, but the most. */
	wall: 1,
} as const;

export interface PlacedStation extends Rect {
	/** In rotation order, from 1. */
	readonly number: number;
	readonly drill: Id;
	/** In the plan's metres. */
	readonly props: readonly Prop[];
	readonly run: (Rect & { readonly turn: Prop["turn"] }) | undefined;
	readonly runOut?: (Rect & { readonly turn: Prop["turn"] }) | undefined;
	/** Gymnasts of the largest group who wait while the others have their turn. */
	readonly queue?: number;
	/** Whether the plan's author wrote `at`. */
	readonly written: boolean;
	/** Metres from the side that needs a wall to the edge of the plan; undefined where none does. */
	readonly fromWall: number | undefined;
}

/** What is wrong with where stations stand; `gap` in metres. */
export interface Crowding {
	readonly kind: "overlap" | "between" | "landing" | "edge" | "wall";
	/** Station numbers; one for the edge and the wall, and for a landing area its own station first. */
	readonly stations: readonly number[];
	readonly gap: number;
}

export interface FloorPlan {
	/** Metres. */
	readonly length: number;
	readonly width: number;
	/** The free border around the norm's floor. */
	readonly border: number;
	/** Sides that are walls: nobody goes round there, and no free border lies before one. */
	readonly walls: readonly Side[];
	readonly landmarks: readonly { readonly name: string; readonly at: readonly [number, number] }[];
	/** Where its size is from. */
	readonly from: "club" | "norm" | "stations";
	/** In rotation order. */
	readonly stations: readonly PlacedStation[];
	readonly crowding: readonly Crowding[];
}

/** The floor plan of a block, one station for each of the block's, whatever levels they are for. */
export function floorPlanOf(curriculum: Curriculum, plan: ApparatusPlan, block: Block): FloorPlan {
	const known = plansOf.get(block.stations);
	if (known !== undefined && isSamePlace(known, { curriculum, plan, block })) return known.floorPlan;
	const uses = stationUses(curriculum, plan, block);
	const wanted = block.stations.map((station, i): Wanted => {
		const { drill, gymnasts = 1, needs: wanted = new Map<Id, number>() } = uses[i] ?? {};
		const needs = [...wanted].flatMap(([item, count]): readonly PropNeed[] => {
			const equipment = curriculum.equipment.get(item);
			return equipment === undefined ? [] : [{ item, count, footprint: footprintOf(equipment) }];
		});
		// Without `turn` the whole group works at once.
		const queue = drill?.turn === undefined ? 0 : Math.max(0, gymnasts - drill.turn.atOnce);
		return { arrangement: arrange(drill ?? {}, needs, gymnasts), at: station.at, queue };
	});
	const apparatus = curriculum.apparatus.get(plan.apparatus);
	const own = apparatus?.plan;
	const isFloor = [plan.apparatus, apparatus?.name ?? ""].some((name) => /\bfloor\b/i.test(name));
	const norm = isFloor ? ([FLOOR_NORM.length, FLOOR_NORM.width] as const) : undefined;
	const size = own ?? norm;
	const border =
		isFloor && size?.[0] === FLOOR_NORM.length && size[1] === FLOOR_NORM.width ? FLOOR_NORM.border : 0;
	const { walls = [], landmarks = [] } = apparatus ?? {};
	const placed =
		size === undefined
			? inRows(
					wanted,
					landmarks.map(({ at }) => at),
				)
			: { size, spots: place(wanted, size, border, walls) };
	const stations = placed.spots.map((spot, i): PlacedStation => {
		const { arrangement, at, queue } = wanted[i] ?? NOTHING;
		const put = <R extends Rect>(rect: R): R => ({ ...rect, ...turned(rect, arrangement, spot) });
		return {
			number: i + 1,
			drill: block.stations[i]?.drill ?? "",
			...rectOf(spot),
			props: arrangement.props.map((prop) => ({ ...put(prop), turn: quarter(prop.turn + spot.turn) })),
			run: arrangement.run && { ...put(arrangement.run), turn: quarter(spot.turn) },
			runOut: arrangement.runOut && { ...put(arrangement.runOut), turn: quarter(spot.turn) },
			queue,
			written: at !== undefined,
			fromWall: arrangement.wall ? edgeBehind(spot, placed.size) : undefined,
		};
	});
	const [length, width] = placed.size;
	const floorPlan: FloorPlan = {
		length,
		width,
		border,
		walls,
		landmarks,
		from: own !== undefined ? "club" : norm !== undefined ? "norm" : "stations",
		stations,
		crowding: crowdingOf(stations, placed.size, border, walls),
	};
	plansOf.set(block.stations, { curriculum: originalOf(curriculum), plan, block, floorPlan });
	return floorPlan;
}

interface Planned {
	readonly curriculum: Curriculum;
	readonly plan: ApparatusPlan;
	readonly block: Block;
}

/** The findings and the pages ask for the same plans, and so do plans of weeks that are only tried. */
const plansOf = new WeakMap<Block["stations"], Planned & { readonly floorPlan: FloorPlan }>();

/** Whether the same stations stand on the same apparatus, for the same levels of the same club. */
function isSamePlace(one: Planned, other: Planned): boolean {
	return (
		one.plan.apparatus === other.plan.apparatus &&
		one.block.kind === other.block.kind &&
		one.block.levels === other.block.levels &&
		originalOf(one.curriculum) === originalOf(other.curriculum)
	);
}

interface Wanted {
	readonly arrangement: Arrangement;
	/** The middle of the station, where it is written. */
	readonly at: readonly [number, number] | undefined;
	/** Gymnasts who wait. */
	readonly queue: number;
}

const NOTHING: Wanted = { arrangement: arrange({}, [], 1), at: undefined, queue: 0 };

type Size = readonly [length: number, width: number];

/** A station as it stands: turned by quarters, its corner in metres. */
interface Spot extends Rect {
	readonly turn: Prop["turn"];
	/** Landing areas, measured from the station's corner. */
	readonly landings: readonly Rect[];
	/** What its place costs, whatever the others do. */
	readonly own: number;
}

function sizeTurned({ length, width }: Arrangement, turn: number): { length: number; width: number } {
	return turn % 2 === 0 ? { length, width } : { length: width, width: length };
}

/** A rectangle of an arrangement in the plan's metres. Turns go from x towards y. */
function turned(
	rect: Rect,
	whole: { readonly length: number; readonly width: number },
	spot: Pick<Spot, "left" | "top" | "turn">,
): Rect {
	const { left, top, length, width } = rect;
	const right = whole.length - left - length;
	const bottom = whole.width - top - width;
	const [x = 0, y = 0] = (
		[
			[left, top],
			[bottom, left],
			[right, bottom],
			[top, right],
		] as const
	)[spot.turn];
	const across = spot.turn % 2 === 1;
	return {
		left: centimetre(spot.left + x),
		top: centimetre(spot.top + y),
		length: across ? width : length,
		width: across ? length : width,
	};
}

function quarter(turn: number): Prop["turn"] {
	return (turn % 4) as Prop["turn"];
}

function rectOf({ left, top, length, width }: Rect): Rect {
	return { left: centimetre(left), top: centimetre(top), length, width };
}

/** Metres between positions that are tried, and the most of them along a side. */
const STEPS = [1, 0.5, 0.25] as const;
const MOST_STEPS = 64;
/** Rounds in which every station is tried again. */
const ROUNDS = 4;

/** Spots for all stations on a plan of a known size. */
function place(
	wanted: readonly Wanted[],
	size: Size,
	border: number,
	walls: readonly Side[],
): readonly Spot[] {
	const indexes = wanted.map((_, i) => i);
	const fixed = indexes.filter((i) => wanted[i]?.at !== undefined);
	const free = indexes.filter((i) => wanted[i]?.at === undefined);
	const area = (i: number) => {
		const { length, width } = wanted[i]?.arrangement ?? { length: 0, width: 0 };
		return length * width;
	};
	const largestFirst = [...free].sort((a, b) => area(b) - area(a) || a - b);
	let best: { readonly spots: readonly Spot[]; readonly cost: number } | undefined;
	for (const step of STEPS) {
		const choices = wanted.map((one, i) => choicesFor(one, i, wanted.length, size, border, walls, step));
		for (const order of [largestFirst, free, free.toReversed()]) {
			const tried = settle(choices, [...fixed, ...order]);
			if (best === undefined || tried.cost < best.cost) best = tried;
			if (best.cost < CROWDED || free.length === 0) return best.spots;
		}
	}
	return best?.spots ?? [];
}

/** From this cost on something is too near, overlaps or stands over the edge. */
const CROWDED = 100;

function settle(
	choices: readonly (readonly Spot[])[],
	order: readonly number[],
): { readonly spots: readonly Spot[]; readonly cost: number } {
	const spots: (Spot | undefined)[] = choices.map(() => undefined);
	/** Stops as soon as it is past `limit`. */
	const costOf = (i: number, spot: Spot, limit: number): number => {
		let cost = spot.own;
		for (let j = 0; j < spots.length && cost < limit; j++) {
			const other = spots[j];
			if (j !== i && other !== undefined) cost += pairCost(spot, other);
		}
		return cost;
	};
	const choose = (i: number): boolean => {
		const before = spots[i];
		let best = before;
		let least = before === undefined ? Number.POSITIVE_INFINITY : costOf(i, before, Number.POSITIVE_INFINITY);
		for (const choice of choices[i] ?? []) {
			// Choices come cheapest first: from here on none can be better.
			if (choice.own >= least - GAIN) break;
			const cost = costOf(i, choice, least);
			if (cost < least - GAIN) {
				least = cost;
				best = choice;
			}
		}
		spots[i] = best;
		return best !== before;
	};
	for (const i of order) choose(i);
	for (let round = 0; round < ROUNDS; round++) {
		if (!order.map(choose).includes(true)) break;
	}
	const settled = spots.filter((spot) => spot !== undefined);
	const cost = settled.reduce((sum, spot, i) => sum + costOf(i, spot, Number.POSITIVE_INFINITY), 0);
	return { spots: settled, cost };
}

/** A step that gains less would only let stations wander. */
const GAIN = 1e-6;

/**
 * Everywhere a station may stand, cheapest first: written ones turn about their middle, others stand
 * inside the plan.
 */
function choicesFor(
	one: Wanted,
	index: number,
	count: number,
	size: Size,
	border: number,
	walls: readonly Side[],
	step: number,
): readonly Spot[] {
	const { arrangement, at } = one;
	const landing = arrangement.props.filter((prop) => prop.landing);
	const facing = arrangement.wall || arrangement.run !== undefined || landing.length > 0;
	const every: readonly Prop["turn"][] = facing ? [0, 1, 2, 3] : [0, 1];
	// Where the club says which sides are walls, what needs one stands with its back to one of those.
	const turns =
		arrangement.wall && walls.length > 0 ? every.filter((turn) => walls.includes(BEHIND[turn])) : every;
	const choices: Spot[] = [];
	for (const turn of turns) {
		const { length, width } = sizeTurned(arrangement, turn);
		const landings = landing.map((prop) => turned(prop, arrangement, { left: 0, top: 0, turn }));
		const add = (left: number, top: number): void => {
			const rect = { left, top, length, width, turn };
			const fromWall = arrangement.wall ? edgeBehind(rect, size) : 0;
			const astray = fromWall > FREE_SPACE.wall + TOLERANCE ? CROWDED * (1 + fromWall) : 3 * fromWall;
			const own = ownCost(rect, index, count, size, border, walls, at !== undefined) + astray;
			choices.push({ ...rect, landings, own });
		};
		if (at !== undefined) add(centimetre(at[0] - length / 2), centimetre(at[1] - width / 2));
		else {
			for (const left of positions(size[0] - length, step))
				for (const top of positions(size[1] - width, step)) add(left, top);
		}
	}
	return choices.sort((a, b) => a.own - b.own || a.turn - b.turn || a.left - b.left || a.top - b.top);
}

/** From 0 to the last position, which is always among them; larger than its plan, a station stands in its middle. */
function positions(last: number, step: number): readonly number[] {
	if (last <= 0) return [centimetre(last / 2)];
	const stride = Math.max(step, last / MOST_STEPS);
	const found: number[] = [];
	for (let i = 0; i * stride < last - 0.01; i++) found.push(centimetre(i * stride));
	return [...found, centimetre(last)];
}

/** How far a station is from where it should stand, whatever the others do. */
function ownCost(
	spot: Rect & { readonly turn: Prop["turn"] },
	index: number,
	count: number,
	size: Size,
	border: number,
	walls: readonly Side[],
	written: boolean,
): number {
	const over = overEdge(spot, size, border, walls);
	const edge = over > TOLERANCE ? CROWDED * (1 + over) : 0;
	const turn = spot.turn * 0.01;
	if (written) return edge + turn;
	// Round the plan clockwise: out along the top, back along the bottom.
	const columns = Math.ceil(count / 2);
	const back = index >= columns;
	const inRow = back ? count - columns : columns;
	const column = back ? inRow - 1 - (index - columns) : index;
	const x = ((column + 0.5) / inRow) * size[0];
	const y = count === 1 ? size[1] / 2 : size[1] * (back ? 0.75 : 0.25);
	return edge + turn + Math.hypot(spot.left + spot.length / 2 - x, spot.top + spot.width / 2 - y);
}

function pairCost(a: Spot, b: Spot): number {
	const gap = gapOf(a, b);
	if (gap > FREE_SPACE.landing) return 0;
	if (gap === 0) return CROWDED * (4 + 4 * Math.sqrt(overlapOf(a, b)));
	let cost = gap < FREE_SPACE.between - TOLERANCE ? CROWDED * (1 + FREE_SPACE.between - gap) : 0;
	const landing = Math.min(landingGap(a, b), landingGap(b, a));
	if (landing < FREE_SPACE.landing - TOLERANCE) cost += CROWDED * (1 + FREE_SPACE.landing - landing);
	return cost;
}

/** A centimetre is nothing on a floor. */
const TOLERANCE = 0.011;

/** Metres between two rectangles; 0 where they touch or overlap. */
export function gapOf(a: Rect, b: Rect): number {
	const x = Math.max(a.left - (b.left + b.length), b.left - (a.left + a.length), 0);
	const y = Math.max(a.top - (b.top + b.width), b.top - (a.top + a.width), 0);
	return x === 0 ? y : y === 0 ? x : Math.hypot(x, y);
}

/** Square metres that two rectangles share. */
export function overlapOf(a: Rect, b: Rect): number {
	const x = Math.min(a.left + a.length, b.left + b.length) - Math.max(a.left, b.left);
	const y = Math.min(a.top + a.width, b.top + b.width) - Math.max(a.top, b.top);
	return x <= TOLERANCE || y <= TOLERANCE ? 0 : x * y;
}

/** Metres from a station's landing areas to another station. */
function landingGap(of: Spot, other: Rect): number {
	let least = Number.POSITIVE_INFINITY;
	const seen = {
		left: other.left - of.left,
		top: other.top - of.top,
		length: other.length,
		width: other.width,
	};
	for (const landing of of.landings) least = Math.min(least, gapOf(landing, seen));
	return least;
}

/** The side of the plan behind a station, by its turn. */
const BEHIND = ["start", "left", "end", "right"] as const satisfies readonly Side[];

/** Metres from the near side of a station, as it is turned, to the edge of the plan behind it. */
function edgeBehind({ left, top, length, width, turn }: Omit<Spot, "landings" | "own">, size: Size): number {
	const behind = [left, top, size[0] - left - length, size[1] - top - width][turn] ?? 0;
	return Math.max(0, centimetre(behind));
}

/** Metres over the edge, beyond the free border; before a wall there is none. */
function overEdge(
	{ left, top, length, width }: Rect,
	size: Size,
	border: number,
	walls: readonly Side[],
): number {
	const free = (side: Side): number => (walls.includes(side) ? 0 : border);
	return Math.max(
		0,
		-left - free("start"),
		-top - free("left"),
		left + length - size[0] - free("end"),
		top + width - size[1] - free("right"),
	);
}

/** Least length of a plan whose size nobody gave. */
const ROWS_LENGTH = 12;

/**
 * Without a plan: stations in rows, there and back, with free space between; the plan is as large as they
 * and the landmarks need.
 */
function inRows(
	wanted: readonly Wanted[],
	landmarks: readonly Size[],
): { readonly size: Size; readonly spots: readonly Spot[] } {
	const gap = FREE_SPACE.landing;
	const length = Math.max(ROWS_LENGTH, ...wanted.map(({ arrangement }) => arrangement.length + 2 * gap));
	const spots: (Spot | undefined)[] = wanted.map(() => undefined);
	let top: number = gap;
	for (const [i, one] of wanted.entries()) {
		if (one.at === undefined) continue;
		const { length: long, width } = one.arrangement;
		spots[i] = standing(one, Math.max(0, one.at[0] - long / 2), Math.max(0, one.at[1] - width / 2));
	}
	for (const spot of spots) if (spot !== undefined) top = Math.max(top, spot.top + spot.width + gap);
	const rows: { readonly i: number; readonly one: Wanted }[][] = [];
	let room = 0;
	for (const [i, one] of wanted.entries()) {
		if (one.at !== undefined) continue;
		const needs = one.arrangement.length + gap;
		const row = rows.at(-1);
		if (row === undefined || needs > room) {
			rows.push([{ i, one }]);
			room = length - gap - needs;
		} else {
			row.push({ i, one });
			room -= needs;
		}
	}
	for (const [r, row] of rows.entries()) {
		let left: number = gap;
		for (const { i, one } of r % 2 === 0 ? row : row.toReversed()) {
			spots[i] = standing(one, left, top);
			left += one.arrangement.length + gap;
		}
		top += Math.max(...row.map(({ one }) => one.arrangement.width)) + gap;
	}
	const settled = spots.filter((spot) => spot !== undefined);
	return {
		size: [
			Math.ceil(Math.max(length, ...settled.map((s) => s.left + s.length), ...landmarks.map(([x]) => x))),
			Math.ceil(Math.max(top, ...settled.map((s) => s.top + s.width), ...landmarks.map(([, y]) => y))),
		],
		spots: settled,
	};
}

function standing({ arrangement: { length, width } }: Wanted, left: number, top: number): Spot {
	return { left, top, length, width, turn: 0, landings: [], own: 0 };
}

/** Everything that stands too near to something, stations in order. */
function crowdingOf(
	stations: readonly PlacedStation[],
	size: Size,
	border: number,
	walls: readonly Side[],
): readonly Crowding[] {
	const crowding: Crowding[] = [];
	const landings = stations.map(({ props }) => props.filter(({ landing }) => landing));
	for (const [i, a] of stations.entries()) {
		const over = overEdge(a, size, border, walls);
		if (over > TOLERANCE) crowding.push({ kind: "edge", stations: [a.number], gap: -centimetre(over) });
		if ((a.fromWall ?? 0) > FREE_SPACE.wall + TOLERANCE) {
			crowding.push({ kind: "wall", stations: [a.number], gap: a.fromWall ?? 0 });
		}
		for (const [j, b] of stations.entries()) {
			if (j <= i) continue;
			const gap = gapOf(a, b);
			if (overlapOf(a, b) > 0) {
				crowding.push({ kind: "overlap", stations: [a.number, b.number], gap: 0 });
				continue;
			}
			if (gap < FREE_SPACE.between - TOLERANCE) {
				crowding.push({ kind: "between", stations: [a.number, b.number], gap: centimetre(gap) });
			}
			for (const [from, to, own] of [
				[a, b, landings[i]],
				[b, a, landings[j]],
			] as const) {
				const clear = Math.min(...(own ?? []).map((landing) => gapOf(landing, to)));
				if (clear < FREE_SPACE.landing - TOLERANCE) {
					crowding.push({ kind: "landing", stations: [from.number, to.number], gap: centimetre(clear) });
				}
			}
		}
	}
	return crowding;
}

function centimetre(metres: number): number {
	return Math.round(metres * 100) / 100;
}

/** H318, H319 and H320: at most one of each for a block. */
export const placingMeasure: Measure = {
	name: "placing",
	tables: () => [],
	findings: ({ curriculum }, words) =>
		curriculum.weeks.flatMap((week) =>
			week.apparatus.flatMap((plan) =>
				plan.blocks
					.filter((block) => block.kind === "stations")
					.flatMap((block) => crowdedBlock(curriculum, week, plan, block, words)),
			),
		),
};

function crowdedBlock(
	curriculum: Curriculum,
	week: WeekPlan,
	plan: ApparatusPlan,
	block: Block,
	words: Words,
): readonly Finding[] {
	const say = words.findings.placing;
	const floorPlan = floorPlanOf(curriculum, plan, block);
	const { crowding, stations } = floorPlan;
	if (crowding.length === 0) return [];
	const name = (number: number): string => {
		const drill = stations[number - 1]?.drill ?? "";
		return say.station(number, curriculum.drills.get(drill)?.title ?? drill);
	};
	const of = (...kinds: readonly Crowding["kind"][]) => crowding.filter(({ kind }) => kinds.includes(kind));
	const where = {
		week: week.week,
		apparatus: curriculum.apparatus.get(plan.apparatus)?.name ?? plan.apparatus,
		block: block.number,
	};
	const tell = (
		code: "H318" | "H319" | "H320",
		weight: Finding["weight"],
		found: readonly Crowding[],
		sentence: (one: Crowding) => string,
	): readonly Finding[] => {
		if (found.length === 0) return [];
		// The last station of the first pair that has an `at` is the one to move.
		const movable = found
			.flatMap((one) => one.stations.toReversed())
			.find((number) => stations[number - 1]?.written === true);
		const path = movable === undefined ? block.path : [...block.path, "stations", movable - 1, "at"];
		return [
			finding(
				words,
				code,
				weight,
				say.what(where, [floorPlan.length, floorPlan.width], found.map(sentence)),
				{ source: week.source, path },
				{ week: week.week, apparatus: plan.apparatus },
				movable === undefined ? say.planFewer : undefined,
			),
		];
	};
	return [
		...tell("H318", "serious", of("overlap"), ({ stations: [a = 0, b = 0] }) =>
			say.overlap(name(a), name(b)),
		),
		...tell("H319", "worth a look", of("between", "landing"), ({ kind, stations: [a = 0, b = 0], gap }) =>
			kind === "landing"
				? say.landing(name(a), name(b), gap, FREE_SPACE.landing)
				: say.between(name(a), name(b), gap, FREE_SPACE.between),
		),
		...tell("H320", "worth a look", of("edge", "wall"), ({ kind, stations: [a = 0], gap }) =>
			kind === "wall" ? say.wall(name(a), gap) : say.edge(name(a), -gap),
		),
	];
}
