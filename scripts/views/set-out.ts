/**
 * What a class has to set out in a week, apparatus by apparatus, as its coaches carry it.
 */

import { groupsOfClass } from "../compute/groups.ts";
import { mostOnEach } from "../compute/set-out.ts";
import { workOf } from "../compute/work.ts";
import type { ClubClass, WeekPlan } from "../model.ts";
import { linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

/** The equipment of one apparatus. */
export type SetOut = ReturnType<typeof setOutFor>[number];

/** The lists of a class, in the order of its rotation; apparatus that need nothing are left out. */
export function setOutFor(site: SiteIndex, week: WeekPlan, one: ClubClass) {
	const { curriculum } = site;
	const works = groupsOfClass(curriculum, one).map((group) => workOf(curriculum, week, group));
	return [...mostOnEach(works)].flatMap(([id, needs]) => {
		const items = [...curriculum.equipment.values()].flatMap(({ id: item, name, owned, stored }) => {
			const needed = needs.get(item) ?? 0;
			return needed === 0 ? [] : [{ id: item, name, needed, owned, stored }];
		});
		return items.length === 0 ? [] : [{ id, apparatus: linkTo(curriculum, "apparatus", id), items }];
	});
}
