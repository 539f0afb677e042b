/**
 * Poses between two phases of a drill, for a body that moves in one place.
 *
 *   1. every phase is set on its ground, what carries it over x = 0
 *   2. angles change evenly; the trunk turns the way the body travels
 *   3. what carries the body in both phases carries it between them; else its lowest point moves evenly
 *      from where it was to where it will be, so a body that rolls keeps touching the ground
 *
 * Angles change and lengths do not: each pose is placed by the same forward kinematics as a figure.
 * Between a view from the side and one from the front the body turns towards the viewer or away: its
 * joints move straight from one place beside the trunk to the other, as a turning body's do when it is
 * seen from one place, so limbs are foreshortened and never longer than they are.
 */

import type { Angles, SideAngles } from "../model.ts";
import { flightRises } from "./flight.ts";
import { isRoller } from "./ground.ts";
import {
	aboutHip,
	blended,
	discsOf,
	mirrored,
	movedBy,
	type Pose,
	type Posture,
	poseInAir,
	poseOf,
	shifted,
	sideAngles,
	withHair,
} from "./pose.ts";
import { onOneHold } from "./strip.ts";
import type { Movement, Stance } from "./support.ts";
import { topOf } from "./tops.ts";

/** A phase on its ground: the floor is y = 0, and what carries the body stands over x = 0. */
export interface Moment {
	readonly stance: Pick<Stance, "posture" | "ground" | "hands">;
	readonly pose: Pose;
	/** How high its ground, or its flight over it, is over the floor, in statures. */
	readonly up: number;
}

/** The phases of a movement in one place; a bar stands so high that the body clears the floor between them. */
export function momentsOf(
	stances: readonly Moment["stance"][],
	travel: Movement["travel"] = "none",
): readonly Moment[] {
	const poses = onOneHold(stances.map(({ posture, ground, hands }) => poseOf(posture, ground, hands)));
	const rises = flightRises(stances, poses);
	const moments = stances.map((stance, i): Moment => {
		const pose = poses[i] ?? poseOf(stance.posture, stance.ground, stance.hands);
		const up = "y" in pose.support ? 0 : topOf(stance.ground) + (rises[i] ?? 0);
		return { stance, pose: shifted(pose, -carriedAt(pose, stance.posture), up), up };
	});
	const lows = moments.slice(1).flatMap((to, i) => {
		const from = moments[i];
		if (from?.pose.support.kind !== "bar" || to.pose.support.kind !== "bar") return [];
		return [0.25, 0.5, 0.75].map((share) => lowestOf(between(from, to, share, travel)));
	});
	const raise = Math.max(0, CLEAR - Math.min(...lows, CLEAR));
	if (raise === 0) return moments;
	return moments.map((moment) =>
		moment.pose.support.kind === "bar" ? { ...moment, pose: shifted(moment.pose, 0, raise) } : moment,
	);
}

/** How far a body on a bar stays clear of the floor, in statures: more than a mat is thick. */
const CLEAR = 0.08;

/** The pose a share of the way, 0 to 1, from one moment to the next; faces right, as all poses do. */
export function between(from: Moment, to: Moment, share: number, travel: Movement["travel"]): Pose {
	if (share <= 0) return from.pose;
	if (share >= 1) return to.pose;
	if (from.pose.view !== to.pose.view) return turning(from, to, share, travel);
	const posture = postureBetween(from.stance.posture, to.stance.posture, share, travel);
	const even = (a: number, b: number): number => a + share * (b - a);

	const carried = carriedInBoth(from, to);
	if (carried !== undefined) {
		const { ground, hands } = from.stance;
		const pose = poseOf({ ...posture, base: carried }, ground, hands);
		if (pose.support.kind === from.pose.support.kind) {
			const rise =
				"y" in pose.support && "y" in from.pose.support
					? from.pose.support.y - pose.support.y
					: even(from.up, to.up);
			return shifted(pose, -carriedAt(pose, { ...posture, base: carried }), rise);
		}
	}
	const free = poseInAir(posture);
	const low = even(lowestOf(from.pose), lowestOf(to.pose));
	const hip = even(from.pose.hip.x, to.pose.hip.x);
	// Over a roller the hips go on as high as they were, or the body would pass through it.
	const over = isRoller(from.stance.ground) || isRoller(to.stance.ground);
	const least = over ? even(from.pose.hip.y, to.pose.hip.y) - free.hip.y : Number.NEGATIVE_INFINITY;
	const { support } = share < 0.5 ? from.pose : to.pose;
	return withHair({ ...shifted(free, hip - free.hip.x, Math.max(low - lowestOf(free), least)), support });
}

/** A body that turns from one view into the other, a share of the way; how it is drawn changes half way. */
function turning(from: Moment, to: Moment, share: number, travel: Movement["travel"]): Pose {
	const even = (a: number, b: number): number => a + share * (b - a);
	// A body seen from the side that travels backward is shown facing left, and it turns from there.
	const shown = ({ pose }: Moment): Pose =>
		travel === "backward" && pose.view === "side" ? mirrored(pose) : pose;
	const [a, b] = [shown(from), shown(to)];
	const lean = a.tilt + share * turnOf(a.tilt, b.tilt, "none");
	const mixed = blended(aboutHip(a, -a.tilt), aboutHip(b, -b.tilt), share);
	const turned = aboutHip(mixed, lean);
	const near = share < 0.5 ? a : b;
	const pose: Pose = {
		...movedBy(
			turned,
			even(a.hip.x, b.hip.x) - turned.hip.x,
			even(lowestOf(a), lowestOf(b)) - lowestOf(turned),
		),
		view: near.view,
		tilt: lean,
		support: near.support,
	};
	return shown({ ...from, pose });
}

/** What carries the body in both phases alike; undefined where that changes. */
function carriedInBoth(from: Moment, to: Moment): Posture["base"] | undefined {
	const [a, b] = [from.stance.posture.base, to.stance.posture.base];
	const holdsBar = (base: Posture["base"]): boolean => base === "hang" || base === "hands";
	if (from.pose.support.kind === "bar" && to.pose.support.kind === "bar") {
		// Hands stay on their bar, whether they hang or press.
		if (a !== b) return holdsBar(a) && holdsBar(b) ? "hang" : undefined;
	} else if (from.pose.support.kind !== to.pose.support.kind) return undefined;
	if (a === "hands-and-feet" && from.stance.hands !== to.stance.hands) return undefined;
	return a === b && a !== "air" ? a : undefined;
}

const lowestOf = (pose: Pose): number => Math.min(...discsOf(pose).map(({ y, r }) => y - r));

/** Where what carries the body stands: feet, hands, the bar, else the hips. */
function carriedAt({ left, right, hip, support }: Pose, { base }: Posture): number {
	if (support.kind === "bar") return (support.left + support.right) / 2;
	if (base === "feet") return (left.leg.ankle.x + right.leg.ankle.x) / 2;
	if (base === "hands") return (left.arm.wrist.x + right.arm.wrist.x) / 2;
	return hip.x;
}

// ── 2. angles ──────────────────────────────────────────────────────────────────────────────────

function postureBetween(a: Posture, b: Posture, share: number, travel: Movement["travel"]): Posture {
	const even = (from = 0, to = 0): number => from + share * (to - from);
	const side = (name: "left" | "right"): SideAngles => {
		const from = sideAngles(a, name);
		const to = sideAngles(b, name);
		return {
			shoulder: even(from.shoulder, to.shoulder),
			elbow: even(from.elbow, to.elbow),
			hip: even(from.hip, to.hip),
			knee: even(from.knee, to.knee),
			ankle: even(from.ankle, to.ankle),
		};
	};
	const angles: Angles = {
		left: side("left"),
		right: side("right"),
		spread: even(a.angles?.spread, b.angles?.spread),
		trunk: even(a.angles?.trunk, b.angles?.trunk),
	};
	return { angles, view: a.view, tilt: a.tilt + share * turnOf(a.tilt, b.tilt, travel), base: "air" };
}

/** A body that travels forward leans back by no more than this; what is more is a turn on forward. */
const LEAN_BACK = 110;

/**
 * Degrees the trunk turns from one lean to another. The short way; but a body that travels forward or
 * backward turns over that way where the short way would lead it far back.
 */
export function turnOf(from: number, to: number, travel: Movement["travel"]): number {
	const short = ((((to - from + 180) % 360) + 360) % 360) - 180;
	if (travel === "forward" && short < -LEAN_BACK) return short + 360;
	if (travel === "backward" && short > LEAN_BACK) return short - 360;
	return short;
}
