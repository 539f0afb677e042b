/**
 * Joints stay within what joints can do, in every shape and every phase of the demo, and so on the way
 * between phases, whose angles lie between those of the phases.
 *
 * Published: normal ranges of motion of the American Academy of Orthopaedic Surgeons, Joint Motion: Method of
 * Measuring and Recording (1965), from memory, so never the only check: the pictures are looked at. Beside each
 * stands how much more is let pass and why: common practice, what gymnasts show under their own weight.
 *
 * Shoulder and hip are measured from the nearer end of a curved trunk, as a body does; the shapes' angles are
 * from the line between its ends.
 */

import { expect, test } from "vitest";
import { type Posture, sideAngles } from "../../scripts/figures/pose.ts";
import { movementOf } from "../../scripts/figures/support.ts";
import { demoHandbook } from "../demo.ts";
import { DEMO_SHAPES, demoShape } from "./demo-shapes.ts";

interface Range {
	/** From the angles as published, in the shapes' own way of counting. */
	readonly from: number;
	readonly to: number;
	readonly less: number;
	readonly more: number;
}

const RANGES = {
	/** Extension 60, flexion 180; shoulders that open in bridges and hangs. */
	shoulder: { from: -60, to: 180, less: 35, more: 25 },
	/** Flexion 150. */
	elbow: { from: 30, to: 180, less: 0, more: 5 },
	/** Flexion 120, extension 30; knees pulled in by the hands, and legs that turn out behind. */
	hip: { from: 60, to: 210, less: 28, more: 12 },
	/** Flexion 135; heels pressed to the seat. */
	knee: { from: 45, to: 180, less: 12, more: 5 },
	/** Dorsal flexion 20 from 90, plantar flexion 50; under weight more, and 180 is the foot pointed with its toes. */
	ankle: { from: 70, to: 140, less: 10, more: 40 },
	/** Of the whole trunk: flexion 80, extension 25; bridges and arches of children. */
	trunk: { from: -25, to: 80, less: 70, more: 10 },
	/** Flexion 45, extension 45. */
	neck: { from: -45, to: 45, less: 0, more: 30 },
} as const satisfies Readonly<Record<string, Range>>;

function beyond(posture: Posture): readonly string[] {
	const { trunk = 0, neck = 0 } = posture.angles ?? {};
	const wrong: string[] = [];
	const check = (name: keyof typeof RANGES, value: number): void => {
		const { from, to, less, more } = RANGES[name];
		if (value < from - less || value > to + more) wrong.push(`${name} ${Math.round(value)}`);
	};
	check("trunk", trunk);
	check("neck", neck);
	for (const side of ["left", "right"] as const) {
		const { shoulder, elbow, hip, knee, ankle } = sideAngles(posture, side);
		check("shoulder", shoulder + trunk / 2);
		check("elbow", elbow);
		check("hip", hip + trunk / 2);
		check("knee", knee);
		check("ankle", ankle);
	}
	return wrong;
}

test("no shape bends a joint beyond its range; in a split the leg behind turns out", () => {
	const found = DEMO_SHAPES.filter(({ id }) => id !== "split").flatMap((shape) =>
		beyond(shape).map((wrong) => `${shape.id}: ${wrong}`),
	);
	expect(found).toEqual([]);
	expect(beyond(demoShape("split"))).toEqual(["hip 260"]);
});

test("no phase of a drill does", () => {
	const { curriculum } = demoHandbook();
	const found = [...curriculum.drills.values()].flatMap((drill) =>
		movementOf(drill, curriculum).stances.flatMap(({ posture, shape }, i) =>
			shape.id === "split" ? [] : beyond(posture).map((wrong) => `${drill.id} ${i + 1}: ${wrong}`),
		),
	);
	expect(found).toEqual([]);
});

test("what no body can do is found", () => {
	expect(beyond({ ...demoShape("straight"), angles: { knee: 10 } })).toEqual(["knee 10", "knee 10"]);
	expect(beyond({ ...demoShape("straight"), angles: { left: { hip: 260 } } })).toEqual(["hip 260"]);
});
