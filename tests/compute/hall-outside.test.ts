/**
 * The measures of the hall against what others published, a second way of counting, and rules that must
 * always hold. The source stands beside each check.
 */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { clockOf, minuteOf } from "../../scripts/compute/clock.ts";
import { coachesMeasure } from "../../scripts/compute/coaches.ts";
import { landmarkHeights } from "../../scripts/compute/heights.ts";
import { orderRows } from "../../scripts/compute/meeting-order.ts";
import { practice } from "../../scripts/compute/practice.ts";
import { reach } from "../../scripts/compute/reach.ts";
import { canStand, settingsMeasure } from "../../scripts/compute/settings.ts";
import { classTimes } from "../../scripts/compute/time.ts";
import { groupWorks, turnsEach } from "../../scripts/compute/work.ts";
import type { Equipment, Landmark } from "../../scripts/model.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { FIXTURES } from "../open-fixture.ts";
import { cases } from "../random-cases.ts";
import { build, count, type Draft } from "./build-curriculum.ts";
import { club } from "./random-club.ts";

const WORDS = wordsFor("en");

describe("gymnasts to a coach", () => {
	// NSPCC 2013, supervision of children and young people: 4 to 8 years 1:6, 9 to 12 1:8, 13 to 18 1:10.
	const ratio = [
		{ ages: [4, 8], gymnasts: 6 },
		{ ages: [9, 12], gymnasts: 8 },
		{ ages: [13, 18], gymnasts: 10 },
	] as const;
	const told = (ages: readonly [number, number], gymnasts: number, coaches: number) =>
		coachesMeasure
			.findings(
				count({
					drills: [],
					targets: { ratio },
					classes: [{ id: "mon", ages, gymnasts, coaches }],
				}),
				WORDS,
			)
			.map(({ code }) => code);

	it.each([
		[[4, 8], 6],
		[[6, 7], 6],
		[[9, 12], 8],
		[[13, 18], 10],
		// Ages of two bands: the younger ones decide.
		[[8, 9], 6],
		[[11, 14], 8],
	] as const)("%j: one to %i is kept, one gymnast more is told", (ages, most) => {
		for (const coaches of [1, 2, 3]) {
			expect(told(ages, most * coaches, coaches)).toEqual([]);
			expect(told(ages, most * coaches + 1, coaches)).toEqual(["H339"]);
		}
	});
});

describe("turns", () => {
	/** A queue played second by second: who is at its head goes as soon as a place is free, and joins its end after her turn. */
	const played = (seconds: number, gymnasts: number, turn: { seconds: number; atOnce: number }) => {
		const waiting = Array.from({ length: gymnasts }, (_, i) => i);
		const begun = waiting.map(() => 0);
		const completed = waiting.map(() => 0);
		const going: { readonly who: number; readonly until: number }[] = [];
		for (let now = 0; now <= seconds; now++) {
			for (let i = 0; i < going.length; ) {
				const one = going[i];
				if (one === undefined || one.until > now) i++;
				else {
					completed[one.who] = (completed[one.who] ?? 0) + 1;
					waiting.push(one.who);
					going.splice(i, 1);
				}
			}
			while (now < seconds && going.length < turn.atOnce) {
				const who = waiting.shift();
				if (who === undefined) break;
				begun[who] = (begun[who] ?? 0) + 1;
				going.push({ who, until: now + turn.seconds });
			}
		}
		return { least: Math.min(...completed), most: Math.max(...begun) };
	};
	const closed = (seconds: number, gymnasts: number, turn: { seconds: number; atOnce: number }) =>
		turnsEach({ kind: "drill", minutes: seconds / 60, show: 0, change: 0.5 }, 1, gymnasts, turn);
	const gymnasts = fc.integer({ min: 1, max: 20 });
	const turn = fc.record({
		seconds: fc.integer({ min: 1, max: 60 }),
		atOnce: fc.integer({ min: 1, max: 24 }),
	});

	it("are what a queue gives that is played turn by turn, where turns fill the minutes", () => {
		fc.assert(
			fc.property(gymnasts, turn, fc.integer({ min: 1, max: 40 }), (n, t, rounds) => {
				expect(closed(rounds * t.seconds, n, t)).toBe(played(rounds * t.seconds, n, t).least);
			}),
			{ numRuns: cases(500) },
		);
	});

	it("differ from it elsewhere by no more than the turn that the end cuts off", () => {
		fc.assert(
			fc.property(gymnasts, turn, fc.integer({ min: 1, max: 1200 }), (n, t, seconds) => {
				const { least, most } = played(seconds, n, t);
				expect(closed(seconds, n, t)).toBeGreaterThanOrEqual(least);
				expect(closed(seconds, n, t)).toBeLessThanOrEqual(most);
			}),
			{ numRuns: cases(500) },
		);
	});
});

describe("the clock of a class", () => {
	it("adds durations as RFC 5545 does (ical.js)", () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 0, max: 23 }),
				fc.integer({ min: 0, max: 59 }),
				fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 6 }),
				fc.integer({ min: 0, max: 5 }),
				fc.integer({ min: 0, max: 20 }),
				(hour, minute, minutes, between, warmUp) => {
					const start = clockOf(hour * 60 + minute);
					const apparatus = minutes.map((_, i) => `a${i}`);
					const curriculum = build({
						apparatus,
						drills: [{ id: "roll", levels: ["junior"] }],
						weeks: {
							1: Object.fromEntries(minutes.map((m, i) => [`a${i}`, [{ drill: "roll", minutes: m }]])),
						},
						classes: [{ id: "mon", day: "monday", start, warmUp, between }],
					});
					const at = ICAL.Time.fromDateTimeString("2027-01-04T00:00:00");
					at.hour = hour;
					at.minute = minute;
					const add = (m: number) => at.addDuration(ICAL.Duration.fromString(`PT${m}M`));
					const blocks = groupWorks(curriculum)[0]?.blocks ?? [];
					expect(blocks.length).toBe(minutes.length);
					add(warmUp);
					for (const [i, block] of blocks.entries()) {
						if (i > 0) add(between);
						expect(clockOf(minuteOf(start) + block.from)).toBe(at.toString().slice(11, 16));
						add(minutes[i] ?? 0);
						expect(clockOf(minuteOf(start) + block.to)).toBe(at.toString().slice(11, 16));
					}
				},
			),
			{ numRuns: cases(200) },
		);
	});
});

describe("heights that equipment can have", () => {
	// Bars at 1.7 m, beam top at 1.25 m, landing mats of 20 cm: FIG, women's artistic apparatus norms.
	const bar = { height: 170 };
	const stands = (values: Partial<Equipment>, wanted: readonly [number, number], mats: number) => {
		const item = build({ equipment: [{ id: "bar", ...values }], drills: [] }).equipment.get("bar");
		if (item === undefined) throw new Error("no bar");
		return canStand({ item, wanted, mats });
	};

	it("a girl of 8 who is as tall as the median reaches the bar from a mat of 20 cm, not from the floor", () => {
		// 127.6 cm (CDC 2000, P50) × 1.258 (Drillis & Contini 1966: shoulder with arm, forearm and hand) = 160.5 cm.
		const reached = landmarkHeights("reach", [8, 8])?.ages[0]?.medianGirls ?? 0;
		expect(reached).toBeCloseTo(160.5, 1);
		expect(stands(bar, [0, reached], 0)).toBe(false);
		expect(stands(bar, [0, reached], 20)).toBe(true);
	});

	it("tells a beam that should stand at the hip of children of 5 and 6, and not one that is low", () => {
		const codes = (height: number, landmark: Landmark) =>
			settingsMeasure
				.findings(
					count({
						equipment: [{ id: "beam", height }],
						drills: [{ id: "step", levels: ["junior"], heights: new Map([["beam", landmark]]) }],
						classes: [{ id: "mon", ages: [5, 6] }],
						weeks: { 1: { floor: [{ drill: "step", minutes: 5 }] } },
					}),
					WORDS,
				)
				.map(({ code }) => code);
		expect(codes(125, "hip")).toEqual(["H336"]);
		// 0.530 × 107.7 cm = 57 cm for a median girl of 5.
		expect(codes(57, "hip")).toEqual([]);
	});

	it("counts the steps in which a bar can be set from its lowest setting", () => {
		expect(stands({ range: [90, 170], step: 10 }, [101, 109], 0)).toBe(false);
		expect(stands({ range: [90, 170], step: 10 }, [101, 110], 0)).toBe(true);
		expect(stands({ range: [90, 170], step: 10 }, [81, 89], 20)).toBe(false);
		expect(stands({ range: [90, 170], step: 10 }, [81, 90], 20)).toBe(true);
		expect(stands({ range: [90, 170] }, [171, 180], 0)).toBe(false);
	});
});

describe("random clubs", () => {
	it("never do more than is planned, or than fits", () => {
		fc.assert(
			fc.property(club, (draft: Draft) => {
				for (const { planned, fits, done } of practice(build(draft))) {
					// Of a drill at two stations each is the smaller by itself.
					if (planned !== undefined) expect(done ?? 0).toBeLessThanOrEqual(planned + 1e-9);
					if (fits !== undefined) expect(done ?? 0).toBeLessThanOrEqual(fits + 1e-9);
				}
			}),
		);
	});

	it("reach no more where a day is closed", () => {
		const days = ["2027-01-04", "2027-01-05", "2027-01-12", "2027-01-18"];
		fc.assert(
			fc.property(club, fc.constantFrom(...days), (draft: Draft, day) => {
				const open = new Map(
					reach(build(draft)).map((row) => [`${row.kind} ${row.id} ${row.group.name}`, row]),
				);
				const closed = build({ ...draft, term: { ...draft.term, closed: [{ from: day, to: day }] } });
				for (const row of reach(closed)) {
					const before = open.get(`${row.kind} ${row.id} ${row.group.name}`);
					expect(row.minutes).toBeLessThanOrEqual((before?.minutes ?? 0) + 1e-9);
					expect(row.performed ?? 0).toBeLessThanOrEqual((before?.performed ?? 0) + 1e-9);
					expect(row.prepared ?? 0).toBeLessThanOrEqual((before?.prepared ?? 0) + 1e-9);
					expect(row.weeks.every((week) => before?.weeks.includes(week))).toBe(true);
				}
			}),
		);
	});

	it("take no longer with groups at the same time than one after the other", () => {
		const part = fc.record({
			levels: fc.subarray(["l1", "l2", "l3"], { minLength: 1 }),
			gymnasts: fc.integer({ min: 1, max: 9 }),
			rotation: fc.shuffledSubarray(["floor", "beam"], { minLength: 1 }),
		});
		fc.assert(
			fc.property(club, fc.array(part, { minLength: 2, maxLength: 3 }), (draft: Draft, parts) => {
				const groups = parts.map((one, i) => ({ id: `g${i}`, ...one }));
				const planned = (classes: Draft["classes"] = []) =>
					classTimes(build({ ...draft, classes })).map((time) => ({ ...time }));
				const together = planned([{ id: "all", groups }]);
				const alone = planned(groups.map(({ id, ...group }) => ({ id, ...group })));
				for (const { week, planned: minutes } of together) {
					const each = alone.filter((time) => time.week === week).map((time) => time.planned);
					expect(minutes).toBe(Math.max(...each));
					expect(minutes).toBeLessThanOrEqual(each.reduce((sum, m) => sum + m, 0) + 1e-9);
				}
			}),
		);
	});

	it("never look lazier than they are known to be where a drill is given a turn", () => {
		fc.assert(
			fc.property(
				club,
				fc.integer({ min: 1, max: 60 }),
				fc.integer({ min: 1, max: 6 }),
				(draft: Draft, seconds, atOnce) => {
					const turn = { seconds, atOnce };
					const given = {
						...draft,
						drills: draft.drills.map((drill) => ({ ...drill, turn: drill.turn ?? turn })),
					};
					const after = new Map(classTimes(build(given)).map((time) => [`${time.week} ${time.class}`, time]));
					for (const time of classTimes(build(draft))) {
						const now = after.get(`${time.week} ${time.class}`);
						// What was known to move still does, and what was unknown is shared out between moving and waiting.
						expect(now?.activeMinutes).toBeGreaterThanOrEqual(time.activeMinutes - 1e-9);
						expect((now?.activeMinutes ?? 0) - time.activeMinutes).toBeLessThanOrEqual(
							time.unknownMinutes + 1e-9,
						);
						expect(now?.unknownMinutes).toBeLessThanOrEqual(time.unknownMinutes + 1e-9);
					}
				},
			),
		);
	});
});

describe("the demo club's first plan", () => {
	interface Plan {
		readonly levels: readonly string[];
		readonly classes: readonly {
			readonly id: string;
			readonly levels: readonly string[];
			readonly rotation: readonly string[];
		}[];
		readonly drills: Readonly<
			Record<string, { readonly levels: readonly string[]; readonly after: readonly string[] }>
		>;
		readonly weeks: Readonly<
			Record<
				string,
				Readonly<
					Record<string, readonly { readonly levels?: string[]; readonly drills: readonly string[] }[]>
				>
			>
		>;
	}
	const plan = parse(readFileSync(join(FIXTURES, "first-plan.yaml"), "utf8")) as Plan;
	const apparatus = ["warm-up", "floor", "bars", "beam", "vault"];

	it("has 31 of its 153 links of `after` out of order, as a director found by hand", () => {
		const rows = orderRows(
			build({
				levels: plan.levels,
				apparatus,
				drills: Object.entries(plan.drills).map(([id, drill]) => ({ id, apparatus, ...drill })),
				weeks: Object.fromEntries(
					Object.entries(plan.weeks).map(([week, areas]) => [
						week,
						Object.fromEntries(
							Object.entries(areas).map(([area, blocks]) => [
								area,
								blocks.map(({ levels, drills }) => ({
									stations: drills,
									minutes: 10,
									...(levels === undefined ? {} : { levels }),
								})),
							]),
						),
					]),
				),
				classes: plan.classes,
			}),
		).filter(({ rule }) => rule === "after");
		const link = ({ level, drill, id }: (typeof rows)[number]) => `${level}: ${drill} after ${id}`;
		const all = new Set(rows.map(link));
		const wrong = new Set(rows.filter(({ met }) => met === "no").map(link));
		expect([wrong.size, all.size]).toEqual([31, 153]);
		expect([[...wrong].sort(), [...all].sort()]).toEqual(secondReading());
	});

	/** Read again: everything a class does in a row, and for each drill whether what it follows stands before it. */
	function secondReading(): readonly [readonly string[], readonly string[]] {
		const all = new Set<string>();
		const wrong = new Set<string>();
		for (const { levels, rotation } of plan.classes) {
			const done: string[][] = [];
			for (let week = 1; week <= 60; week++) {
				for (const area of rotation) {
					for (const block of plan.weeks[week]?.[area] ?? []) {
						const here: string[] = [];
						for (const id of block.drills) {
							const level = plan.levels.find(
								(one) =>
									levels.includes(one) &&
									plan.drills[id]?.levels.includes(one) &&
									(block.levels ?? plan.levels).includes(one),
							);
							if (level === undefined) continue;
							if (!done.flat().includes(id)) {
								for (const before of plan.drills[id]?.after ?? []) {
									if (!plan.drills[before]?.levels.includes(level)) continue;
									all.add(`${level}: ${id} after ${before}`);
									if (!done.flat().includes(before)) wrong.add(`${level}: ${id} after ${before}`);
								}
							}
							here.push(id);
						}
						done.push(here);
					}
				}
			}
		}
		return [[...wrong].sort(), [...all].sort()];
	}
});
