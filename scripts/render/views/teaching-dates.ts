/**
 * The Monday of every teaching week, and the date of every class, as pages look them up.
 */

import type { ClubClass, Term, Weekday } from "../../model.ts";
import { daysLater } from "./words.ts";

export interface TeachingDates {
	/** ISO 8601 date of the Monday; undefined where the term has no start. */
	monday(week: number): string | undefined;
	/** The Sunday of the same week. */
	sunday(week: number): string | undefined;
	/** The date of a class in a week, and whether the club is closed on it. */
	dateOf(week: number, group: ClubClass): { readonly date: string; readonly closed: boolean } | undefined;
}

const DAYS: readonly Weekday[] = [
	"monday",
	"tuesday",
	"wednesday",
	"thursday",
	"friday",
	"saturday",
	"sunday",
];

/** Counts the weeks from the start of the term, leaving out those whose class days are all closed. */
export function teachingDates(term: Term): TeachingDates {
	const mondays: string[] = [];
	const days = [...new Set(term.classes.flatMap((c) => (c.day === undefined ? [] : [DAYS.indexOf(c.day)])))];
	const classDays = days.length > 0 ? days : [0, 1, 2, 3, 4];
	const isClosed = (date: string) => term.closed.some(({ from, to }) => from <= date && date <= to);
	let monday = term.starts;
	// Three years of Mondays: an interval that closes the club for good must not hang the build.
	for (let tries = 0; monday !== undefined && mondays.length < term.weeks && tries < 160; tries++) {
		const at = monday;
		if (!classDays.every((day) => isClosed(daysLater(at, day)))) mondays.push(at);
		monday = daysLater(at, 7);
	}
	return {
		monday: (week) => mondays[week - 1],
		sunday: (week) => {
			const start = mondays[week - 1];
			return start === undefined ? undefined : daysLater(start, 6);
		},
		dateOf: (week, group) => {
			const start = mondays[week - 1];
			if (start === undefined || group.day === undefined) return undefined;
			const date = daysLater(start, DAYS.indexOf(group.day));
			return { date, closed: isClosed(date) };
		},
	};
}
