/**
 * Draws what a body stands, sits, lies or presses on: mats, blocks, a beam, a board, a wedge, a wall.
 *
 * Heights are signs and not to scale: a beam for beginners is lower than one for competitions, and a
 * figure has to show only that it is a beam. Everything is drawn by its outline, so that it reads in
 * print, in dark mode and in black and white, and under the body, which touches its upper edge.
 */

import type { Ground } from "../model.ts";
import { drawBeamEnd, UNITS } from "./draw-body.ts";
import { INK, PAPER } from "./markup.ts";
import { HOLD_TOPS } from "./pose.ts";

/** How high the top of each ground stands over the floor, in statures. Chosen for the drawing. */
const TOPS: Readonly<Record<Ground, number>> = {
	floor: 0,
	mat: 0.05,
	"soft-mat": 0.2,
	wedge: 0.3,
	block: 0.26,
	box: 0.52,
	board: 0.09,
	beam: HOLD_TOPS.beam,
	bar: 0,
	rails: 0,
	wall: 0,
};

/** Statures: half the thickness of a beam's body seen from its side, and of a wall. */
const BEAM_DEEP = 0.09;
const WALL = 0.05;

/** How high the top of a ground stands over the floor, in statures. */
export function topOf(ground: Ground): number {
	return TOPS[ground];
}

/** A stretch of one ground, in drawing units; the floor is y = 0. */
export interface Stretch {
	readonly ground: Ground;
	readonly left: number;
	readonly right: number;
	/** The beam's end is seen, under this x. */
	readonly endOn?: number;
	/** The upper end of a wall, drawing units from the floor. */
	readonly wallTop?: number;
}

/** One stretch of ground as SVG elements; nothing for the floor itself, a bar or rails. */
export function drawGround(stretch: Stretch): string {
	const { ground } = stretch;
	const left = Math.round(stretch.left);
	const right = Math.round(stretch.right);
	const top = -Math.round(TOPS[ground] * UNITS);
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
		case "wall": {
			const wide = Math.round(WALL * UNITS);
			return `<path class="figure-wall" fill="${INK}" fill-opacity=".3" ${line} d="M${left} ${-Math.round(stretch.wallTop ?? 0)}h${wide}V0h${-wide}z"/>`;
		}
	}
}

/** How wide a wall is drawn, in drawing units. */
export const WALL_WIDTH = Math.round(WALL * UNITS);
