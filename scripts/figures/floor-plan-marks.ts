/**
 * What a club says of the hall itself, on a floor plan: its walls, each a thick line broken by its word,
 * and its landmarks, each a flag that stands on its spot, with its name beside it.
 *
 * Words keep clear of the stations' labels and of each other; names stand inside the plan, and off
 * apparatus and ways where there is room. A name that had to move away has a line to its flag.
 */

import type { Side } from "../model.ts";
import { INK, PAPER, SMALL, SOFT, tenth, text, textLines, textWidth, wrapText } from "./chart-frame.ts";

/** A rectangle of the drawing, in its units. */
export interface Area {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

export interface Point {
	readonly x: number;
	readonly y: number;
}

/** Drawing units beside the plan that a wall with its word takes. */
export const WALL_ROOM = 14;
const WALL = 6;
const LINE_HEIGHT = 13;
/** Paper has a least size of letters: where a long plan is drawn smaller, they grow. */
const GROWTH = 1.12;
/** Between words and what they keep clear of. */
const AIR = 2;

/**
 * The walls of a plan: sides of the drawing as the plan's own when it lies flat (`start` is on its left,
 * `left` on top).
 *
 * @param plan the plan's edges
 * @param taken what no word may cover
 */
export function drawWalls(
	walls: readonly Side[],
	word: string,
	plan: Area,
	taken: readonly Area[],
): { readonly svg: string; readonly words: readonly Area[] } {
	const words: Area[] = [];
	const room = textWidth(word, SMALL, true) + 2 * AIR;
	const drawn = walls.map((side) => {
		const upright = side === "start" || side === "end";
		const middle = {
			start: plan.left - WALL_ROOM / 2,
			end: plan.right + WALL_ROOM / 2,
			left: plan.top - WALL_ROOM / 2,
			right: plan.bottom + WALL_ROOM / 2,
		}[side];
		// Two walls meet in their corner.
		const corner = (neighbour: Side) => (walls.includes(neighbour) ? WALL_ROOM / 2 + WALL / 2 : 0);
		const from = upright ? plan.top - corner("left") : plan.left - corner("start");
		const to = upright ? plan.bottom + corner("right") : plan.right + corner("end");
		const half = Math.min(room, to - from) / 2;
		const areaAt = (at: number): Area =>
			upright
				? { left: middle - 6, right: middle + 6, top: at - half, bottom: at + half }
				: { left: at - half, right: at + half, top: middle - 6, bottom: middle + 6 };
		const [first = 0.5, ...others] = ALONG;
		const places = [first, ...others].map((share) => from + half + share * (to - from - 2 * half));
		const crowd = (at: number) => taken.filter((one) => meet(areaAt(at), one)).length;
		const at = places.reduce((best, one) => (crowd(one) < crowd(best) ? one : best));
		words.push(areaAt(at));
		const line = (a: number, b: number): string =>
			b - a < 1
				? ""
				: upright
					? `M${tenth(middle)} ${tenth(a)}V${tenth(b)}`
					: `M${tenth(a)} ${tenth(middle)}H${tenth(b)}`;
		const turned = upright
			? ` transform="rotate(${side === "start" ? -90 : 90} ${tenth(middle)} ${tenth(at)})"`
			: "";
		return (
			`<g class="plan-wall" data-side="${side}"><path d="${line(from, at - half)}${line(at + half, to)}" fill="none" stroke="${INK}" stroke-width="${WALL}"/>` +
			`<g${turned}>${text(upright ? middle : at, (upright ? at : middle) + 3.8, word, { anchor: "middle", size: SMALL, bold: true })}</g></g>`
		);
	});
	return { svg: drawn.join(""), words };
}

/** Where along a wall its word stands, the place that is liked best first. */
const ALONG = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95];

/** What a flag takes around its spot. */
export function flagArea({ x, y }: Point): Area {
	return { left: x - 3, top: y - 14, right: x + 9, bottom: y + 3 };
}

/**
 * Flags and names.
 *
 * @param taken what no name may cover
 * @param busy what a name should not cover where there is room elsewhere
 * @param ways where arrows are, piece by piece: these still less
 */
export function drawLandmarks(
	landmarks: readonly { readonly name: string; readonly at: Point }[],
	plan: Area,
	taken: readonly Area[],
	busy: readonly Area[],
	ways: readonly Area[],
): { readonly svg: string; readonly names: readonly Area[] } {
	const flags = landmarks.map(({ at }) => flagArea(at));
	const names: Area[] = [];
	const drawn = landmarks.map(({ name, at }, i) => {
		const lines = wrapText(name, Math.min(NAME.width, plan.right - plan.left), SMALL, NAME.lines);
		const wide = Math.max(...lines.map((line) => textWidth(line, SMALL))) * GROWTH + 2;
		const high = lines.length * LINE_HEIGHT + 1;
		const own = flags[i] ?? flagArea(at);
		const shut = [...taken, ...flags, ...names];
		const cost = ({ area, away }: Place, most: number): number => {
			const out =
				Math.max(0, plan.left - area.left, area.right - plan.right) +
				Math.max(0, plan.top - area.top, area.bottom - plan.bottom);
			// Too far off already, whatever it covers.
			if (away / FAR > most || (out > 0 && OUT + out > most)) return Number.POSITIVE_INFINITY;
			const aired = grow(area, AIR);
			return (
				COVERED * shut.filter((one) => meet(one, one === own ? area : aired)).length +
				(out > 0 ? OUT + out : 0) +
				(busy.reduce((sum, one) => sum + shared(area, one), 0) +
					ON_WAY * ways.reduce((sum, one) => sum + shared(area, one), 0)) /
					(wide * high) +
				away / FAR
			);
		};
		let best = cheapest(placesAround(own, at, wide, high), cost);
		if (best.dear >= OUT) {
			const anywhere = cheapest(placesIn(plan, at, wide, high), cost);
			if (anywhere.dear < best.dear) best = anywhere;
		}
		const { area, away } = best.place;
		names.push(area);
		const x = (area.left + area.right) / 2;
		const y = (area.top + area.bottom) / 2;
		// The line ends before the name.
		const lead =
			away === 0
				? ""
				: `<path d="M${tenth(at.x)} ${tenth(at.y)}L${tenth(Math.min(Math.max(at.x, area.left), area.right))} ${tenth(Math.min(Math.max(at.y, area.top), area.bottom))}" fill="none" stroke="${SOFT}" stroke-dasharray="2 2"/>`;
		return (
			`<g class="plan-landmark">${lead}${flag(at)}` +
			`${backing(area)}${textLines(x, y, lines, { anchor: "middle", size: SMALL, leading: LINE_HEIGHT })}</g>`
		);
	});
	return { svg: drawn.join(""), names };
}

/** A name's lines: no wider than this in drawing units, unless one word is. */
const NAME = { width: 76, lines: 3 } as const;

/** Drawing units further off that are as bad as covering a mat: what is set up has to be seen. */
const FAR = 24;
/** How much worse it is to cover an arrow than a mat. */
const ON_WAY = 5;
/** What a place costs that covers another label, and one that is not inside the plan. */
const COVERED = 1000;
const OUT = 500;

interface Place {
	readonly area: Area;
	/** Drawing units further off than beside the flag. */
	readonly away: number;
}

function cheapest(
	places: readonly Place[],
	cost: (place: Place, most: number) => number,
): { readonly place: Place; readonly dear: number } {
	let best = { place: NOWHERE, dear: Number.POSITIVE_INFINITY };
	for (const place of places) {
		const dear = cost(place, best.dear);
		if (dear < best.dear) best = { place, dear };
	}
	return best;
}

/** Drawing units between places all over a plan. */
const STEP = 5;

/** All over the plan, for where nothing is free near the flag. */
function placesIn(plan: Area, at: Point, wide: number, high: number): readonly Place[] {
	const places: Place[] = [];
	for (let left = plan.left; left + wide <= plan.right; left += STEP) {
		for (let top = plan.top; top + high <= plan.bottom; top += STEP) {
			const away = Math.hypot(left + wide / 2 - at.x, top + high / 2 - at.y);
			places.push({ area: { left, top, right: left + wide, bottom: top + high }, away });
		}
	}
	return places;
}

const NOWHERE: Place = { area: { left: 0, top: 0, right: 0, bottom: 0 }, away: 0 };

/** Beside a flag, under and over it, at its corners; then the same further off. */
function placesAround(flag: Area, at: Point, wide: number, high: number): readonly Place[] {
	const sides = [
		[1, 0],
		[-1, 0],
		[0, 1],
		[0, -1],
		[1, 1],
		[-1, 1],
		[1, -1],
		[-1, -1],
	] as const;
	return [0, 8, 16, 26, 38, 52, 70, 90, 115].flatMap((away) =>
		sides.map(([across, down]): Place => {
			const left =
				across > 0 ? flag.right + away + AIR : across < 0 ? flag.left - away - AIR - wide : at.x - wide / 2;
			const top =
				down > 0
					? flag.bottom + away + AIR
					: down < 0
						? flag.top - away - AIR - high
						: (flag.top + flag.bottom - high) / 2;
			return { area: { left, top, right: left + wide, bottom: top + high }, away };
		}),
	);
}

/** Paper under a name. Not a rim around its letters: a printer sets those twice, and copied text has them twice. */
function backing({ left, top, right, bottom }: Area): string {
	return `<path d="M${tenth(left)} ${tenth(top)}H${tenth(right)}V${tenth(bottom)}H${tenth(left)}z" fill="${PAPER}" fill-opacity=".85"/>`;
}

/** A flag on its spot, with a rim of paper, for it may stand on mats. */
function flag({ x, y }: Point): string {
	const shape = "M0 0V-13L8 -9.5L0 -6";
	return (
		`<g transform="translate(${tenth(x)} ${tenth(y)})" stroke-linejoin="round" stroke-linecap="round">` +
		`<path d="${shape}" fill="${PAPER}" stroke="${PAPER}" stroke-width="5"/><path d="${shape}" fill="${INK}" stroke="${INK}" stroke-width="1.6"/><circle r="2.2" fill="${INK}"/></g>`
	);
}

export function grow({ left, top, right, bottom }: Area, by: number): Area {
	return { left: left - by, top: top - by, right: right + by, bottom: bottom + by };
}

function meet(a: Area, b: Area): boolean {
	return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** How much of two areas is the same, in square units. */
function shared(a: Area, b: Area): number {
	const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
	const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
	return across > 0 && down > 0 ? across * down : 0;
}
