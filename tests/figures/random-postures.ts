/** Postures with any angles that a club may write: the limits of the shapes' schema. */

import fc from "fast-check";
import type { Posture } from "../../scripts/figures/pose.ts";
import type { SideAngles } from "../../scripts/model.ts";

const angle = (min: number, max: number): fc.Arbitrary<number> =>
	fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

const sideKeys = {
	shoulder: angle(-120, 240),
	elbow: angle(20, 200),
	hip: angle(0, 280),
	knee: angle(0, 200),
	ankle: angle(40, 200),
};
const side: fc.Arbitrary<SideAngles> = fc.record(sideKeys, { requiredKeys: [] });

export const postures: fc.Arbitrary<Posture> = fc.record({
	angles: fc.record(
		{ ...sideKeys, spread: angle(0, 220), trunk: angle(-150, 150), left: side, right: side },
		{ requiredKeys: [] },
	),
	view: fc.constantFrom("side", "front"),
	tilt: angle(-360, 360),
	base: fc.constantFrom(
		"feet",
		"hands",
		"hands-and-feet",
		"head",
		"hips",
		"seat",
		"back",
		"front",
		"shoulders",
		"knees",
		"hang",
		"air",
	),
});
