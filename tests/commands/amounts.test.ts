/** Times and numbers in cells: the values are plain arithmetic (60 seconds to a minute, SI Brochure, table 8). */

import { describe, expect, it } from "vitest";
import { numberOf, timeOf, unitInHeading } from "../../scripts/commands/spreadsheet/amounts.ts";

describe("a time under seconds", () => {
	it.each([
		["30", 30],
		["30 s", 30],
		["30s", 30],
		["30 sec.", 30],
		["30 secs", 30],
		["30 seconds", 30],
		["30 secondes", 30],
		['30"', 30],
		["2 min", 120],
		["2min", 120],
		["2 mins", 120],
		["2 minutes", 120],
		["2m", 120],
		["2'", 120],
		["0.5 min", 30],
		["0,5 min", 30],
		["½ min", 30],
		["1/2 min", 30],
		["1½ min", 90],
		["1 1/2 min", 90],
		["1:30", 90],
		["0:45", 45],
		["1:30 min", 90],
		["1 min 30 s", 90],
		["1 min 30", 90],
		["1m30", 90],
		["1'30\"", 90],
		["1 min and 30 sec", 90],
		["1 min et 30 s", 90],
		["about 20 s", 20],
		["environ 20 s", 20],
		["⅓ min", 20],
		["2.5", 2.5],
		["2,5", 2.5],
		["1.25 min", 75],
	])("%s", (text, seconds) => expect(timeOf(text, "seconds")).toBe(seconds));

	it.each([
		"10-12",
		"2 x 30",
		"30 s each",
		"30 30",
		"5 4 min",
		"30 s 1 min",
		"2 m high",
		"nil",
		"1:75",
		"1,000",
		"1.30 min",
		"2 cm",
	])("%s is told, not guessed", (text) =>
		expect(timeOf(text, "seconds")).toMatchObject({ wrong: expect.stringContaining(text) }),
	);

	it("counts a bare number in the unit of its heading", () => {
		expect(timeOf("2", "seconds", "minutes")).toBe(120);
		expect(timeOf("½", "seconds", "minutes")).toBe(30);
		expect(timeOf("30 s", "seconds", "minutes")).toBe(30);
	});
});

describe("a time under minutes", () => {
	it.each([
		["10", 10],
		["10 min", 10],
		["30 s", 0.5],
		["1 h", 60],
		["1h15", 75],
		["1 h 15 min", 75],
		["1,5 h", 90],
		["90 seconds", 1.5],
		["7,5", 7.5],
		["7½", 7.5],
	])("%s", (text, minutes) => expect(timeOf(text, "minutes")).toBe(minutes));

	it("1:30 may be hours or minutes", () => {
		expect(timeOf("1:30", "minutes")).toMatchObject({ wrong: expect.stringContaining("hours and minutes") });
		expect(timeOf("1:30 h", "minutes")).toBe(90);
		expect(timeOf("1:30:00", "minutes")).toBe(90);
	});
});

it.each([
	["Hold (sec)", "seconds"],
	["Hold (min)", "minutes"],
	["Turn [minutes]", "minutes"],
	["Turn, s", "seconds"],
	["Time in hours", "hours"],
	["Maintien (en secondes)", "seconds"],
	["hold sec", "seconds"],
	["Hold", undefined],
	["Set up (m)", "minutes"],
	["Minutes", undefined],
	["Hold (left)", undefined],
])("the heading “%s” names %s", (heading, unit) => expect(unitInHeading(heading)).toBe(unit));

describe("a number", () => {
	it.each([
		["3", 3],
		["3 x", 3],
		["10 reps", 10],
		["4 séries", 4],
		["~5", 5],
		["−2,5", -2.5],
		["1/2", 0.5],
		["1 1/2", 1.5],
		["¾", 0.75],
	])("%s", (text, number) => expect(numberOf(text)).toBe(number));

	// The same figures with a unit are another thing: they were once read without it.
	it.each(["3 min", "3 s", "3 m", "3-4", "1,000", "three"])("%s is told", (text) => {
		expect(numberOf(text)).toMatchObject({ wrong: expect.stringContaining(text) });
	});
});
