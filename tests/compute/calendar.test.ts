import ICAL from "ical.js";
import rrule from "rrule";
import { describe, expect, it } from "vitest";
import {
	calendarIcs,
	calendarMeasure,
	dateOf,
	meetings,
	teachingWeeks,
	weekOn,
} from "../../scripts/compute/calendar.ts";
import type { Curriculum } from "../../scripts/model.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { build, count, type Draft } from "./build-curriculum.ts";

const WORDS = wordsFor("en");

const { RRule, RRuleSet } = rrule;

const base: Draft = {
	drills: [{ id: "roll", levels: ["junior"] }],
	weeks: { 1: { floor: [{ drill: "roll", minutes: 5 }] } },
	term: { starts: "2027-01-04", weeks: 4 },
};
const monday = { id: "mon", name: "Monday group", day: "monday" as const, start: "16:30", minutes: 75 };
const saturday = { id: "sat", name: "Saturday group", day: "saturday" as const, start: "09:00", minutes: 60 };

const mondays = (draft: Draft) => teachingWeeks(build(draft).term).map((w) => w.monday);

/** The events that take place. */
function read(ics: string) {
	return readAll(ics).filter(({ status }) => status !== "CANCELLED");
}

/** The events of a calendar as a second library reads them. */
function readAll(ics: string) {
	const calendar = new ICAL.Component(ICAL.parse(ics));
	return calendar.getAllSubcomponents("vevent").map((component) => {
		const event = new ICAL.Event(component);
		return {
			uid: event.uid,
			sequence: event.sequence,
			status: component.getFirstPropertyValue("status"),
			location: event.location,
			summary: event.summary,
			description: event.description,
			start: event.startDate.toJSDate().toISOString(),
			end: event.endDate?.toJSDate().toISOString(),
			day: event.startDate.isDate ? event.startDate.toString() : undefined,
			url: component.getFirstPropertyValue("url"),
			stamp: String(component.getFirstPropertyValue("dtstamp")),
		};
	});
}

/** The wall clock in a time zone, by the JavaScript engine's own tables. */
function wallClock(instant: string, timeZone: string): string {
	return new Intl.DateTimeFormat("en-GB", {
		timeZone,
		weekday: "long",
		hour: "2-digit",
		minute: "2-digit",
	}).format(new Date(instant));
}

describe("teaching weeks", () => {
	it("follow each other from the first Monday", () => {
		expect(mondays(base)).toEqual(["2027-01-04", "2027-01-11", "2027-01-18", "2027-01-25"]);
	});

	it("are those that a recurrence library gives for weekly Mondays without the closed ones", () => {
		const closed = [{ from: "2027-02-15", to: "2027-02-19" }];
		const set = new RRuleSet();
		set.rrule(new RRule({ freq: RRule.WEEKLY, dtstart: new Date("2027-01-04T00:00:00Z"), count: 41 }));
		set.exdate(new Date("2027-02-15T00:00:00Z"));
		expect(mondays({ ...base, term: { starts: "2027-01-04", weeks: 40, closed } })).toEqual(
			set.all().map((date) => date.toISOString().slice(0, 10)),
		);
	});

	it("leave out a week whose class days are all closed, and the next one takes its number", () => {
		const closed = [{ from: "2027-01-11", to: "2027-01-15" }];
		// Without classes, Monday to Friday count.
		expect(mondays({ ...base, term: { weeks: 2, closed } })).toEqual(["2027-01-04", "2027-01-18"]);
		// With a class on Saturday, the week is taught.
		const draft: Draft = { ...base, classes: [monday, saturday], term: { weeks: 2, closed } };
		expect(mondays(draft)).toEqual(["2027-01-04", "2027-01-11"]);
		// With only a class on Monday, that Monday alone closes the week.
		const only: Draft = {
			...base,
			classes: [monday],
			term: { weeks: 2, closed: [{ from: "2027-01-11", to: "2027-01-11" }] },
		};
		expect(mondays(only)).toEqual(["2027-01-04", "2027-01-18"]);
	});

	it("see a closure that splits a week, and one that runs over several", () => {
		const closed = [{ from: "2027-01-07", to: "2027-01-20" }];
		const weeks = teachingWeeks(build({ ...base, term: { weeks: 3, closed } }).term);
		expect(weeks.map((w) => [w.week, w.monday, w.closed])).toEqual([
			[1, "2027-01-04", ["2027-01-07", "2027-01-08"]],
			[2, "2027-01-18", ["2027-01-18", "2027-01-19", "2027-01-20"]],
			[3, "2027-01-25", []],
		]);
	});

	it("number 1 and 53, and end where a closure never does", () => {
		expect(mondays({ ...base, term: { weeks: 1 } })).toEqual(["2027-01-04"]);
		const year = mondays({ ...base, term: { weeks: 53 } });
		expect([year.length, year.at(-1)]).toEqual([53, "2028-01-03"]);
		const shut = { ...base, term: { weeks: 3, closed: [{ from: "2027-01-11", to: "9999-12-31" }] } };
		expect(mondays(shut)).toEqual(["2027-01-04"]);
	});

	it("are none without a start", () => {
		const { starts: _, ...term } = build(base).term;
		expect(teachingWeeks(term)).toEqual([]);
		expect(meetings({ ...term, classes: build({ ...base, classes: [monday] }).term.classes })).toEqual([]);
	});

	it("are found by a date: this week, or the next that is taught", () => {
		const { term } = build({
			...base,
			term: { weeks: 2, closed: [{ from: "2027-01-11", to: "2027-01-15" }] },
		});
		expect(weekOn(term, "2026-12-01")?.week).toBe(1);
		expect(weekOn(term, "2027-01-10")?.week).toBe(1);
		expect(weekOn(term, "2027-01-13")?.week).toBe(2);
		expect(weekOn(term, "2027-01-25")).toBeUndefined();
	});
});

describe("classes", () => {
	const draft: Draft = {
		...base,
		classes: [saturday, monday, { id: "some-time" }],
		term: { weeks: 2, closed: [{ from: "2027-01-11", to: "2027-01-11" }] },
	};

	it("meet on their day of each teaching week unless that day is closed", () => {
		expect(meetings(build(draft).term)).toEqual([
			{ week: 1, class: "mon", date: "2027-01-04", meets: true },
			{ week: 1, class: "sat", date: "2027-01-09", meets: true },
			{ week: 2, class: "mon", date: "2027-01-11", meets: false },
			{ week: 2, class: "sat", date: "2027-01-16", meets: true },
		]);
	});

	it("that fall out are a note, with their week", () => {
		const week = { floor: [{ drill: "roll", minutes: 5 }] };
		const planned = { ...draft, weeks: { 1: week, 2: week } };
		expect(calendarMeasure.findings(count(planned), WORDS)).toMatchObject([
			{ code: "H315", weight: "note", about: { week: 2, class: "mon" }, path: ["classes", 1, "day"] },
		]);
	});
});

describe("calendar.ics", () => {
	it("has one event for each class in each week in which it meets, as ical.js reads it back", () => {
		const ics = calendarIcs(
			build({
				...base,
				classes: [monday, saturday],
				term: { weeks: 2, closed: [{ from: "2027-01-11", to: "2027-01-11" }] },
			}),
			WORDS,
			(week, group) => `https://club.example/weeks/${week}/${group.id}/?a=1,2;b`,
		);
		expect(read(ics)).toMatchObject([
			{
				summary: "Monday group, week 1",
				description: "Theme of week 1",
				start: "2027-01-04T16:30:00.000Z",
				end: "2027-01-04T17:45:00.000Z",
				url: "https://club.example/weeks/1/mon/?a=1%2C2%3Bb",
			},
			{ summary: "Saturday group, week 1", start: "2027-01-09T09:00:00.000Z" },
			{ summary: "Saturday group, week 2", start: "2027-01-16T09:00:00.000Z" },
		]);
	});

	it.each([
		["Europe/London", "2027-03-15", "2027-03-28"],
		["America/New_York", "2027-03-01", "2027-03-14"],
		["Australia/Sydney", "2027-03-22", "2027-04-04"],
		["Asia/Kathmandu", "2027-03-15", undefined],
	])("keeps a class at its hour when the clocks change: %s", (timezone, starts, change) => {
		const ics = calendarIcs(
			build({ ...base, club: { timezone }, classes: [monday, saturday], term: { starts, weeks: 4 } }),
			WORDS,
		);
		const events = read(ics);
		expect(events).toHaveLength(8);
		for (const event of events) {
			const [day, time] = event.summary.startsWith("Monday") ? ["Monday", "16:30"] : ["Saturday", "09:00"];
			expect(wallClock(event.start, timezone)).toBe(`${day} ${time}`);
		}
		const hours = new Set(
			events.filter((e) => e.summary.startsWith("Monday")).map((e) => e.start.slice(11, 16)),
		);
		expect(hours.size).toBe(change === undefined ? 1 : 2);
	});

	it("reads the hour that is skipped, and the one that comes twice, as RFC 5545 3.3.5 does", () => {
		const at = (starts: string, start: string) =>
			read(
				calendarIcs(
					build({
						...base,
						club: { timezone: "America/New_York" },
						classes: [{ id: "owl", day: "sunday", start, minutes: 30 }],
						term: { starts, weeks: 1 },
					}),
					WORDS,
				),
			)[0]?.start;
		// 02:30 on 14 March 2027 does not exist: the offset before the gap gives 03:30 EDT.
		expect(at("2027-03-08", "02:30")).toBe("2027-03-14T07:30:00.000Z");
		// 01:30 on 7 November 2027 comes twice: the first is EDT.
		expect(at("2027-11-01", "01:30")).toBe("2027-11-07T05:30:00.000Z");
	});

	it("writes a class without a start as a whole day, and one without minutes with no length", () => {
		const events = read(
			calendarIcs(
				build({
					...base,
					classes: [
						{ id: "day", day: "monday" },
						{ id: "open", day: "tuesday", start: "10:00" },
						{ id: "never" },
					],
					term: { weeks: 1 },
				}),
				WORDS,
			),
		);
		expect(events.map((e) => [e.summary, e.day, e.start])).toEqual([
			["day, week 1", "2027-01-04", expect.anything()],
			["open, week 1", undefined, "2027-01-05T10:00:00.000Z"],
		]);
		expect(events[1]?.end).toBe(events[1]?.start);
	});

	it("keeps its bytes and identifiers from one run to the next, each identifier once", () => {
		const draft: Draft = { ...base, classes: [monday, saturday] };
		const ics = calendarIcs(build(draft), WORDS);
		expect(calendarIcs(build(draft), WORDS)).toBe(ics);
		const events = read(ics);
		expect(new Set(events.map((e) => e.uid)).size).toBe(events.length);
		expect(events.every((e) => e.stamp === "2027-01-04T00:00:00Z")).toBe(true);
		// A closure takes no day's identifier away: what was held there is cancelled, and the term grows by a week.
		const moved = readAll(
			calendarIcs(
				build({ ...draft, term: { weeks: 4, closed: [{ from: "2027-01-11", to: "2027-01-17" }] } }),
				WORDS,
			),
		);
		expect(moved.slice(0, events.length).map((e) => e.uid)).toEqual(events.map((e) => e.uid));
		expect(moved.filter((e) => e.status === "CANCELLED").map((e) => e.start.slice(0, 10))).toEqual([
			"2027-01-11",
			"2027-01-16",
		]);
	});

	it("says what changed to a program that took an earlier file: sequence, stamp, cancelled, place", () => {
		const earlier = build({ ...base, classes: [monday, saturday], term: { weeks: 2 } });
		const closed = [{ from: "2027-01-16", to: "2027-01-16" }];
		const later = build({
			...base,
			classes: [
				{ ...monday, start: "17:00" },
				{ ...saturday, closed, place: "Small hall" },
			],
			term: { weeks: 2 },
		});
		const [before, after] = [
			readAll(calendarIcs(earlier, WORDS, undefined, { number: 3, date: "2026-12-01" })),
			readAll(calendarIcs(later, WORDS, undefined, { number: 4, date: "2026-12-08" })),
		];
		expect(after.map(({ uid }) => uid)).toEqual(before.map(({ uid }) => uid));
		expect(before.every(({ sequence, stamp }) => sequence === 3 && stamp === "2026-12-01T00:00:00Z")).toBe(
			true,
		);
		expect(after.every(({ sequence, stamp }) => sequence === 4 && stamp === "2026-12-08T00:00:00Z")).toBe(
			true,
		);
		expect(after.map(({ status }) => status)).toEqual(["CONFIRMED", "CONFIRMED", "CONFIRMED", "CANCELLED"]);
		expect(after[0]?.start).toBe("2027-01-04T17:00:00.000Z");
		expect(after[1]?.location).toBe("Small hall");
	});

	it("moves a class to another day in a program that took an earlier file, and leaves nothing behind", () => {
		const closed = [{ from: "2027-01-11", to: "2027-01-11" }];
		const files = (["monday", "wednesday"] as const).map((day, i) =>
			calendarIcs(
				build({ ...base, classes: [{ ...monday, day, closed }, saturday], term: { weeks: 6 } }),
				WORDS,
				undefined,
				{ number: i + 1, date: "2026-12-01" },
			),
		);
		// As RFC 5545, 3.8.4.7 and 3.8.7.4: of one identifier the higher sequence stands.
		const kept = new Map<string, ReturnType<typeof readAll>[number]>();
		for (const event of files.flatMap(readAll)) {
			if ((kept.get(event.uid)?.sequence ?? -1) < event.sequence) kept.set(event.uid, event);
		}
		expect(kept.size).toBe(12);
		const taught = [...kept.values()].filter(
			({ summary, status }) => summary.startsWith("Monday") && status !== "CANCELLED",
		);
		// The cancelled Monday is no longer the day of the class: the Wednesday of that week takes place.
		const rule = new RRule({ freq: RRule.WEEKLY, count: 6, dtstart: new Date("2027-01-06T16:30:00Z") });
		expect(taught.map(({ start }) => start)).toEqual(rule.all().map((day) => day.toISOString()));
	});

	it("has the days that another library counts by a rule of RFC 5545", () => {
		const closed = [{ from: "2027-01-11", to: "2027-01-11" }];
		const ics = calendarIcs(
			build({ ...base, classes: [monday, saturday], term: { weeks: 6, closed } }),
			WORDS,
		);
		const set = new RRuleSet();
		set.rrule(new RRule({ freq: RRule.WEEKLY, count: 6, dtstart: new Date("2027-01-04T16:30:00Z") }));
		set.exdate(new Date("2027-01-11T16:30:00Z"));
		const mondays = read(ics).filter(({ summary }) => summary.startsWith("Monday"));
		expect(mondays.map(({ start }) => start)).toEqual(set.all().map((day) => day.toISOString()));
	});

	it("escapes text and folds lines at 75 octets without breaking a character (RFC 5545, 3.1)", () => {
		const name = `Größe; "Übung", Rolle \\ Rücken ${"é".repeat(60)} ${"🤸".repeat(20)}`;
		const curriculum: Curriculum = build({
			...base,
			club: { name: "Turnverein Süd, Halle; 2\\3" },
			classes: [{ ...monday, name }],
			term: { name: "Winter, 2027", weeks: 1 },
		});
		const ics = calendarIcs(curriculum, WORDS);
		for (const line of ics.split("\r\n")) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
		expect(ics.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
		expect(ics.endsWith("END:VCALENDAR\r\n")).toBe(true);
		expect(ics).not.toContain("\uFFFD");
		expect(read(ics)[0]?.summary).toBe(`${name}, week 1`);
		const calendar = new ICAL.Component(ICAL.parse(ics));
		// NAME is of RFC 7986, which ical.js does not know: it hands the value on as it was written.
		expect(calendar.getFirstPropertyValue("name")).toBe("Turnverein Süd\\, Halle\\; 2\\\\3: Winter\\, 2027");
		expect(calendar.getFirstPropertyValue("version")).toBe("2.0");
		expect(calendar.getFirstPropertyValue("prodid")).toBeTruthy();
	});

	it("is a calendar without events where the term has no classes", () => {
		expect(read(calendarIcs(build(base), WORDS))).toEqual([]);
	});
});

describe("the worked example of RFC 5545, 3.8.5.3", () => {
	const expected = ["09-02", "09-09", "09-16", "09-23", "09-30", "10-07", "10-14", "10-21", "10-28", "11-04"];
	const tuesday = { id: "tue", day: "tuesday" as const, start: "09:00", minutes: 60 };
	const newYork = (draft: Draft): Draft => ({
		...draft,
		club: { timezone: "America/New_York" },
		classes: [tuesday, { id: "wed", day: "wednesday" }],
	});

	it("is what a term of ten weeks from 1997-09-01 gives a class on Tuesdays, and what rrule expands", () => {
		const { term } = build(newYork({ ...base, term: { starts: "1997-09-01", weeks: 10 } }));
		const ours = meetings(term)
			.filter((m) => m.class === "tue")
			.map((m) => m.date.slice(5));
		expect(ours).toEqual(expected);
		const rule = RRule.fromString("DTSTART:19970902T090000Z\nRRULE:FREQ=WEEKLY;COUNT=10");
		expect(rule.all().map((d) => d.toISOString().slice(5, 10))).toEqual(expected);
	});

	it("stays at 9:00 when summer time ends in it, on 26 October", () => {
		const curriculum = build(newYork({ ...base, term: { starts: "1997-09-01", weeks: 10 } }));
		const starts = read(calendarIcs(curriculum, WORDS))
			.filter((e) => e.summary.startsWith("tue"))
			.map((e) => e.start.slice(5, 16));
		expect(starts).toEqual(expected.map((d) => `${d}T${d < "10-26" ? "13" : "14"}:00`));
	});

	it("loses the one date that is excluded", () => {
		const closed = [{ from: "1997-10-14", to: "1997-10-14" }];
		const { term } = build(newYork({ ...base, term: { starts: "1997-09-01", weeks: 10, closed } }));
		const ours = meetings(term).filter((m) => m.class === "tue" && m.meets);
		expect(ours.map((m) => m.date.slice(5))).toEqual(expected.filter((d) => d !== "10-14"));
		expect(term.classes.map((group) => dateOf(term, 7, group))).toEqual(["1997-10-14", "1997-10-15"]);
	});
});

describe("reviews and holes in the plan", () => {
	const reviewed = (date: string): Draft => ({
		...base,
		drills: [{ id: "roll", levels: ["junior"], reviewed: date }],
		term: { starts: "2027-01-04", weeks: 1 },
		targets: { reviewMonths: 18 },
	});

	it("are judged at the start of the term, whatever day it is", () => {
		expect(calendarMeasure.findings(count(reviewed("2025-07-03")), WORDS)).toMatchObject([
			{
				code: "H312",
				source: { file: "content/drills/roll.md" },
				path: ["reviewed"],
				about: { drill: "roll" },
			},
		]);
		expect(calendarMeasure.findings(count(reviewed("2025-07-04")), WORDS)).toEqual([]);
		// Eighteen months after the last of August is the last of February.
		const february = { ...reviewed("2025-08-31"), term: { starts: "2027-03-01", weeks: 1 } };
		expect(calendarMeasure.findings(count(february), WORDS)[0]?.what).toContain("due by 2027-02-28");
		expect(calendarMeasure.findings(count({ ...reviewed("2001-01-01"), targets: {} }), WORDS)).toEqual([]);
	});

	const week = { floor: [{ drill: "roll", minutes: 5 }] };
	const found = (draft: Omit<Draft, "drills">) =>
		calendarMeasure
			.findings(count({ ...base, ...draft }), WORDS)
			.map(({ code, about, what }) => [code, about.week, what]);

	it("tell each week without a plan before one that has a plan, and the end of the term once", () => {
		const weeks = { 1: week, 4: week };
		expect(found({ weeks, term: { starts: "2027-01-04", weeks: 9 } })).toEqual([
			["H314", 2, "Week 2 has no plan, and week 4 has one."],
			["H314", 3, "Week 3 has no plan, and week 4 has one."],
			["H314", 5, "Weeks 5 to 9, to the end of the term, have no plan."],
		]);
		expect(found({ weeks: { 1: week, 2: week }, term: { starts: "2027-01-04", weeks: 3 } })).toEqual([
			["H314", 3, "Week 3, the last of the term, has no plan."],
		]);
	});

	it("tell nothing of a term of which nothing is planned yet", () => {
		expect(found({ weeks: {}, term: { starts: "2027-01-04", weeks: 9 } })).toEqual([]);
	});

	it("tell a closed day outside the term, and none inside", () => {
		const day = (from: string, to = from) => ({ from, to });
		const closed = [
			day("2026-02-15", "2026-02-19"),
			day("2027-01-03"),
			day("2027-01-04"),
			day("2027-01-01", "2027-01-06"),
			day("2027-01-24"),
			day("2027-01-25"),
		];
		// Two of three weeks: the second is closed whole, and the last day is 24 January.
		const term = { starts: "2027-01-04", weeks: 2, closed: [...closed, day("2027-01-11", "2027-01-17")] };
		const outside = calendarMeasure.findings(count({ ...base, weeks: { 1: week, 2: week }, term }), WORDS);
		expect(outside.filter(({ code }) => code === "H345").map(({ path }) => path)).toEqual([
			["closed", 0],
			["closed", 1],
			["closed", 5],
		]);
		expect(outside.find(({ code }) => code === "H345")?.what).toBe(
			"2026-02-15 to 2026-02-19 are closed outside the term, which is from 2027-01-04 to 2027-01-24.",
		);
	});
});
