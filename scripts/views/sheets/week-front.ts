/** The first side of a week's packet: theme, the director's note, what each apparatus is about, who comes when. */

import type { WeekPlan } from "../../model.ts";
import type { SiteIndex } from "../site-index.ts";
import { type PlannedWeek, plannedWeek } from "../week.ts";
import { type ClassAtWork, classAtWork } from "./class-at-work.ts";
import type { PieceOf } from "./sheet.ts";

export interface WeekFrontView {
	readonly week: PlannedWeek;
	/** By day and hour. */
	readonly classes: readonly ClassAtWork[];
}

export function weekFront(site: SiteIndex, week: WeekPlan): PieceOf<"week-front"> {
	const { curriculum, handbook, words } = site;
	const planned = plannedWeek(site, week);
	const theme = handbook.markdown.plain(week.theme);
	const classes = curriculum.term.classes
		.map((group) => classAtWork(site, week, group))
		.sort((a, b) => (a.date ?? "").localeCompare(b.date ?? "") || a.start.localeCompare(b.start));
	return {
		kind: "week-front",
		title: words.sheets.weekAndTheme(week.week, theme),
		label: words.week(week.week),
		view: { week: planned, classes },
		words: [
			theme,
			...planned.plans.flatMap(({ blocks }) =>
				blocks.flatMap(({ drills }) => drills.map(({ name }) => name)),
			),
			...classes.map(({ link }) => link.name),
		],
		safety: [],
		place: week.source.place(["theme"]),
	};
}
