/**
 * A class over the term: how often each of its groups really performs and prepares the skills of its
 * levels, against what the club wants.
 */

import { type Group, groupsOfClass } from "../compute/groups.ts";
import { groupName } from "../compute/names.ts";
import { reachOf } from "../compute/reach.ts";
import type { ClubClass, Id, LinkedSkill } from "../model.ts";
import { classSheetAddress } from "./addresses.ts";
import { type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export interface ClassTermView {
	/** One, or each of the class's groups by its name. */
	readonly groups: readonly {
		readonly id: Id;
		readonly name: string | undefined;
		readonly skills: readonly SkillOverTerm[];
	}[];
	/** Least performed repetitions of each skill in the term, where the club says them. */
	readonly wanted: number | undefined;
}

export type SkillOverTerm = ReturnType<typeof skillOf>[number];

/** Undefined while no week is planned, and for a class that goes nowhere. */
export function classTermView(site: SiteIndex, one: ClubClass): ClassTermView | undefined {
	const { curriculum } = site;
	const { skillReps: wanted } = curriculum.targets;
	const groups = groupsOfClass(curriculum, one).filter(({ rotation }) => rotation.length > 0);
	if (curriculum.weeks.length === 0) return undefined;
	const parts = groups.flatMap((group) => {
		const skills = [...curriculum.skills.values()].flatMap((skill) =>
			skillOf(site, one, group, skill, wanted),
		);
		const name = groups.length > 1 ? groupName(site.words, group) : undefined;
		return skills.length === 0 ? [] : [{ id: group.name.replace("/", "-"), name, skills }];
	});
	return parts.length === 0 ? undefined : { groups: parts, wanted };
}

function skillOf(
	site: SiteIndex,
	one: ClubClass,
	group: Group,
	{ id, levels }: LinkedSkill,
	wanted: number | undefined,
) {
	const { curriculum } = site;
	const own = group.levels.filter((level) => levels.includes(level));
	if (own.length === 0) return [];
	const rows = reachOf(curriculum).get(`skill ${id} ${group.gymnastsId}`) ?? [];
	const row = rows.find((each) => each.group.name === group.name);
	const performed = row?.performed ?? 0;
	const together = rows.reduce((sum, each) => sum + (each.performed ?? 0), 0);
	const arrives = own.every((level) => curriculum.levels.get(level)?.entry.includes(id) === true);
	const sheet = (week: number | undefined): Link | undefined => {
		const plan = week === undefined ? undefined : site.weekByNumber.get(week);
		return plan && { to: classSheetAddress(one.id, plan.id), name: String(plan.week) };
	};
	return [
		{
			skill: linkTo(curriculum, "skill", id),
			/** Whether every level of the group that has it arrives with it. */
			arrives,
			performed,
			prepared: row?.prepared ?? 0,
			/** Performed with what the same gymnasts do on other days; undefined where they come once. */
			together: rows.some((each) => each !== row) ? together : undefined,
			/** How many weeks it is met in; 0 for never. */
			weeks: row?.weeks.length ?? 0,
			/** The class sheets of the first and the last of them. */
			first: sheet(row?.first),
			last: sheet(row?.last),
			longestGap: row?.longestGap,
			/** Repetitions under what the club wants; undefined without a target, and for what they arrive with. */
			missedBy: wanted === undefined || arrives ? undefined : Math.max(0, wanted - together),
		},
	];
}
