import { describe, expect, test } from "vitest";
import { flightRises } from "../../scripts/figures/flight.ts";
import { type Posture, poseOf } from "../../scripts/figures/pose.ts";
import { topOf } from "../../scripts/figures/tops.ts";
import type { Ground } from "../../scripts/model.ts";
import { demoShape } from "./demo-shapes.ts";

type Phase = readonly [id: string, ground: Ground, base?: Posture["base"]];

/** Heights of the hips over the floor, as they are drawn. */
function hips(...phases: readonly Phase[]): readonly number[] {
	const stances = phases.map(([id, ground, base]) => ({
		posture: base === undefined ? demoShape(id) : { ...demoShape(id), base },
		ground,
	}));
	const poses = stances.map(({ posture, ground }) => poseOf(posture, ground));
	const rises = flightRises(stances, poses);
	return poses.map(
		({ hip, support }, i) =>
			hip.y + ("y" in support ? 0 : topOf(stances[i]?.ground ?? "floor")) + (rises[i] ?? 0),
	);
}

describe("a body in the air", () => {
	test.each(["tuck", "pike", "straddle"])("rises in a %s jump from stand to landing", (id) => {
		const [stand = 0, top = 0, landing = 0] = hips(
			["straight", "floor"],
			[id, "floor"],
			["landing-squat", "floor"],
		);
		expect(top).toBeGreaterThan(stand);
		expect(top).toBeGreaterThan(landing);
	});

	test("rises first and comes down on the way from a box", () => {
		const [stand = 0, tuck = 0, open = 0, landing = 0] = hips(
			["straight", "box"],
			["tuck", "mat"],
			["straight", "mat", "air"],
			["landing-squat", "mat"],
		);
		expect(tuck).toBeGreaterThan(stand);
		expect(open).toBeLessThan(tuck);
		expect(landing).toBeLessThan(open);
	});

	test("is lifted less off the hands than off the feet", () => {
		const off = (id: string) => hips([id, "floor"], ["tuck", "floor"], [id, "floor"]);
		const rise = ([from = 0, top = 0]: readonly number[]): number => top - from;
		expect(rise(off("straight"))).toBeCloseTo(0.25, 9);
		expect(rise(off("handstand"))).toBeCloseTo(0.1, 9);
	});

	test("is never pushed down, and carried bodies are not moved", () => {
		const stances = ["straight", "landing-squat", "straight-hang"].map((id) => ({
			posture: demoShape(id),
			ground: "floor" as const,
		}));
		expect(
			flightRises(
				stances,
				stances.map(({ posture }) => poseOf(posture)),
			),
		).toEqual([0, 0, 0]);
		const lying = { posture: { ...demoShape("hollow"), base: "back" as const }, ground: "floor" as const };
		const air = { posture: demoShape("straddle"), ground: "box" as const };
		for (const rise of flightRises(
			[lying, air, lying],
			[lying, air, lying].map(({ posture }) => poseOf(posture)),
		))
			expect(rise).toBeGreaterThanOrEqual(0);
	});

	test("alone stays as it is drawn", () => {
		const tuck = { posture: demoShape("tuck"), ground: "floor" as const };
		expect(flightRises([tuck, tuck], [poseOf(tuck.posture), poseOf(tuck.posture)])).toEqual([0, 0]);
		expect(flightRises([], [])).toEqual([]);
	});
});
