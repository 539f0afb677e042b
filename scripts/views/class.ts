/**
 * Classes: the timetable, and the page of one with its sheets.
 */

import { WEEKDAYS } from "../compute/calendar.ts";
import { levelsOfClass } from "../compute/levels-of.ts";
import type { ClubClass } from "../model.ts";
import { classTermView } from "./class-term.ts";
import { findingLines } from "./findings.ts";
import { linksTo } from "./links.ts";
import { classTimesView } from "./measures/time.ts";
import type { SiteIndex } from "./site-index.ts";
import { classInWeek } from "./week.ts";
import { clockWords, minutesOfDay } from "./words.ts";

export type ClassesView = ReturnType<typeof classesView>;

export type ClassView = ReturnType<typeof classView>;

/** All classes by day, then start. */
export function classesView(site: SiteIndex) {
	const { classes } = site.curriculum.term;
	const groups = [
		...WEEKDAYS.map((day) => ({ id: day, day: site.words.days[day] })),
		{ id: "any" as const, day: site.words.classes.anyDay },
	];
	return {
		days: groups.flatMap(({ id, day }) => {
			const own = classes
				.filter((group) => (group.day ?? "any") === id)
				.sort((a, b) => (minutesOfDay(a.start) ?? 0) - (minutesOfDay(b.start) ?? 0));
			return own.length === 0 ? [] : [{ id, day, classes: own.map((group) => classLine(site, group)) }];
		}),
	};
}

/** One class: when it meets, its rotation, and a sheet for each week. */
export function classView(site: SiteIndex, group: ClubClass) {
	const { curriculum } = site;
	const page = `classes/${group.id}/`;
	const times = classTimesView(site, group);
	const planned = new Map(times.rows.map((row) => [row.week, row.planned]));
	return {
		...classLine(site, group),
		timezone: curriculum.club.timezone,
		/** Closed days as ISO 8601 intervals. */
		closures: curriculum.term.closed.map(({ from, to }) => `${from}/${to}`),
		minutes: group.minutes,
		warmUp: group.warmUp,
		coolDown: group.coolDown,
		rotation: linksTo(curriculum, "apparatus", group.rotation).map((link, i) => ({
			id: group.rotation[i] ?? "",
			link,
		})),
		weeks: curriculum.weeks.map((week) => ({
			sheet: { ...classInWeek(site, week, group) },
			number: week.week,
			theme: site.inline(page, week.theme),
			planned: planned.get(week.week),
		})),
		/** Planned against available, week by week. */
		times,
		/** What its groups really do of their levels' skills; undefined where there is nothing to count. */
		term: classTermView(site, group),
		findings: findingLines(site, site.findings.class.get(group.id) ?? []),
	};
}

function classLine(site: SiteIndex, group: ClubClass) {
	const start = minutesOfDay(group.start);
	return {
		link: { to: `classes/${group.id}/`, name: group.name },
		day: group.day === undefined ? "" : site.words.days[group.day],
		start: start === undefined ? "" : clockWords(start),
		end: start === undefined || group.minutes === undefined ? "" : clockWords(start + group.minutes),
		levels: linksTo(site.curriculum, "level", levelsOfClass(site.curriculum, group)),
		gymnasts: group.gymnasts,
		coaches: group.coaches,
		ages: group.ages,
	};
}
