/** The floor plans of an apparatus in a week. */

import type { ApparatusPlan, WeekPlan } from "../../model.ts";
import { type FloorPlanView, floorPlanView } from "../floor-plan.ts";
import { type Link, linksTo, linkTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { type WeekLine, weekLine } from "../week.ts";
import type { PieceOf } from "./sheet.ts";

export interface PlanSheetView {
	readonly week: WeekLine;
	readonly apparatus: { readonly id: string; readonly name: string };
	readonly plans: readonly {
		readonly minutes: number;
		/** Empty means all. */
		readonly levels: readonly Link[];
		readonly plan: FloorPlanView;
	}[];
}

/** The plans of all blocks of stations; undefined where there is none. */
export function planSheet(
	site: SiteIndex,
	week: WeekPlan,
	plan: ApparatusPlan,
): PieceOf<"plan-sheet"> | undefined {
	const { curriculum, words } = site;
	const plans = plan.blocks.flatMap((block) => {
		const view = floorPlanView(curriculum, week, plan, block, site.words);
		if (view === undefined) return [];
		return [{ minutes: block.minutes, levels: linksTo(curriculum, "level", block.levels), plan: view }];
	});
	if (plans.length === 0) return undefined;
	const { name } = linkTo(curriculum, "apparatus", plan.apparatus);
	return {
		kind: "plan-sheet",
		title: words.planSheet.title(name, week.week),
		label: words.pageLabels.plan(name, week.week),
		view: { week: weekLine(site, "", week), apparatus: { id: plan.apparatus, name }, plans },
		words: plans.flatMap(({ plan: { stations, equipment } }) => [
			...stations.map((station) => station.name),
			...equipment.map(({ name: item, count }) => `${count} ${item}`),
		]),
		safety: [],
		place: week.source.place(["apparatus", plan.apparatus]),
	};
}
