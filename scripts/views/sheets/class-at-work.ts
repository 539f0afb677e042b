/** A class as the sheets of a week list it. */

import { meets } from "../../compute/calendar.ts";
import { classTime } from "../../compute/time.ts";
import type { ClubClass, WeekPlan } from "../../model.ts";
import { linksTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { classInWeek } from "../week.ts";

export type ClassAtWork = ReturnType<typeof classAtWork>;

export function classAtWork(site: SiteIndex, week: WeekPlan, group: ClubClass) {
	const { curriculum } = site;
	return {
		...classInWeek(site, week, group),
		/** Whether it meets on its day of that week. */
		meets: meets(curriculum.term, week.week, group),
		gymnasts: group.gymnasts,
		/** In its order. */
		rotation: linksTo(curriculum, "apparatus", group.rotation),
		/** Minutes. */
		planned: classTime(curriculum, week, group).planned,
		available: group.minutes,
	};
}
