import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
	type Disc,
	discsOf,
	mirrored,
	type Pose,
	poseOf,
	tiltedBy,
	trunkDiscs,
} from "../../scripts/figures/pose.ts";
import { DEMO_SHAPES, demoShape, posture } from "./demo-shapes.ts";
import { postures } from "./random-postures.ts";

const low = (...discs: readonly Disc[]): number => Math.min(...discs.map(({ y, r }) => y - r));
const feet = ({ left, right }: Pose): readonly Disc[] => [
	left.leg.heel,
	left.leg.toe,
	right.leg.heel,
	right.leg.toe,
];
const wrists = ({ left, right }: Pose): readonly Disc[] => [left.arm.wrist, right.arm.wrist];
/** Less than the width of the line that the floor is drawn with. */
const TOUCHES = 0.008;

describe.each(DEMO_SHAPES)("$id", (shape) => {
	const pose = poseOf(shape);

	test("stands on what carries it", () => {
		const { hip, chest, head, support } = pose;
		switch (shape.base) {
			case "feet":
				expect(low(...feet(pose))).toBeCloseTo(0, 9);
				break;
			case "hands-and-feet":
				expect(low(...feet(pose))).toBeCloseTo(0, 5);
				expect(low(...wrists(pose))).toBeCloseTo(0, 5);
				break;
			case "seat":
				expect(Math.abs(low(hip))).toBeLessThan(TOUCHES);
				break;
			case "back":
			case "front":
				expect(low(...trunkDiscs(pose))).toBeCloseTo(0, 9);
				break;
			case "shoulders":
				expect(low(chest)).toBeCloseTo(0, 9);
				expect(low(head)).toBeCloseTo(0, 3);
				break;
			case "head":
				expect(low(head)).toBeCloseTo(0, 9);
				expect(Math.abs(low(...wrists(pose)))).toBeLessThan(TOUCHES);
				break;
			case "air":
				expect(low(...discsOf(pose))).toBeGreaterThan(0.1);
				break;
			default:
				if (support.kind === "bar") {
					expect(pose.right.arm.fingers.y).toBeCloseTo(support.y, 9);
					expect(low(...feet(pose))).toBeGreaterThan(0.1);
				} else {
					const top = support.kind === "block" ? support.y : 0;
					expect(low(...wrists(pose))).toBeCloseTo(top, 9);
				}
		}
	});

	test("does not sink into the floor", () => {
		expect(low(...discsOf(pose))).toBeGreaterThan(-TOUCHES);
	});

	test("needs at most a small turn from the written lean", () => {
		expect(Math.abs(pose.tilt - shape.tilt)).toBeLessThan(6);
	});
});

describe("demo shapes as a coach looks at them", () => {
	test.each(["straight", "landing-squat", "bridge"])("%s stands on flat feet", (id) => {
		const { heel, toe } = poseOf(demoShape(id)).right.leg;
		expect(Math.abs(low(heel))).toBeLessThan(TOUCHES);
		expect(Math.abs(low(toe))).toBeLessThan(TOUCHES);
	});

	test("a lunge has its front foot flat and the toes of the back foot down", () => {
		const { left, right } = poseOf(demoShape("lunge"));
		expect(Math.max(Math.abs(low(right.leg.heel)), Math.abs(low(right.leg.toe)))).toBeLessThan(TOUCHES);
		expect(Math.abs(low(left.leg.toe))).toBeLessThan(TOUCHES);
		expect(low(left.leg.heel)).toBeGreaterThan(0.05);
	});

	test.each(["front-plank", "back-plank"])("%s has its shoulders over the hands", (id) => {
		const { chest, right } = poseOf(demoShape(id));
		expect(Math.abs(chest.x - right.arm.wrist.x)).toBeLessThan(0.03);
	});

	test("a hollow body lies on the low back with heels, hands and head just off the floor", () => {
		const { head, right } = poseOf(demoShape("hollow"));
		for (const disc of [right.leg.heel, right.arm.wrist, head]) {
			expect(low(disc)).toBeGreaterThan(0.03);
			expect(low(disc)).toBeLessThan(0.2);
		}
	});

	test("passé has its toe at the knee of the standing leg", () => {
		const { left, right } = poseOf(demoShape("passe"));
		expect(Math.hypot(right.leg.toe.x - left.leg.knee.x, right.leg.toe.y - left.leg.knee.y)).toBeLessThan(
			0.04,
		);
	});

	test("a bunny hop carries the hips above the shoulders", () => {
		const { hip, chest } = poseOf(demoShape("bunny-hop"));
		expect(hip.y - chest.y).toBeGreaterThan(0.2);
	});

	test("a headstand has hands and head in a triangle, forearms upright, hips over the head", () => {
		const { head, hip, right } = poseOf(demoShape("headstand"));
		expect(head.x - right.arm.wrist.x).toBeGreaterThan(0.12);
		expect(Math.abs(right.arm.elbow.x - right.arm.wrist.x)).toBeLessThan(0.03);
		expect(Math.abs(hip.x - head.x)).toBeLessThan(0.04);
	});

	test.each([
		["straight-hang", "bar"],
		["bar-support", "bar"],
		["l-support", "block"],
		["handstand", "floor"],
		["tuck", "air"],
	])("%s is held by: %s", (id, kind) => {
		expect(poseOf(demoShape(id)).support.kind).toBe(kind);
	});
});

describe("what it is done on", () => {
	test("hands that press beside the hips hold what is there", () => {
		const support = demoShape("bar-support");
		const l = demoShape("l-support");
		expect(poseOf(support, "bar").support.kind).toBe("bar");
		for (const ground of ["beam", "rails", "block"] as const) {
			for (const shape of [support, l]) {
				const pose = poseOf(shape, ground);
				expect(pose.support.kind).toBe(ground);
				expect("y" in pose.support && low(...wrists(pose)) - pose.support.y).toBeCloseTo(0, 9);
				expect(low(...discsOf(pose))).toBeGreaterThan(0);
			}
		}
	});

	test("hands overhead stand on a beam as they do on the floor, and on a bar only where that is said", () => {
		const handstand = demoShape("handstand");
		expect(poseOf(handstand, "beam").support.kind).toBe("floor");
		expect(low(...wrists(poseOf(handstand, "beam")))).toBeCloseTo(0, 9);
		expect(poseOf(handstand, "bar").support.kind).toBe("bar");
	});

	test("feet stand on a bar over its middle", () => {
		const pose = poseOf(posture({ angles: { hip: 46, knee: 46, ankle: 66 }, tilt: 40 }), "bar");
		if (pose.support.kind !== "bar") throw new Error("not on the bar");
		expect(low(...feet(pose))).toBeCloseTo(pose.support.y + 0.034, 9);
		const { heel, toe } = pose.right.leg;
		expect((heel.x + toe.x) / 2).toBeCloseTo(pose.support.left, 9);
	});

	test("a fold over a bar has the bar in the crease of the hips", () => {
		const pose = poseOf(posture({ base: "hips", tilt: 150, angles: { hip: 60 } }), "bar");
		if (pose.support.kind !== "bar") throw new Error("not on the bar");
		const { left, y } = pose.support;
		expect(Math.hypot(pose.hip.x - left, pose.hip.y - y)).toBeLessThan(0.1);
	});

	test("a body tilted on a slope still touches it, and keeps its limbs", () => {
		const flat = poseOf(demoShape("tuck-sit"));
		const sloped = tiltedBy(flat, 8);
		const slope = Math.tan((8 * Math.PI) / 180);
		const over = discsOf(sloped).map(
			({ x, y, r }) => (y + (x - flat.hip.x) * slope) / Math.hypot(1, slope) - r,
		);
		expect(Math.min(...over)).toBeCloseTo(low(...discsOf(flat)), 9);
		const { hip, knee } = sloped.right.leg;
		expect(Math.hypot(hip.x - knee.x, hip.y - knee.y)).toBeCloseTo(0.245, 9);
	});

	test("a mirrored body faces the other way, with its hold", () => {
		const pose = poseOf(demoShape("pike-hang"));
		const other = mirrored(pose);
		expect(other.right.leg.toe.x).toBeCloseTo(-pose.right.leg.toe.x, 9);
		expect(mirrored(other)).toEqual(pose);
	});
});

describe("conventions", () => {
	test("a bent elbow has the angle written, and brings the hand to where the arm is lifted to", () => {
		const { right } = poseOf(posture({ angles: { shoulder: 40, elbow: 70 } }));
		const { shoulder, elbow, wrist } = right.arm;
		const to = (a: Disc, b: Disc): number => Math.atan2(b.y - a.y, b.x - a.x);
		const inside = Math.abs(((to(elbow, shoulder) - to(elbow, wrist)) * 180) / Math.PI);
		expect(Math.min(inside, 360 - inside)).toBeCloseTo(70, 9);
		expect(wrist.y).toBeGreaterThan(elbow.y);
		expect(Math.hypot(wrist.x - elbow.x, wrist.y - elbow.y)).toBeCloseTo(0.146, 9);
	});

	test("a rounded trunk bulges to the back, an arched one to the front, and keeps its length", () => {
		const middle = (trunk: number): number => {
			const pose = poseOf(posture({ angles: { trunk } }));
			const half = ((trunk / 2) * Math.PI) / 180;
			const chord = Math.hypot(pose.chest.x - pose.hip.x, pose.chest.y - pose.hip.y);
			expect((chord * half) / Math.sin(half)).toBeCloseTo(0.288, 9);
			return (trunkDiscs(pose)[2]?.x ?? 0) - pose.hip.x;
		};
		expect(middle(40)).toBeCloseTo(
			-(0.288 / ((40 * Math.PI) / 180)) * (1 - Math.cos((20 * Math.PI) / 180)),
			9,
		);
		expect(middle(-40)).toBeCloseTo(-middle(40), 9);
	});

	test("from the side the right side is near; from the front the left side is on the right", () => {
		const angles = { spread: 90, shoulder: 90 };
		const { left, right } = poseOf(posture({ view: "front", base: "air", angles }));
		expect(left.leg.toe.x).toBeGreaterThan(0.3);
		expect(left.leg.toe.x).toBeCloseTo(-right.leg.toe.x, 9);
		expect(left.arm.wrist.x).toBeGreaterThan(0.4);
	});

	test("legs apart keep their spread seen from the front", () => {
		const { left, right } = poseOf(posture({ view: "front", base: "air", angles: { spread: 100 } }));
		const lean = ({ hip, ankle }: typeof left.leg): number =>
			(Math.atan2(ankle.x - hip.x, hip.y - ankle.y) * 180) / Math.PI;
		expect(lean(left.leg) - lean(right.leg)).toBeCloseTo(100, 9);
	});

	test("hands written into the floor rest on it", () => {
		const sit = poseOf(posture({ base: "seat", angles: { shoulder: 0, hip: 92 } }));
		expect(low(...wrists(sit))).toBeCloseTo(0, 9);
		expect(low(...discsOf(sit))).toBeGreaterThan(-TOUCHES);
		const { shoulder, elbow, wrist } = sit.right.arm;
		expect(Math.hypot(elbow.x - shoulder.x, elbow.y - shoulder.y)).toBeCloseTo(0.186, 9);
		expect(Math.hypot(wrist.x - elbow.x, wrist.y - elbow.y)).toBeCloseTo(0.146, 9);
	});
});

test("any angles give a finite pose on what carries it", () => {
	fc.assert(
		fc.property(postures, (any) => {
			const pose = poseOf(any);
			for (const { x, y, r } of discsOf(pose)) {
				expect(Number.isFinite(x) && Number.isFinite(y) && r > 0).toBe(true);
			}
			if (any.base === "feet") expect(low(...feet(pose))).toBeCloseTo(0, 9);
			if (any.base === "air") expect(low(...discsOf(pose))).toBeCloseTo(0.14, 9);
			if (any.base === "hands-and-feet") {
				expect(Math.min(low(...feet(pose)), low(...wrists(pose)))).toBeCloseTo(0, 9);
			}
			if (pose.support.kind === "block") expect(low(...wrists(pose))).toBeCloseTo(pose.support.y, 9);
			if (pose.support.kind === "bar" && any.base !== "hips") {
				expect(pose.right.arm.fingers.y).toBeCloseTo(pose.support.y, 9);
			}
		}),
	);
});
