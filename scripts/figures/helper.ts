/**
 * Who helps: a grey coach beside a phase's body, with hands where the drill says.
 *
 *   1. where each hand goes: a place on the body, from its joints
 *   2. a coach a little larger than the gymnast, standing, kneeling or sitting on the floor as low as the
 *      hands need it, beside the body or before or behind it
 *   3. arms of the coach's own lengths that reach to those places; a hand beyond reach points at it
 *
 * The coach is drawn behind the body and the hands over it. Heights are signs and not to scale, as those
 * of apparatus are (tops.ts).
 */

import type { Helper, HelpPlace } from "../model.ts";
import { type Box, boxOf, UNITS } from "./draw-body.ts";
import { FAR, PAPER } from "./markup.ts";
import { type Arm, type Disc, mirrored, movedBy, type Point, type Pose, poseOf, trunkDiscs } from "./pose.ts";
import { SEGMENTS, TRUNK } from "./segments.ts";

/** A coach over a gymnast, as shares of the gymnast's stature. */
const SIZE = 1.15;
/** Statures: from the coach's middle to what the hands do, beside the body and face to face with it. */
const BESIDE = 0.26;
const APART = { most: 0.42, least: 0.22 } as const;
/** From the coach's shoulders to the middle of the hands. */
const REACH = SIZE * (SEGMENTS.upperArm + SEGMENTS.forearm + 0.04);
/** How far over the hands the coach's shoulders are, where the legs allow it. */
const OVER = 0.2;

/** One helper of a phase, posed on the floor: y = 0 is the floor. */
export interface PlacedHelper {
	readonly pose: Pose;
	/** The arms that reach to the gymnast. */
	readonly arms: readonly Arm[];
	readonly box: Box;
}

/**
 * Helpers of a body that stands on the floor of a picture.
 *
 * @param pose the gymnast, with the floor at y = 0
 */
export function placeHelpers(helpers: readonly Helper[], pose: Pose): readonly PlacedHelper[] {
	return helpers.map((helper, i) => {
		const coach = coachFor(helper, pose, i);
		return { ...coach, box: boxOf(coach.pose) };
	});
}

/** The coach's hands, over the gymnast's body. */
export function drawHelpingHands({ arms }: PlacedHelper, dx: number): string {
	const hands = arms.map(({ wrist, fingers }) => {
		const at = ({ x, y }: Point): string => `${Math.round(x * UNITS + dx)} ${Math.round(-y * UNITS)}`;
		return `M${at(wrist)}L${at(fingers)}`;
	});
	const line = (name: string, stroke: string, width: number): string =>
		`<path class="figure-${name}" fill="none" stroke="${stroke}" stroke-width="${width}" stroke-linecap="round" d="${hands.join("")}"/>`;
	return line("hands-rim", PAPER, 118) + line("hands", FAR, 78);
}

// ── 1. where hands go ──────────────────────────────────────────────────────────────────────────

/** Places on a body, in statures; `out` is to the front, or to the back where it is negative. */
function placeOn(pose: Pose, place: HelpPlace): Point {
	const { head, nose, chest, hip, right } = pose;
	const { arm, leg } = right;
	const facing = (head.x - chest.x) * (nose.y - head.y) - (head.y - chest.y) * (nose.x - head.x) > 0 ? -1 : 1;
	const front = pose.view === "front" ? 0 : facing;
	const trunk = trunkDiscs(pose);
	const on = (from: Point, to: Point, share: number, out: number): Point => {
		const long = Math.hypot(to.x - from.x, to.y - from.y) || 1;
		const [ux, uy] = [(to.x - from.x) / long, (to.y - from.y) / long];
		return {
			x: from.x + share * (to.x - from.x) + front * out * uy,
			y: from.y + share * (to.y - from.y) - front * out * ux,
		};
	};
	const spine = (i: number, out: number): Point => on(trunk[i] ?? hip, trunk[i + 1] ?? chest, 0.5, out);
	switch (place) {
		case "head":
			return { x: head.x - 0.5 * (nose.x - head.x), y: head.y - 0.5 * (nose.y - head.y) };
		case "shoulder":
			return arm.shoulder;
		case "upper-arm":
			return on(arm.shoulder, arm.elbow, 0.55, 0);
		case "forearm":
			return on(arm.elbow, arm.wrist, 0.5, 0);
		case "hand":
			return arm.fingers;
		case "chest":
			return spine(2, 0.05);
		case "stomach":
			return spine(1, 0.045);
		case "upper-back":
			return spine(2, -0.045);
		case "low-back":
			return spine(1, -0.04);
		case "waist":
			return spine(1, 0);
		case "hip":
			return hip;
		case "seat":
			return spine(0, -0.05);
		case "thigh":
			return on(leg.knee, leg.hip, 0.5, 0.03);
		case "back-of-thigh":
			return on(leg.knee, leg.hip, 0.5, -0.03);
		case "knee":
			return leg.knee;
		case "shin":
			return on(leg.ankle, leg.knee, 0.5, 0);
		case "foot":
			return leg.ankle;
	}
}

// ── 2. the coach ───────────────────────────────────────────────────────────────────────────────

function coachFor(
	{ from, stance = "stand", hands }: Helper,
	pose: Pose,
	i: number,
): Pick<PlacedHelper, "pose" | "arms"> {
	const places = hands.map((place) => placeOn(pose, place));
	const mean = (of: (point: Point) => number): number =>
		places.length === 0 ? of(pose.hip) : places.reduce((sum, point) => sum + of(point), 0) / places.length;
	const [x, y] = [mean((point) => point.x), mean((point) => point.y)];
	const high = (Math.max(y, ...places.map((point) => point.y)) + OVER) / SIZE;
	const toTheLeft = from === "side" ? i % 2 === 0 : (from === "back") === facesRight(pose);
	const body = scaled(
		from === "side" ? frontCoach(stance, high) : mirroredIf(!toTheLeft, sideCoach(stance, high)),
	);
	const wide = places.length < 2 ? 0 : Math.abs((places[0]?.x ?? 0) - (places[1]?.x ?? 0));
	// Hands far apart leave room for the coach between them; else the coach stands beside what they do.
	const down = Math.max(0, ...places.map((point) => body.chest.y - point.y));
	const reach = Math.sqrt(Math.max(0, REACH ** 2 - down ** 2));
	const apart = Math.max(APART.least, Math.min(APART.most, reach));
	const away = from === "side" ? Math.max(0, BESIDE - wide / 2) : apart;
	const placed = movedBy(body, x + (toTheLeft ? -away : away) - body.chest.x, 0);
	return reaching(placed, places);
}

function facesRight({ head, nose, chest }: Pose): boolean {
	return (head.x - chest.x) * (nose.y - head.y) - (head.y - chest.y) * (nose.x - head.x) <= 0
		? nose.x >= head.x || head.y < chest.y
		: false;
}

const mirroredIf = (is: boolean, pose: Pose): Pose => (is ? mirrored(pose) : pose);

/** Degrees that the thighs lean so that the shoulders are as high as wanted, standing or on the knees. */
function bend(high: number, over: number, legs: number): number {
	const share = Math.max(0.35, Math.min(1, (high - over) / legs));
	// In steps, so that coaches have legs of few kinds; their arms reach as far as they must.
	return 5 * Math.round(Math.acos(share) * (36 / Math.PI));
}

/** Of a coach who stands: from the floor to the shoulders without the legs. */
const TRUNK_AND_ANKLE = SEGMENTS.shoulderHeight - SEGMENTS.thigh - SEGMENTS.shank;

function frontCoach(stance: NonNullable<Helper["stance"]>, high: number): Pose {
	if (stance !== "stand") return lowCoach("front", high);
	const lean = bend(high, TRUNK_AND_ANKLE, SEGMENTS.thigh + SEGMENTS.shank);
	const angles = { hip: 180 - lean, knee: 180 - 2 * lean, ankle: 90 - lean, spread: 16 };
	return poseOf({ view: "front", tilt: 0, base: "feet", angles });
}

function sideCoach(stance: NonNullable<Helper["stance"]>, high: number): Pose {
	if (stance !== "stand") return lowCoach("side", high);
	const lean = bend(high, TRUNK_AND_ANKLE, SEGMENTS.thigh + SEGMENTS.shank);
	const over = 8 + lean / 3;
	const back = { hip: 180 - lean - over - 14, knee: 180 - 2 * lean, ankle: 90 - lean };
	const ahead = { hip: 180 - lean - over + 12, knee: 172 - 2 * lean, ankle: 92 - lean };
	return poseOf({ view: "side", tilt: over, base: "feet", angles: { trunk: 6, left: back, right: ahead } });
}

/** On the knees: from the front as low as sitting on the heels, from the side leaning as far as the hands need it. */
function lowCoach(view: Pose["view"], high: number): Pose {
	if (view === "front") {
		const lean = bend(high, SEGMENTS.kneeHeight, SEGMENTS.thigh);
		return poseOf({ view, tilt: 0, base: "knees", angles: { hip: 180 - lean, knee: 90 - lean, spread: 24 } });
	}
	const lean = bend(high, SEGMENTS.kneeHeight, TRUNK);
	return poseOf({ view, tilt: lean, base: "knees", angles: { hip: 180 - lean, knee: 90, ankle: 170 } });
}

function scaled(pose: Pose): Pose {
	const to = ({ x, y, r }: Disc): Disc => ({ x: x * SIZE, y: y * SIZE, r: r * SIZE });
	const limb = <Limb extends object>(parts: Limb): Limb =>
		Object.fromEntries(Object.entries(parts).map(([name, disc]) => [name, to(disc)])) as Limb;
	const { hip, chest, head, nose, tail, left, right } = pose;
	return {
		...pose,
		hip: to(hip),
		chest: to(chest),
		head: to(head),
		nose: to(nose),
		tail: to(tail),
		left: { arm: limb(left.arm), leg: limb(left.leg) },
		right: { arm: limb(right.arm), leg: limb(right.leg) },
	};
}

// ── 3. arms ────────────────────────────────────────────────────────────────────────────────────

/** The coach's arms to the places: each hand takes the one on its own side, and one that is not needed hangs. */
function reaching(pose: Pose, places: readonly Point[]): Pick<PlacedHelper, "pose" | "arms"> {
	const [first, second] = places;
	const { left, right } = pose;
	if (first === undefined) return { pose, arms: [] };
	const far = ({ shoulder }: Arm): number => Math.abs(shoulder.x - first.x);
	if (second === undefined) {
		const isLeft = far(left.arm) < far(right.arm);
		const arm = armTo(isLeft ? left.arm : right.arm, first);
		const own = isLeft ? { left: { ...left, arm } } : { right: { ...right, arm } };
		return { pose: { ...pose, ...own }, arms: [arm] };
	}
	const swap = left.arm.shoulder.x < right.arm.shoulder.x === first.x > second.x;
	const arms = [armTo(left.arm, swap ? second : first), armTo(right.arm, swap ? first : second)] as const;
	return { pose: { ...pose, left: { ...left, arm: arms[0] }, right: { ...right, arm: arms[1] } }, arms };
}

function armTo({ shoulder, elbow, wrist, fingers }: Arm, place: Point): Arm {
	const [upper, fore, hand] = [SEGMENTS.upperArm, SEGMENTS.forearm, 0.08].map((long) => long * SIZE) as [
		number,
		number,
		number,
	];
	const far = Math.hypot(place.x - shoulder.x, place.y - shoulder.y);
	const way = Math.atan2(place.y - shoulder.y, place.x - shoulder.x);
	// The wrist ends so that the middle of the hand is on the place.
	const span = Math.max(0.12, Math.min(far - hand / 2, upper + fore - 0.004));
	const cosine = (upper * upper + span * span - fore * fore) / (2 * upper * span);
	const open = Math.acos(Math.max(-1, Math.min(1, cosine)));
	// Elbows hang: the joint bends to the side that is lower.
	const sides = [way + open, way - open].map((turn) => ({
		x: shoulder.x + upper * Math.cos(turn),
		y: shoulder.y + upper * Math.sin(turn),
	}));
	const [a, b] = sides as [Point, Point];
	const joint = a.y < b.y ? a : b;
	const at = { x: shoulder.x + span * Math.cos(way), y: shoulder.y + span * Math.sin(way) };
	return {
		shoulder,
		elbow: { ...joint, r: elbow.r },
		wrist: { ...at, r: wrist.r },
		fingers: { x: at.x + hand * Math.cos(way), y: at.y + hand * Math.sin(way), r: fingers.r },
	};
}
