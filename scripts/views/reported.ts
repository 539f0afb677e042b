/** What a coach is asked about at the end of a class: how many can do each skill of the day. */

import { type Group, groupsOfClass } from "../compute/groups.ts";
import { performedBy } from "../compute/reach.ts";
import { workOf } from "../compute/work.ts";
import type { ClubClass, Id, WeekPlan } from "../model.ts";
import type { Address } from "./addresses.ts";
import { criteriaOf } from "./drill.ts";
import type { Html } from "./html.ts";
import { type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";
import { capital } from "./words.ts";

export interface SkillOfDay {
	readonly skill: Id;
	readonly link: Link;
	/** The group's id in its class, and its name; empty where the class is one group. */
	readonly group: Id;
	readonly groupName: string;
	readonly gymnasts: number;
	/** What must be seen. */
	readonly criteria: readonly Html[];
}

/** The skills that a class performs in a week, group by group; where the club says of no drill what it performs, those it prepares. */
export function skillsOfDay(
	site: SiteIndex,
	page: Address,
	week: WeekPlan,
	group: ClubClass,
): readonly SkillOfDay[] {
	const { curriculum } = site;
	const groups = groupsOfClass(curriculum, group);
	const isSaid = [...curriculum.drills.values()].some((drill) => performedBy(drill).size > 0);
	return groups.flatMap((part) => {
		const named = new Set(
			workOf(curriculum, week, part)
				.blocks.flatMap(({ stations }) => stations)
				.flatMap(({ drill }) => (isSaid ? [...performedBy(drill).keys()] : drill.skills)),
		);
		return [...curriculum.skills.values()]
			.filter(({ id }) => named.has(id))
			.map(({ id }) => ({
				skill: id,
				link: linkTo(curriculum, "skill", id),
				...nameOf(part, groups.length > 1),
				gymnasts: part.gymnasts,
				criteria: criteriaOf(site, page, id),
			}));
	});
}

function nameOf(part: Group, isOneOfSeveral: boolean) {
	return isOneOfSeveral
		? {
				group: part.name.slice(part.class.id.length + 1),
				groupName: capital(part.part ?? ""),
			}
		: { group: "", groupName: "" };
}
