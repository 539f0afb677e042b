/**
 * The joints of a shape: what each is called, how far it moves, and where on the figure it is taken. What
 * is taken is the end of the limb that turns: the knee for the hip, the ankle for the knee.
 */

import {
	type Arm,
	type Leg,
	type Point,
	type Pose,
	type Posture,
	poseOf,
	trunkDiscs,
} from "../../scripts/figures/pose.ts";
import type { Angles, Base } from "../../scripts/model.ts";
import { angles as words } from "../../scripts/words/en.ts";
import type { Field } from "./api.ts";
import { asData, type Data, withField } from "./data.ts";

/** Degrees from one place of a joint to the next, as of its slider. */
export const STEP = 5;

/** What turns: from the joint to the point that is taken. */
type Taken = readonly [from: Point, to: Point];

export interface Joint {
	readonly name: string;
	readonly least: number;
	readonly most: number;
	readonly value: number;
	/** The shape with another angle. */
	readonly set: (degrees: number) => Data;
	/** Undefined where the figure does not show it turn. */
	readonly taken: ((pose: Pose) => Taken) | undefined;
}

const LIMBS: Readonly<
	Record<keyof typeof words.joints, (side: { readonly arm: Arm; readonly leg: Leg }) => Taken>
> = {
	shoulder: ({ arm }) => [arm.shoulder, arm.elbow],
	elbow: ({ arm }) => [arm.elbow, arm.wrist],
	hip: ({ leg }) => [leg.hip, leg.knee],
	knee: ({ leg }) => [leg.knee, leg.ankle],
	ankle: ({ leg }) => [leg.ankle, leg.toe],
};
/** What they are where nothing is said. */
const USUAL: Readonly<Record<string, number>> = { elbow: 180, hip: 180, knee: 180, ankle: 90 };

export function postureOf({ angles, tilt, base, view }: Data): Posture {
	return {
		angles: asData(angles) as Angles,
		tilt: typeof tilt === "number" ? tilt : 0,
		base: (typeof base === "string" ? base : "feet") as Base,
		view: view === "front" ? "front" : "side",
	};
}

/**
 * @param fields the form of the angles, which says how far each joint goes
 * @param differ whether left and right are moved each by itself
 */
export function jointsOf(shape: Data, fields: readonly Field[], differ: boolean): readonly Joint[] {
	const angles = asData(shape.angles);
	const posture = postureOf(shape);
	const joint = (name: string, own: string, side?: "left" | "right"): Joint | undefined => {
		const form = fields.find((field) => field.name === own)?.form;
		if (form?.is !== "number") return undefined;
		const of = side === undefined ? angles : asData(angles[side]);
		const said = of[own] ?? angles[own] ?? (own === "neck" ? neckOf(posture) : USUAL[own]);
		return {
			name,
			least: form.least ?? -180,
			most: form.most ?? 180,
			value: typeof said === "number" ? said : 0,
			set: (degrees) => {
				const next = withField(of, own, degrees);
				return withField(shape, "angles", side === undefined ? next : withField(angles, side, next));
			},
			taken: takenOf(own, posture.view, side ?? "right"),
		};
	};
	const limbs = Object.entries(words.joints).flatMap(([own, { name }]) =>
		differ
			? [joint(words.right(name), own, "right"), joint(words.left(name), own, "left")]
			: [joint(name, own)],
	);
	const whole = (["trunk", "neck", "spread"] as const).map((own) => joint(words[own].name, own));
	const lean: Joint = {
		name: words.lean.name,
		least: -180,
		most: 180,
		value: posture.tilt,
		set: (degrees) => withField(shape, "tilt", degrees),
		taken: ({ hip, chest }) => [hip, chest],
	};
	return [...limbs, ...whole, lean].filter((one) => one !== undefined);
}

function takenOf(own: string, view: Posture["view"], side: "left" | "right"): Joint["taken"] {
	const limb = LIMBS[own as keyof typeof LIMBS] as (typeof LIMBS)["hip"] | undefined;
	if (limb !== undefined) return (pose) => limb(pose[side]);
	if (own === "spread") return view === "front" ? ({ left }) => [left.leg.hip, left.leg.knee] : undefined;
	if (view === "front") return undefined;
	return own === "neck" ? ({ chest, head }) => [chest, head] : (pose) => [pose.hip, backOf(pose)];
}

/** The back in the middle of the trunk: there its curve shows most. */
function backOf(pose: Pose): Point {
	const middle = trunkDiscs(pose)[2] ?? pose.hip;
	const lean = (pose.tilt * Math.PI) / 180;
	return { x: middle.x - middle.r * Math.cos(lean), y: middle.y + middle.r * Math.sin(lean) };
}

/** How the head is held where nothing is said of it, as it is drawn. */
function neckOf(posture: Posture): number {
	const { chest, head, tilt, curve } = poseOf(posture);
	const lean = (Math.atan2(head.x - chest.x, head.y - chest.y) * 180) / Math.PI;
	const turn = (((lean - tilt - curve / 2 + 180) % 360) + 360) % 360;
	return Math.round((turn - 180) / STEP) * STEP;
}

/** The angle that brings what is taken nearest to a point; of two that do, the one nearer to the present. */
export function angleTowards(joint: Joint, shape: Data, to: Point): number {
	const vector = (of: Data): Point => {
		const [from, end] = joint.taken?.(poseOf(postureOf(of))) ?? [to, to];
		return { x: end.x - from.x, y: end.y - from.y };
	};
	const [from] = joint.taken?.(poseOf(postureOf(shape))) ?? [to];
	let best = { degrees: joint.value, far: Number.POSITIVE_INFINITY };
	for (let degrees = joint.least; degrees <= joint.most; degrees += STEP) {
		const { x, y } = vector(joint.set(degrees));
		const far = Math.hypot(x - (to.x - from.x), y - (to.y - from.y)) + Math.abs(degrees - joint.value) * 1e-6;
		if (far < best.far) best = { degrees, far };
	}
	return best.degrees;
}
