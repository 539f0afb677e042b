/**
 * How high what a body is on stands over the floor, in statures.
 *
 * Heights are signs and not to scale: a beam for beginners is lower than one for competitions, and a
 * figure has to show only that it is a beam. All are chosen for the drawing.
 */

import type { Ground } from "../model.ts";

/** The least height of what hands press on, where it is known. */
export const HOLD_TOPS = { beam: 0.3, rails: 0.14, block: 0.1 } as const;

/** How high a barrel or an octagon is: a back lies over it, and a bridge fits around it. */
export const ROLLER_TOP = 0.42;

/** What stands beside or under a body that is carried by the floor has no top of its own here. */
const TOPS: Readonly<Record<Ground, number>> = {
	floor: 0,
	mat: 0.05,
	"soft-mat": 0.2,
	wedge: 0.3,
	block: 0.26,
	box: 0.52,
	board: 0.09,
	beam: HOLD_TOPS.beam,
	"floor-bar": 0.22,
	table: 0.64,
	bar: 0,
	rails: 0,
	wall: 0,
	barrel: 0,
	octagon: 0,
};

/** How high the top of a ground stands over the floor, in statures. */
export function topOf(ground: Ground): number {
	return TOPS[ground];
}
