/**
 * What a class has to set out in a week, apparatus by apparatus, as its coaches carry it.
 */

import { groupsOfClass } from "../../compute/groups.ts";
import { needsOf } from "../../compute/needs.ts";
import { workOf } from "../../compute/work.ts";
import type { ClubClass, Id, WeekPlan } from "../../model.ts";
import { type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

/** The equipment of one apparatus. */
export interface SetOut {
	readonly id: Id;
	readonly apparatus: Link;
	readonly items: readonly SetOutItem[];
}

export interface SetOutItem {
	readonly id: Id;
	readonly name: string;
	readonly needed: number;
	/** Undefined where the club does not say. */
	readonly owned: number | undefined;
	readonly stored: string | undefined;
}

/** The lists of a class, in the order of its rotation; apparatus that need nothing are left out. */
export function setOutFor(site: SiteIndex, week: WeekPlan, one: ClubClass): readonly SetOut[] {
	const { curriculum } = site;
	// The most that one of its blocks needs, each drill as the group's level does it.
	const most = new Map<Id, Map<Id, number>>();
	for (const group of groupsOfClass(curriculum, one)) {
		for (const block of workOf(curriculum, week, group).blocks) {
			const here = most.get(block.apparatus) ?? new Map<Id, number>();
			most.set(block.apparatus, here);
			for (const [item, { count }] of needsOf(block)) here.set(item, Math.max(here.get(item) ?? 0, count));
		}
	}
	return [...most].flatMap(([id, needs]) => {
		const items = [...curriculum.equipment.values()].flatMap(({ id: item, name, owned, stored }) => {
			const needed = needs.get(item) ?? 0;
			return needed === 0 ? [] : [{ id: item, name, needed, owned, stored }];
		});
		return items.length === 0 ? [] : [{ id, apparatus: linkTo(curriculum, "apparatus", id), items }];
	});
}
