/**
 * How high a body in the air is: its hips rise and fall between where it left and where it lands.
 *
 * A picture is no measurement: the push is a sign, chosen so that a jump looks like one, and the arc is
 * the parabola of any flight.
 */

import type { Pose } from "./pose.ts";
import type { Stance } from "./support.ts";
import { topOf } from "./tops.ts";

/** How far the hips rise over the line from take-off to landing, in statures: off the feet, and else. */
const PUSH = { feet: 0.25, other: 0.1 } as const;

/** By how much to lift each body in the air, in statures; 0 for those that are carried. */
export function flightRises(
	stances: readonly Pick<Stance, "posture" | "ground">[],
	poses: readonly Pose[],
): readonly number[] {
	const hips = stances.map(({ ground }, i) => {
		const pose = poses[i];
		return pose === undefined ? 0 : pose.hip.y + ("y" in pose.support ? 0 : topOf(ground));
	});
	const flies = (i: number): boolean => stances[i]?.posture.base === "air";
	return stances.map((_, i) => {
		if (!flies(i)) return 0;
		let before = i;
		while (flies(before)) before--;
		let after = i;
		while (flies(after)) after++;
		const leaves = hips[before] ?? hips[after];
		const lands = hips[after] ?? hips[before];
		if (leaves === undefined || lands === undefined) return 0;
		const share = (i - before) / (after - before);
		const push = stances[before]?.posture.base === "feet" ? PUSH.feet : PUSH.other;
		const height = leaves + share * (lands - leaves) + 4 * push * share * (1 - share);
		return Math.max(0, height - (hips[i] ?? 0));
	});
}
