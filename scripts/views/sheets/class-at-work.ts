/** A class as the sheets of a week list it. */

import { meets } from "../../compute/calendar.ts";
import { classTime } from "../../compute/time.ts";
import type { ClubClass, WeekPlan } from "../../model.ts";
import { type Link, linksTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { type ClassInWeek, classInWeek } from "../week.ts";

export interface ClassAtWork extends ClassInWeek {
	/** Whether it meets on its day of that week. */
	readonly meets: boolean;
	readonly gymnasts: number;
	/** In its order. */
	readonly rotation: readonly Link[];
	/** Minutes. */
	readonly planned: number;
	readonly available: number | undefined;
}

export function classAtWork(site: SiteIndex, week: WeekPlan, group: ClubClass): ClassAtWork {
	const { curriculum } = site;
	return {
		...classInWeek(site, week, group),
		meets: meets(curriculum.term, week.week, group),
		gymnasts: group.gymnasts,
		rotation: linksTo(curriculum, "apparatus", group.rotation),
		planned: classTime(curriculum, week, group).planned,
		available: group.minutes,
	};
}
