/**
 * Classes: the timetable, and the page of one with its sheets.
 */

import { WEEKDAYS } from "../compute/calendar.ts";
import { levelsOfClass } from "../compute/levels-of.ts";
import type { ClubClass, Id, Weekday } from "../model.ts";
import { type ClassTermView, classTermView } from "./class-term.ts";
import { type FindingLine, findingLines } from "./findings.ts";
import type { Html } from "./html.ts";
import { type Link, linksTo } from "./links.ts";
import { type ClassTimes, classTimesView } from "./measures/time.ts";
import type { SiteIndex } from "./site-index.ts";
import { type ClassInWeek, classInWeek } from "./week.ts";
import { clockWords, minutesOfDay } from "./words.ts";

export interface ClassLine {
	readonly link: Link;
	readonly day: string;
	readonly start: string;
	readonly end: string;
	readonly levels: readonly Link[];
	readonly gymnasts: number;
	readonly coaches: number | undefined;
	readonly ages: readonly [number, number] | undefined;
}

export interface ClassesView {
	readonly days: readonly {
		readonly day: string;
		readonly id: Weekday | "any";
		readonly classes: readonly ClassLine[];
	}[];
}

export interface ClassView extends ClassLine {
	readonly timezone: string;
	/** Closed days as ISO 8601 intervals. */
	readonly closures: readonly string[];
	readonly minutes: number | undefined;
	readonly warmUp: number;
	readonly coolDown: number;
	readonly rotation: readonly { readonly id: Id; readonly link: Link }[];
	readonly weeks: readonly {
		readonly sheet: ClassInWeek;
		readonly number: number;
		readonly theme: Html | undefined;
		readonly planned: number | undefined;
	}[];
	/** Planned against available, week by week. */
	readonly times: ClassTimes;
	/** What its groups really do of their levels' skills; undefined where there is nothing to count. */
	readonly term: ClassTermView | undefined;
	readonly findings: readonly FindingLine[];
}

/** All classes by day, then start. */
export function classesView(site: SiteIndex): ClassesView {
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
export function classView(site: SiteIndex, group: ClubClass): ClassView {
	const { curriculum } = site;
	const page = `classes/${group.id}/`;
	const times = classTimesView(site, group);
	const planned = new Map(times.rows.map((row) => [row.week, row.planned]));
	return {
		...classLine(site, group),
		timezone: curriculum.club.timezone,
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
		times,
		term: classTermView(site, group),
		findings: findingLines(site, site.findings.class.get(group.id) ?? []),
	};
}

function classLine(site: SiteIndex, group: ClubClass): ClassLine {
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
