/** Which levels a block and a class are for. */

import type { Block, ClubClass, Curriculum, Id, Level } from "../model.ts";

/** The levels a block is for: those it names, or all. */
export function levelsOf(block: Block, curriculum: Curriculum): readonly Id[] {
	const all = [...curriculum.levels.keys()];
	return block.levels.length === 0 ? all : all.filter((level) => block.levels.includes(level));
}

/** The levels of a class: those it names, or all. */
export function levelsOfClass(curriculum: Curriculum, group: ClubClass): readonly Id[] {
	return group.levels.length === 0 ? [...curriculum.levels.keys()] : group.levels;
}

/** What the gymnasts of a level arrive with: an id that is a skill's and a drill's stands for the skill. */
export function entryOf(
	{ skills, drills }: Pick<Curriculum, "skills" | "drills">,
	{ entry }: Pick<Level, "entry">,
): { readonly skills: readonly Id[]; readonly drills: readonly Id[] } {
	return {
		skills: entry.filter((id) => !drills.has(id) || skills.has(id)),
		drills: entry.filter((id) => drills.has(id) && !skills.has(id)),
	};
}
