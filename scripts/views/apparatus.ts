/**
 * Apparatus: the list, and the page of one with its weeks and its drills by level.
 */

import type { Apparatus } from "../model.ts";
import { addressOf, weekApparatusAddress } from "./addresses.ts";
import { drillLines } from "./drill.ts";
import { linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export type ApparatusListView = ReturnType<typeof apparatusListView>;

export type ApparatusView = ReturnType<typeof apparatusView>;

/** All apparatus in the club's order. */
export function apparatusListView(site: SiteIndex) {
	const { curriculum } = site;
	return {
		apparatus: Array.from(curriculum.apparatus, ([id, { kind }]) => ({
			id,
			link: linkTo(curriculum, "apparatus", id),
			area: kind === "area",
			drills: site.drillsByApparatus.get(id)?.length ?? 0,
			weeks: curriculum.weeks.filter((week) => week.apparatus.some((plan) => plan.apparatus === id)).length,
		})),
	};
}

/** One apparatus: what each week does on it, and its drills. */
export function apparatusView(site: SiteIndex, apparatus: Apparatus) {
	const { curriculum } = site;
	const page = addressOf({ kind: "apparatus", id: apparatus.id });
	const levels = [...curriculum.levels.keys()];
	const drills = site.drillsByApparatus.get(apparatus.id) ?? [];
	return {
		id: apparatus.id,
		name: apparatus.name,
		area: apparatus.kind === "area",
		plan: apparatus.plan,
		weeks: curriculum.weeks.flatMap((week) => {
			const plan = week.apparatus.find((p) => p.apparatus === apparatus.id);
			if (plan === undefined) return [];
			const dates = site.datesOf(week.week);
			return [
				{
					link: { to: weekApparatusAddress(week.id, apparatus.id), name: site.words.week(week.week) },
					number: week.week,
					focus: site.inline(page, plan.focus ?? week.theme),
					from: dates?.monday,
					to: dates?.sunday,
				},
			];
		}),
		/** Its drills by the lowest level that does them, each once. */
		drills: levels
			.map((level) => ({
				level: linkTo(curriculum, "level", level),
				id: level,
				lines: drillLines(
					site,
					page,
					drills.filter((drill) => levels.find((l) => drill.levels.has(l)) === level),
				),
			}))
			.filter((group) => group.lines.length > 0),
	};
}
