/**
 * Forward kinematics: a shape's joint angles → where its joints are.
 *
 *   1. place every joint from the hip outwards, for a given lean of the trunk
 *   2. a body on hands and feet: find the lean nearest to the written one where both reach the floor
 *   3. lower or lift the body onto what carries it: the floor, a block, a beam, a bar
 *   4. a hand that would go through the floor rests on it
 *
 * Stature is 1; x grows to the right, y upwards, and the floor is y = 0. Seen from the side the body
 * faces right, so its right side is the near one. Seen from the front it faces the viewer, so its
 * left side is on the right; there `shoulder` lifts the arms sideways and `tilt` leans the body
 * sideways, because that is the plane such a figure shows.
 */

import type { Base, Ground, Shape, SideAngles } from "../model.ts";
import { HAIR, HALF_WIDTHS, HEEL, NOSE, RADII, SEGMENTS, SHOULDER_TO_CROWN, TRUNK } from "./segments.ts";
import { HOLD_TOPS, ROLLER_TOP, topOf } from "./tops.ts";

/** What a figure is drawn from: any `Shape` is one. */
export type Posture = Pick<Shape, "angles" | "view" | "tilt" | "base">;

export interface Point {
	readonly x: number;
	readonly y: number;
}

/** A point of the body and half the body's thickness there. */
export interface Disc extends Point {
	readonly r: number;
}

export interface Leg {
	readonly hip: Disc;
	readonly knee: Disc;
	readonly ankle: Disc;
	readonly heel: Disc;
	readonly toe: Disc;
}

export interface Arm {
	readonly shoulder: Disc;
	readonly elbow: Disc;
	readonly wrist: Disc;
	/** The end of the hand; where it grips, the middle of the bar. */
	readonly fingers: Disc;
}

export interface Side {
	readonly arm: Arm;
	readonly leg: Leg;
}

/** What the hands press or hang on, where that is not the ground that the body stands on. */
export type Hold = "bar" | "block" | "beam" | "rails" | "rope";

/**
 * What carries the body. A hold gives the line the hands are on, from `left` to `right` (the same point
 * twice where a bar is seen end on), at its height above the floor that y = 0 then is. With the others
 * y = 0 is the ground's own top, which may stand higher than the floor.
 */
export type Support =
	| { readonly kind: "floor" | "air" }
	| { readonly kind: Hold; readonly y: number; readonly left: number; readonly right: number };

export interface Pose {
	readonly view: "side" | "front";
	/** The lean as it is drawn, degrees. */
	readonly tilt: number;
	/** The lower and the upper end of the trunk. */
	readonly hip: Disc;
	readonly chest: Disc;
	/** How far the trunk turns between its ends as it is drawn, degrees: 0 from the front. */
	readonly curve: number;
	readonly head: Disc;
	/** The tip of the nose, where the face looks to; in the middle of the head from the front. */
	readonly nose: Disc;
	/** The end of the tied hair: it hangs from the back of the head, and lies on the ground where it meets it. */
	readonly tail: Disc;
	readonly left: Side;
	readonly right: Side;
	readonly support: Support;
}

/** Bars stand at one height, so that figures in a row share theirs; a straight hang clears the floor. */
const BAR_HEIGHT = 1.42;
/** How high above the floor a body in the air is shown. */
const AIR = 0.14;
/** A hand round a bar is folded at the knuckles, about half its length. */
const GRIP = SEGMENTS.hand / 2;
/** Arms lifted less than this press downwards, so their hands stand on something. */
const SUPPORT_SHOULDER = 60;
/** Arms lifted more than this are beside the head. */
const OVERHEAD = 150;
/** Legs that hang this far below the hands need a bar; less is made up by a block. */
const BAR_DROP = 0.25;

/** Where a body folded over a bar meets it, from the hip joint up the trunk and to its front. */
const FOLD = { up: -0.02, front: 0.052 } as const;

const STRAIGHT: Required<SideAngles> = { shoulder: 0, elbow: 180, hip: 180, knee: 180, ankle: 90 };

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Angles of one side: what the side says, else what the shape says, else standing straight. */
export function sideAngles(posture: Posture, side: "left" | "right"): Required<SideAngles> {
	const { angles } = posture;
	const own = angles?.[side];
	return {
		shoulder: own?.shoulder ?? angles?.shoulder ?? STRAIGHT.shoulder,
		elbow: own?.elbow ?? angles?.elbow ?? STRAIGHT.elbow,
		hip: own?.hip ?? angles?.hip ?? STRAIGHT.hip,
		knee: own?.knee ?? angles?.knee ?? STRAIGHT.knee,
		ankle: own?.ankle ?? angles?.ankle ?? STRAIGHT.ankle,
	};
}

/**
 * Places a body of stature 1 on what carries it. Never throws: every angle gives a pose.
 *
 * @param ground what it is done on, where that is known: it decides what hands that press hold
 * @param hands what the hands of a body on hands and feet are on, where that is not the ground
 */
export function poseOf(posture: Posture, ground?: Ground, hands = ground): Pose {
	return withHair(placed(posture, ground, hands));
}

function placed(posture: Posture, ground: Ground | undefined, hands: Ground | undefined): Pose {
	if (posture.base !== "hands-and-feet") return setDown(posture, placeJoints(posture, posture.tilt), ground);
	const step = ground === undefined || hands === undefined ? 0 : topOf(hands) - topOf(ground);
	const flat = withFlatHands(placeJoints(posture, tiltOntoHandsAndFeet(posture, step)));
	const carried = Math.min(handHeight(flat) - step, footHeight(flat));
	return lifted(flat, -carried, { kind: "floor" });
}

/** The same body not yet set down: its hip joint at height 0. */
export function poseInAir(posture: Posture): Pose {
	return withHair({ ...placeJoints(posture, posture.tilt), support: { kind: "air" } });
}

/** The hair of a pose where gravity leaves it, on the floor at the lowest. */
export function withHair(pose: Pose): Pose {
	const { head, nose, view } = pose;
	const long = Math.hypot(nose.x - head.x, nose.y - head.y);
	if (view === "front" || long === 0) return { ...pose, tail: { ...head, r: RADII.tail } };
	const face = { x: (nose.x - head.x) / long, y: (nose.y - head.y) / long };
	const root = hairRoot(pose);
	const crown = { x: (head.x - pose.chest.x) * 2, y: (head.y - pose.chest.y) * 2 };
	// Off the back of the head, towards the crown, and down.
	const way = { x: -0.6 * face.x + crown.x, y: -0.6 * face.y + crown.y - 0.7 };
	const size = Math.hypot(way.x, way.y);
	const x = root.x + (size === 0 ? 0 : (HAIR * way.x) / size);
	const y = root.y + (size === 0 ? -HAIR : (HAIR * way.y) / size);
	if (pose.support.kind === "air" || y >= RADII.tail) return { ...pose, tail: { x, y, r: RADII.tail } };
	const down = Math.max(-HAIR, Math.min(0, RADII.tail - root.y));
	const aside = Math.sqrt(HAIR * HAIR - down * down) * (way.x < 0 ? -1 : 1);
	return { ...pose, tail: { x: root.x + aside, y: root.y + down, r: RADII.tail } };
}

/** Where the hair is tied: at the back of the head, a little up. From the front on top. */
export function hairRoot({ head, nose, chest, view }: Pose): Disc {
	const r = 0.013;
	const long = Math.hypot(nose.x - head.x, nose.y - head.y);
	const up = { x: head.x - chest.x, y: head.y - chest.y };
	const tall = Math.hypot(up.x, up.y) || 1;
	const high = { x: (up.x / tall) * head.r, y: (up.y / tall) * head.r };
	if (view === "front" || long === 0) return { x: head.x + 1.1 * high.x, y: head.y + 1.1 * high.y, r };
	const back = { x: ((head.x - nose.x) / long) * head.r, y: ((head.y - nose.y) / long) * head.r };
	return { x: head.x + 0.86 * back.x + 0.56 * high.x, y: head.y + 0.86 * back.y + 0.56 * high.y, r };
}

/** A pose moved up or to the right, with what its hands hold left where it is. */
export function movedBy(pose: Pose, right: number, up: number): Pose {
	return mapped(pose, ({ x, y, r }) => ({ x: x + right, y: y + up, r }));
}

/** A pose moved with what its hands hold: to the right, and up unless it hangs or presses on a hold. */
export function shifted(pose: Pose, right: number, up: number): Pose {
	const { support } = pose;
	const moved = movedBy(pose, right, up);
	if (!("y" in support)) return moved;
	const { kind, y, left } = support;
	return { ...moved, support: { kind, y: y + up, left: left + right, right: support.right + right } };
}

/** A pose that faces the other way. */
export function mirrored(pose: Pose): Pose {
	const { support } = pose;
	return {
		...mapped(pose, ({ x, y, r }) => ({ x: -x, y, r })),
		tilt: -pose.tilt,
		curve: -pose.curve,
		support: "y" in support ? { ...support, left: -support.right, right: -support.left } : support,
	};
}

/** A pose turned to the right by some degrees around its hip, which then is at (0, 0). */
export function aboutHip(pose: Pose, degrees: number): Pose {
	const sine = Math.sin(radians(degrees));
	const cosine = Math.cos(radians(degrees));
	const { hip } = pose;
	return mapped(pose, ({ x, y, r }) => ({
		x: (x - hip.x) * cosine + (y - hip.y) * sine,
		y: (y - hip.y) * cosine - (x - hip.x) * sine,
		r,
	}));
}

/** Every disc of a pose a share of the way to the same disc of another; the rest as the first has it. */
export function blended(a: Pose, b: Pose, share: number): Pose {
	const even = (from: number, to: number): number => from + share * (to - from);
	const other = eachDisc(b);
	let i = 0;
	const mixed = mapped(a, (disc) => {
		const { x, y, r } = other[i++] ?? disc;
		return { x: even(disc.x, x), y: even(disc.y, y), r: even(disc.r, r) };
	});
	return { ...mixed, curve: even(a.curve, b.curve) };
}

/** The discs in the order in which `mapped` comes to them. */
function eachDisc(pose: Pose): readonly Disc[] {
	const discs: Disc[] = [];
	mapped(pose, (disc) => {
		discs.push(disc);
		return disc;
	});
	return discs;
}

/** A pose turned down to the right by some degrees around the middle of its ground, as on a slope. */
export function tiltedBy(pose: Pose, degrees: number): Pose {
	const sine = Math.sin(radians(degrees));
	const cosine = Math.cos(radians(degrees));
	const middle = pose.hip.x;
	const turned = mapped(pose, ({ x, y, r }) => ({
		x: middle + (x - middle) * cosine + y * sine,
		y: y * cosine - (x - middle) * sine,
		r,
	}));
	return { ...turned, tilt: pose.tilt + degrees };
}

function mapped(pose: Pose, to: (disc: Disc) => Disc): Pose {
	const side = ({ arm, leg }: Side): Side => ({
		arm: {
			shoulder: to(arm.shoulder),
			elbow: to(arm.elbow),
			wrist: to(arm.wrist),
			fingers: to(arm.fingers),
		},
		leg: {
			hip: to(leg.hip),
			knee: to(leg.knee),
			ankle: to(leg.ankle),
			heel: to(leg.heel),
			toe: to(leg.toe),
		},
	});
	return {
		...pose,
		hip: to(pose.hip),
		chest: to(pose.chest),
		head: to(pose.head),
		nose: to(pose.nose),
		tail: to(pose.tail),
		left: side(pose.left),
		right: side(pose.right),
	};
}

/** Every disc the body is drawn from: what it covers, but for the bulge of the trunk, nose and hair. */
export function discsOf(pose: Pose): readonly Disc[] {
	return [pose.head, ...trunkDiscs(pose), ...limbDiscs(pose.left), ...limbDiscs(pose.right)];
}

/** The trunk's discs from hip to chest, along its curve. */
export function trunkDiscs(pose: Pick<Pose, "hip" | "chest" | "curve">): readonly Disc[] {
	const { hip, chest } = pose;
	const dx = chest.x - hip.x;
	const dy = chest.y - hip.y;
	const half = radians(pose.curve) / 2;
	// An arc's height over its chord, as a share of the chord, is tan(half / 2) / 2 in its middle.
	const bulge = Math.tan(half / 2) / 2;
	return [0, 0.25, 0.5, 0.75, 1].map((t) => {
		const along = half === 0 ? t : 0.5 + Math.sin((2 * t - 1) * half) / (2 * Math.sin(half));
		const out = half === 0 ? 0 : bulge - (1 - Math.cos((2 * t - 1) * half)) / (2 * Math.sin(half));
		return {
			x: hip.x + along * dx - out * dy,
			y: hip.y + along * dy + out * dx,
			r: hip.r + t * (chest.r - hip.r),
		};
	});
}

function limbDiscs({ arm, leg }: Side): readonly Disc[] {
	return [arm.shoulder, arm.elbow, arm.wrist, arm.fingers, leg.hip, leg.knee, leg.ankle, leg.heel, leg.toe];
}

const lowest = (discs: readonly Disc[]): number => Math.min(...discs.map(({ y, r }) => y - r));

// ── 1. joints ──────────────────────────────────────────────────────────────────────────────────

type Joints = Omit<Pose, "support">;

/** A direction or an offset in the body's own frame: up the trunk, to its front, to its left. */
type Body = readonly [up: number, front: number, left: number];

const add = (a: Body, b: Body, times: number): Body => [
	a[0] + times * b[0],
	a[1] + times * b[1],
	a[2] + times * b[2],
];

const mix = (a: Body, timesA: number, b: Body, timesB: number): Body => [
	timesA * a[0] + timesB * b[0],
	timesA * a[1] + timesB * b[1],
	timesA * a[2] + timesB * b[2],
];

/** Places the joints around the hip at (0, 0), the trunk leaning by `tilt` degrees. */
function placeJoints(posture: Posture, tilt: number): Joints {
	const sine = Math.sin(radians(tilt));
	const cosine = Math.cos(radians(tilt));
	const fromSide = posture.view === "side";
	// The axis that points at the viewer vanishes: left from the side, front from the front.
	const seen = ([up, front, left]: Body, r: number): Disc => {
		const across = fromSide ? front : left;
		return { x: up * sine + across * cosine, y: up * cosine - across * sine, r };
	};

	const turn = radians(posture.angles?.trunk ?? 0);
	// The spine keeps its length, so a curved trunk has a shorter chord.
	const chord = turn === 0 ? TRUNK : (TRUNK * Math.sin(turn / 2)) / (turn / 2);
	const nod = turn / 2 + headNod(posture, tilt);
	const head: Body = fromSide
		? add([chord, 0, 0], [Math.cos(nod), Math.sin(nod), 0], SHOULDER_TO_CROWN - RADII.head)
		: [chord + SHOULDER_TO_CROWN - RADII.head, 0, 0];
	const nose = add(head, fromSide ? [-Math.sin(nod), Math.cos(nod), 0] : [0, 1, 0], NOSE);

	const side = (name: "left" | "right"): Side => {
		const angles = sideAngles(posture, name);
		const outwards = name === "left" ? 1 : -1;
		const spread = radians(posture.angles?.spread ?? 0) / 2;
		return {
			arm: placeArm(angles, chord, fromSide, outwards, seen),
			leg: placeLeg(angles, spread, outwards, seen),
		};
	};
	return {
		view: posture.view,
		tilt,
		hip: seen([0, 0, 0], RADII.pelvis),
		chest: seen([chord, 0, 0], RADII.chest),
		curve: fromSide ? (posture.angles?.trunk ?? 0) : 0,
		head: seen(head, RADII.head),
		nose: seen(nose, RADII.nose),
		tail: seen(head, RADII.tail),
		left: side("left"),
		right: side("right"),
	};
}

type Seen = (at: Body, r: number) => Disc;

function placeArm(
	angles: Required<SideAngles>,
	chord: number,
	fromSide: boolean,
	outwards: number,
	seen: Seen,
): Arm {
	const lift = radians(angles.shoulder);
	// A bent elbow brings the hand to where the arm is lifted to.
	const bent = lift + radians(180 - angles.elbow);
	const shoulder: Body = [chord, 0, outwards * HALF_WIDTHS.shoulder];
	const along = (turn: number): Body =>
		fromSide ? [-Math.cos(turn), Math.sin(turn), 0] : [-Math.cos(turn), 0, outwards * Math.sin(turn)];
	const elbow = add(shoulder, along(lift), SEGMENTS.upperArm);
	const forearm = along(bent);
	return {
		shoulder: seen(shoulder, RADII.armTop),
		elbow: seen(elbow, RADII.elbow),
		wrist: seen(add(elbow, forearm, SEGMENTS.forearm), RADII.wrist),
		fingers: seen(add(elbow, forearm, SEGMENTS.forearm + SEGMENTS.hand - RADII.fingers), RADII.fingers),
	};
}

function placeLeg(angles: Required<SideAngles>, spread: number, outwards: number, seen: Seen): Leg {
	const hipAngle = radians(angles.hip);
	const knee = radians(angles.knee);
	const ankle = radians(angles.ankle);
	const hip: Body = [0, 0, outwards * HALF_WIDTHS.hip];
	// In the plane of the leg: along the thigh, and to the front of the leg (where the kneecap looks).
	const sideways: Body = [0, 0, outwards];
	const thigh = mix(
		[Math.cos(hipAngle), Math.sin(hipAngle), 0],
		Math.cos(spread),
		sideways,
		Math.sin(spread),
	);
	const thighFront: Body = [Math.sin(hipAngle), -Math.cos(hipAngle), 0];
	const shank = mix(thigh, -Math.cos(knee), thighFront, -Math.sin(knee));
	const shankFront = mix(thigh, Math.sin(knee), thighFront, -Math.cos(knee));
	// Along the foot to the toes, and from the ankle to the sole.
	const foot = mix(shank, -Math.cos(ankle), shankFront, Math.sin(ankle));
	const sole = mix(shank, Math.sin(ankle), shankFront, Math.cos(ankle));

	const kneeAt = add(hip, thigh, SEGMENTS.thigh);
	const ankleAt = add(kneeAt, shank, SEGMENTS.shank);
	const onSole = (fromHeel: number, r: number): Disc =>
		seen(add(add(ankleAt, foot, fromHeel - HEEL), sole, SEGMENTS.ankleHeight - r), r);
	return {
		hip: seen(hip, RADII.legTop),
		knee: seen(kneeAt, RADII.knee),
		ankle: seen(ankleAt, RADII.ankle),
		heel: onSole(RADII.heel, RADII.heel),
		toe: onSole(SEGMENTS.foot - RADII.toe, RADII.toe),
	};
}

/**
 * How far the neck bends forward of the line of the upper trunk, radians. A body on its shoulders has
 * its head on the floor; overhead arms have the ears between them; one that leans over its feet looks
 * ahead.
 */
function headNod(posture: Posture, tilt: number): number {
	const { neck } = posture.angles ?? {};
	if (neck !== undefined) return radians(neck);
	const curve = radians(posture.angles?.trunk ?? 0) / 2;
	if (posture.base === "shoulders") {
		// To the side where the head lies when the body lies back, and down until it meets the floor.
		const lift = Math.asin((RADII.head - RADII.chest) / (SHOULDER_TO_CROWN - RADII.head));
		const line = radians(tilt) + curve;
		const level = lift - Math.PI / 2;
		return Math.atan2(Math.sin(level - line), Math.cos(level - line));
	}
	const { shoulder } = sideAngles(posture, "right");
	if (shoulder > OVERHEAD) return within(radians(180 - shoulder) - curve, radians(25));
	const lean = radians(tilt) + curve;
	const leansAhead = posture.base === "feet" && lean > 0 && lean < Math.PI / 2;
	return leansAhead ? -Math.min(lean * 0.6, radians(30)) : 0;
}

const within = (value: number, limit: number): number => Math.max(-limit, Math.min(limit, value));

// ── 2. hands and feet ──────────────────────────────────────────────────────────────────────────

const wristsOf = ({ left, right }: Joints): readonly Disc[] => [left.arm.wrist, right.arm.wrist];

const feetOf = ({ left, right }: Joints): readonly Disc[] => [
	left.leg.heel,
	left.leg.toe,
	right.leg.heel,
	right.leg.toe,
];

const handHeight = (joints: Joints): number => lowest(wristsOf(joints));

const footHeight = (joints: Joints): number => lowest(feetOf(joints));

/**
 * The lean nearest to the written one where both hands and feet are on their ground, the hands' so much
 * higher than the feet's; the written one if there is none.
 */
function tiltOntoHandsAndFeet(posture: Posture, rise: number): number {
	// Leaning further turns the whole body around the hip, so its joints are placed only once.
	const joints = placeJoints(posture, posture.tilt);
	const hands = wristsOf(joints);
	const feet = feetOf(joints);
	const gap = (tilt: number): number => {
		const sine = Math.sin(radians(tilt - posture.tilt));
		const cosine = Math.cos(radians(tilt - posture.tilt));
		const height = (discs: readonly Disc[]): number =>
			Math.min(...discs.map(({ x, y, r }) => y * cosine - x * sine - r));
		return height(hands) - height(feet) - rise;
	};
	const start = gap(posture.tilt);
	const step = 2;
	for (let away = step; away <= 90; away += step) {
		for (const towards of [step, -step]) {
			const far = posture.tilt + (towards / step) * away;
			if (start > 0 !== gap(far) > 0) return bisect(gap, far - towards, far);
		}
	}
	return posture.tilt;
}

function bisect(f: (x: number) => number, from: number, to: number): number {
	let low = from;
	let high = to;
	const side = f(low) > 0;
	for (let i = 0; i < 24; i++) {
		const middle = (low + high) / 2;
		if (f(middle) > 0 === side) low = middle;
		else high = middle;
	}
	return (low + high) / 2;
}

// ── 3. what carries the body ───────────────────────────────────────────────────────────────────

function setDown(posture: Posture, joints: Joints, ground: Ground | undefined): Pose {
	switch (posture.base) {
		case "hang":
			return onBar(joints);
		case "hips":
			return overBar(joints);
		case "hands":
			return onHands(posture, joints, ground);
		case "feet":
			return ground === "bar"
				? onFeetOnBar(joints)
				: restHands(lifted(joints, -footHeight(joints), { kind: "floor" }));
		case "head": {
			const flat = withFlatHands(joints);
			return restHands(lifted(flat, -lowest([joints.head]), { kind: "floor" }));
		}
		case "air":
			return lifted(joints, AIR - bodyHeight(joints), { kind: "air" });
		case "back":
		case "front":
			if (ground === "barrel" || ground === "octagon") return overRoller(joints);
			return restHands(lifted(joints, -carriedHeight(posture.base, joints), { kind: "floor" }));
		default:
			return restHands(lifted(joints, -carriedHeight(posture.base, joints), { kind: "floor" }));
	}
}

const bodyHeight = (joints: Joints): number =>
	lowest([joints.head, ...trunkDiscs(joints), ...limbDiscs(joints.left), ...limbDiscs(joints.right)]);

/** The lowest point of what may touch the floor: arms that rest on it carry nothing. */
function carriedHeight(base: Base, joints: Joints): number {
	if (base === "shoulders") return lowest(trunkDiscs(joints));
	const legs = [joints.left.leg, joints.right.leg].flatMap((leg) => [leg.knee, leg.ankle, leg.heel, leg.toe]);
	return lowest([...trunkDiscs(joints), ...legs]);
}

/**
 * Hands on the ground; on a bar where that is the ground; with the arms by the side on a beam, rails or
 * a block, else on a block or a bar as the legs need it.
 */
function onHands(posture: Posture, joints: Joints, ground: Ground | undefined): Pose {
	if (ground === "bar") return onBar(joints);
	const pressing = Math.max(
		Math.abs(sideAngles(posture, "left").shoulder),
		Math.abs(sideAngles(posture, "right").shoulder),
	);
	const flat = withFlatHands(joints);
	const hands = handHeight(joints);
	if (pressing >= SUPPORT_SHOULDER) return lifted(flat, -hands, { kind: "floor" });
	const drop = hands - bodyHeight(flat);
	// Hands beside the hips press on the top of what is jumped over; the legs may hang beside it.
	if (ground === "box" || ground === "table") return lifted(flat, -hands, { kind: "floor" });
	const own = ground === "beam" || ground === "rails" || ground === "block" ? ground : undefined;
	if (own === undefined && drop > BAR_DROP) return onBar(joints);

	const top = Math.max(Math.max(drop, 0) + 0.06, own === undefined ? 0 : HOLD_TOPS[own]);
	const arms = [flat.left.arm, flat.right.arm];
	const ends = arms.flatMap(({ wrist, fingers }) => [wrist.x, fingers.x]);
	return lifted(flat, top - hands, {
		kind: own ?? "block",
		y: top,
		left: Math.min(...ends) - 0.03,
		right: Math.max(...ends) + 0.03,
	});
}

/** Folded over a bar that lies in the crease of the hips. */
function overBar(joints: Joints): Pose {
	const lean = radians(joints.tilt);
	const x = joints.hip.x + FOLD.up * Math.sin(lean) + (FOLD.front + RADII.bar) * Math.cos(lean);
	const y = joints.hip.y + FOLD.up * Math.cos(lean) - (FOLD.front + RADII.bar) * Math.sin(lean);
	return lifted(joints, BAR_HEIGHT - y, { kind: "bar", y: BAR_HEIGHT, left: x, right: x });
}

/** Bent over a barrel that carries the middle of the trunk. */
function overRoller(joints: Joints): Pose {
	const { y, r } = trunkDiscs(joints)[2] ?? joints.hip;
	return lifted(joints, ROLLER_TOP - (y - r), { kind: "floor" });
}

/** Standing on a bar: the middle of the soles is over it. */
function onFeetOnBar(joints: Joints): Pose {
	const { heel, toe } = joints.right.leg;
	const x = (heel.x + toe.x) / 2;
	const up = BAR_HEIGHT + RADII.bar - footHeight(joints);
	return lifted(joints, up, { kind: "bar", y: BAR_HEIGHT, left: x, right: x });
}

function onBar(joints: Joints): Pose {
	const gripped = { ...joints, left: withGrip(joints.left), right: withGrip(joints.right) };
	const { y } = gripped.right.arm.fingers;
	const ends = [gripped.left.arm.fingers.x, gripped.right.arm.fingers.x];
	const left = Math.min(...ends);
	const right = Math.max(...ends);
	return lifted(gripped, BAR_HEIGHT - y, { kind: "bar", y: BAR_HEIGHT, left, right });
}

/** The hand folded round a bar in line with the forearm. */
function withGrip({ arm, leg }: Side): Side {
	const { wrist, fingers } = arm;
	const share = GRIP / (SEGMENTS.hand - RADII.fingers);
	const bar = {
		x: wrist.x + share * (fingers.x - wrist.x),
		y: wrist.y + share * (fingers.y - wrist.y),
		r: RADII.wrist,
	};
	return { arm: { ...arm, fingers: bar }, leg };
}

/** Hands that bear weight lie flat, bent back at the wrist; a hand held higher stays as it is. */
function withFlatHands(joints: Joints): Joints {
	const ground = handHeight(joints);
	const height = ground + 0.002;
	const flat = ({ arm, leg }: Side, outwards: number): Side => {
		const { shoulder, wrist, fingers } = arm;
		const isDown = wrist.y - wrist.r <= height;
		if (!isDown && fingers.y - fingers.r >= ground) return { arm, leg };
		// From the side the wrist bends back on past overhead; from the front the fingers are foreshortened.
		const length = SEGMENTS.hand - RADII.fingers;
		const reach =
			joints.view === "side" ? (shoulder.y >= wrist.y ? length : -length) : (outwards * length) / 2;
		// A hand that is a little higher than the other reaches down to the same ground.
		const drop = isDown ? wrist.r - RADII.fingers : Math.min(wrist.y - ground - RADII.fingers, length);
		const share = Math.sqrt(Math.max(0, 1 - (drop / length) ** 2));
		return {
			arm: {
				...arm,
				fingers: { x: wrist.x + reach * share, y: wrist.y - drop, r: RADII.fingers },
			},
			leg,
		};
	};
	return { ...joints, left: flat(joints.left, 1), right: flat(joints.right, -1) };
}

function lifted(joints: Joints, by: number, support: Support): Pose {
	return movedBy({ ...joints, support }, 0, by);
}

// ── 4. hands on the floor ──────────────────────────────────────────────────────────────────────

/** Angles written roughly put hands a little into the floor: such an arm swings until it rests on it. */
function restHands(pose: Pose): Pose {
	return { ...pose, left: restHand(pose, pose.left, 1), right: restHand(pose, pose.right, -1) };
}

function restHand({ view }: Pose, { arm, leg }: Side, outwards: number): Side {
	const { shoulder, wrist, fingers } = arm;
	const length = SEGMENTS.upperArm + SEGMENTS.forearm;
	const palm = SEGMENTS.hand - RADII.fingers;
	const near = 0.004;
	if (Math.min(wrist.y - wrist.r, fingers.y - fingers.r) > -near) return { arm, leg };

	// From straight down; an arm exactly there goes behind the body, or outwards from the front.
	const reachOfArm = Math.hypot(wrist.x - shoulder.x, wrist.y - shoulder.y);
	if (reachOfArm < length - near) return { arm: swungUp(arm), leg };
	const now = Math.atan2(wrist.x - shoulder.x, shoulder.y - wrist.y);
	const apart = Math.acos(within((shoulder.y - wrist.r) / length, 1));
	const rest = Math.abs(now) > near ? Math.sign(now) * apart : (view === "side" ? -1 : outwards) * apart;
	const swing = wrist.y - wrist.r > -near ? now : rest;
	const along = (by: number, r: number): Disc => ({
		x: shoulder.x + by * Math.sin(swing),
		y: shoulder.y - by * Math.cos(swing),
		r,
	});
	const handAt = along(length, wrist.r);
	const drop = within(handAt.y - RADII.fingers, palm);
	const towards = view === "side" ? 1 : outwards;
	const reach = Math.sign(fingers.x - wrist.x) || towards;
	return {
		arm: {
			shoulder,
			elbow: along(SEGMENTS.upperArm, arm.elbow.r),
			wrist: handAt,
			fingers: {
				x: handAt.x + reach * Math.sqrt(palm * palm - drop * drop),
				y: handAt.y - drop,
				r: RADII.fingers,
			},
		},
		leg,
	};
}

/** A bent arm keeps its elbow: it swings as a whole around the shoulder, the short way, until it is free. */
function swungUp(arm: Arm): Arm {
	const { shoulder } = arm;
	const swung = (by: number): Arm => {
		const sine = Math.sin(by);
		const cosine = Math.cos(by);
		const turn = ({ x, y, r }: Disc): Disc => ({
			x: shoulder.x + (x - shoulder.x) * cosine - (y - shoulder.y) * sine,
			y: shoulder.y + (x - shoulder.x) * sine + (y - shoulder.y) * cosine,
			r,
		});
		return { shoulder, elbow: turn(arm.elbow), wrist: turn(arm.wrist), fingers: turn(arm.fingers) };
	};
	const height = (by: number): number => {
		const { elbow, wrist, fingers } = swung(by);
		return lowest([elbow, wrist, fingers]);
	};
	const step = 0.05;
	for (let away = step; away <= Math.PI; away += step) {
		for (const way of [step, -step]) {
			const by = (way / step) * away;
			if (height(by) >= 0) return swung(bisect(height, by - way, by));
		}
	}
	return arm;
}
