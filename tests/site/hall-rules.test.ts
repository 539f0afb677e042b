/**
 * The hall's rules without a browser: which class sheets a day offers, and how a stations block runs.
 */

import { describe, expect, it } from "vitest";
import { chooseSheets, type Sheet } from "../../layouts/browser/hall/choose-sheets.ts";
import {
	countdown,
	courseOf,
	elapsedOf,
	NOT_STARTED,
	paused,
	skipped,
	started,
	stretchAt,
} from "../../layouts/browser/hall/station-clock.ts";

const sheet = (id: string, date: string, start: string, end: string, closed = false): Sheet => ({
	class: id,
	name: id,
	week: "1",
	date,
	start,
	end,
	closed,
	weekFrom: "2027-01-04",
	weekTo: "2027-01-10",
	href: `${id}/${date}`,
});

const TERM = [
	sheet("late", "2027-01-04", "18:00", "19:00"),
	sheet("early", "2027-01-04", "16:00", "17:00"),
	sheet("wed", "2027-01-06", "16:00", "17:00"),
	sheet("early", "2027-01-11", "16:00", "17:00", true),
	sheet("late", "2027-01-11", "18:00", "19:00", true),
	sheet("wed", "2027-01-13", "16:00", "17:00"),
];
const CLOSED = ["2027-01-10/2027-01-11"];

const on = (date: string, clock = "12:00", last?: string, sheets: readonly Sheet[] = TERM) => {
	const { offers, ...rest } = chooseSheets(sheets, CLOSED, last, { date, clock });
	return { ...rest, offers: offers.map((o) => `${o.sheet.href} ${o.when}${o.last ? " last" : ""}`) };
};

describe("which sheets a day offers", () => {
	it("offers the classes of today in the order of the clock", () => {
		expect(on("2027-01-04")).toEqual({
			day: "class day",
			offers: ["early/2027-01-04 today", "late/2027-01-04 today"],
		});
	});

	it("puts the class first that is on, and then the one that is next", () => {
		expect(on("2027-01-04", "16:00").offers).toEqual(["early/2027-01-04 on now", "late/2027-01-04 today"]);
		expect(on("2027-01-04", "17:00").offers).toEqual(["late/2027-01-04 today", "early/2027-01-04 over"]);
		expect(on("2027-01-04", "23:00").offers[0]).toBe("early/2027-01-04 over");
	});

	it("puts the class opened last first where it meets today, whatever the hour", () => {
		expect(on("2027-01-04", "16:30", "late").offers).toEqual([
			"late/2027-01-04 today last",
			"early/2027-01-04 on now",
		]);
	});

	it("offers the class opened last after those of today where it meets on another day", () => {
		expect(on("2027-01-06", "12:00", "late").offers).toEqual([
			"wed/2027-01-06 today",
			"late/2027-01-04 past last",
		]);
		expect(on("2027-01-04", "12:00", "wed").offers.at(-1)).toBe("wed/2027-01-06 next last");
	});

	it("offers the next class day on a free day, the class opened last at its head", () => {
		expect(on("2027-01-05")).toEqual({ day: "free", next: "2027-01-06", offers: ["wed/2027-01-06 next"] });
		expect(on("2027-01-03", "12:00", "wed")).toEqual({
			day: "before term",
			next: "2027-01-04",
			offers: ["wed/2027-01-06 next last", "early/2027-01-04 next", "late/2027-01-04 next"],
		});
	});

	it("says how long the club is closed, and what comes then", () => {
		expect(on("2027-01-11", "16:30", "early")).toEqual({
			day: "closed",
			closedUntil: "2027-01-11",
			next: "2027-01-13",
			offers: ["wed/2027-01-13 next", "early/2027-01-04 past last"],
		});
	});

	it("offers the last sheet of the class opened last after the term, and nothing to a stranger", () => {
		expect(on("2027-03-01", "12:00", "wed")).toEqual({
			day: "after term",
			offers: ["wed/2027-01-13 past last"],
		});
		expect(on("2027-03-01", "12:00", "gone").offers).toEqual([]);
	});

	it("offers a class without a day in its week, after those of today", () => {
		const open = [...TERM, sheet("open", "", "", "")];
		expect(on("2027-01-06", "12:00", undefined, open).offers).toEqual([
			"wed/2027-01-06 today",
			"open/ this week",
		]);
		expect(on("2027-01-12", "12:00", undefined, open).offers).toEqual(["wed/2027-01-13 next"]);
	});
});

describe("how a stations block runs", () => {
	const course = courseOf(3, 260, 30);

	it("is work at each station with a change between, and none after the last", () => {
		expect(
			course.map(({ kind, station, from, until }) => [kind, station, from / 1000, until / 1000]),
		).toEqual([
			["work", 1, 0, 260],
			["change", 2, 260, 290],
			["work", 2, 290, 550],
			["change", 3, 550, 580],
			["work", 3, 580, 840],
		]);
	});

	it("goes straight on where a change takes no time", () => {
		expect(courseOf(2, 60, 0).map(({ kind, station }) => `${kind} ${station}`)).toEqual(["work 1", "work 2"]);
	});

	it("is in a stretch from its first moment, and in the next from its last", () => {
		expect(stretchAt(course, 259_999)).toBe(course[0]);
		expect(stretchAt(course, 260_000)).toBe(course[1]);
		expect(stretchAt(course, 839_999)).toBe(course[4]);
		expect(stretchAt(course, 840_000)).toBeUndefined();
	});

	it("counts the time between a start and a pause, however often", () => {
		let run = started(NOT_STARTED, 1_000);
		expect(elapsedOf(run, 4_000)).toBe(3_000);
		run = paused(run, 5_000);
		expect(elapsedOf(run, 90_000)).toBe(4_000);
		run = started(run, 100_000);
		expect(started(run, 110_000)).toBe(run);
		expect(elapsedOf(run, 101_000)).toBe(5_000);
	});

	it("loses nothing where the device's clock is set back", () => {
		const run = started(paused(started(NOT_STARTED, 0), 7_000), 100_000);
		expect(elapsedOf(run, 50_000)).toBe(7_000);
	});

	it("skips to the next stretch, running or standing, and not past the end", () => {
		const running = skipped(started(NOT_STARTED, 0), course, 10_000);
		expect(elapsedOf(running, 10_000)).toBe(260_000);
		expect(elapsedOf(running, 11_000)).toBe(261_000);
		const standing = skipped({ before: 840_000 - 1, since: undefined }, course, 0);
		expect(standing).toEqual({ before: 840_000, since: undefined });
		expect(skipped(standing, course, 5)).toBe(standing);
	});

	it.each([
		[190_000, "3:10"],
		[189_001, "3:10"],
		[189_000, "3:09"],
		[1, "0:01"],
		[0, "0:00"],
		[-5, "0:00"],
		[3_600_000, "60:00"],
	])("writes %d ms as %s", (left, words) => {
		expect(countdown(left)).toBe(words);
	});
});
