import { describe, expect, it } from "vitest";
import { groupLoads, loadMeasure } from "../../scripts/compute/load.ts";
import type { Counted } from "../../scripts/compute/measure.ts";
import { asRecords } from "../../scripts/compute/tables.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { count, type Draft, type WeekDraft } from "./build-curriculum.ts";

const WORDS = wordsFor("en");

const jumps = (n: number): WeekDraft => ({
	floor: Array.from({ length: n }, () => ({ drill: "jump", minutes: 1 })),
});
const base: Draft = {
	levels: ["l1", "l2"],
	drills: [
		{ id: "jump", levels: { l1: { sets: 2, reps: 3 }, l2: {} }, contacts: { landings: 1, hands: 0 } },
		{ id: "wheel", levels: { l2: { reps: 4 } }, contacts: { landings: 1, hands: 2 } },
		{ id: "hold", levels: ["l1"] },
	],
	classes: [
		{ id: "l1", levels: ["l1"] },
		{ id: "l2", levels: ["l2"] },
	],
};

const loads = ({ curriculum }: Counted) => groupLoads(curriculum);

describe("load.csv", () => {
	it("adds contacts × repetitions, an empty repetition counting one", () => {
		const counted = count({
			...base,
			weeks: {
				1: {
					floor: [
						{ drill: "jump", minutes: 1 },
						{ drill: "wheel", minutes: 1 },
					],
				},
			},
		});
		const [table] = loadMeasure.tables(counted);
		expect(table && asRecords(table)).toEqual([
			{
				week: 1,
				group: "l1",
				landings: 6,
				hands: 0,
				"planned-landings": 6,
				"planned-hands": 0,
				"landings-step": undefined,
				"hands-step": undefined,
			},
			{
				week: 1,
				group: "l2",
				landings: 5,
				hands: 8,
				"planned-landings": 5,
				"planned-hands": 8,
				"landings-step": undefined,
				"hands-step": undefined,
			},
		]);
		expect(loads(counted)[1]?.drills).toEqual([
			{ drill: "wheel", landings: 4, hands: 8 },
			{ drill: "jump", landings: 1, hands: 0 },
		]);
	});

	it("has a row of zeros for drills without contacts, and none for a level without drills", () => {
		const [table] = loadMeasure.tables(
			count({ ...base, weeks: { 1: { floor: [{ drill: "hold", minutes: 1 }] } } }),
		);
		expect(table?.rows).toEqual([[1, "l1", 0, 0, 0, 0, undefined, undefined]]);
	});
});

describe("the step", () => {
	it("is this week over the mean of the up to three weeks before, and empty in the first", () => {
		const counted = count({
			...base,
			weeks: { 1: jumps(1), 2: jumps(2), 3: jumps(3), 4: jumps(5), 5: jumps(1) },
		});
		const steps = loads(counted)
			.filter((l) => l.group.name === "l1")
			.map((l) => l.landingsStep);
		expect(steps.slice(0, 3)).toEqual([undefined, 2, 2]);
		expect(steps[3]).toBeCloseTo(5 / 2, 12);
		expect(steps[4]).toBeCloseTo(1 / (10 / 3), 12);
	});

	it("counts a week in which the group does nothing as nothing, and is empty over a mean of 0", () => {
		const gap = count({ ...base, weeks: { 1: jumps(3), 4: jumps(2), 8: jumps(1) }, term: { weeks: 8 } });
		const l1 = loads(gap).filter((l) => l.group.name === "l1");
		expect(l1.map((l) => [l.week, l.landingsStep])).toEqual([
			[1, undefined],
			[4, 2],
			[8, undefined],
		]);
		expect(l1.every((l) => l.handsStep === undefined)).toBe(true);
	});

	it("counts a closed week as nothing: children come back from a break", () => {
		const counted = count({
			...base,
			// The third calendar week is closed, and no teaching week.
			term: { starts: "2027-01-04", weeks: 3, closed: [{ from: "2027-01-18", to: "2027-01-24" }] },
			weeks: { 1: jumps(2), 2: jumps(4), 3: jumps(3) },
		});
		const third = loads(counted).find((l) => l.group.name === "l1" && l.week === 3);
		expect(third?.landingsStep).toBeCloseTo(3 / ((2 + 4 + 0) / 3), 12);
	});

	it("counts what is done, and shows the whole dose beside it", () => {
		const [load] = loads(
			count({
				...base,
				drills: [
					{
						id: "jump",
						levels: { l1: { sets: 4, reps: 5 } },
						contacts: { landings: 2, hands: 0 },
						turn: { seconds: 30, atOnce: 1 },
					},
				],
				classes: [{ id: "l1", levels: ["l1"], gymnasts: 4 }],
				// 4 minutes for 4 gymnasts, one at a time, 30 s: 2 turns of 5.
				weeks: { 1: { floor: [{ drill: "jump", minutes: 4 }] } },
			}),
		);
		expect([load?.landings, load?.plannedLandings]).toEqual([20, 40]);
	});

	it("says for how many minutes nobody wrote down contacts", () => {
		const [load] = loads(
			count({
				...base,
				weeks: {
					1: {
						floor: [
							{ drill: "hold", minutes: 3 },
							{ drill: "jump", minutes: 9 },
						],
					},
				},
			}),
		);
		expect([load?.unknownMinutes, load?.minutes]).toEqual([3, 12]);
	});

	it("gives one finding for the groups that do the same", () => {
		const classes = ["mon", "wed"].map((id) => ({ id, levels: ["l1"], gymnasts: 1 }));
		const weeks = { 1: jumps(1), 2: jumps(1), 3: jumps(1), 4: jumps(2) };
		const [found, ...others] = loadMeasure.findings(
			count({ ...base, classes, weeks, targets: { loadStep: 1.5 } }),
			WORDS,
		);
		expect(others).toEqual([]);
		expect(found).toMatchObject({ about: { week: 4, drill: "jump" }, count: 2 });
		expect(found?.about.group).toBeUndefined();
		expect(found?.what).toContain("mon and wed, week 4: 12 landings");
	});

	it("gives one finding above the target, with a caution and no verdict", () => {
		const draft: Draft = {
			...base,
			weeks: { 1: jumps(1), 2: jumps(1), 3: jumps(1), 4: jumps(2) },
			targets: { loadStep: 1.5 },
		};
		const findings = loadMeasure.findings(count(draft), WORDS);
		expect(findings.map((f) => [f.code, f.about.group, f.about.drill])).toEqual([
			["H311", "l1", "jump"],
			["H311", "l2", "jump"],
		]);
		expect(findings[0]?.what).toContain("12 landings, 2 times the mean of the three weeks before");
		// As many weeks as there were: the second week has one before it.
		const early = (weeks: Draft["weeks"] & object) =>
			loadMeasure.findings(count({ ...draft, weeks }), WORDS)[0]?.what;
		expect(early({ 1: jumps(1), 2: jumps(2) })).toContain("12 landings, 2 times the week before;");
		expect(early({ 1: jumps(1), 2: jumps(1), 3: jumps(2) })).toContain(
			"2 times the mean of the two weeks before",
		);
		expect(findings[0]?.what).toContain("not a medical measure");
		expect(findings.map((f) => `${f.what} ${f.why} ${f.fix}`).join(" ")).not.toMatch(
			/\b(un)?safe|danger|risk/i,
		);
		expect(findings[0]?.path).toEqual(["apparatus", "floor", "blocks", 0]);
		expect(loadMeasure.findings(count({ ...draft, targets: { loadStep: 2 } }), WORDS)).toEqual([]);
		expect(loadMeasure.findings(count({ ...draft, targets: {} }), WORDS)).toEqual([]);
	});
});
