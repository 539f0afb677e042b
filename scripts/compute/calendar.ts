/**
 * Calendar: the dates of every teaching week and class, and the term as an iCalendar file.
 *
 * Steps: walk the calendar weeks from the term's first Monday; leave out those whose class days are
 * all closed (Monday to Friday without classes); the rest are the teaching weeks in turn. A class meets
 * on its day of each teaching week, unless that day is closed.
 *
 * Local times become instants by the club's time zone, so a class stays at its hour when the clocks
 * change. Events are written in UTC: each is one meeting and has no rule that a later change of clocks
 * could bend, and no zone definition to ship.
 */

import ical, { ICalEventStatus } from "ical-generator";
import { Temporal } from "temporal-polyfill";
import type { ClubClass, ClubEdition, Curriculum, Finding, Id, Term, Weekday } from "../model.ts";
import type { Words } from "../words/words.ts";
import { finding } from "./finding.ts";
import type { Measure } from "./measure.ts";

export const WEEKDAYS = [
	"monday",
	"tuesday",
	"wednesday",
	"thursday",
	"friday",
	"saturday",
	"sunday",
] as const satisfies readonly Weekday[];

/** One teaching week. Dates are ISO 8601. */
export interface TeachingWeek {
	/** Counted from 1, closed weeks left out. */
	readonly week: number;
	readonly monday: string;
	readonly sunday: string;
	/** Its seven days, Monday first. */
	readonly days: readonly string[];
	/** Class days of this week (Monday to Friday without classes) on which the club is closed. */
	readonly closed: readonly string[];
}

/** One class on one day. */
export interface Meeting {
	readonly week: number;
	readonly class: Id;
	/** ISO 8601. */
	readonly date: string;
	/** False where the day is closed. */
	readonly meets: boolean;
}

/** The teaching weeks of a term, in order; none where it has no start. */
export function teachingWeeks(term: Term): readonly TeachingWeek[] {
	const known = weeksOfTerm.get(term);
	if (known !== undefined) return known;
	const weeks: TeachingWeek[] = [];
	if (term.starts !== undefined) {
		const days = classDays(term);
		let monday = Temporal.PlainDate.from(term.starts);
		while (weeks.length < term.weeks) {
			const start = monday;
			const dates = WEEKDAYS.map((_, day) => start.add({ days: day }).toString());
			const closed = dates.filter((date, day) => days.includes(day) && isClosed(term, date));
			if (closed.length < days.length) {
				weeks.push({
					week: weeks.length + 1,
					monday: dates[0] ?? "",
					sunday: dates[6] ?? "",
					days: dates,
					closed,
				});
			}
			monday = monday.add({ days: 7 });
			// A closure without an end in sight must not be walked through to the end of time.
			if (monday.year > lastYear(term)) break;
		}
	}
	weeksOfTerm.set(term, weeks);
	return weeks;
}

/** Takes the teaching weeks of a term as they were worked out before: devices are sent them. */
export function knowTeachingWeeks(term: Term, weeks: readonly TeachingWeek[]): void {
	weeksOfTerm.set(term, weeks);
}

/** Terms are never changed, and findings and pages ask for the same dates over and over. */
const weeksOfTerm = new WeakMap<Term, readonly TeachingWeek[]>();

/** Terms have at most a few dozen weeks; closures that push one further than this leave its end undated. */
const LONGEST_CLOSURE_YEARS = 10;

function lastYear(term: Term): number {
	return Number(term.starts?.slice(0, 4)) + LONGEST_CLOSURE_YEARS + Math.ceil(term.weeks / 52);
}

/** Every class in every teaching week, in order of week, then day, then start. Classes without a day are not in it. */
export function meetings(term: Term): readonly Meeting[] {
	const classes = term.classes
		.flatMap((group) => (group.day === undefined ? [] : [{ group, day: WEEKDAYS.indexOf(group.day) }]))
		.sort((a, b) => a.day - b.day || compareText(a.group.start ?? "", b.group.start ?? ""));
	return teachingWeeks(term).flatMap(({ week, days }) =>
		classes.map(({ group, day }) => {
			const date = days[day] ?? "";
			return { week, class: group.id, date, meets: !isClosed(term, date, group) };
		}),
	);
}

/** Whether a class meets in a teaching week. True where its date is not known. */
export function meets(term: Term, week: number, group: ClubClass): boolean {
	const date = dateOf(term, week, group);
	return date === undefined || !isClosed(term, date, group);
}

/** The ISO 8601 date of a class in a teaching week; undefined without a start of term or a day. */
export function dateOf(term: Term, week: number, group: ClubClass): string | undefined {
	const found = teachingWeeks(term)[week - 1];
	if (found === undefined || group.day === undefined) return undefined;
	return found.days[WEEKDAYS.indexOf(group.day)];
}

/** The teaching week that a date falls into: itself, or the next one after it; undefined after the term. */
export function weekOn(term: Term, date: string): TeachingWeek | undefined {
	return teachingWeeks(term).find(({ sunday }) => date <= sunday);
}

/** Whether the club is closed on an ISO 8601 date, or a class cancelled. */
export function isClosed(term: Term, date: string, group?: ClubClass): boolean {
	const isIn = ({ from, to }: Term["closed"][number]) => from <= date && date <= to;
	return term.closed.some(isIn) || (group?.closed?.some(isIn) ?? false);
}

/** The classes whose day of the week lies in an interval of days, in the term's order. */
export function classesWithin(term: Term, { from, to }: Term["closed"][number]): readonly ClubClass[] {
	const first = Temporal.PlainDate.from(from);
	const length = Math.min(7, first.until(to, { largestUnit: "days" }).days + 1);
	const days = Array.from({ length }, (_, i) => WEEKDAYS[first.add({ days: i }).dayOfWeek - 1]);
	return term.classes.filter(({ day }) => day !== undefined && days.includes(day));
}

function classDays(term: Term): readonly number[] {
	const days = new Set(term.classes.flatMap((c) => (c.day === undefined ? [] : [WEEKDAYS.indexOf(c.day)])));
	return days.size === 0 ? [0, 1, 2, 3, 4] : [...days].sort((a, b) => a - b);
}

/** Where a meeting's class sheet is published; undefined leaves the event without a link. */
export type SheetAddress = (week: number, group: ClubClass) => string | undefined;

/**
 * The term as an iCalendar file (RFC 5545): one event for each class on each of its days, from the first
 * teaching week to the last; on closed days it is there as cancelled. A class without a start is an event of
 * the whole day; one without minutes ends as it begins.
 *
 * An event is known by its class and the Monday of its week, and its sequence is the number of the edition,
 * which grows with every change of the content: a program that took an earlier file changes what it has (RFC
 * 5545, 3.8.7.4). A class that moves to another day or hour so moves there too, and leaves nothing behind.
 * Stamps are the edition's day, so the same edition gives the same bytes.
 */
export function calendarIcs(
	curriculum: Curriculum,
	words: Words,
	address: SheetAddress = () => undefined,
	edition?: Pick<ClubEdition, "number" | "date">,
): string {
	const { club, term } = curriculum;
	const calendar = ical({
		// The library escapes the text of events, and leaves the calendar's name and addresses to us.
		name: escaped(`${club.name}: ${term.name}`),
		prodId: {
			company: club.name.replace(/\/\//g, "/"),
			product: "curriculum handbook",
			language: club.language.toUpperCase(),
		},
	});
	const plans = new Map(curriculum.weeks.map((plan) => [plan.week, plan]));
	const space = slug(club.name);
	for (const { group, monday, date, week } of classDates(term)) {
		const { start, end } = timesOf(date, group, club.timezone);
		const theme = week === undefined ? undefined : plans.get(week)?.theme;
		const isOff = isClosed(term, date, group);
		const url = week === undefined || isOff ? undefined : address(week, group);
		const place = group.place ?? club.place;
		calendar.createEvent({
			id: `${monday}-${group.id}@${space}`,
			sequence: edition?.number ?? 0,
			stamp: instant(edition?.date ?? term.starts ?? date, "00:00", "UTC"),
			status: isOff ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
			start,
			...(end === undefined ? {} : { end }),
			...(group.start === undefined ? { allDay: true } : {}),
			summary: week === undefined ? group.name : `${group.name}, ${words.ofWeek(week)}`,
			...(theme === undefined ? {} : { description: theme }),
			...(place === undefined ? {} : { location: place }),
			...(url === undefined ? {} : { url: url.replace(/[,;]/g, encodeURIComponent) }),
		});
	}
	return `${calendar.toString()}\r\n`;
}

interface ClassDate {
	readonly group: ClubClass;
	readonly monday: string;
	readonly date: string;
	/** Undefined in a week that is closed. */
	readonly week?: number;
}

/** Every day of every class between the first and the last teaching week. */
function classDates(term: Term): readonly ClassDate[] {
	const weeks = teachingWeeks(term);
	const [first, last] = [weeks[0], weeks.at(-1)];
	if (term.starts === undefined || first === undefined || last === undefined) return [];
	const numbers = new Map(weeks.map(({ week, monday }) => [monday, week]));
	const groups = term.classes
		.flatMap((group) => (group.day === undefined ? [] : [{ group, day: WEEKDAYS.indexOf(group.day) }]))
		.sort((a, b) => a.day - b.day || compareText(a.group.start ?? "", b.group.start ?? ""));
	const dates: ClassDate[] = [];
	for (
		let monday = Temporal.PlainDate.from(term.starts);
		monday.toString() <= last.monday;
		monday = monday.add({ days: 7 })
	) {
		const week = numbers.get(monday.toString());
		for (const { group, day } of groups) {
			const date = monday.add({ days: day }).toString();
			dates.push({ group, monday: monday.toString(), date, ...(week === undefined ? {} : { week }) });
		}
	}
	return dates;
}

/** A text value of RFC 5545, 3.3.11. */
function escaped(text: string): string {
	return text.replace(/[\\;,]/g, "\\$&").replace(/\r?\n/g, "\\n");
}

function timesOf(date: string, group: ClubClass, timezone: string): { start: Date; end?: Date } {
	if (group.start === undefined) return { start: instant(date, "00:00", "UTC") };
	const start = instant(date, group.start, timezone);
	if (group.minutes === undefined) return { start };
	return { start, end: new Date(start.getTime() + group.minutes * 60_000) };
}

/**
 * The instant of a local time. In the hour that is skipped in spring, the later reading; in the hour
 * that comes twice in autumn, the first of the two (RFC 5545, 3.3.5).
 */
function instant(date: string, clock: string, timezone: string): Date {
	const local = Temporal.PlainDateTime.from(`${date}T${clock}`);
	return new Date(local.toZonedDateTime(timezone, { disambiguation: "compatible" }).epochMilliseconds);
}

function slug(name: string): string {
	const plain = name
		.normalize("NFKD")
		.replace(/\p{M}/gu, "")
		.toLowerCase()
		.replace(/[^a-z0-9]+/g, "-")
		.replace(/^-|-$/g, "");
	return plain === "" ? "club" : plain;
}

/** H312, H314, H315 and H345. Its file is `calendar.ics`, which is no table. */
export const calendarMeasure: Measure = {
	name: "calendar",
	tables: () => [],
	findings: ({ curriculum }, words) => [
		...overdueReviews(curriculum, words),
		...missingWeeks(curriculum, words),
		...missedClasses(curriculum, words),
		...closedOutside(curriculum, words),
	],
};

/** Drills whose last review is longer ago, at the start of the term, than the club wants. */
function overdueReviews({ drills, term, targets }: Curriculum, words: Words): readonly Finding[] {
	const { starts } = term;
	const { reviewMonths } = targets;
	if (starts === undefined || reviewMonths === undefined) return [];
	// Many drills are reviewed on one day.
	const dueAfter = new Map<string, string>();
	return [...drills.values()].flatMap((drill) => {
		if (drill.reviewed === undefined) return [];
		let due = dueAfter.get(drill.reviewed);
		if (due === undefined) {
			due = Temporal.PlainDate.from(drill.reviewed).add({ months: reviewMonths }).toString();
			dueAfter.set(drill.reviewed, due);
		}
		if (due >= starts) return [];
		return [
			finding(
				words,
				"H312",
				"note",
				words.findings.calendar.reviewed(drill.title, drill.reviewed, due, starts),
				{ source: drill.source, path: ["reviewed"] },
				{ drill: drill.id },
			),
		];
	});
}

/**
 * Weeks without a plan: each hole before a week that has one, and the end of the term, which is one
 * finding however many weeks it has. A term without any plan is not begun yet.
 */
function missingWeeks({ weeks, term }: Curriculum, words: Words): readonly Finding[] {
	const say = words.findings.calendar;
	const planned = new Set(weeks.map((plan) => plan.week));
	const last = Math.max(0, ...planned);
	const about = (week: number, what: string) =>
		finding(words, "H314", "worth a look", what, { source: term.source, path: ["weeks"] }, { week });
	const holes = Array.from({ length: last }, (_, i) => i + 1)
		.filter((week) => !planned.has(week))
		.map((week) => about(week, say.hole(week, last)));
	if (last === 0 || last >= term.weeks) return holes;
	return [...holes, about(last + 1, say.unplannedEnd(last + 1, term.weeks))];
}

/** Closed days before the term or after its last week: often the wrong year, and they close nothing. */
function closedOutside({ term }: Curriculum, words: Words): readonly Finding[] {
	const first = term.starts;
	const last = teachingWeeks(term).at(-1)?.sunday;
	if (first === undefined || last === undefined) return [];
	return term.closed.flatMap(({ from, to }, i) =>
		to >= first && from <= last
			? []
			: [
					finding(
						words,
						"H345",
						"note",
						words.findings.calendar.closedOutside(from, to, first, last),
						{ source: term.source, path: ["closed", i] },
						{},
					),
				],
	);
}

function missedClasses({ term }: Curriculum, words: Words): readonly Finding[] {
	const classes = new Map(term.classes.map((group) => [group.id, group]));
	return meetings(term).flatMap(({ week, class: id, date, meets }) => {
		const group = classes.get(id);
		if (meets || group === undefined) return [];
		return [
			finding(
				words,
				"H315",
				"note",
				words.findings.calendar.missed(group.name, week, words.date(date, "long")),
				{ source: term.source, path: [...group.path, "day"] },
				{ week, class: id },
			),
		];
	});
}

function compareText(a: string, b: string): number {
	return a < b ? -1 : a > b ? 1 : 0;
}
