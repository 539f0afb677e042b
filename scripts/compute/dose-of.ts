/** How much of a drill a level does in a block. */

import type { Block, Id, LinkedDrill } from "../model.ts";

/** How much of an option's minutes and repetitions counts: `choose / options`; 1 in every other block. */
export function optionShare(block: Pick<Block, "kind" | "choose">, options: number): number {
	return block.kind === "options" ? Math.min(1, block.choose / options) : 1;
}

/** Sets, repetitions and hold of a drill for a level in a block: each the block's, else the level's, else the drill's. */
export function doseOf(
	drill: LinkedDrill,
	level: Id,
	block?: Pick<Block, "dose" | "doses">,
): {
	readonly sets: number | undefined;
	readonly reps: number | undefined;
	readonly hold: number | undefined;
	/** Sets × reps, a single missing one counting 1; undefined where neither is said. */
	readonly repetitions: number | undefined;
} {
	const here = block?.doses.get(level) ?? block?.dose;
	const own = drill.levels.get(level);
	const sets = here?.sets ?? own?.sets ?? drill.sets;
	const reps = here?.reps ?? own?.reps ?? drill.reps;
	const hold = here?.hold ?? own?.hold ?? drill.hold;
	return {
		sets,
		reps,
		hold,
		repetitions: sets === undefined && reps === undefined ? undefined : (sets ?? 1) * (reps ?? 1),
	};
}
