import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { between, type Moment, momentsOf, turnOf } from "../../scripts/figures/between.ts";
import { bodyParts, boxOf } from "../../scripts/figures/draw-body.ts";
import { type Disc, discsOf, type Pose, type Side } from "../../scripts/figures/pose.ts";
import { drawStage, facing, playerOf, scoreFrom, scoreText } from "../../scripts/figures/stage.ts";
import { movementOf } from "../../scripts/figures/support.ts";
import { ROLLER_TOP } from "../../scripts/figures/tops.ts";
import type { Direction } from "../../scripts/model.ts";
import { demoHandbook } from "../demo.ts";
import { cases } from "../random-cases.ts";
import { demoShape } from "./demo-shapes.ts";
import { postures } from "./random-postures.ts";
import { viewBoxOf } from "./read-svg.ts";

const SHARES = [0.1, 0.25, 0.5, 0.75, 0.9];

const apart = (a: Disc, b: Disc): number => Math.hypot(a.x - b.x, a.y - b.y);
const low = (...discs: readonly Disc[]): number => Math.min(...discs.map(({ y, r }) => y - r));

function lengthsOf({ arm, leg }: Side): readonly number[] {
	return [
		apart(arm.shoulder, arm.elbow),
		apart(arm.elbow, arm.wrist),
		apart(leg.hip, leg.knee),
		apart(leg.knee, leg.ankle),
	];
}

function two(a: string, b: string, ground: Moment["stance"]["ground"] = "floor"): readonly [Moment, Moment] {
	const [from, to] = momentsOf([a, b].map((id) => ({ posture: demoShape(id), ground })));
	if (from === undefined || to === undefined) throw new Error("no moments");
	return [from, to];
}

/** Throws where the published lengths are not kept, in a pose seen from the side. */
function keepsLengths(pose: Pose): void {
	if (pose.view !== "side") return;
	for (const side of [pose.left, pose.right]) {
		const [upper, fore, thigh, shank] = lengthsOf(side);
		expect(upper).toBeCloseTo(0.186, 6);
		expect(fore).toBeCloseTo(0.146, 6);
		expect(thigh).toBeCloseTo(0.245, 6);
		expect(shank).toBeCloseTo(0.246, 6);
	}
}

/** Throws where a limb is longer than published: turned away from the viewer it may look shorter. */
function isForeshortened(pose: Pose): void {
	for (const side of [pose.left, pose.right]) {
		const [upper = 1, fore = 1, thigh = 1, shank = 1] = lengthsOf(side);
		expect(upper).toBeLessThan(0.186 + 1e-9);
		expect(fore).toBeLessThan(0.146 + 1e-9);
		expect(thigh).toBeLessThan(0.245 + 1e-9);
		expect(shank).toBeLessThan(0.246 + 1e-9);
	}
}

const farthest = (a: Pose, b: Pose): number =>
	Math.max(...discsOf(a).map((disc, i) => apart(disc, discsOf(b)[i] ?? disc)));

describe("poses between two phases", () => {
	test("begin and end as the phases do", () => {
		const [from, to] = two("straight", "landing-squat");
		expect(between(from, to, 0, "none")).toBe(from.pose);
		expect(between(from, to, 1, "none")).toBe(to.pose);
		expect(farthest(between(from, to, 1e-6, "none"), from.pose)).toBeLessThan(1e-4);
		expect(farthest(between(from, to, 1 - 1e-6, "none"), to.pose)).toBeLessThan(1e-4);
	});

	test("stand on their feet where both phases do", () => {
		const [from, to] = two("straight", "landing-squat", "block");
		for (const share of SHARES) {
			const pose = between(from, to, share, "none");
			const { left, right } = pose;
			expect(low(left.leg.heel, left.leg.toe, right.leg.heel, right.leg.toe)).toBeCloseTo(0.26, 9);
			expect((left.leg.ankle.x + right.leg.ankle.x) / 2).toBeCloseTo(0, 9);
			keepsLengths(pose);
		}
	});

	test("stand on their hands where both phases do", () => {
		const [from, to] = two("handstand", "bunny-hop", "beam");
		for (const share of SHARES) {
			const { left, right } = between(from, to, share, "none");
			expect(low(left.arm.wrist, right.arm.wrist)).toBeCloseTo(0.3, 9);
			expect((left.arm.wrist.x + right.arm.wrist.x) / 2).toBeCloseTo(0, 9);
		}
	});

	test("keep their hands and feet on the floor where both phases do", () => {
		const [from, to] = two("front-plank", "bridge");
		const [a, b] = two("front-plank", "front-plank");
		for (const share of SHARES) {
			const { left, right } = between(a, b, share, "none");
			expect(low(left.arm.wrist, right.arm.wrist)).toBeCloseTo(0, 5);
			expect(low(left.leg.heel, left.leg.toe)).toBeCloseTo(0, 5);
			keepsLengths(between(from, to, share, "none"));
		}
	});

	test.each([
		["straight-hang", "tuck-hang"],
		["straight-hang", "bar-support"],
	])("keep their hands on the bar from %s to %s", (a, b) => {
		const [from, to] = two(a, b, "bar");
		if (from.pose.support.kind !== "bar") throw new Error("not on the bar");
		const { y } = from.pose.support;
		for (const share of SHARES) {
			const { right, support } = between(from, to, share, "none");
			expect(right.arm.fingers.x).toBeCloseTo(0, 9);
			expect(right.arm.fingers.y).toBeCloseTo(y, 9);
			expect("y" in support && support.y).toBeCloseTo(y, 9);
		}
	});

	test("touch the ground all the way where what carries them changes", () => {
		const [from, to] = two("tuck-sit", "candlestick");
		for (const share of SHARES) {
			expect(low(...discsOf(between(from, to, share, "none")))).toBeCloseTo(0, 2);
		}
	});

	test.each([
		["straight", "straddle", "none"],
		["lunge", "side-plank", "sideways"],
		["straddle-sit", "candlestick", "backward"],
	] as const)("turn from %s to %s, %s, without a jump", (a, b, travel) => {
		const [from, to] = two(a, b);
		expect(farthest(between(from, to, 1e-6, travel), from.pose)).toBeLessThan(1e-4);
		expect(farthest(between(from, to, 1 - 1e-6, travel), to.pose)).toBeLessThan(1e-4);
		const [before, after] = [between(from, to, 0.5 - 1e-6, travel), between(from, to, 0.5, travel)];
		expect([before.view, after.view]).toEqual([from.pose.view, to.pose.view]);
		expect(farthest(facing(before, travel), facing(after, travel))).toBeLessThan(1e-4);
		for (const share of SHARES) {
			const pose = between(from, to, share, travel);
			isForeshortened(pose);
			const lowest = low(...discsOf(pose));
			expect(lowest).toBeCloseTo(
				low(...discsOf(from.pose)) + share * (low(...discsOf(to.pose)) - low(...discsOf(from.pose))),
				9,
			);
		}
	});

	test.each([
		[0, 90, "none", 90],
		[0, 350, "none", -10],
		[10, -20, "forward", -30],
		// From lying on the shoulders to sitting up, over the back: on forward, not back over the head.
		[218, 20, "forward", 162],
		[118, -29, "forward", 213],
		[-29, 118, "backward", -213],
		[-142, -10, "backward", -228],
		[20, -10, "backward", -30],
	] as const)("from %i to %i degrees, %s, turn %i", (from, to, travel, turn) => {
		expect(turnOf(from, to, travel)).toBe(turn);
	});

	test("any two phases give finite poses of the published lengths", () => {
		// Legs apart are foreshortened from the side.
		const together = postures.map((any) => ({ ...any, angles: { ...any.angles, spread: 0 } }));
		fc.assert(
			fc.property(together, together, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (a, b, share) => {
				const [from, to] = momentsOf([a, b].map((posture) => ({ posture, ground: "floor" as const })));
				if (from === undefined || to === undefined) return;
				const pose = between(from, to, share, "forward");
				for (const { x, y } of discsOf(pose)) expect(Number.isFinite(x) && Number.isFinite(y)).toBe(true);
				if (a.view === b.view) keepsLengths(pose);
				else isForeshortened(pose);
			}),
			{ numRuns: cases(300) },
		);
	});
});

describe("the stage", () => {
	const { curriculum } = demoHandbook();
	const movements = Array.from(curriculum.drills.values(), (drill) => ({
		drill: drill.id,
		...movementOf(drill, curriculum),
	})).filter(({ inOrder, stances }) => inOrder && stances.length > 1);

	test("reads its score back as it was written", () => {
		for (const movement of movements) {
			const { stances, travel } = scoreFrom(scoreText(movement));
			expect(travel).toBe(movement.travel);
			expect(stances.map(({ posture }) => posture)).toEqual(movement.stances.map(({ posture }) => posture));
		}
	});

	test("shows a body of every part and the ground of every phase, the first alone, and says nothing", () => {
		for (const movement of movements) {
			const svg = drawStage(movement);
			expect(svg).toContain('aria-hidden="true"');
			expect(svg).not.toMatch(/NaN|undefined|Infinity|style=/);
			expect(svg.match(/class="figure-phase"/g)).toHaveLength(movement.stances.length);
			expect(svg.match(/class="figure-phase" display="none"/g)).toHaveLength(movement.stances.length - 1);
			const [, body = ""] = svg.split('class="figure-moving"');
			expect(body.split("</g></g>")[0]?.match(/<path/g)).toHaveLength(9);
		}
	});

	test("has room for the body on its way, and takes it over a roller and not through it", () => {
		for (const { drill, stances, travel } of movements) {
			const [left = 0, top = 0, width = 0] = viewBoxOf(drawStage({ stances, travel }));
			const play = playerOf(scoreFrom(scoreText({ stances, travel })));
			for (let phase = 0; phase + 1 < stances.length; phase++) {
				for (const share of [0.15, 0.3, 0.5, 0.7, 0.85]) {
					const pose = play(phase, share);
					if (pose === undefined) throw new Error("no pose");
					const box = boxOf(pose);
					expect(box.left, `${drill} ${phase} ${share}`).toBeGreaterThanOrEqual(left);
					expect(box.right, `${drill} ${phase} ${share}`).toBeLessThanOrEqual(left + width);
					expect(box.top, `${drill} ${phase} ${share}`).toBeGreaterThanOrEqual(top);
					const lies = stances[phase]?.posture.base === "back" && stances[phase]?.ground === "octagon";
					if (lies) expect(pose.hip.y).toBeGreaterThan(ROLLER_TOP);
				}
			}
		}
	});

	test("never puts a demo body through the ground, and never makes it jump", () => {
		for (const { drill, stances, travel } of movements) {
			const play = playerOf(scoreFrom(scoreText({ stances, travel })));
			for (let phase = 0; phase + 1 < stances.length; phase++) {
				let before: Pose | undefined;
				for (let i = 0; i <= 24; i++) {
					const pose = play(phase, i / 24);
					if (pose === undefined) throw new Error("no pose");
					const turns = stances[phase]?.posture.view !== stances[phase + 1]?.posture.view;
					if (turns) isForeshortened(pose);
					else keepsLengths(pose);
					expect(low(...discsOf(pose)), `${drill} ${phase} ${i}`).toBeGreaterThan(-0.013);
					if (before !== undefined) {
						const moved = apart(before.hip, pose.hip);
						expect(moved, `${drill} ${phase} ${i}`).toBeLessThan(0.2);
					}
					before = pose;
				}
			}
		}
	});

	test("moves the parts that were drawn", () => {
		const play = playerOf({
			travel: "none" satisfies Direction,
			stances: ["straight", "landing-squat"].map((id) => ({
				posture: demoShape(id),
				ground: "floor" as const,
			})),
		});
		const [a, b] = [play(0, 0.2), play(0, 0.8)];
		if (a === undefined || b === undefined) throw new Error("no pose");
		expect(bodyParts(a, 0).leg).not.toBe(bodyParts(b, 0).leg);
		expect(play(5, 0)).toBeUndefined();
	});
});
