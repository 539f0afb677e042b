/**
 * The phases of a drill in order of time, side by side, each on what it is done on.
 *
 *   1. pose each phase and give it a place as wide as it needs; a body that travels backward faces
 *      left, so that it still moves to the right, as time does
 *      bodies in the air follow the arc of their flight
 *   2. stretches of ground: phases beside each other share their mat, their beam, their wedge
 *   3. a bar or wall bars behind all the phases beside each other that are on them, drawn once; where the
 *      body flies, the path of the hips as a fine broken line behind the figures
 *   4. numbers and arrows under the floor: with a shaft and a full head where the body travels, open
 *      heads where it stays, as it does on a bar
 *
 * A stature is as large in every strip: sizes are in `em`, so that a style sheet sets the scale of all of
 * them by one size of letters.
 */

import type { Ground } from "../model.ts";
import { type Box, boxOf, drawBody, drawLongBar, drawParts, UNITS } from "./draw-body.ts";
import { drawFloor, withRoller } from "./figure.ts";
import { flightRises } from "./flight.ts";
import {
	drawGround,
	feetAt,
	isRoller,
	rollerAt,
	type Stretch,
	stepUnder,
	WALL_WIDTH,
	wallOnRight,
} from "./ground.ts";
import { drawHelpingHands, type PlacedHelper, placeHelpers } from "./helper.ts";
import { FAR, INK, type PictureWords, picture } from "./markup.ts";
import { discsOf, mirrored, movedBy, type Pose, poseOf, tiltedBy } from "./pose.ts";
import type { Movement, Stance } from "./support.ts";
import { topOf } from "./tops.ts";

/** Drawing units. */
const MARGIN = 80;
const GAP = 260;
const LEAST_WIDTH = 700;
/** How far a mat or a beam runs past the bodies on it. */
const OVER = 110;
const CAPTION = { numbered: 140, plain: 320 } as const;
const NUMBERS = 300;
/** One stature, in em. */
const EM = 5.625;

/** One phase of a strip, posed on its own ground: y = 0 is that ground's top. */
export interface PlacedBody {
	readonly pose: Pose;
	/** Where the pose's x = 0 stands, and how high its ground is over the floor, in drawing units. */
	readonly dx: number;
	readonly up: number;
	/** It faces left. */
	readonly turned: boolean;
}

interface Placed extends PlacedBody {
	readonly stance: Stance;
	readonly helpers: readonly PlacedHelper[];
	/** How much of `up` is flight. */
	readonly rise: number;
	/** On the page: the floor is y = 0. */
	readonly box: Box;
	readonly middle: number;
}

/** Draws the bodies of a strip as SVG elements. */
export interface BodiesOfStrip {
	gymnast(body: PlacedBody): string;
	helper(pose: Pose, dx: number): string;
}

const drawnHere: BodiesOfStrip = {
	gymnast: ({ pose, dx, up }) => `<g class="figure-step">${drawBody(movedBy(pose, 0, up / UNITS), dx)}</g>`,
	helper: (pose, dx) => `<g class="figure-helper">${drawParts(pose, dx, true)}</g>`,
};

/**
 * A strip of figures as SVG text. Throws without any stance: such a drill has no strip.
 *
 * @param bodies where a page holds each body once, what places it in the strip
 * @param numbers how large the steps' numbers are, in drawing units; 0 for a small strip with arrows alone
 */
export function drawStrip(
	movement: Pick<Movement, "stances" | "inOrder" | "travel">,
	words: PictureWords,
	bodies = drawnHere,
	numbers = NUMBERS,
): string {
	const { stances, inOrder, travel } = movement;
	if (stances.length === 0) throw new RangeError("a strip needs at least one stance");
	const placed = placeSideBySide(stances, travel);
	const stretches = stretchesOf(placed, travel);
	const edges = [
		...placed.map(({ box }) => box.right),
		...stretches.map(({ ground, right }) => right + (ground === "box" ? 120 : 20)),
		...placed.filter(onBar).map((one) => longBarOf(one, one)[1]),
	];
	const left = Math.floor(
		Math.min(
			0,
			...stretches.map((one) => one.left - (one.ground === "box" ? 120 : 20)),
			...placed.filter(onBar).map((one) => longBarOf(one, one)[0] - 20),
		),
	);
	const width = Math.ceil(Math.max(...edges) + MARGIN) - left;
	const walls = stretches.map(({ wallTop = 0 }) => -wallTop);
	const top = Math.floor(Math.min(...placed.map(({ box }) => box.top), ...walls) - MARGIN);
	const caption = inOrder ? (numbers > 0 ? numbers + CAPTION.numbered : CAPTION.plain) : 0;
	const bottom = Math.ceil(Math.max(caption, ...placed.map(({ box }) => box.bottom + MARGIN)));
	const height = bottom - top;
	const em = (units: number): string => `${Math.round((units * EM * 100) / UNITS) / 100}em`;

	return picture(
		words,
		"figure-strip",
		[left, top, width, height],
		{ width: em(width), height: em(height) },
		(inOrder && stances.some(({ posture }) => posture.base === "air") ? drawHips(placed) : "") +
			drawPosts(placed) +
			stretches.map(drawGround).join("") +
			placed.flatMap(({ helpers, dx }) => helpers.map(({ pose }) => bodies.helper(pose, dx))).join("") +
			placed.map(bodies.gymnast).join("") +
			placed.flatMap(({ helpers, dx }) => helpers.map((helper) => drawHelpingHands(helper, dx))).join("") +
			drawFloor(left + MARGIN, left + width - MARGIN, false) +
			(inOrder ? drawCaptions(placed, travel !== "none", numbers) : ""),
	);
}

// ── 1. places ──────────────────────────────────────────────────────────────────────────────────

function placeSideBySide(stances: readonly Stance[], travel: Movement["travel"]): readonly Placed[] {
	const slopes = slopesOf(stances);
	const poses = onOneHold(stances.map(({ posture, ground, hands }) => poseOf(posture, ground, hands)));
	const rises = flightRises(stances, poses);
	let edge = MARGIN + OVER;
	const placed = stances.map((stance, i) => {
		const { posture, ground, hands } = stance;
		const slope = slopes[i];
		const turned = travel === "backward" && posture.view === "side";
		const straight = poses[i] ?? poseOf(posture, ground, hands);
		const facing = turned ? mirrored(straight) : straight;
		const standing = posture.base === "feet" || posture.base === "air" || posture.view === "front";
		const pose = slope === undefined || standing ? facing : tiltedBy(facing, slope);
		const rise = Math.round((rises[i] ?? 0) * UNITS);
		const up = "y" in pose.support ? 0 : Math.round(topOf(ground) * UNITS) + rise;
		const helpers = helpersOf(stance, pose, up);
		const own = [
			isRoller(ground) ? withRoller(boxOf(pose), rollerAt(pose, posture.base, turned)) : boxOf(pose),
			...helpers.map(({ box }) => ({ ...box, top: box.top + up, bottom: box.bottom + up })),
		].reduce(joined);
		const atWall = ground === "wall" ? WALL_WIDTH : 0;
		const width = Math.max(own.right - own.left + atWall, LEAST_WIDTH);
		const middle = edge + width / 2;
		const aside = wallOnRight(posture, stances, travel) ? -atWall / 2 : atWall / 2;
		const dx = middle - (own.left + own.right) / 2 + aside;
		edge += width + GAP;
		const box = {
			left: own.left + dx,
			right: own.right + dx,
			top: own.top - up,
			bottom: Math.max(0, own.bottom - up),
		};
		return { stance, pose, turned, helpers, dx, up, rise, box, middle };
	});
	return placed.map((one, i) => onRope(ontoWedge(placed, one, i)));
}

/** Hands on a rope are round no bar. */
function onRope(one: Placed): Placed {
	const { support } = one.pose;
	if (one.stance.hung !== "rope" || support.kind !== "bar") return one;
	return { ...one, pose: { ...one.pose, support: { ...support, kind: "rope" } } };
}

/** A body on a wedge stands as high as the drawn slope is under it. */
function ontoWedge(placed: readonly Placed[], one: Placed, i: number): Placed {
	const { stance, pose, dx, up, rise, box } = one;
	if (stance.ground !== "wedge" || "y" in pose.support) return one;
	const [first, last] = runOf(placed, i);
	const left = (placed[first] ?? one).box.left - OVER;
	const right = (placed[last] ?? one).box.right + OVER;
	const feet = (pose.left.leg.ankle.x + pose.right.leg.ankle.x) / 2;
	const at = (stance.posture.base === "feet" ? feet : pose.hip.x) * UNITS + dx;
	const here = Math.round(topOf("wedge") * UNITS * (1 - (at - left) / (right - left))) + rise;
	return {
		...one,
		up: here,
		helpers: helpersOf(stance, pose, here),
		box: { ...box, top: box.top + up - here, bottom: Math.max(0, box.bottom + up - here) },
	};
}

/** Who helps a body that is so much over the floor, in drawing units. */
function helpersOf({ helpers = [] }: Stance, pose: Pose, up: number): readonly PlacedHelper[] {
	return helpers.length === 0 ? [] : placeHelpers(helpers, movedBy(pose, 0, up / UNITS));
}

function joined(a: Box, b: Box): Box {
	return {
		left: Math.min(a.left, b.left),
		top: Math.min(a.top, b.top),
		right: Math.max(a.right, b.right),
		bottom: Math.max(a.bottom, b.bottom),
	};
}

/** The first and the last of the phases beside each other that share a phase's ground. */
function runOf(
	phases: readonly { readonly stance: Pick<Stance, "ground"> }[],
	i: number,
): readonly [number, number] {
	const ground = phases[i]?.stance.ground;
	let first = i;
	while (first > 0 && phases[first - 1]?.stance.ground === ground) first--;
	let last = i;
	while (phases[last + 1]?.stance.ground === ground) last++;
	return [first, last];
}

/**
 * Bodies on a bar share its height, and it stands no higher than one of them needs; bodies on other
 * holds share the height of the tallest.
 */
export function onOneHold(poses: readonly Pose[]): readonly Pose[] {
	const onBar = poses.filter(({ support }) => support.kind === "bar");
	const heads = onBar.map(({ head }) => ({ y: head.y - UNDER_HEAD, r: head.r }));
	const low = Math.min(...[...onBar.flatMap(discsOf), ...heads].map(({ y, r }) => y - r));
	const down = Math.max(0, low - CLEAR);
	const tops = new Map<string, number>();
	for (const { support } of poses) {
		if ("y" in support) tops.set(support.kind, Math.max(support.y, tops.get(support.kind) ?? 0));
	}
	return poses.map((pose) => {
		const { support } = pose;
		if (!("y" in support)) return pose;
		const y = support.kind === "bar" ? support.y - down : (tops.get(support.kind) ?? support.y);
		return { ...movedBy(pose, 0, y - support.y), support: { ...support, y } };
	});
}

/** How far a body on a bar stays clear of the floor, in statures; a head that hangs down, and its hair, further. */
const CLEAR = 0.1;
const UNDER_HEAD = 0.12;

/** How steep the wedge under each phase is, degrees down to the right; undefined where there is none. */
function slopesOf(stances: readonly Stance[]): readonly (number | undefined)[] {
	const phases = stances.map((stance) => ({ stance }));
	return stances.map(({ ground }, i) => {
		if (ground !== "wedge") return undefined;
		const [first, last] = runOf(phases, i);
		return (Math.atan2(topOf("wedge"), (last - first + 1) * WEDGE_STEP) * 180) / Math.PI;
	});
}

/** About how much of a wedge a phase takes, in statures. */
const WEDGE_STEP = 0.75;

// ── 2. ground ──────────────────────────────────────────────────────────────────────────────────

function stretchesOf(placed: readonly Placed[], travel: Movement["travel"]): readonly Stretch[] {
	const stretches: Stretch[] = [];
	const all = placed.map(({ stance }) => stance);
	/** Grounds of the phase before, which go on under this one. */
	let before: readonly Ground[] = [];
	const spread = (stretch: Stretch): void => {
		const { ground, right } = stretch;
		const at = before.includes(ground)
			? stretches.findLastIndex((one) => one.ground === ground && one.endOn === undefined)
			: -1;
		const last = stretches[at];
		if (last === undefined || stretch.endOn !== undefined) stretches.push(stretch);
		else stretches[at] = { ...last, right };
	};
	for (const one of placed) {
		const { stance, pose, box, dx, turned } = one;
		const held = "y" in pose.support;
		const overMat = stance.overMat === true && pose.support.kind !== "beam";
		const ground = held && overMat ? "mat" : stance.ground;
		const left = box.left - OVER;
		const right = box.right + OVER;
		const step = held ? undefined : stepUnder(stance, pose, dx, { left, right, over: OVER });
		if (step !== undefined) {
			const [low, high] = step;
			spread(low);
			stretches.push(high);
			// What the hands are on ahead of the body goes on under the next phase.
			before = high.right > right - 2 * OVER ? [low.ground, high.ground] : [low.ground];
			continue;
		}
		if (isRoller(ground)) {
			spread({ ground, left, right, endOn: rollerAt(pose, stance.posture.base, turned) + dx });
		} else if (ground === "floor-bar") {
			if (overMat) spread({ ground: "mat", left, right });
			spread({ ground, left, right, endOn: feetAt(pose) + dx });
		} else if (held && ground !== "mat") {
			// What is held stands by itself.
		} else if (ground === "wall") {
			const at = wallOnRight(stance.posture, all, travel) ? box.right : box.left - WALL_WIDTH;
			const wallTop = Math.max(-box.top, 1.15 * UNITS);
			stretches.push({ ground, left: at, right: at + WALL_WIDTH, wallTop });
		} else if (ground === "beam" && pose.view === "front" && travel !== "sideways") {
			stretches.push({ ground, left, right, endOn: pose.hip.x * UNITS + dx });
		} else spread({ ground, left, right });
		before = ground === "floor-bar" && overMat ? ["mat"] : [ground];
	}
	return stretches;
}

/** How far a bar seen along its length runs past the bodies' hands. */
const BAR_OVER = 0.3 * UNITS;
/** From one rung of wall bars to the next, and to the floor below the lowest, in drawing units. */
const RUNGS = { apart: 0.16 * UNITS, least: 0.1 * UNITS } as const;

const onBar = ({ pose }: Placed): boolean => pose.support.kind === "bar";

/**
 * Bars, behind the bodies: phases beside each other are on the same one, so it is drawn once, along its
 * length, on two uprights.
 */
function drawPosts(placed: readonly Placed[]): string {
	let drawn = drawRopes(placed);
	for (let i = 0; i < placed.length; i++) {
		const first = placed[i];
		if (first === undefined || !onBar(first)) continue;
		let last = first;
		while (true) {
			const next = placed[i + 1];
			if (next === undefined || !onBar(next) || next.stance.hung !== first.stance.hung) break;
			last = next;
			i++;
		}
		drawn += barUnder(first, last);
	}
	return drawn;
}

/** A rope for each body that climbs it, from over the hands down to the floor. */
function drawRopes(placed: readonly Placed[]): string {
	const ropes = placed.flatMap(({ pose: { support }, dx, box }) =>
		support.kind === "rope" ? [`M${Math.round(support.left * UNITS + dx)} ${Math.round(box.top)}V0`] : [],
	);
	return ropes.length === 0
		? ""
		: `<path class="figure-rope" fill="none" stroke="${FAR}" stroke-width="44" d="${ropes.join("")}"/>`;
}

/** How far the long bars of a strip reach to its sides. */
function longBarOf(first: Placed, last: Placed): readonly [left: number, right: number] {
	const [a, b] = [first.pose.support, last.pose.support];
	return "y" in a && "y" in b
		? [Math.round(a.left * UNITS + first.dx - BAR_OVER), Math.round(b.right * UNITS + last.dx + BAR_OVER)]
		: [first.box.left, last.box.right];
}

function barUnder(first: Placed, last: Placed): string {
	const { support } = first.pose;
	if (!("y" in support)) return "";
	const [left, right] = longBarOf(first, last);
	const rungs: number[] = [];
	if (first.stance.hung === "wall-bars") {
		for (let y = support.y * UNITS - RUNGS.apart; y > RUNGS.least; y -= RUNGS.apart)
			rungs.push(-Math.round(y));
	}
	return drawLongBar({ left, right }, support.y, 0, rungs, first.stance.hung);
}

// ── 3. hips ────────────────────────────────────────────────────────────────────────────────────

const hipOf = ({ pose, dx, up }: Placed): string =>
	`${Math.round(pose.hip.x * UNITS + dx)} ${Math.round(-pose.hip.y * UNITS - up)}`;

function drawHips(placed: readonly Placed[]): string {
	if (placed.length < 2) return "";
	return `<path class="figure-path" fill="none" stroke="${INK}" stroke-width="20" stroke-dasharray="60 50" d="M${placed
		.map(hipOf)
		.join("L")}"/>`;
}

// ── 4. numbers and arrows ──────────────────────────────────────────────────────────────────────

function drawCaptions(placed: readonly Placed[], travels: boolean, size: number): string {
	const numbers = placed.map(({ middle }, i) => `<text x="${Math.round(middle)}">${i + 1}</text>`);
	const gaps = placed.slice(1).map(({ middle }, i) => {
		const room = Math.max(120, size * 0.667);
		const from = (placed[i]?.middle ?? middle) + room;
		return { from: Math.round(from), to: Math.round(middle - room) };
	});
	const stays = (i: number): boolean =>
		!travels || [i, i + 1].every((k) => placed[k]?.pose.support.kind === "bar");
	const on = gaps.flatMap(({ from, to }, i) =>
		stays(i) ? [] : [`M${from} 260H${to - 60}m-60-70l120 70l-120 70z`],
	);
	const still = gaps.flatMap(({ from, to }, i) =>
		stays(i) ? [`M${Math.round((from + to) / 2) - 40} 200l80 60l-80 60`] : [],
	);
	const path = (d: readonly string[], name: string, fill: string): string =>
		d.length === 0
			? ""
			: `<path class="figure-${name}" fill="${fill}" stroke="${INK}" stroke-width="25" stroke-linecap="round" stroke-linejoin="round" d="${d.join("")}"/>`;
	return (
		(size > 0
			? `<g class="figure-numbers" transform="translate(0 ${60 + size})" fill="${INK}" font-size="${size}" text-anchor="middle">${numbers.join("")}</g>`
			: "") +
		path(on, "arrows", INK) +
		path(still, "still-arrows", "none")
	);
}
