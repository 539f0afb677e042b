/**
 * Draws what a body stands, sits, lies or presses on: mats, blocks, a beam, a board, a wedge, a wall.
 *
 * Heights are signs and not to scale (tops.ts). Everything is drawn by its outline, so that it reads in
 * print, in dark mode and in black and white, and under the body, which touches its upper edge.
 */

import type { Base, Direction, Ground } from "../model.ts";
import { drawBeamEnd, UNITS } from "./draw-body.ts";
import { INK, PAPER } from "./markup.ts";
import { discsOf, type Pose, type Posture, trunkDiscs } from "./pose.ts";
import { RADII } from "./segments.ts";
import type { Stance } from "./support.ts";
import { ROLLER_TOP, topOf } from "./tops.ts";

/** Statures: half the thickness of a beam's body seen from its side, and of a wall. */
const BEAM_DEEP = 0.09;
const WALL = 0.05;

/** A stretch of one ground, in drawing units; the floor is y = 0. */
export interface Stretch {
	readonly ground: Ground;
	readonly left: number;
	readonly right: number;
	/** The end of a beam, a bar or a roller is seen, with its middle at this x. */
	readonly endOn?: number;
	/** The upper end of a wall, drawing units from the floor. */
	readonly wallTop?: number;
}

/** Half the length of a floor bar's foot, in drawing units. */
export const FLOOR_BAR_FOOT = 200;

/** One stretch of ground as SVG elements; nothing for the floor itself, a bar or rails. */
export function drawGround(stretch: Stretch): string {
	const { ground } = stretch;
	const left = Math.round(stretch.left);
	const right = Math.round(stretch.right);
	const top = -Math.round(topOf(ground) * UNITS);
	const line = `stroke="${INK}" stroke-width="36" stroke-linejoin="round"`;
	// The upper edge is drawn inside, so that what touches it is not covered by half a line.
	const edge = top + 18;
	const solid = (d: string): string => `<path class="figure-${ground}" fill="${PAPER}" ${line} d="${d}"/>`;
	const box = `M${left} ${edge}H${right}V0H${left}z`;
	switch (ground) {
		case "floor":
		case "bar":
		case "rails":
			return "";
		case "mat":
			return `<path class="figure-mat" fill="${INK}" fill-opacity=".3" ${line} d="${box}"/>`;
		case "soft-mat":
			return solid(`${box}M${left} ${Math.round(top / 2)}H${right}`);
		case "block":
			return solid(box);
		case "box": {
			// A vaulting box stands wider at its foot; the line under its top tells it from a block.
			const foot = Math.round(0.05 * UNITS);
			return solid(
				`M${left} ${edge}H${right}L${right + foot} 0H${left - foot}zM${left - 12} ${edge + 220}H${right + 12}`,
			);
		}
		case "table": {
			// A thick top, lower towards the run, on one column.
			const [near, far] = [edge + 90, edge + 300];
			const middle = Math.round((left + right) / 2);
			return solid(
				`M${left} ${near}C${left} ${edge + 30} ${left + 60} ${edge} ${left + 160} ${edge}H${right}V${far}H${left + 120}C${left + 40} ${far} ${left} ${far - 60} ${left} ${near}zM${middle - 150} ${far}V0H${middle + 150}V${far}`,
			);
		}
		case "board": {
			// It rises to the end that the body leaves from; its middle is as high as its top is said to be.
			const rise = Math.round(0.03 * UNITS);
			const [low, high] = [edge + rise, edge - rise];
			return solid(
				`M${left} ${low}L${right} ${high}V${high + 50}L${left} ${low + 50}zM${right - 60} ${high + 50}V0`,
			);
		}
		case "wedge":
			return solid(`M${left} ${edge}V0H${right}z`);
		case "beam": {
			if (stretch.endOn !== undefined) return drawBeamEnd(Math.round(stretch.endOn), top, 0);
			const under = top + Math.round(BEAM_DEEP * UNITS);
			const inset = 260;
			const feet = [left + inset, right - inset].map((x) => `M${x} ${under}V0M${x - 120} 0h240`).join("");
			return solid(`M${left} ${edge}H${right}V${under}H${left}z${feet}`);
		}
		case "floor-bar": {
			// Seen end on, on its foot; as thick as other bars.
			const x = Math.round(stretch.endOn ?? (left + right) / 2);
			const r = Math.round(RADII.bar * UNITS) - 18;
			const foot = `M${x} ${edge + 2 * r}V0M${x - FLOOR_BAR_FOOT} 0h${2 * FLOOR_BAR_FOOT}`;
			return solid(foot + disc(x, edge + r, r));
		}
		case "barrel":
		case "octagon": {
			const x = Math.round(stretch.endOn ?? (left + right) / 2);
			const r = Math.round((ROLLER_TOP / 2) * UNITS) - 18;
			return solid(ground === "barrel" ? disc(x, -r - 18, r) : octagon(x, -r - 18, r));
		}
		case "wall": {
			const wide = Math.round(WALL * UNITS);
			return `<path class="figure-wall" fill="${INK}" fill-opacity=".3" ${line} d="M${left} ${-Math.round(stretch.wallTop ?? 0)}h${wide}V0h${-wide}z"/>`;
		}
	}
}

function disc(x: number, y: number, r: number): string {
	return `M${x - r} ${y}a${r} ${r} 0 0 0 ${2 * r} 0a${r} ${r} 0 0 0 ${-2 * r} 0z`;
}

/** A regular octagon that stands on a side; `r` from its middle to its sides. */
function octagon(x: number, y: number, r: number): string {
	const half = Math.round(r * Math.tan(Math.PI / 8));
	const slant = r - half;
	return `M${x - half} ${y - r}h${2 * half}l${slant} ${slant}v${2 * half}l${-slant} ${slant}h${-2 * half}l${-slant} ${-slant}v${-2 * half}z`;
}

export function isRoller(ground: Ground): boolean {
	return ground === "barrel" || ground === "octagon";
}

/**
 * Where the middle of a roller is, in drawing units: under the middle of a trunk that lies or bends over
 * it; else beside the body, at its back.
 */
export function rollerAt(pose: Pose, base: Base, turned: boolean): number {
	const half = ROLLER_TOP / 2;
	const middle = trunkDiscs(pose)[2] ?? pose.hip;
	if (base === "back" || base === "front") return middle.x * UNITS;
	if (base === "hands-and-feet") {
		const hands = (pose.left.arm.wrist.x + pose.right.arm.wrist.x) / 2;
		return hands * (UNITS / 2) + feetAt(pose) / 2;
	}
	const upright = pose.chest.y >= pose.hip.y;
	const way = upright === turned ? 1 : -1;
	const beside = discsOf(pose).filter(({ y, r }) => y - r < ROLLER_TOP);
	return way * (Math.max(...beside.map(({ x, r }) => way * x + r), way * middle.x) + half) * UNITS;
}

/**
 * The two grounds of a body whose hands are on another one than its feet, in drawing units: the lower
 * one runs under the whole body, between `left` and `right`, and the higher one stands where its hands or
 * feet are. Undefined where both are on the same.
 *
 * @param over how far a ground runs past what is on it
 */
export function stepUnder(
	{ ground, hands, posture }: Pick<Stance, "ground" | "hands" | "posture">,
	pose: Pose,
	dx: number,
	{ left, right, over }: { readonly left: number; readonly right: number; readonly over: number },
): readonly [low: Stretch, high: Stretch] | undefined {
	if (hands === undefined || hands === ground || posture.base !== "hands-and-feet") return undefined;
	const arms = [pose.left.arm, pose.right.arm];
	const legs = [pose.left.leg, pose.right.leg];
	const handsAt = arms.flatMap(({ wrist, fingers }) => [wrist.x, fingers.x]);
	const feetAt = legs.flatMap(({ heel, toe }) => [heel.x, toe.x]);
	const isUp = topOf(hands) > topOf(ground);
	const there = isUp ? handsAt : feetAt;
	const from = Math.min(...there) * UNITS + dx;
	const to = Math.max(...there) * UNITS + dx;
	const [low, high] = isUp ? [ground, hands] : [hands, ground];
	return [
		{ ground: low, left, right },
		{
			ground: high,
			left: from - over,
			right: to + over,
			...(high === "floor-bar" ? { endOn: (from + to) / 2 } : {}),
		},
	];
}

/** The middle of the feet of a body that stands on a bar near the floor, in drawing units. */
export function feetAt({ left, right }: Pose): number {
	const [a, b] = [left.leg, right.leg];
	return ((a.heel.x + a.toe.x + b.heel.x + b.toe.x) / 4) * UNITS;
}

/**
 * Where a wall stands: before a body that goes to it, forward (a kick to handstand, its back to the wall)
 * or backward (a bridge walked down the wall), and behind the back of a headstand; else on the left, at the
 * back of a body that stands and at the feet of a plank, from which a handstand is walked up.
 */
export function wallOnRight(
	{ base, view }: Pick<Posture, "base" | "view">,
	stances: readonly { readonly posture: Pick<Posture, "base"> }[],
	travel: Direction,
): boolean {
	if (travel === "backward" && view === "side") return base !== "head";
	const climbs = stances[0]?.posture.base === "hands-and-feet";
	return base === "head" || (travel === "forward" && !climbs);
}

/** How wide a wall is drawn, in drawing units. */
export const WALL_WIDTH = Math.round(WALL * UNITS);
