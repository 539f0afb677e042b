import { describe, expect, it } from "vitest";
import {
	balanceMeasure,
	directionBalances,
	patternBalance,
	patternsOf,
	sidesBalance,
	unpaired,
} from "../../scripts/compute/balance.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { count, type Draft } from "./build-curriculum.ts";

const WORDS = wordsFor("en");

const base: Draft = {
	levels: ["junior", "senior"],
	apparatus: ["floor", "beam"],
	skills: [{ id: "roll", pattern: "rotation" }, { id: "jump", pattern: "spring" }, { id: "hold" }],
	drills: [
		{
			id: "ahead",
			levels: ["junior", "senior"],
			direction: "forward",
			partner: "back",
			skills: ["roll", "jump"],
			sides: "each",
		},
		{ id: "back", levels: ["senior"], direction: "backward", skills: ["roll"] },
		{
			id: "still",
			levels: ["junior"],
			direction: "none",
			skills: ["hold"],
			apparatus: ["floor", "beam"],
			sides: "both",
		},
		{ id: "beam-walk", levels: ["junior"], direction: "forward", apparatus: ["beam"] },
	],
	targets: { pairDirections: true },
};
const planned = (floor: readonly string[], beam: readonly string[] = []): Draft => ({
	...base,
	weeks: {
		1: {
			floor: floor.map((drill) => ({ drill, minutes: 6 })),
			...(beam.length === 0 ? {} : { beam: beam.map((drill) => ({ drill, minutes: 4 })) }),
		},
	},
});

describe("forward and backward", () => {
	it("are added up for each week and apparatus over all levels", () => {
		const [floor, beam] = directionBalances(count(planned(["ahead", "back", "still"], ["still"])));
		expect(floor?.directions.get("forward")).toMatchObject({ minutes: 12, drills: ["ahead"] });
		expect(floor?.directions.get("backward")).toMatchObject({ minutes: 6, drills: ["back"] });
		expect(floor?.missing).toBeUndefined();
		expect(beam?.directions.get("none")).toMatchObject({ minutes: 4 });
		expect(beam?.missing).toBeUndefined();
	});

	it("give a finding where one is missing and the library could supply it", () => {
		const [finding, ...more] = balanceMeasure.findings(count(planned(["ahead"])), WORDS);
		expect(more).toEqual([]);
		expect(finding).toMatchObject({
			code: "H307",
			about: { week: 1, apparatus: "floor" },
			path: ["apparatus", "floor"],
		});
		expect(finding?.fix).toContain("back");
	});

	it("give one for backward without forward as well", () => {
		const [finding] = balanceMeasure.findings(count(planned(["back"])), WORDS);
		expect(finding?.what).toContain("none forward");
	});

	it("give none where the library has nothing for that apparatus, or for those levels", () => {
		expect(balanceMeasure.findings(count(planned([], ["beam-walk"])), WORDS)).toEqual([]);
		const juniorsOnly: Draft = {
			...base,
			weeks: { 1: { floor: [{ drill: "ahead", minutes: 6, levels: ["junior"] }] } },
		};
		expect(balanceMeasure.findings(count(juniorsOnly), WORDS)).toEqual([]);
	});

	it("are judged for each level: what one does backward is no use to another", () => {
		const weeks = {
			1: {
				floor: [
					{ drill: "ahead", minutes: 6, levels: ["junior"] },
					{ drill: "back", minutes: 6, levels: ["senior"] },
				],
			},
		};
		const drills = [
			...base.drills,
			{ id: "junior-back", levels: ["junior"], direction: "backward" as const },
		];
		const found = balanceMeasure.findings(count({ ...base, drills, weeks }), WORDS);
		expect(found.map(({ about }) => about.level)).toEqual(["junior", "senior"]);
		expect(found[0]?.fix).toContain("junior-back");
		expect(found[1]?.fix).toContain("ahead");
	});

	it("follow the body in what is performed: statics have no direction", () => {
		const skills = [{ id: "scale", pattern: "statics" as const, direction: "forward" as const }];
		const found = (performs: readonly string[]) =>
			balanceMeasure.findings(
				count({
					...base,
					skills,
					drills: [
						{ id: "balance", levels: ["senior"], direction: "forward", performs },
						{ id: "back", levels: ["senior"], direction: "backward" },
					],
					weeks: { 1: { floor: [{ drill: "balance", minutes: 6 }] } },
				}),
				WORDS,
			).length;
		expect([found([]), found(["scale"])]).toEqual([1, 0]);
	});

	it("give none without the target, and none for a block of zero minutes", () => {
		expect(balanceMeasure.findings(count({ ...planned(["ahead"]), targets: {} }), WORDS)).toEqual([]);
		const zero: Draft = { ...base, weeks: { 1: { floor: [{ drill: "ahead", minutes: 0 }] } } };
		expect(balanceMeasure.findings(count(zero), WORDS)).toEqual([]);
	});
});

describe("work without its counterpart", () => {
	it("names one-way drills whose partner the level does not do that week, with what the level could do", () => {
		expect(unpaired(count(planned(["ahead", "still"], ["beam-walk"])))).toEqual([
			{ week: 1, level: "junior", apparatus: "floor", drill: "ahead", partners: [] },
			{ week: 1, level: "junior", apparatus: "beam", drill: "beam-walk", partners: [] },
			{ week: 1, level: "senior", apparatus: "floor", drill: "ahead", partners: ["back"] },
		]);
	});

	it("is settled by the partner in the same week, whichever of the two names the other", () => {
		expect(unpaired(count(planned(["ahead", "back"]))).map((u) => `${u.level} ${u.drill}`)).toEqual([
			"junior ahead",
		]);
	});
});

describe("sides and movement patterns", () => {
	const counted = count(planned(["ahead", "back", "still"]));

	it("add up minutes by side, with what the drill leaves unsaid", () => {
		const junior = sidesBalance(counted, "level").get("junior");
		expect(junior?.get("each")?.minutes).toBe(6);
		expect(junior?.get("both")?.minutes).toBe(6);
		expect(sidesBalance(counted, "week").get("1")?.get("unsaid")).toMatchObject({
			minutes: 6,
			drills: ["back"],
		});
	});

	it("give a drill of two patterns to both, and half to each as its share", () => {
		expect(patternsOf(counted.curriculum, "ahead")).toEqual(["rotation", "spring"]);
		const week = patternBalance(counted, "week").get("1");
		expect(week?.get("rotation")).toMatchObject({ minutes: 18, share: 12 });
		expect(week?.get("spring")).toMatchObject({ minutes: 12, share: 6 });
		// `still` leads to a skill without a pattern.
		expect([...(week?.keys() ?? [])]).toEqual(["rotation", "spring"]);
	});
});
