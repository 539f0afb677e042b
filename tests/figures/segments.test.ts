import { expect, test } from "vitest";
import { poseOf } from "../../scripts/figures/pose.ts";
import { REACH, SEGMENTS, TRUNK } from "../../scripts/figures/segments.ts";
import { posture } from "./demo-shapes.ts";

test("the published table holds together", () => {
	expect(SEGMENTS.hipHeight - SEGMENTS.kneeHeight).toBeCloseTo(0.245, 10);
	expect(SEGMENTS.thigh).toBe(0.245);
	expect(SEGMENTS.kneeHeight - SEGMENTS.ankleHeight).toBeCloseTo(0.246, 10);
	expect(SEGMENTS.shank).toBe(0.246);
	expect(TRUNK).toBeCloseTo(0.288, 10);
	expect(REACH).toBeCloseTo(1.258, 10);
});

test("a standing body has the published heights, its stature and its reach", () => {
	const angles = { shoulder: 180, hip: 180, knee: 180, ankle: 90 };
	const { hip, chest, head, right } = poseOf(posture({ angles }));
	expect(right.leg.ankle.y).toBeCloseTo(0.039, 10);
	expect(right.leg.knee.y).toBeCloseTo(0.285, 10);
	expect(hip.y).toBeCloseTo(0.53, 10);
	expect(chest.y).toBeCloseTo(0.818, 10);
	expect(head.y + head.r).toBeCloseTo(1, 10);
	expect(right.arm.elbow.y - chest.y).toBeCloseTo(0.186, 10);
	expect(right.arm.wrist.y - right.arm.elbow.y).toBeCloseTo(0.146, 10);
	expect(right.arm.fingers.y + right.arm.fingers.r).toBeCloseTo(1.258, 10);
});

test("a foot on the floor is as long as published, from heel to toe", () => {
	const { heel, toe } = poseOf(posture({})).right.leg;
	expect(toe.x + toe.r - (heel.x - heel.r)).toBeCloseTo(0.152, 10);
});
