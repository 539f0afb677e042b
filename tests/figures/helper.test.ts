import { describe, expect, test } from "vitest";
import { drillAt } from "../../scripts/compute/drill-at.ts";
import { placeHelpers } from "../../scripts/figures/helper.ts";
import { discsOf, movedBy, poseOf } from "../../scripts/figures/pose.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { movementOf, stripDescription } from "../../scripts/figures/support.ts";
import type { Helper } from "../../scripts/model.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { demoHandbook } from "../demo.ts";
import { demoShape } from "./demo-shapes.ts";

const apart = (a: { x: number; y: number }, b: { x: number; y: number }): number =>
	Math.hypot(a.x - b.x, a.y - b.y);

const helper = (more: Partial<Helper> = {}): Helper => ({
	step: 1,
	from: "side",
	hands: ["shoulder", "thigh"],
	...more,
});

describe("who helps", () => {
	test.each([
		["handstand", helper()],
		["bridge", helper({ stance: "kneel", hands: ["upper-back", "low-back"] })],
		["headstand", helper({ stance: "kneel", hands: ["hip", "thigh"] })],
		["tuck-sit", helper({ from: "front", stance: "kneel", hands: ["hand", "hand"] })],
		["landing-squat", helper({ hands: ["chest", "upper-back"] })],
		["straight", helper({ from: "back", hands: ["waist"] })],
	])("of a %s stands on the floor, and has a hand at every place", (id, one) => {
		const pose = poseOf(demoShape(id));
		const [coach] = placeHelpers([one], pose);
		if (coach === undefined) throw new Error("no coach");
		const low = Math.min(...discsOf(coach.pose).map(({ y, r }) => y - r));
		expect(Math.abs(low)).toBeLessThan(0.03);
		expect(coach.arms).toHaveLength(one.hands.length);
		for (const { shoulder, elbow, wrist, fingers } of coach.arms) {
			// The coach's own lengths: the published ones at the size that a coach is drawn in.
			expect(apart(shoulder, elbow)).toBeCloseTo(0.186 * 1.15, 6);
			expect(apart(elbow, wrist)).toBeLessThan(0.146 * 1.15 + 0.01);
			const hand = { x: (wrist.x + fingers.x) / 2, y: (wrist.y + fingers.y) / 2 };
			const nearest = Math.min(...discsOf(pose).map((disc) => apart(hand, disc) - disc.r));
			expect(nearest, id).toBeLessThan(0.1);
		}
	});

	test("stands on the floor beside a body that is on a beam or a box", () => {
		const up = 0.5;
		const [coach] = placeHelpers([helper()], movedBy(poseOf(demoShape("handstand")), 0, up));
		const low = Math.min(...discsOf(coach?.pose ?? poseOf(demoShape("straight"))).map(({ y, r }) => y - r));
		expect(Math.abs(low)).toBeLessThan(0.03);
	});

	test("two at the side of the same body stand on either side of it", () => {
		const pose = poseOf(demoShape("handstand"));
		const [one, other] = placeHelpers([helper(), helper()], pose);
		expect(one?.pose.chest.x).toBeLessThan(pose.hip.x);
		expect(other?.pose.chest.x).toBeGreaterThan(pose.hip.x);
	});

	test("is drawn behind the bodies, the hands over them, and told in words", () => {
		const shape = { id: "handstand", name: "Handstand" };
		const stance = { shape, posture: demoShape("handstand"), ground: "floor", helpers: [helper()] } as const;
		const movement = { stances: [stance], inOrder: true, travel: "none", names: ["Handstand"] } as const;
		const svg = drawStrip(movement, { title: "x", description: "y" });
		expect(svg.indexOf("figure-helper")).toBeLessThan(svg.indexOf("figure-step"));
		expect(svg.indexOf("figure-hands")).toBeGreaterThan(svg.indexOf("figure-step"));
		expect(stripDescription(movement, wordsFor("en"))).toBe(
			"1. Handstand, on the floor. A helper stands at the side, hands at the shoulder and the thigh.",
		);
		expect(stripDescription(movement, wordsFor("fr"))).toContain("les mains à l'épaule et à la cuisse");
	});
});

describe("the demo club", () => {
	const { curriculum } = demoHandbook();
	const helped = [...curriculum.drills.values()].filter(({ helpers }) => helpers !== undefined);

	test("draws a helper at a step that is there, for every drill that needs hands", () => {
		expect(helped.length).toBeGreaterThan(100);
		for (const { id, helpers = [], sequence, shapes } of helped) {
			const steps = sequence.length > 0 ? sequence.length : shapes.length;
			for (const { step } of helpers) expect(step, id).toBeLessThanOrEqual(steps);
		}
		for (const drill of curriculum.drills.values()) {
			const hands = [drill, ...drill.levels.values()].some(({ spotters = 0 }) => spotters > 0);
			if (hands && movementOf(drill, curriculum).stances.length > 0) {
				expect(drill.helpers?.length ?? 0, drill.id).toBeGreaterThan(0);
			}
		}
	});

	test("draws no more at a step of a level than the level needs hands for", () => {
		for (const drill of helped) {
			for (const level of drill.levels.keys()) {
				const { helpers = [], spotters = Number.POSITIVE_INFINITY } = drillAt(drill, level);
				for (const { step } of helpers) {
					const here = helpers.filter((one) => one.step === step).length;
					expect(here, `${drill.id} ${level}`).toBeLessThanOrEqual(spotters);
				}
			}
		}
	});
});
