import { describe, expect, it } from "vitest";
import { clockOf, minuteOf } from "../../scripts/compute/clock.ts";
import {
	clashes,
	equipmentFor,
	equipmentForClass,
	equipmentMeasure,
} from "../../scripts/compute/equipment.ts";
import { asRecords } from "../../scripts/compute/tables.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { build, count, type Draft } from "./build-curriculum.ts";

const WORDS = wordsFor("en");

const need = (item: string, n: number, per: "station" | "gymnast" = "station") => ({ item, count: n, per });

const base: Draft = {
	levels: ["l1", "l2"],
	apparatus: ["floor", "beam"],
	equipment: [{ id: "mat", owned: 4 }, { id: "rope", owned: 12 }, { id: "cone" }],
	drills: [
		{
			id: "roll",
			levels: ["l1", "l2"],
			equipment: [need("mat", 2), need("cone", 3)],
			apparatus: ["floor", "beam"],
		},
		{ id: "skip", levels: ["l1", "l2"], equipment: [need("rope", 1, "gymnast")] },
		{ id: "jump", levels: ["l2"], equipment: [need("mat", 1), need("rope", 2, "gymnast")] },
	],
};
const linesOf = (draft: Draft) => {
	const curriculum = build(draft);
	const plan = curriculum.weeks[0]?.apparatus[0];
	if (plan === undefined) throw new Error("the draft has no plan");
	return {
		all: equipmentFor(curriculum, plan).map((l) => [l.item, l.needed, l.owned]),
		of: (id: string) => {
			const group = curriculum.term.classes.find((c) => c.id === id);
			if (group === undefined) throw new Error(`no class ${id}`);
			return equipmentForClass(curriculum, plan, group).map((l) => [l.item, l.needed]);
		},
	};
};

describe("the list of an apparatus in a week", () => {
	it("adds up over stations and takes the largest over blocks", () => {
		const floor = [
			{ stations: ["roll", "roll", "jump"], minutes: 12 },
			{ drill: "roll", minutes: 5 },
			{ drill: "jump", minutes: 5 },
		];
		expect(linesOf({ ...base, weeks: { 1: { floor } } }).all).toEqual([
			["mat", 5, 4],
			["rope", 2, 12],
			["cone", 6, undefined],
		]);
	});

	it("counts items per gymnast once without classes, and by the largest class with them", () => {
		const floor = [{ drill: "skip", minutes: 5 }];
		expect(linesOf({ ...base, weeks: { 1: { floor } } }).all).toEqual([["rope", 1, 12]]);
		const classes = [
			{ id: "small", levels: ["l1"], gymnasts: 9 },
			{ id: "large", levels: ["l2"], gymnasts: 14 },
			{ id: "elsewhere", levels: ["l1"], gymnasts: 30, rotation: ["beam"] },
		];
		expect(linesOf({ ...base, classes, weeks: { 1: { floor } } }).all).toEqual([["rope", 14, 12]]);
	});

	it("takes the gymnasts at that drill: the class over the stations that count for it, rounded up", () => {
		const classes = [{ id: "mixed", levels: ["l1", "l2"], gymnasts: 11 }];
		const floor = [{ stations: ["skip", "jump", "roll"], minutes: 9 }];
		const lines = linesOf({ ...base, classes, weeks: { 1: { floor } } });
		// Four at each station: 4 ropes at one, 8 at the other.
		expect(lines.all).toEqual([
			["mat", 3, 4],
			["rope", 12, 12],
			["cone", 3, undefined],
		]);
		expect(lines.of("mixed")).toEqual([
			["mat", 3],
			["rope", 12],
			["cone", 3],
		]);
	});

	it("does not count the largest class where it does not do the drill", () => {
		const classes = [
			{ id: "large", levels: ["l1"], gymnasts: 20 },
			{ id: "small", levels: ["l2"], gymnasts: 5 },
		];
		const lines = linesOf({
			...base,
			classes,
			weeks: { 1: { floor: [{ stations: ["roll", "jump"], minutes: 9 }] } },
		});
		// Only the five of level 2 jump, three at each of their two stations.
		expect(lines.all).toEqual([
			["mat", 3, 4],
			["rope", 6, 12],
			["cone", 3, undefined],
		]);
		// The class of level 1 uses one station only.
		expect(lines.of("large")).toEqual([
			["mat", 2],
			["cone", 3],
		]);
	});

	it("takes what each level needs, and the most of the levels that do it", () => {
		const draft: Draft = {
			...base,
			drills: [
				{
					id: "roll",
					levels: { l1: {}, l2: { equipment: [need("mat", 1), need("cone", 5)] } },
					equipment: [need("mat", 3)],
				},
			],
			classes: [
				{ id: "young", levels: ["l1"] },
				{ id: "older", levels: ["l2"] },
			],
		};
		const lines = linesOf({ ...draft, weeks: { 1: { floor: [{ drill: "roll", minutes: 5 }] } } });
		expect(lines.all).toEqual([
			["mat", 3, 4],
			["cone", 5, undefined],
		]);
		expect(lines.of("young")).toEqual([["mat", 3]]);
		expect(lines.of("older")).toEqual([
			["mat", 1],
			["cone", 5],
		]);
		const oneLevel = [{ drill: "roll", minutes: 5, levels: ["l2"] }];
		expect(linesOf({ ...draft, weeks: { 1: { floor: oneLevel } } }).all[0]).toEqual(["mat", 1, 4]);
	});

	it("takes the option that needs most, since options stand in place of each other", () => {
		const floor = [{ options: ["roll", "jump"], minutes: 5 }];
		const classes = [{ id: "older", levels: ["l2"], gymnasts: 3 }];
		const lines = linesOf({ ...base, classes, weeks: { 1: { floor } } });
		expect(lines.all).toEqual([
			["mat", 2, 4],
			["rope", 6, 12],
			["cone", 3, undefined],
		]);
		expect(lines.of("older")).toEqual([
			["mat", 2],
			["rope", 6],
			["cone", 3],
		]);
	});

	it("adds up what groups of one class use on it in the same minute", () => {
		const part = { levels: ["l1"], gymnasts: 4 };
		const groups = (second: readonly string[]) => [
			{ id: "red", ...part, rotation: ["floor", "beam"] },
			{ id: "blue", ...part, rotation: second },
		];
		const weeks = {
			1: { floor: [{ drill: "roll", minutes: 5 }], beam: [{ drill: "roll", minutes: 5 }] },
		};
		const of = (second: readonly string[]) =>
			linesOf({ ...base, classes: [{ id: "mon", groups: groups(second) }], weeks }).of("mon")[0];
		expect(of(["floor", "beam"])).toEqual(["mat", 4]);
		expect(of(["beam", "floor"])).toEqual(["mat", 2]);
	});

	it("is written by week, apparatus and item in the club's order, and empty where nothing is known", () => {
		const [table] = equipmentMeasure.tables(
			count({
				...base,
				weeks: {
					2: { beam: [{ drill: "roll", minutes: 5 }], floor: [{ drill: "skip", minutes: 5 }] },
					1: { floor: [{ drill: "jump", minutes: 5 }] },
				},
			}),
		);
		expect(table && asRecords(table)).toEqual([
			{ week: 1, apparatus: "floor", item: "mat", needed: 1, owned: 4 },
			{ week: 1, apparatus: "floor", item: "rope", needed: 2, owned: 12 },
			{ week: 2, apparatus: "floor", item: "rope", needed: 1, owned: 12 },
			{ week: 2, apparatus: "beam", item: "mat", needed: 2, owned: 4 },
			{ week: 2, apparatus: "beam", item: "cone", needed: 3, owned: undefined },
		]);
	});

	it("gives a finding at the station that needs more than is owned", () => {
		const counted = count({
			...base,
			equipment: [{ id: "mat", owned: 1 }, { id: "rope" }, { id: "cone" }],
			weeks: { 1: { floor: [{ stations: ["skip", "roll"], minutes: 5 }] } },
		});
		expect(equipmentMeasure.findings(counted, WORDS)).toMatchObject([
			{
				code: "H310",
				path: ["apparatus", "floor", "blocks", 0, "stations", 1],
				about: { week: 1, apparatus: "floor", equipment: "mat", drill: "roll" },
			},
		]);
	});
});

describe("classes that overlap", () => {
	const timetable: Draft = {
		...base,
		classes: [
			{
				id: "early",
				levels: ["l1"],
				day: "monday",
				start: "16:00",
				minutes: 60,
				warmUp: 10,
				gymnasts: 6,
				rotation: ["floor", "beam"],
			},
			{
				id: "late",
				levels: ["l1"],
				day: "monday",
				start: "16:30",
				minutes: 60,
				warmUp: 10,
				gymnasts: 6,
				rotation: ["beam", "floor"],
			},
			{ id: "next", levels: ["l1"], day: "tuesday", start: "16:30", minutes: 60, warmUp: 10, gymnasts: 6 },
		],
		equipment: [{ id: "mat", owned: 3 }, { id: "rope", owned: 9 }, { id: "cone" }],
		weeks: {
			1: {
				floor: [{ drill: "skip", minutes: 20 }],
				beam: [{ drill: "roll", minutes: 30 }],
			},
		},
	};

	it("are held against what is owned at the same moment, with the minute and the classes", () => {
		// Early: ropes 16:10–16:30, mats 16:30–17:00. Late: mats 16:40–17:10, ropes 17:10–17:30.
		expect(clashes(build(timetable))).toMatchObject([
			{
				week: 1,
				day: "monday",
				item: "mat",
				needed: 4,
				owned: 3,
				from: minuteOf("16:40"),
				to: minuteOf("17:00"),
				classes: [
					{ class: "early", apparatus: "beam", needed: 2 },
					{ class: "late", apparatus: "beam", needed: 2 },
				],
			},
		]);
		const [finding] = equipmentMeasure.findings(count(timetable), WORDS);
		expect(finding).toMatchObject({ code: "H317", source: { file: "content/weeks/week-1.md" } });
		expect(finding?.what).toContain("Monday at 16:40");
		expect(finding?.what).toContain("early 2 on beam and late 2 on beam");
	});

	it("do not clash one after the other, on another day, or on a closed day", () => {
		const [early, late] = timetable.classes ?? [];
		if (early === undefined || late === undefined) throw new Error("no classes");
		expect(clashes(build({ ...timetable, classes: [early, { ...late, start: "17:00" }] }))).toEqual([]);
		expect(clashes(build({ ...timetable, classes: [early, { ...late, day: "tuesday" }] }))).toEqual([]);
		const closed: Draft = {
			...timetable,
			term: { closed: [{ from: "2027-01-04", to: "2027-01-04" }] },
		};
		expect(clashes(build(closed))).toEqual([]);
	});

	it("leave out what a class has planned past its end", () => {
		const [early, late] = timetable.classes ?? [];
		if (early === undefined || late === undefined) throw new Error("no classes");
		expect(clashes(build({ ...timetable, classes: [{ ...early, minutes: 40 }, late] }))).toEqual([]);
	});

	it("are added up where three of them need the same", () => {
		const three = ["a", "b", "c"].map((id) => ({
			id,
			levels: ["l1"],
			day: "friday" as const,
			start: "10:00",
			minutes: 60,
			gymnasts: 4,
			rotation: ["floor"],
		}));
		expect(clashes(build({ ...timetable, classes: three }))).toMatchObject([
			{ item: "rope", needed: 12, owned: 9, day: "friday", from: 600, to: 620 },
		]);
		expect(clashes(build({ ...timetable, classes: three.slice(0, 2) }))).toEqual([]);
	});

	it("tell the time as a clock does", () => {
		expect(minuteOf("16:30")).toBe(990);
		expect(clockOf(990)).toBe("16:30");
		expect(clockOf(9 * 60 + 5.5)).toBe("09:05");
	});
});
