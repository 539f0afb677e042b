/**
 * One shape as one picture: the posed body in a square, on the floor or bar that carries it.
 *
 * Small shapes are drawn larger than long ones, so that each fills its square down to 48 pixels.
 */

import { boxOf, drawBody, UNITS } from "./draw-body.ts";
import { INK, picture, type Words } from "./markup.ts";
import { type Posture, poseOf } from "./pose.ts";

export interface FigureOptions extends Words {
	/** Width and height in CSS pixels where no style sheet says otherwise; 96 if left out. */
	readonly size?: number;
}

/** The least a square shows, in statures: keeps a tucked body from being blown up. */
const LEAST = 0.78;
/** Free space around, in drawing units. */
const MARGIN = 60;

/** A shape's figure as SVG text. */
export function drawFigure(posture: Posture, options: FigureOptions): string {
	const pose = poseOf(posture);
	const box = boxOf(pose);
	const side = Math.ceil(Math.max(box.right - box.left, box.bottom - box.top, LEAST * UNITS) + 2 * MARGIN);
	const left = Math.round((box.left + box.right - side) / 2);
	// The floor keeps to the bottom of the square, so that figures in a row stand level.
	const hanging = pose.support.kind === "bar";
	const top = Math.round(hanging ? (box.top + box.bottom - side) / 2 : box.bottom + MARGIN - side);
	const size = options.size ?? 96;
	return picture(
		options,
		"figure",
		[left, top, side, side],
		{ width: size, height: size },
		drawBody(pose, 0) +
			(hanging ? "" : drawFloor(left + MARGIN, left + side - MARGIN, pose.support.kind === "air")),
	);
}

/** The floor at y = 0; broken and fainter where the body is in the air above it. */
export function drawFloor(left: number, right: number, faint: boolean): string {
	return (
		`<path class="figure-floor" stroke="${INK}" stroke-width="30" stroke-linecap="round"` +
		(faint ? ` stroke-dasharray="20 90" stroke-opacity=".6"` : "") +
		` d="M${Math.round(left)} 15H${Math.round(right)}"/>`
	);
}
