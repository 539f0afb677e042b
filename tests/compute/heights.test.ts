import { describe, expect, it } from "vitest";
import { BOYS, GIRLS, percentileOf, statureAt } from "../../scripts/compute/growth.ts";
import {
	agesOfLevel,
	LANDMARKS,
	landmarkHeight,
	landmarkHeights,
	landmarksOf,
	SEGMENT_SHARES,
	setUpHeights,
} from "../../scripts/compute/heights.ts";
import type { Dose, Drill, Landmark } from "../../scripts/model.ts";

const to = (digits: number, value: number | undefined) =>
	Math.round((value ?? Number.NaN) * 10 ** digits) / 10 ** digits;

describe("stature for age", () => {
	it("has the published medians of CDC 2000 from 5 to 12 years", () => {
		const medians = (sex: "girl" | "boy") =>
			[5, 6, 7, 8, 9, 10, 11, 12].map((age) => to(1, statureAt(sex, age, 50)));
		expect(medians("girl")).toEqual([107.7, 114.7, 121.5, 127.6, 132.9, 138, 144, 151.2]);
		expect(medians("boy")).toEqual([108.9, 115.4, 121.8, 127.9, 133.5, 138.6, 143.5, 149.1]);
	});

	it("has the published bands of CDC 2000 at 5, 8 and 12 years", () => {
		const band = (sex: "girl" | "boy", age: number) => [
			to(1, statureAt(sex, age, 5)),
			to(1, statureAt(sex, age, 95)),
		];
		expect([5, 8, 12].map((age) => band("girl", age))).toEqual([
			[100.1, 115.8],
			[118.3, 137.6],
			[138.9, 163.2],
		]);
		expect([5, 8, 12].map((age) => band("boy", age))).toEqual([
			[101.2, 116.5],
			[118.6, 137.6],
			[137.1, 161.6],
		]);
	});

	it("turns L, M and S into the percentiles that the published table prints beside them", () => {
		// CDC 2000, statage: sex, months, P5, P95.
		const published = [
			[GIRLS, 96.5, 118.5443251, 137.8974887],
			[GIRLS, 59.5, 99.85039229, 115.4801741],
			[GIRLS, 143.5, 138.6058289, 162.9128551],
			[GIRLS, 216.5, 152.464695, 173.7637802],
			[BOYS, 59.5, 100.9675675, 116.1561304],
			[BOYS, 96.5, 118.8052553, 137.8267001],
			[BOYS, 119.5, 127.8131904, 149.4379538],
		] as const;
		for (const [rows, months, p5, p95] of published) {
			const row = rows.find(([m]) => m === months);
			if (row === undefined) throw new Error(`no row of ${months} months`);
			expect(percentileOf(row, 5)).toBeCloseTo(p5, 4);
			expect(percentileOf(row, 95)).toBeCloseTo(p95, 4);
			expect(percentileOf(row, 50)).toBe(row[2]);
		}
	});

	it("stays within 2 cm of the medians of the WHO reference 2007, another population", () => {
		const who = {
			girl: [109.1, 115.1, 120.8, 126.6, 132.5, 138.6, 145.0, 151.2],
			boy: [109.8, 116.0, 121.7, 127.3, 132.6, 137.8, 143.1, 149.1],
		};
		for (const sex of ["girl", "boy"] as const) {
			for (const [i, median] of who[sex].entries()) {
				expect(Math.abs((statureAt(sex, 5 + i, 50) ?? 0) - median)).toBeLessThan(2);
			}
		}
	});

	it("grows with age and with the percentile, in complete rows, so that no digit was lost in copying", () => {
		for (const rows of [GIRLS, BOYS]) {
			expect(rows.map(([m]) => m)).toEqual(
				Array.from({ length: 16 }, (_, i) => [(i + 3) * 12 - 0.5, (i + 3) * 12 + 0.5]).flat(),
			);
			for (const [i, [, l, m, s]] of rows.entries()) {
				const before = rows[i - 1];
				if (before === undefined) continue;
				expect(m).toBeGreaterThan(before[2]);
				// Half a month apart on either side of a birthday, the curve hardly moves.
				if (i % 2 === 1) {
					expect(m - before[2]).toBeLessThan(0.7);
					expect(Math.abs(s - before[3])).toBeLessThan(0.0004);
					expect(Math.abs(l - before[1])).toBeLessThan(0.1);
				}
			}
		}
		expect(statureAt("girl", 2, 50)).toBeUndefined();
		expect(statureAt("boy", 7.25, 50)).toBeUndefined();
	});
});

describe("body landmarks", () => {
	it("keep the identities of the segment table (Drillis & Contini 1966, as in Winter, fig. 4.1)", () => {
		const { hip, knee, ankle, shoulder, thigh, shank } = SEGMENT_SHARES;
		expect(hip - knee).toBeCloseTo(thigh, 12);
		expect(knee - ankle).toBeCloseTo(shank, 12);
		expect(shoulder - hip).toBeCloseTo(0.288, 12);
		expect(landmarkHeight("reach", 1)).toBeCloseTo(1.258, 12);
	});

	it("let the median girl of eight reach 160.5 cm: under a bar at 170, over it from a 20 cm mat", () => {
		const reach = landmarkHeights("reach", [8, 8])?.ages[0]?.medianGirls ?? 0;
		expect(to(1, reach)).toBe(160.5);
		expect(reach).toBeLessThan(170);
		expect(reach + 20).toBeGreaterThan(170);
	});

	it("rise from the knee to the reach, each with its source, and mark what nobody published", () => {
		const shares = LANDMARKS.map((l) => l.share);
		expect([...shares].sort((a, b) => a - b)).toEqual(shares);
		expect(LANDMARKS.map((l) => l.landmark)).toEqual(["knee", "hip", "chest", "shoulder", "head", "reach"]);
		expect(LANDMARKS.every((l) => l.source.length > 10)).toBe(true);
		expect(LANDMARKS.filter((l) => !l.published).map((l) => l.landmark)).toEqual(["chest", "reach"]);
	});
});

describe("the heights of a class", () => {
	it("run from the smaller 5th percentile of the youngest to the larger 95th of the oldest", () => {
		const hip = landmarkHeights("hip", [5, 8]);
		expect(hip?.ages.map((a) => a.years)).toEqual([5, 6, 7, 8]);
		expect(to(1, hip?.low)).toBe(to(1, 0.53 * (statureAt("girl", 5, 5) ?? 0)));
		expect(to(1, hip?.high)).toBe(to(1, 0.53 * (statureAt("boy", 8, 95) ?? 0)));
		expect(hip?.low).toBeLessThan(hip?.ages[0]?.medianGirls ?? 0);
	});

	it("leave out ages that the table does not cover, and widen parts of a year", () => {
		expect(landmarkHeights("knee", [1, 2])).toBeUndefined();
		expect(landmarkHeights("knee", [17, 40])?.ages.map((a) => a.years)).toEqual([17, 18]);
		expect(landmarkHeights("knee", [6.5, 7.5])?.ages.map((a) => a.years)).toEqual([6, 7, 8]);
	});

	it("are for the ages of all classes that have the level", () => {
		const classes = [
			{ levels: ["l1"], ages: [6, 9] as const },
			{ levels: ["l1", "l2"], ages: [5, 11] as const },
			{ levels: ["l2"], ages: [12, 14] as const },
			{ levels: [] },
		];
		expect(agesOfLevel(classes, "l1")).toEqual([5, 11]);
		expect(agesOfLevel([{ levels: ["l2"] }], "l2")).toBeUndefined();
	});
});

describe("the set-up heights of a drill", () => {
	const drill: Pick<Drill, "heights" | "levels"> = {
		levels: new Map<string, Dose>([
			["l1", {}],
			["l2", {}],
			["l3", {}],
			["l4", {}],
			["own", { heights: new Map<string, Landmark>([["beam", "knee"]]) }],
		]),
		heights: new Map<string, Landmark | ReadonlyMap<string, Landmark>>([
			["low bar", "shoulder"],
			[
				"box",
				new Map<string, Landmark>([
					["l1", "knee"],
					["l2", "hip"],
					["l3", "hip"],
					["l4", "chest"],
				]),
			],
		]),
	};
	const of = (...levels: readonly string[]) =>
		setUpHeights(drill, levels).map((h) => `${h.what} ${h.landmark} ${h.levels.join("+")}`);

	it("are those of the levels asked for and of no other", () => {
		expect(of("l1")).toEqual(["low bar shoulder l1", "box knee l1"]);
		expect(of("l2")).toEqual(["low bar shoulder l2", "box hip l2"]);
		expect(of("l5")).toEqual(["low bar shoulder l5"]);
	});

	it("have one line for the levels that share one, in the order of the levels", () => {
		expect(of("l1", "l2", "l3", "l4")).toEqual([
			"low bar shoulder l1+l2+l3+l4",
			"box knee l1",
			"box hip l2+l3",
			"box chest l4",
		]);
	});

	it("are the level's own, whole, where it says any", () => {
		expect(of("l1", "own")).toEqual(["low bar shoulder l1", "box knee l1", "beam knee own"]);
	});

	it("name every landmark that the tables have to hold", () => {
		expect([...landmarksOf(drill)]).toEqual(["shoulder", "knee", "hip", "chest"]);
	});
});
