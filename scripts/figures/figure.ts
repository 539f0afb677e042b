/**
 * One shape as one picture: the posed body in a square, on the floor or bar that carries it.
 *
 * Small shapes are drawn larger than long ones, so that each fills its square down to 48 pixels.
 */

import type { Ground } from "../model.ts";
import { type Box, boxOf, drawBody, drawLongBar, UNITS } from "./draw-body.ts";
import { drawGround, FLOOR_BAR_FOOT, feetAt, isRoller, rollerAt, WALL_WIDTH } from "./ground.ts";
import { INK, PAPER, type PictureWords, picture } from "./markup.ts";
import { movedBy, type Pose, type Posture, poseOf, tiltedBy } from "./pose.ts";
import { ROLLER_TOP, topOf } from "./tops.ts";

export interface FigureOptions extends PictureWords {
	/** Width and height in CSS pixels where no style sheet says otherwise; 96 if left out. */
	readonly size?: number;
	/** What it is done on: the floor if left out, or what the shape needs to hang or press on. */
	readonly ground?: Ground;
	/** Whether it stands in no row: what is empty above a low shape is cut off. */
	readonly alone?: boolean;
	/** A tick or a cross in the corner: what is right, and what is wrong. */
	readonly mark?: "right" | "wrong";
}

/** The least a square shows, in statures: keeps a tucked body from being blown up. */
const LEAST = 0.78;
/** Free space around, in drawing units. */
const MARGIN = 60;

/** A shape's figure as SVG text, on what it is done on. */
export function drawFigure(posture: Posture, options: FigureOptions): string {
	const { ground = "floor" } = options;
	const standing = poseOf(posture, options.ground);
	const held = "y" in standing.support;
	const pose = held
		? standing
		: ground === "wedge"
			? ontoSlope(standing, posture)
			: movedBy(standing, 0, topOf(ground));
	const roller = isRoller(ground) ? rollerAt(pose, posture.base, false) : undefined;
	const own =
		ground === "wedge" && !held
			? withSlope(boxOf(pose), slopeOf(standing))
			: roller === undefined
				? ground === "floor-bar" && !held
					? around(boxOf(pose), feetAt(pose), FLOOR_BAR_FOOT)
					: boxOf(pose)
				: withRoller(boxOf(pose), roller);
	const atWall = ground === "wall" && !held ? WALL_WIDTH : 0;
	const wallOnRight = posture.base === "head";
	const box = {
		...own,
		left: own.left - (wallOnRight ? 0 : atWall),
		right: own.right + (wallOnRight ? atWall : 0),
	};
	const side = Math.ceil(Math.max(box.right - box.left, box.bottom - box.top, LEAST * UNITS) + 2 * MARGIN);
	const left = Math.round((box.left + box.right - side) / 2);
	// The floor keeps to the bottom of the square, so that figures in a row stand level.
	const hanging = pose.support.kind === "bar";
	const top = Math.round(hanging ? (box.top + box.bottom - side) / 2 : box.bottom + MARGIN - side);
	const cut = options.alone === true ? Math.max(0, Math.floor(box.top - MARGIN - top)) : 0;
	const size = options.size ?? 96;
	const edges = { left: left + MARGIN, right: left + side - MARGIN };
	const wallAt = wallOnRight ? own.right : own.left - WALL_WIDTH;
	const under = held
		? ""
		: drawGround({
				ground,
				...(ground === "wall" ? { left: wallAt, right: wallAt + WALL_WIDTH } : edges),
				...(ground === "wedge" ? slopeOf(standing) : {}),
				...(ground === "box" ? { left: edges.left + MARGIN, right: edges.right - MARGIN } : {}),
				wallTop: -top - MARGIN,
				...(roller === undefined ? {} : { endOn: roller }),
				...(ground === "floor-bar" ? { endOn: feetAt(pose) } : {}),
				...(posture.view === "front" && ground === "beam" ? { endOn: pose.hip.x * UNITS } : {}),
			});
	return picture(
		options,
		"figure",
		[left, top + cut, side, side - cut],
		{ width: size, height: Math.round((size * (side - cut)) / side) },
		under +
			(pose.support.kind === "bar" ? drawLongBar(edges, pose.support.y, Math.min(0, top + side)) : "") +
			drawBody(pose, 0) +
			(hanging ? "" : drawFloor(edges.left, edges.right, pose.support.kind === "air" && ground === "floor")) +
			(options.mark === undefined ? "" : drawMark(options.mark, left + side, top, side)),
	);
}

/** A tick or a cross in the upper corner on the right of a square. */
function drawMark(mark: "right" | "wrong", right: number, top: number, side: number): string {
	const size = Math.round(side * 0.13);
	const [x, y] = [right - size - 70, top + 70];
	const d =
		mark === "right"
			? `M${x} ${y + size / 2}L${x + size * 0.4} ${y + size}L${x + size} ${y}`
			: `M${x} ${y}L${x + size} ${y + size}M${x + size} ${y}L${x} ${y + size}`;
	const line = (stroke: string, width: number): string =>
		`<path class="figure-mark" fill="none" stroke="${stroke}" stroke-width="${width}" stroke-linecap="round" stroke-linejoin="round" d="${d}"/>`;
	return line(PAPER, Math.round(side * 0.07)) + line(INK, Math.round(side * 0.032));
}

/** The ends of a wedge under a body, in drawing units. */
function slopeOf(standing: Pose): { readonly left: number; readonly right: number } {
	const { left, right } = boxOf(standing);
	return { left: Math.round(Math.min(left, -SLOPE)), right: Math.round(Math.max(right, SLOPE)) };
}

function withSlope(box: Box, { left, right }: ReturnType<typeof slopeOf>): Box {
	return {
		...box,
		left: Math.min(box.left, left),
		right: Math.max(box.right, right),
		top: Math.min(box.top, -topOf("wedge") * UNITS),
	};
}

/** A box that takes in the roller whose middle is at an x. */
export function withRoller(box: Box, at: number): Box {
	return around(box, at, (ROLLER_TOP / 2) * UNITS);
}

function around(box: Box, at: number, half: number): Box {
	return { ...box, left: Math.min(box.left, at - half), right: Math.max(box.right, at + half) };
}

/** Half the least length of a wedge, in drawing units. */
const SLOPE = 800;

/** A body on a wedge: as high as the slope is under it, and turned with it unless it stands. */
function ontoSlope(standing: Pose, { base, view }: Posture): Pose {
	const { left, right } = slopeOf(standing);
	const feet = (standing.left.leg.ankle.x + standing.right.leg.ankle.x) / 2;
	const at = (base === "feet" ? feet : standing.hip.x) * UNITS;
	const high = topOf("wedge");
	const up = high * (1 - (at - left) / (right - left));
	const degrees = (Math.atan2(high * UNITS, right - left) * 180) / Math.PI;
	const upright = base === "feet" || base === "air" || view === "front";
	return movedBy(upright ? standing : tiltedBy(standing, degrees), 0, up);
}

/** The floor at y = 0; broken and fainter where the body is in the air above it. */
export function drawFloor(left: number, right: number, faint: boolean): string {
	return (
		`<path class="figure-floor" stroke="${INK}" stroke-width="30" stroke-linecap="round"` +
		(faint ? ` stroke-dasharray="20 90" stroke-opacity=".6"` : "") +
		` d="M${Math.round(left)} 15H${Math.round(right)}"/>`
	);
}
