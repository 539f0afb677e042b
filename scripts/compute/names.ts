/** The names of things as findings say them. */

import type { Curriculum, Id } from "../model.ts";
import type { Words } from "../words/words.ts";
import type { Group } from "./groups.ts";

export function groupName(words: Words, { class: own, part }: Group): string {
	return part === undefined ? own.name : words.groupOf(own.name, part);
}

export function drillName(curriculum: Curriculum, id: Id): string {
	return curriculum.drills.get(id)?.title ?? id;
}

export function apparatusName(curriculum: Curriculum, id: Id): string {
	return curriculum.apparatus.get(id)?.name ?? id;
}

export function itemName(curriculum: Curriculum, id: Id): string {
	return curriculum.equipment.get(id)?.name ?? id;
}

export function levelName(curriculum: Curriculum, id: Id): string {
	return curriculum.levels.get(id)?.name ?? id;
}

/** What a finding about a group is listed beside. */
export function aboutGroup(group: Group): { readonly class: Id; readonly group: string } {
	return { class: group.class.id, group: group.name };
}
