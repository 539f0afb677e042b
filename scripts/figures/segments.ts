/**
 * How long the parts of a body are, as shares of its standing height (stature = 1).
 *
 * The published numbers come first, then the few that only the drawing needs.
 */

/**
 * Drillis & Contini 1966, as given in Winter, *Biomechanics and Motor Control of Human Movement*,
 * fig. 4.1. Heights are above the floor, standing. Adults were measured: a child's legs are shorter
 * for its height, so anything worked out for children from these is approximate.
 */
export const SEGMENTS = {
	shoulderHeight: 0.818,
	hipHeight: 0.53,
	kneeHeight: 0.285,
	ankleHeight: 0.039,
	upperArm: 0.186,
	forearm: 0.146,
	hand: 0.108,
	thigh: 0.245,
	shank: 0.246,
	foot: 0.152,
} as const;

/** From the hip joint to the shoulder joint, along the spine. */
export const TRUNK = SEGMENTS.shoulderHeight - SEGMENTS.hipHeight;

/** From the shoulder joint to the fingertips. */
const ARM = SEGMENTS.upperArm + SEGMENTS.forearm + SEGMENTS.hand;

/** Where the fingertips of a standing body reach with the arms overhead. */
export const REACH = SEGMENTS.shoulderHeight + ARM;

/** From the shoulder joint to the crown of the head: what is left of the stature. */
export const SHOULDER_TO_CROWN = 1 - SEGMENTS.shoulderHeight;

/**
 * Widths for the view from the front, from the middle line: shoulder and hip joints. Chosen for the
 * drawing (near the same figure's breadths as far as remembered); nothing is worked out from them.
 */
export const HALF_WIDTHS = { shoulder: 0.105, hip: 0.047 } as const;

/** How far the heel stands behind the ankle. Chosen for the drawing. */
export const HEEL = 0.036;

/** Half the thickness of each part where it is drawn. Chosen so that a figure reads at 48 pixels. */
export const RADII = {
	head: 0.066,
	nose: 0.008,
	tail: 0.008,
	pelvis: 0.052,
	chest: 0.043,
	neck: 0.027,
	armTop: 0.036,
	elbow: 0.025,
	wrist: 0.017,
	fingers: 0.01,
	legTop: 0.052,
	knee: 0.035,
	ankle: 0.022,
	heel: 0.018,
	toe: 0.012,
	bar: 0.034,
} as const;

/** How far the tip of the nose stands before the middle of the head, and tied hair hangs. Chosen for the drawing. */
export const NOSE = 0.076;
export const HAIR = 0.15;
