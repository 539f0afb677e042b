import { describe, expect, it } from "vitest";
import { spacingMeasure, spacings, widestGap } from "../../scripts/compute/spacing.ts";
import { asRecords } from "../../scripts/compute/tables.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { count, type Draft } from "./build-curriculum.ts";

const WORDS = wordsFor("en");

const base: Draft = {
	levels: ["junior", "senior"],
	shapes: ["hollow", "bridge"],
	skills: [
		{ id: "roll", levels: ["junior", "senior"] },
		{ id: "bridge", levels: ["senior"] },
	],
	drills: [
		{ id: "rock", levels: ["junior", "senior"], shapes: ["hollow"], skills: ["roll"] },
		{ id: "arch", levels: ["senior"], shapes: ["bridge"], skills: ["bridge"] },
	],
	weeks: {
		1: { floor: [{ drill: "rock", minutes: 5 }] },
		2: { floor: [{ drill: "rock", minutes: 5, levels: ["senior"] }] },
		7: {
			floor: [
				{ drill: "rock", minutes: 5 },
				{ drill: "arch", minutes: 5 },
			],
		},
	},
	term: { weeks: 10 },
};

describe("spacing.csv", () => {
	it("gives first, last, weeks and the longest gap, shapes before skills, in the club's order", () => {
		const [table] = spacingMeasure.tables(count(base));
		expect(table && asRecords(table)).toEqual([
			{ kind: "shape", id: "hollow", level: "junior", weeks: 2, first: 1, last: 7, "longest-gap": 6 },
			{ kind: "shape", id: "hollow", level: "senior", weeks: 3, first: 1, last: 7, "longest-gap": 5 },
			{ kind: "shape", id: "bridge", level: "senior", weeks: 1, first: 7, last: 7, "longest-gap": undefined },
			{ kind: "skill", id: "roll", level: "junior", weeks: 2, first: 1, last: 7, "longest-gap": 6 },
			{ kind: "skill", id: "roll", level: "senior", weeks: 3, first: 1, last: 7, "longest-gap": 5 },
			{ kind: "skill", id: "bridge", level: "senior", weeks: 1, first: 7, last: 7, "longest-gap": undefined },
		]);
	});

	it("names the weeks on both sides of the gap, the earlier of two equal gaps", () => {
		expect(widestGap([1, 2, 7])).toEqual([2, 7]);
		expect(widestGap([1, 4, 7])).toEqual([1, 4]);
		expect(widestGap([3])).toBeUndefined();
		expect(widestGap([])).toBeUndefined();
	});
});

describe("what a level should train", () => {
	it("is a shape that any drill for the level names, and a skill that lists the level", () => {
		const expected = spacings(count(base)).filter((s) => s.expected);
		expect(expected.map((s) => `${s.kind} ${s.id} ${s.level}`)).toEqual([
			"shape hollow junior",
			"shape hollow senior",
			"shape bridge senior",
			"skill roll junior",
			"skill roll senior",
			"skill bridge senior",
		]);
	});

	it("keeps a skill out of the findings of a level that the skill does not list", () => {
		const counted = count({
			...base,
			skills: [{ id: "roll", levels: [] }, { id: "bridge" }],
			targets: { skillWeeks: 9, skillGap: 1 },
		});
		expect(spacingMeasure.findings(counted, WORDS)).toEqual([]);
		expect(spacingMeasure.tables(counted)[0]?.rows.some((row) => row[1] === "roll")).toBe(true);
	});
});

describe("findings", () => {
	it("report too few weeks and too long a gap where the target is missed, not where it is met", () => {
		const findings = spacingMeasure.findings(
			count({ ...base, targets: { shapeWeeks: 3, skillWeeks: 2, shapeGap: 5, skillGap: 5 } }),
			WORDS,
		);
		expect(findings.map((f) => [f.code, f.about])).toEqual([
			["H303", { level: "junior", shape: "hollow" }],
			["H305", { level: "junior", shape: "hollow" }],
			["H303", { level: "senior", shape: "bridge" }],
			["H306", { level: "junior", skill: "roll" }],
			["H304", { level: "senior", skill: "bridge" }],
		]);
	});

	it("point into a planned week without the thing, inside the gap if it is a gap", () => {
		const [few, gap] = spacingMeasure
			.findings(count({ ...base, targets: { shapeWeeks: 3, shapeGap: 5 } }), WORDS)
			.filter((f) => f.about.level === "junior");
		expect([few?.source.file, few?.path]).toEqual(["content/weeks/week-2.md", ["apparatus", "floor"]]);
		expect([gap?.source.file, gap?.path]).toEqual(["content/weeks/week-2.md", ["apparatus", "floor"]]);
		expect(gap?.what).toContain("week 1 and not again before week 7, 6 weeks later");
	});

	it("point at the thing itself where no planned week could take it, and say so if no drill exists", () => {
		const [finding] = spacingMeasure.findings(
			count({
				...base,
				skills: [{ id: "roll" }, { id: "bridge", levels: ["junior"] }],
				targets: { skillWeeks: 1 },
			}),
			WORDS,
		);
		expect([finding?.code, finding?.weight, finding?.source.file, finding?.path]).toEqual([
			"H304",
			"serious",
			"_data/skills.yaml",
			[1],
		]);
		expect(finding?.fix).toContain("No drill of the library");
	});

	it("ask for as many weeks as the target has where there is none, and for another where there is one", () => {
		const drills = [...(base.drills ?? []), { id: "wheel", levels: ["junior"], shapes: ["bridge"] }];
		const fixes = spacingMeasure
			.findings(count({ ...base, drills, targets: { shapeWeeks: 3 } }), WORDS)
			.map(({ fix }) => fix);
		expect(fixes).toEqual([
			"Plan “rock” in another week for junior.",
			"Plan “wheel” in 3 weeks for junior.",
			"Plan “arch” in another week for senior.",
		]);
	});

	it("ask for no more weeks than the term has", () => {
		const oneWeek = count({
			...base,
			weeks: {
				1: {
					floor: [
						{ drill: "rock", minutes: 5 },
						{ drill: "arch", minutes: 5 },
					],
				},
			},
			term: { weeks: 1 },
			targets: { shapeWeeks: 3, skillWeeks: 3, shapeGap: 1, skillGap: 1 },
		});
		expect(spacingMeasure.findings(oneWeek, WORDS)).toEqual([]);
	});

	it("are none before anything is planned", () => {
		expect(spacingMeasure.findings(count({ ...base, weeks: {}, targets: { shapeWeeks: 3 } }), WORDS)).toEqual(
			[],
		);
	});

	it("see the whole of a term of 53 weeks", () => {
		const weeks = Object.fromEntries([1, 27, 53].map((n) => [n, { floor: [{ drill: "rock", minutes: 1 }] }]));
		const counted = count({ ...base, weeks, term: { weeks: 53 }, targets: { shapeGap: 25 } });
		expect(spacings(counted)[0]).toMatchObject({ taught: [1, 27, 53], longestGap: 26, gap: [1, 27] });
		expect(spacingMeasure.findings(counted, WORDS).map((f) => f.code)).toEqual(["H305", "H305"]);
	});
});
