/**
 * A floor plan: the stations of a block on the floor of their apparatus, all plans to the same scale.
 *
 *   1. grid of a metre with its figures along two sides, and the border of a floor
 *   2. the ground of each station, and the free space wanted around landing areas, dotted
 *   3. arrows in rotation order, the last back to the first, over free floor (floor-routes.ts)
 *   4. props as plan symbols, landing areas hatched
 *   5. walls and landmarks (floor-plan-marks.ts); stations' labels on their corners, over everything and
 *      clear of each other
 *   6. a scale bar
 *
 * Stations that do not fit their floor stand out over its edge: the drawing is as large as they are.
 *
 * The legend is the equipment list, handed back as data with a symbol for each item. A long, narrow plan
 * can be drawn upright for a phone: turned, not mirrored. Symbols differ in form, never in colour alone.
 */

import type { CoachSpot } from "../compute/coach-spots.ts";
import { type Route, routesOf, type Spot } from "../compute/floor-routes.ts";
import type { PlanSymbol } from "../compute/footprints.ts";
import { type Crowding, type FloorPlan, FREE_SPACE, type PlacedStation } from "../compute/placing.ts";
import type { Prop, Rect } from "../compute/station-layout.ts";
import { waitingOf } from "../compute/waiting.ts";
import type { Id, Side } from "../model.ts";
import * as english from "../words/en.ts";
import type { Words as Language } from "../words/words.ts";
import {
	box,
	chartFrame,
	INK,
	LINE,
	type NumberFormat,
	PAPER,
	SMALL,
	SOFT,
	sentences,
	TONE,
	tenth,
	text,
	textWidth,
	type Words,
	WRONG,
} from "./chart-frame.ts";
import {
	type Area,
	drawLandmarks,
	drawWalls,
	flagArea,
	grow,
	type Point,
	WALL_ROOM,
} from "./floor-plan-marks.ts";

/** What is read aloud for a floor plan, in one language. */
type PlanWords = Language["floorPlan"]["drawing"];

export interface FloorPlanOptions extends Words {
	/** What the plan says by itself; English if left out. */
	readonly words?: PlanWords;
	/** For every number drawn. */
	readonly format: NumberFormat;
	/** What stands at each station, in rotation order: a short label, and its drill's name. */
	readonly stations: readonly { readonly label: string; readonly name: string }[];
	/** Where its coaches stand, in the plan's metres; none where nobody says. */
	readonly coaches?: readonly CoachSpot[];
	/** The equipment list of the block. */
	readonly equipment: readonly PlanItem[];
	/** The plan's length from bottom to top. */
	readonly upright?: boolean;
}

export interface PlanItem {
	readonly item: Id;
	readonly name: string;
	readonly count: number;
	/** Positions of the stations that use it, from 0. */
	readonly stations: readonly number[];
	readonly symbol: PlanSymbol;
}

export interface PlanLegendItem {
	readonly item: Id;
	readonly name: string;
	readonly count: number;
	/** Labels of the stations that use it. */
	readonly stations: readonly string[];
	/** SVG text, decoration only: the words stand beside it. It uses the plan's hatching. */
	readonly symbol: string;
}

export interface DrawnFloorPlan {
	readonly svg: string;
	readonly legend: readonly PlanLegendItem[];
	/** Whether space that must stay clear lies beyond the plan, and is hatched. */
	readonly beyond: boolean;
}

/** Drawing units (CSS pixels) for a metre: a plan of 14 m fits a small phone. */
export const METRE = 20;
const LEFT = 24;
const TOP = 14;
const RIGHT = 14;
const FOOT = 50;
const DISC = 9;
/** Metres between figures along the grid. */
const FIGURE_EVERY = 2;

/** The plan as SVG text, and its legend. */
export function drawFloorPlan(plan: FloorPlan, options: FloorPlanOptions): DrawnFloorPlan {
	const { upright = false, words: say = english.floorPlan.drawing } = options;
	const view = upright ? turnedUp(plan) : plan;
	const found = routesOf(plan);
	const routes = upright ? found.map((route) => routeUp(route, plan)) : found;
	const { border } = plan;
	const up = (spot: Spot): Spot => (upright ? { x: spot.y, y: plan.length - spot.x } : spot);
	const queues = waitingOf(plan).map(({ station, spots }) => ({ station, spots: spots.map(up) }));
	const coaches = (options.coaches ?? []).flatMap(({ coach, does, at }) =>
		at === undefined ? [] : [{ coach, does, at: up(at) }],
	);
	const around = surroundings(view, border, routes, [
		...queues.flatMap(({ spots }) => spots),
		...coaches.map(({ at }) => at),
	]);
	const walls = (side: Side) => (view.walls.includes(side) ? WALL_ROOM : 0);
	const originX = LEFT + walls("start") + around.left * METRE;
	const originY = TOP + walls("left") + around.top * METRE;
	const x = (metres: number) => originX + metres * METRE;
	const y = (metres: number) => originY + metres * METRE;
	const width = x(view.length + around.right) + walls("end") + RIGHT;
	const foot = y(view.width + around.bottom) + walls("right");
	const label = (number: number) => options.stations[number - 1]?.label ?? String(number);
	const crowded = new Set(plan.crowding.flatMap(({ stations }) => stations));
	const edges: Area = { left: x(0), top: y(0), right: x(view.length), bottom: y(view.width) };
	const landmarks = view.landmarks.map(({ name, at: [across, down] }) => ({
		name,
		at: { x: x(across), y: y(down) },
	}));
	const badges = coaches.map(({ at }) => badgeArea({ x: x(at.x), y: y(at.y) }));
	const dots = queues.flatMap(({ spots }) =>
		spots.map((spot) => grow({ left: x(spot.x), right: x(spot.x), top: y(spot.y), bottom: y(spot.y) }, 5)),
	);
	const flags = [...landmarks.map(({ at }) => flagArea(at)), ...badges];
	const places = labelPlaces(view.stations, flags, x, y, foot);
	const labels = places.map((place) =>
		grow({ left: place.x, right: place.x, top: place.y, bottom: place.y }, DISC),
	);
	const hall = drawWalls(view.walls, say.wallWord, edges, [...labels, ...flags]);
	const named = drawLandmarks(
		landmarks,
		edges,
		[...labels, ...hall.words, ...badges, ...dots],
		busy(view, x, y),
		waysIn(routes, x, y),
	);
	const beyond = beyondEdges(view, say.keepClear, x, y);
	const content =
		ground(view, x, y, upright, options.format, { left: LEFT, foot }) +
		view.stations.map((station) => area(station, crowded.has(station.number), x, y)).join("") +
		view.stations.map((station) => landingSpace(station, view, x, y)).join("") +
		beyond +
		hall.svg +
		arrows(routes, x, y) +
		view.stations.map((station) => props(station, x, y)).join("") +
		queues.map(({ station, spots }) => queue(station, spots, x, y)).join("") +
		named.svg +
		coaches.map(({ coach, at }) => badge(String(coach), x(at.x), y(at.y))).join("") +
		view.stations.map(({ number }, i) => disc(places[i] ?? { x: 0, y: 0 }, label(number))).join("") +
		scaleBar(x(0), foot + 34, view.length, options.format, say);
	return {
		beyond: beyond !== "",
		svg: chartFrame(
			{ ...options, description: describe(plan, options, say, label) },
			{ width, height: foot + FOOT },
			"floor-plan",
			[],
			content,
		),
		legend: options.equipment.map(({ item, name, count, stations, symbol }) => ({
			item,
			name,
			count,
			stations: stations.map((i) => label(i + 1)),
			symbol: sample(symbol),
		})),
	};
}

/** Whether a plan is easier to read upright on a phone: much longer than wide. */
export function isLong(plan: Pick<FloorPlan, "length" | "width">): boolean {
	return plan.length > 2 * plan.width && plan.length * METRE > 320;
}

/** A plan turned a quarter back, so that its length runs from bottom to top. */
function turnedUp(plan: FloorPlan): FloorPlan {
	const up = <R extends Rect>(rect: R): R => ({
		...rect,
		left: rect.top,
		top: plan.length - rect.left - rect.length,
		length: rect.width,
		width: rect.length,
	});
	const back = (turn: number) => ((turn + 3) % 4) as Prop["turn"];
	return {
		...plan,
		length: plan.width,
		width: plan.length,
		walls: plan.walls.map((side) => SIDE_UP[side]),
		landmarks: plan.landmarks.map(({ name, at: [x, y] }) => ({ name, at: [y, plan.length - x] })),
		stations: plan.stations.map((station) => ({
			...up(station),
			props: station.props.map((prop) => ({ ...up(prop), turn: back(prop.turn) })),
			run: station.run && { ...up(station.run), turn: back(station.run.turn) },
			runOut: station.runOut && { ...up(station.runOut), turn: back(station.runOut.turn) },
		})),
	};
}

/** Where the sides of a plan come to be when it is turned up. */
const SIDE_UP: Readonly<Record<Side, Side>> = { start: "right", end: "left", left: "start", right: "end" };

function routeUp(route: Route, plan: FloorPlan): Route {
	return { ...route, way: route.way.map(({ x, y }) => ({ x: y, y: plan.length - x })) };
}

function describe(
	plan: FloorPlan,
	options: FloorPlanOptions,
	say: PlanWords,
	label: (number: number) => string,
): string {
	const { format, stations, description } = options;
	const number = (value: number) => format(Math.round(value * 10) / 10);
	const named = plan.stations.map((station, i) =>
		say.station(
			label(i + 1),
			stations[i]?.name ?? "",
			number(station.left + station.length / 2),
			number(station.top + station.width / 2),
			number(station.length),
			number(station.width),
		),
	);
	return sentences(
		description,
		say.size(number(plan.length), number(plan.width)),
		plan.from === "stations" ? say.open : "",
		plan.walls.length > 0 ? say.walls(plan.walls) : "",
		plan.landmarks.length > 0
			? say.landmarks(plan.landmarks.map(({ name, at: [x, y] }) => say.landmark(name, number(x), number(y))))
			: "",
		...named,
		plan.stations.length > 1 ? say.rotation(plan.stations.map((station) => label(station.number))) : "",
		...routesOf(plan)
			.filter(({ way }) => way.length === 0)
			.map(({ from, to }) => say.noWay(label(from), label(to))),
		...waitingOf(plan).map(({ station, spots }) => say.queue(label(station), format(spots.length))),
		...plan.crowding.map((one) => crowdingWords(one, say, label, (gap) => format(gap))),
	);
}

function crowdingWords(
	{ kind, stations: [a = 0, b = 0], gap }: Crowding,
	say: PlanWords,
	label: (number: number) => string,
	format: NumberFormat,
): string {
	if (kind === "overlap") return say.overlap(label(a), label(b));
	if (kind === "wall") return say.wall(label(a), format(gap));
	if (kind === "edge") return say.edge(label(a), format(-gap));
	return kind === "landing"
		? say.landing(label(a), label(b), format(gap))
		: say.gap(label(a), label(b), format(gap));
}

/** Metres around the floor that are drawn: its border, or as far as stations stand over its edge. */
interface Around {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

/** Metres between a way outside the plan and the end of the drawing's floor. */
const WAY_ROOM = 0.3;

function surroundings(
	view: FloorPlan,
	border: number,
	routes: readonly Route[],
	people: readonly Spot[],
): Around {
	const { stations, landmarks, length, width, walls } = view;
	const landing = stations.flatMap((station) => landingBox(station, view) ?? []);
	const reach = (of: (box: Rect) => number) => Math.max(0, ...landing.map(of));
	const clear = {
		start: reach(({ left }) => -left),
		left: reach(({ top }) => -top),
		end: reach((box) => box.left + box.length - length),
		right: reach((box) => box.top + box.width - width),
	};
	const free = (side: Side) => (walls.includes(side) ? 0 : Math.max(border, clear[side]));
	const ways = [...routes.flatMap(({ way }) => way), ...people];
	const over = (metres: number) => (metres > 0 ? metres + WAY_ROOM : 0);
	return {
		left: Math.max(free("start"), ...stations.map(({ left }) => -left), ...ways.map(({ x }) => over(-x))),
		top: Math.max(free("left"), ...stations.map(({ top }) => -top), ...ways.map(({ y }) => over(-y))),
		right: Math.max(
			free("end"),
			...stations.map((station) => station.left + station.length - length),
			...landmarks.map(({ at: [x] }) => x - length),
			...ways.map(({ x }) => over(x - length)),
		),
		bottom: Math.max(
			free("right"),
			...stations.map((station) => station.top + station.width - width),
			...landmarks.map(({ at: [, y] }) => y - width),
			...ways.map(({ y }) => over(y - width)),
		),
	};
}

type Scale = (metres: number) => number;

/** Where the figures of metres stand: right of `left`, under `foot`. */
interface Margins {
	readonly left: number;
	readonly foot: number;
}

function ground(
	view: FloorPlan,
	x: Scale,
	y: Scale,
	upright: boolean,
	format: NumberFormat,
	margins: Margins,
): string {
	const { length, width, border, walls } = view;
	const free = (side: Side) => (walls.includes(side) ? 0 : border);
	const carpet = box(
		x(-free("start")),
		y(-free("left")),
		(free("start") + length + free("end")) * METRE,
		(free("left") + width + free("right")) * METRE,
		TONE,
		0.14,
		LINE,
		0,
	);
	return (
		(border === 0 ? "" : carpet) +
		box(x(0), y(0), length * METRE, width * METRE, PAPER, 1, INK, 0) +
		gridOf(view, x, y) +
		figures(view, x, y, upright, format, margins)
	);
}

/** Lines of a metre, inside the plan. */
function gridOf(view: FloorPlan, x: Scale, y: Scale): string {
	let d = "";
	for (let i = 1; i < view.length; i++) d += `M${tenth(x(i))} ${tenth(y(0))}v${tenth(view.width * METRE)}`;
	for (let i = 1; i < view.width; i++) d += `M${tenth(x(0))} ${tenth(y(i))}h${tenth(view.length * METRE)}`;
	return d === ""
		? ""
		: `<path class="plan-grid" d="${d}" fill="none" stroke="${LINE}" stroke-opacity=".6"/>`;
}

/** Metres along the bottom and the left, as `at` counts them: from the corner, length first. */
function figures(
	view: FloorPlan,
	x: Scale,
	y: Scale,
	upright: boolean,
	format: NumberFormat,
	margins: Margins,
): string {
	let drawn = "";
	for (let i = 0; i <= view.length; i += FIGURE_EVERY) {
		drawn += text(x(i), margins.foot + 13, format(i), {
			anchor: "middle",
			size: SMALL,
			fill: SOFT,
		});
	}
	for (let i = 0; i <= view.width; i += FIGURE_EVERY) {
		const at = upright ? y(view.width - i) : y(i);
		drawn += text(margins.left - 5, at + 4, format(i), { anchor: "end", size: SMALL, fill: SOFT });
	}
	return `<g class="plan-figures">${drawn}</g>`;
}

function area(station: PlacedStation, crowded: boolean, x: Scale, y: Scale): string {
	const { left, top, length, width, number } = station;
	return (
		`<rect class="plan-station" data-station="${number}" x="${tenth(x(left))}" y="${tenth(y(top))}" ` +
		`width="${tenth(length * METRE)}" height="${tenth(width * METRE)}" rx="4" fill="${TONE}" fill-opacity=".12" ` +
		`stroke="${crowded ? WRONG : TONE}"${crowded ? ' stroke-width="2.5" stroke-dasharray="6 3"' : ""}/>`
	);
}

/** The free space wanted around a station's landing areas: as far as a wall, and over an open edge. */
function landingBox(station: PlacedStation, view: FloorPlan): Rect | undefined {
	const landings = station.props.filter(({ landing }) => landing);
	if (landings.length === 0) return undefined;
	const free = FREE_SPACE.landing;
	const stop = (side: Side, at: number): number => (view.walls.includes(side) ? 0 : at);
	const left = Math.max(stop("start", -free), Math.min(...landings.map((r) => r.left)) - free);
	const top = Math.max(stop("left", -free), Math.min(...landings.map((r) => r.top)) - free);
	const right = Math.min(
		view.length + stop("end", free),
		Math.max(...landings.map((r) => r.left + r.length)) + free,
	);
	const bottom = Math.min(
		view.width + stop("right", free),
		Math.max(...landings.map((r) => r.top + r.width)) + free,
	);
	return { left, top, length: right - left, width: bottom - top };
}

function landingSpace(station: PlacedStation, view: FloorPlan, x: Scale, y: Scale): string {
	const box = landingBox(station, view);
	if (box === undefined) return "";
	const { left, top, length, width } = box;
	return (
		`<rect class="plan-free" x="${tenth(x(left))}" y="${tenth(y(top))}" width="${tenth(length * METRE)}" ` +
		`height="${tenth(width * METRE)}" rx="${FREE_SPACE.landing * METRE}" fill="none" stroke="${SOFT}" stroke-dasharray="1 4" stroke-linecap="round" stroke-width="1.5"/>`
	);
}

/** What of that lies beyond the plan and its border: hatched, with its word where there is room. */
function beyondEdges(view: FloorPlan, word: string, x: Scale, y: Scale): string {
	const free = (side: Side) => (view.walls.includes(side) ? 0 : view.border);
	const [west, north] = [-free("start"), -free("left")];
	const [east, south] = [view.length + free("end"), view.width + free("right")];
	const bands = view.stations.flatMap((station): readonly Rect[] => {
		const box = landingBox(station, view);
		if (box === undefined) return [];
		const [right, bottom] = [box.left + box.length, box.top + box.width];
		return [
			{ left: box.left, top: box.top, length: west - box.left, width: box.width },
			{ left: east, top: box.top, length: right - east, width: box.width },
			{ left: box.left, top: box.top, length: box.length, width: north - box.top },
			{ left: box.left, top: south, length: box.length, width: bottom - south },
		].filter(({ length, width }) => length > 0.05 && width > 0.05);
	});
	return bands
		.map(({ left, top, length, width }) => {
			const [l, w] = [length * METRE, width * METRE];
			const at = { x: x(left + length / 2), y: y(top + width / 2) };
			const stands = w > l;
			const room = textWidth(word, SMALL) + 6;
			const named = Math.max(l, w) > room && Math.min(l, w) > 12;
			const turn = stands ? ` transform="rotate(-90 ${tenth(at.x)} ${tenth(at.y)})"` : "";
			return (
				`<g class="plan-beyond"><g transform="translate(${tenth(at.x)} ${tenth(at.y)})">${hatching(l / 2, w / 2)}</g>` +
				(named
					? `<g${turn}>${box(at.x - room / 2, at.y - 6.5, room, 13, PAPER, 1, "none", 2)}${text(at.x, at.y + 3.8, word, { anchor: "middle", size: SMALL })}</g>`
					: "") +
				"</g>"
			);
		})
		.join("");
}

/** Who waits: a dot each, the next one darker. */
function queue(station: number, spots: readonly Spot[], x: Scale, y: Scale): string {
	return `<g class="plan-queue" data-station="${station}" stroke="${PAPER}" stroke-width="1">${spots
		.map(
			(spot, i) =>
				`<circle cx="${tenth(x(spot.x))}" cy="${tenth(y(spot.y))}" r="3.6" fill="${i === 0 ? INK : TONE}"/>`,
		)
		.join("")}</g>`;
}

/** Half the side of a coach's square. */
const BADGE = 8;

function badgeArea({ x, y }: Point): Area {
	return { left: x - BADGE, right: x + BADGE, top: y - BADGE, bottom: y + BADGE };
}

/** A coach: a square with her number, where stations have discs. */
function badge(label: string, x: number, y: number): string {
	return (
		`<g class="plan-coach" transform="translate(${tenth(x)} ${tenth(y)})"><path d="M${-BADGE} ${-BADGE}H${BADGE}V${BADGE}H${-BADGE}z" fill="${PAPER}" stroke="${INK}" stroke-width="2"/>` +
		`${text(0, 4.2, label, { anchor: "middle", bold: true })}</g>`
	);
}

/** From each station to the next, on the ways over free floor. */
function arrows(routes: readonly Route[], x: Scale, y: Scale): string {
	let lines = "";
	for (const { way } of routes) {
		const spots = way.map((spot) => ({ x: x(spot.x), y: y(spot.y) }));
		const [start, ...rest] = spots;
		const tip = rest.at(-1);
		const before = spots.at(-2);
		if (start === undefined || tip === undefined || before === undefined) continue;
		const long = Math.hypot(tip.x - before.x, tip.y - before.y);
		if (long === 0) continue;
		const ux = (tip.x - before.x) / long;
		const uy = (tip.y - before.y) / long;
		const back = { x: tip.x - ux * 7, y: tip.y - uy * 7 };
		const at = (point: Point) => `${tenth(point.x)} ${tenth(point.y)}`;
		lines +=
			`M${at(start)}${rest.map((spot) => `L${at(spot)}`).join("")}` +
			`M${tenth(back.x - uy * 4.5)} ${tenth(back.y + ux * 4.5)}L${at(tip)}L${tenth(back.x + uy * 4.5)} ${tenth(back.y - ux * 4.5)}`;
	}
	if (lines === "") return "";
	const stroke = `fill="none" stroke-linecap="round" stroke-linejoin="round"`;
	return (
		`<g class="plan-arrows"><path d="${lines}" ${stroke} stroke="${PAPER}" stroke-width="6"/>` +
		`<path class="plan-arrow" d="${lines}" ${stroke} stroke="${INK}" stroke-width="2.2"/></g>`
	);
}

/** What a landmark's name should not cover: what stands there, and runs. */
function busy(view: FloorPlan, x: Scale, y: Scale): readonly Area[] {
	const areaOf = ({ left, top, length, width }: Rect): Area => ({
		left: x(left),
		top: y(top),
		right: x(left + length),
		bottom: y(top + width),
	});
	return [
		...view.stations.flatMap((station) => [
			areaOf(station),
			...station.props.map((prop) => {
				const { left, top, right, bottom } = areaOf(prop);
				return grow({ left, top, right, bottom }, 1);
			}),
			...(station.run === undefined ? [] : [areaOf(station.run)]),
		]),
	];
}

/** Where arrows are, piece by piece. */
function waysIn(routes: readonly Route[], x: Scale, y: Scale): readonly Area[] {
	return routes.flatMap(({ way }) =>
		way.slice(1).flatMap((to, i) => {
			const from = way[i] ?? to;
			const pieces = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) * 2));
			return Array.from({ length: pieces + 1 }, (_, piece): Area => {
				const at = {
					x: x(from.x + ((to.x - from.x) * piece) / pieces),
					y: y(from.y + ((to.y - from.y) * piece) / pieces),
				};
				return grow({ left: at.x, right: at.x, top: at.y, bottom: at.y }, 6);
			});
		}),
	);
}

/** Mats lie lowest, then lines, then what stands on them, then marks. */
const LAYERS: readonly (readonly PlanSymbol[])[] = [
	["mat", "landing", "stack"],
	["soft", "line"],
	["block", "board", "box", "cylinder", "table", "trampoline", "wall", "wedge", "other"],
	["bar", "beam", "pair", "ring"],
	["cone", "disc", "hoop", "rope", "small"],
];

/**
 * What a station is made of, from the station's own corner: the same station is the same text wherever it
 * stands, so that devices and pages keep it once.
 */
function props(station: PlacedStation, x: Scale, y: Scale): string {
	const { left, top } = station;
	const layer = ({ symbol }: Prop) => LAYERS.findIndex((symbols) => symbols.includes(symbol));
	const sorted = [...station.props].sort((a, b) => layer(a) - layer(b));
	const drawn = sorted.map((prop) => {
		const upright = prop.turn % 2 === 1;
		const length = (upright ? prop.width : prop.length) * METRE;
		const width = (upright ? prop.length : prop.width) * METRE;
		const cx = tenth((prop.left - left + prop.length / 2) * METRE);
		const cy = tenth((prop.top - top + prop.width / 2) * METRE);
		const turn = prop.turn === 0 ? "" : ` rotate(${prop.turn * 90})`;
		return `<g transform="translate(${cx} ${cy})${turn}">${symbolOf(prop.symbol, length, width)}</g>`;
	});
	return (
		`<g class="plan-props" transform="translate(${tenth(x(left))} ${tenth(y(top))})" fill="${PAPER}" stroke="${INK}" ` +
		`stroke-width="1.2" stroke-linejoin="round">${run(station)}${drawn.join("")}</g>`
	);
}

/** A run is a thin arrow, the run-out after it a broken one. */
function run(station: PlacedStation): string {
	return (
		lane(station, station.run, "run", "") +
		lane(station, station.runOut, "run-out", ' stroke-dasharray="4 3"')
	);
}

function lane(
	{ left: stationLeft, top: stationTop }: Rect,
	stretch: PlacedStation["run"],
	name: string,
	dashes: string,
): string {
	if (stretch === undefined) return "";
	const { left, top, length, width, turn } = stretch;
	const half = (Math.max(length, width) * METRE) / 2;
	const turned = turn === 0 ? "" : ` rotate(${turn * 90})`;
	return (
		`<path class="plan-${name}"${dashes} transform="translate(${tenth((left - stationLeft + length / 2) * METRE)} ${tenth((top - stationTop + width / 2) * METRE)})${turned}" fill="none" stroke-width="1.6" ` +
		`d="M${tenth(-half)} 0H${tenth(half - 6)}M${tenth(half - 11)} -4l5 4l-5 4" stroke-opacity=".75"/>`
	);
}

/** Lines at 45 degrees within a rectangle around 0. As lines they stay sharp on paper, where a pattern becomes a picture. */
function hatching(l: number, w: number): string {
	let d = "";
	for (let at = HATCH_STEP - l - w; at < l + w; at += HATCH_STEP) {
		const [from, to] = [Math.max(-l, at - w), Math.min(l, at + w)];
		if (to - from > 0.5) d += `M${n(from)} ${n(from - at)}l${n(to - from)} ${n(to - from)}`;
	}
	return d === "" ? "" : `<path class="plan-hatch" d="${d}" fill="none" stroke="${TONE}" stroke-width="2"/>`;
}

/** Drawing units along a side from one line to the next. */
const HATCH_STEP = 7;

/** A plan symbol around 0, pointing along x, in drawing units. */
function symbolOf(symbol: PlanSymbol, length: number, width: number): string {
	const l = length / 2;
	const w = width / 2;
	const frame = (more = "") => `<path${more} d="M${n(-l)} ${n(-w)}H${n(l)}V${n(w)}H${n(-l)}z"/>`;
	switch (symbol) {
		case "mat":
			return (
				frame() +
				`<path d="M0 ${n(-w)}V${n(w)}M${n(-l / 2)} ${n(-w)}V${n(w)}M${n(l / 2)} ${n(-w)}V${n(w)}" stroke-opacity=".35"/>`
			);
		case "landing":
			return frame() + hatching(l, w);
		case "soft":
			return `${frame()}${hatching(l, w)}<path fill="none" d="M${n(3 - l)} ${n(3 - w)}H${n(l - 3)}V${n(w - 3)}H${n(3 - l)}z"/>`;
		case "stack":
			return `${frame()}${hatching(l, w)}<path d="M${n(-l / 2)} ${n(-w / 2)}H${n(l / 2)}V${n(w / 2)}H${n(-l / 2)}z"/>`;
		case "wedge":
			return `${frame()}<path fill="none" d="M${n(-l)} ${n(-w)}L${n(l)} 0L${n(-l)} ${n(w)}"/>`;
		case "block":
			return `${frame()}<path d="M${n(-l)} ${n(-w)}L${n(l)} ${n(w)}M${n(-l)} ${n(w)}L${n(l)} ${n(-w)}"/>`;
		case "box":
			return `${frame()}<path d="M${n(-l / 2)} ${n(-w * 0.7)}H${n(l / 2)}V${n(w * 0.7)}H${n(-l / 2)}z"/>`;
		case "table":
			return `<rect x="${n(-l)}" y="${n(-w)}" width="${n(length)}" height="${n(width)}" rx="5"/><path d="M${n(-l / 2)} ${n(-w)}V${n(w)}"/>`;
		case "board":
			return (
				frame() +
				`<path fill="none" d="M${n(-l / 2)} ${n(-w + 2)}l${n(l / 2)} ${n(w - 2)}l${n(-l / 2)} ${n(w - 2)}M0 ${n(-w + 2)}l${n(l / 2)} ${n(w - 2)}l${n(-l / 2)} ${n(w - 2)}"/>`
			);
		case "trampoline":
			return `${frame()}<ellipse rx="${n(l * 0.7)}" ry="${n(w * 0.7)}"/>`;
		case "cylinder":
			return `<rect x="${n(-l)}" y="${n(-w)}" width="${n(length)}" height="${n(width)}" rx="${n(l * 0.6)}"/><path d="M0 ${n(-w)}V${n(w)}" stroke-dasharray="3 2"/>`;
		case "beam":
			return `<path fill="${INK}" d="M${n(-l)} ${n(-Math.max(w, 1.5))}H${n(l)}V${n(Math.max(w, 1.5))}H${n(-l)}z"/>`;
		case "bar":
			return (
				`<path d="M0 ${n(-w)}V${n(w)}" stroke-width="2.6"/>` +
				(length > 8
					? `<path d="M${n(-l)} ${n(-w)}H${n(l)}M${n(-l)} ${n(w)}H${n(l)}" stroke-width="2"/>`
					: `<circle cy="${n(-w)}" r="3"/><circle cy="${n(w)}" r="3"/>`)
			);
		case "pair":
			return `<path d="M${n(-l)} ${n(-w * 0.7)}H${n(l)}M${n(-l)} ${n(w * 0.7)}H${n(l)}" stroke-width="2.2" stroke-linecap="round"/>`;
		case "ring":
			return `<circle cy="${n(-w * 0.7)}" r="3"/><circle cy="${n(w * 0.7)}" r="3"/>`;
		case "wall":
			return `<path d="M0 ${n(-w)}V${n(w)}" stroke-width="4"/><path d="M0 ${n(-w)}h5M0 0h5M0 ${n(w)}h5"/>`;
		case "line":
			return length >= width
				? `<path d="M${n(-l)} 0H${n(l)}" stroke-width="1.8" stroke-dasharray="7 3"/>`
				: `<path d="M0 ${n(-w)}V${n(w)}" stroke-width="1.8" stroke-dasharray="7 3"/>`;
		case "rope":
			return `<path fill="none" d="M0 ${n(-w)}q3 ${n(w / 4)} 0 ${n(w / 2)}t0 ${n(w / 2)}t0 ${n(w / 2)}t0 ${n(w / 2)}"/>`;
		case "hoop":
			return `<circle r="${n(l)}" fill="none" stroke-width="1.8"/>`;
		case "cone":
			return '<path d="M-4 3.5L0 -4.5L4 3.5z"/>';
		case "disc":
			return `<circle r="${n(Math.max(2.6, Math.min(l, w)))}"/><circle r="1" fill="${INK}"/>`;
		case "small":
			return `<path fill="${INK}" d="M-3 0L0 -3L3 0L0 3z"/>`;
		case "other":
			return `${frame(' stroke-dasharray="3 2"')}<circle r="1.6" fill="${INK}"/>`;
	}
}

/** The size at which a symbol stands in the legend, drawing units. */
const SAMPLES: Partial<Readonly<Record<PlanSymbol, readonly [number, number]>>> = {
	bar: [3, 16],
	beam: [26, 3],
	board: [22, 11],
	box: [12, 18],
	hoop: [14, 14],
	line: [26, 1],
	pair: [12, 9],
	ring: [6, 12],
	rope: [4, 16],
	wall: [4, 16],
	disc: [8, 8],
};

function sample(symbol: PlanSymbol): string {
	const [length, width] = SAMPLES[symbol] ?? [24, 15];
	return (
		`<svg class="plan-symbol" viewBox="-15 -10 30 20" width="30" height="20" aria-hidden="true" focusable="false" ` +
		`fill="${PAPER}" stroke="${INK}" stroke-width="1.2" stroke-linejoin="round">${symbolOf(symbol, length, width)}</svg>`
	);
}

/**
 * Where the stations' labels stand, each on a corner of its own or along its edge, the first place that is
 * clear of the others and of the landmarks. They lie over everything else: a number is never under another
 * station.
 */
function labelPlaces(
	stations: readonly PlacedStation[],
	flags: readonly Area[],
	x: Scale,
	y: Scale,
	foot: number,
): readonly Point[] {
	return clearPlaces(
		stations.map((station) => placesOf(station, x, y, foot)),
		DISC_ROOM,
		flags.map(({ left, top, right, bottom }) => ({ x: (left + right) / 2, y: (top + bottom) / 2 })),
	);
}

/**
 * One place for each label among those where it may stand, the one that is liked best first: the first that
 * is clear of the labels before it, else the clearest.
 *
 * @param room units from the middle of a label to the next
 * @param marks what else labels keep as clear of
 */
export function clearPlaces(
	wanted: readonly (readonly Point[])[],
	room: number,
	marks: readonly Point[] = [],
): readonly Point[] {
	const taken: Point[] = [...marks];
	const clearance = ({ x: cx, y: cy }: Point) =>
		Math.min(...taken.map((other) => Math.hypot(other.x - cx, other.y - cy)), room);
	for (const places of wanted) {
		const [first = { x: 0, y: 0 }] = places;
		taken.push(
			places.find((one) => clearance(one) >= room) ??
				places.reduce((best, one) => (clearance(one) > clearance(best) ? one : best), first),
		);
	}
	return taken.slice(marks.length);
}

/** Drawing units between the middles of two labels: room for each to grow on a small plan. */
const DISC_ROOM = 2 * DISC + 10;

/** Where a station's label may stand: its corners, then along its edges, then inside. */
function placesOf({ left, top, length, width }: Rect, x: Scale, y: Scale, foot: number): readonly Point[] {
	// It stays clear of the metres beside the plan and under it, whose figures grow on a small one.
	const at = (across: number, down: number): Point => ({
		x: Math.max(x(left + across * length), LEFT + DISC - 3),
		y: Math.min(y(top + down * width), foot - 2 * DISC),
	});
	const corners = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
	const steps = [0.5, 0.25, 0.75];
	const edges = steps.flatMap((step) => [at(step, 0), at(1, step), at(step, 1), at(0, step)]);
	return [...corners, ...edges, ...steps.flatMap((across) => steps.map((down) => at(across, down)))];
}

function disc({ x: cx, y: cy }: Point, label: string): string {
	return (
		`<g class="plan-label" transform="translate(${tenth(cx)} ${tenth(cy)})"><circle r="${DISC}" fill="${INK}" stroke="${PAPER}" stroke-width="1.5"/>` +
		`${text(0, 4.2, label, { anchor: "middle", bold: true, fill: PAPER })}</g>`
	);
}

/** A bar of metres: one, then up to five as far as the plan is so long. */
function scaleBar(left: number, top: number, length: number, format: NumberFormat, say: PlanWords): string {
	const metres = Math.max(1, Math.min(5, Math.floor(length)));
	const figure = (at: number, words: string) =>
		text(left + at * METRE, top + 14, words, { anchor: at === 0 ? "start" : "middle", size: SMALL });
	return (
		`<g class="plan-scale" data-metre="${METRE}">` +
		box(left, top - 3, METRE, 5, INK, 1, INK, 0) +
		(metres > 1 ? box(left + METRE, top - 3, (metres - 1) * METRE, 5, PAPER, 1, INK, 0) : "") +
		figure(0, format(0)) +
		`${figure(metres, `${format(metres)} ${say.metres}`)}</g>`
	);
}

function n(value: number): number {
	return tenth(value);
}
