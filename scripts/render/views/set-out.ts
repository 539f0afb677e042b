/**
 * What a class has to set out in a week, apparatus by apparatus, as its coaches carry it.
 */

import { equipmentForClass } from "../../compute/equipment.ts";
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
export function setOutFor(site: SiteIndex, week: WeekPlan, group: ClubClass): readonly SetOut[] {
	const { curriculum } = site;
	return Array.from(new Set(group.rotation)).flatMap((id) => {
		const plan = week.apparatus.find((p) => p.apparatus === id);
		if (plan === undefined) return [];
		const lines = equipmentForClass(curriculum, plan, group);
		if (lines.length === 0) return [];
		return [
			{
				id,
				apparatus: linkTo(curriculum, "apparatus", id),
				items: lines.map(({ item, needed, owned }) => ({
					id: item,
					name: linkTo(curriculum, "equipment", item).name,
					needed,
					owned,
					stored: curriculum.equipment.get(item)?.stored,
				})),
			},
		];
	});
}
