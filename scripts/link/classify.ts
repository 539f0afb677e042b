/**
 * Which body position a set of joint angles is judged as.
 *
 * The borders are those of the FIG Trampoline Code of Points, §14.6, in the wording of 2013–16; the
 * border of the straddle is the FIG Aerobic code's (edition not known). They are another discipline's
 * rules for judging, used here to name a drawn shape, and no rule for a club.
 */

import type { Angles } from "../model.ts";

/** Degrees. Trunk to thigh: more is straight. Thigh to shank: more is piked, the rest tucked. */
export const TRAMPOLINE_BORDER = 135;
/** Degrees between the legs, from which the legs are straddled. */
export const STRADDLE_BORDER = 90;

export interface Position {
	readonly position: "straight" | "pike" | "tuck";
	readonly straddle: boolean;
}

/**
 * The position of a body with both legs alike; undefined where the legs are in different positions,
 * which the rule says nothing about. A missing angle counts as straight; a hip opened beyond 180 bends
 * backwards and counts as straight, since a pike or a tuck folds to the front.
 */
export function classify(angles: Angles): Position | undefined {
	const left = positionOf(angles.left?.hip ?? angles.hip, angles.left?.knee ?? angles.knee);
	const right = positionOf(angles.right?.hip ?? angles.hip, angles.right?.knee ?? angles.knee);
	if (left !== right) return undefined;
	return { position: left, straddle: (angles.spread ?? 0) >= STRADDLE_BORDER };
}

function positionOf(hip = 180, knee = 180): Position["position"] {
	if (hip > TRAMPOLINE_BORDER) return "straight";
	return knee > TRAMPOLINE_BORDER ? "pike" : "tuck";
}
