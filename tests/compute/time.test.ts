import { describe, expect, it } from "vitest";
import { groupsOf } from "../../scripts/compute/groups.ts";
import { asRecords } from "../../scripts/compute/tables.ts";
import { activeShareOver, classTime, classTimes, timeMeasure } from "../../scripts/compute/time.ts";
import { stationsOf } from "../../scripts/compute/work.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { build, count, type Draft } from "./build-curriculum.ts";

const WORDS = wordsFor("en");

const turn = (seconds: number, atOnce = 1) => ({ seconds, atOnce });

const base: Draft = {
	levels: ["l1", "l2", "l3"],
	apparatus: ["floor", "beam"],
	drills: [
		{ id: "one", levels: ["l1"], turn: turn(20) },
		{ id: "two", levels: ["l2"], turn: turn(30, 2) },
		{ id: "three", levels: ["l3"] },
		{ id: "all", levels: ["l1", "l2", "l3"], apparatus: ["floor", "beam"] },
	],
	classes: [
		{
			id: "mixed",
			levels: ["l1", "l2"],
			minutes: 60,
			warmUp: 5,
			coolDown: 5,
			gymnasts: 11,
			rotation: ["floor", "beam"],
			day: "monday",
		},
	],
};
const timeOf = (draft: Draft, id = "mixed") => {
	const curriculum = build(draft);
	const group = curriculum.term.classes.find((c) => c.id === id);
	const plan = curriculum.weeks[0];
	if (group === undefined || plan === undefined) throw new Error("the draft has no class or week");
	return classTime(curriculum, plan, group);
};

describe("a class of two levels", () => {
	it("does every block that counts for one of them and none that counts for neither", () => {
		const time = timeOf({
			...base,
			weeks: {
				1: {
					floor: [
						{ drill: "one", minutes: 10 },
						{ drill: "two", minutes: 12 },
						{ drill: "three", minutes: 99 },
						{ drill: "all", minutes: 7, levels: ["l3"] },
					],
					beam: [{ drill: "all", minutes: 8 }],
				},
			},
		});
		expect(time.planned).toBe(5 + 10 + 12 + 8 + 5);
		expect(time.blocks.map((b) => `${b.apparatus} ${b.block.number}`)).toEqual([
			"floor 1",
			"floor 2",
			"beam 1",
		]);
	});

	it("splits over the stations that count for any of its levels", () => {
		const draft: Draft = {
			...base,
			weeks: { 1: { floor: [{ stations: ["one", "two", "three"], minutes: 10.5, change: 0.5 }] } },
		};
		const time = timeOf(draft);
		// Two of three stations count: 10.5 minutes less one change, halved; eleven gymnasts, six at each.
		expect(time.blocks[0]?.drills).toMatchObject([
			{ drill: "one", station: 1, minutes: 5, gymnasts: 6, moving: 1, turns: 2 },
			{ drill: "two", station: 2, minutes: 5, gymnasts: 6, moving: 2, turns: 3 },
		]);
		expect(time.planned).toBe(20.5);
		// 5 to warm up, 5 · 1/6 and 5 · 2/6 on the floor.
		expect(time.activeShare).toBeCloseTo((5 + 5 / 6 + 10 / 6) / 60, 12);
	});

	it("counts a block of stations once where only one of them counts", () => {
		const time = timeOf({
			...base,
			classes: [{ id: "mixed", levels: ["l3"], minutes: 30, gymnasts: 7 }],
			weeks: { 1: { floor: [{ stations: ["one", "two", "three"], minutes: 10 }] } },
		});
		expect(time.blocks[0]?.drills).toMatchObject([{ drill: "three", station: 3, minutes: 10, gymnasts: 7 }]);
		// Without a turn, nobody knows who moves: the minutes are left out of both sides.
		expect([time.activeMinutes, time.unknownMinutes]).toEqual([0, 10]);
	});

	it("knows which stations count for levels that share nothing", () => {
		const curriculum = build({
			...base,
			classes: [["l1"], ["l2"], ["l1", "l3"]].map((levels, i) => ({ id: `c${i}`, levels })),
			weeks: { 1: { floor: [{ stations: ["one", "three"], minutes: 5 }] } },
		});
		const block = curriculum.weeks[0]?.apparatus[0]?.blocks[0];
		if (block === undefined) throw new Error("no block");
		expect(
			groupsOf(curriculum).map((group) => stationsOf(curriculum, block, group).map(({ station }) => station)),
		).toEqual([[1], [], [1, 2]]);
	});
});

describe("turns and waiting", () => {
	const alone = (minutes: number, gymnasts: number, t = turn(20)): Draft => ({
		...base,
		drills: [{ id: "one", levels: ["l1"], turn: t }],
		classes: [{ id: "mixed", levels: ["l1"], minutes: 60, gymnasts }],
		weeks: { 1: { floor: [{ drill: "one", minutes }] } },
	});

	it("follow floor(60 · minutes · at-once / (gymnasts · seconds))", () => {
		const drill = timeOf(alone(10, 8, turn(25, 2))).blocks[0]?.drills[0];
		expect(drill?.turns).toBe(Math.floor((60 * 10 * 2) / (8 * 25)));
		// Eight in pairs of 25 seconds: three pairs go before a gymnast's next turn.
		expect(drill?.wait).toBe(75);
		expect(drill?.activeMinutes).toBe(2.5);
		expect(drill?.waitingMinutes).toBe(7.5);
	});

	it("do not lose a turn to binary fractions", () => {
		// (20 − 2·0.5)/3 = 6⅓ minutes at each station, one gymnast, 19 seconds: exactly 20 turns.
		const time = timeOf({
			...base,
			drills: [{ id: "one", levels: ["l1"], turn: turn(19) }],
			classes: [{ id: "mixed", levels: ["l1"], gymnasts: 3 }],
			weeks: { 1: { floor: [{ stations: ["one", "one", "one"], minutes: 20 }] } },
		});
		expect(time.blocks[0]?.drills.map((d) => d.turns)).toEqual([20, 20, 20]);
	});

	it("are none, with a finding, where there are more gymnasts than turns", () => {
		const draft = alone(1, 10);
		expect(timeOf(draft).blocks[0]?.drills[0]?.turns).toBe(0);
		expect(timeMeasure.findings(count(draft), WORDS).map((f) => [f.code, f.path])).toEqual([
			["H316", ["apparatus", "floor", "blocks", 0, "drill"]],
		]);
	});

	it("are none in zero minutes, and nothing is divided by nothing", () => {
		const time = timeOf(alone(0, 10));
		expect(time.blocks[0]?.drills[0]).toMatchObject({
			minutes: 0,
			turns: 0,
			activeMinutes: 0,
			waitingMinutes: 0,
		});
		expect(time.activeShare).toBe(0);
	});

	it("give stations no time below zero where the changes eat the block", () => {
		const time = timeOf({
			...base,
			weeks: { 1: { floor: [{ stations: ["one", "two"], minutes: 1, change: 3 }] } },
		});
		expect(time.blocks[0]?.drills.map((d) => d.minutes)).toEqual([0, 0]);
		expect(time.planned).toBe(11);
	});
});

describe("time.csv", () => {
	it("has a row for each class and week with drills, and empty cells for a class without minutes", () => {
		const counted = count({
			...base,
			classes: [
				{ id: "late", levels: ["l3"], gymnasts: 4 },
				{ id: "mixed", levels: ["l1"], minutes: 40, warmUp: 5, gymnasts: 4 },
				{ id: "beam-only", levels: ["l1"], minutes: 40, rotation: ["beam"] },
			],
			weeks: {
				1: { floor: [{ drill: "all", minutes: 10 }] },
				2: { floor: [{ drill: "one", minutes: 10 }] },
			},
		});
		const [table] = timeMeasure.tables(counted);
		expect(table && asRecords(table)).toEqual([
			{
				week: 1,
				class: "late",
				planned: 10,
				available: undefined,
				"active-share": undefined,
				"unknown-share": undefined,
				"new-drills": 1,
			},
			// Ten minutes say nothing of turns: 5 of the other 30 are known to be moved in.
			{
				week: 1,
				class: "mixed",
				planned: 15,
				available: 40,
				"active-share": 5 / 30,
				"unknown-share": 0.25,
				"new-drills": 1,
			},
			{
				week: 2,
				class: "mixed",
				planned: 15,
				available: 40,
				"active-share": 7.5 / 40,
				"unknown-share": 0,
				"new-drills": 1,
			},
		]);
	});

	it("counts an apparatus once that stands twice in a rotation", () => {
		const time = timeOf({
			...base,
			classes: [{ id: "mixed", levels: ["l1"], rotation: ["floor", "beam", "floor"] }],
			weeks: { 1: { floor: [{ drill: "all", minutes: 10 }] } },
		});
		expect(time.planned).toBe(10);
	});

	it("is the same on eight apparatus, and leaves out those a week does not have", () => {
		const eight = ["floor", "pommels", "rings", "vault", "parallel-bars", "high-bar", "beam", "trampoline"];
		const time = timeOf({
			...base,
			apparatus: eight,
			drills: [{ id: "all", levels: ["l1"], apparatus: eight }],
			classes: [{ id: "mixed", levels: [], rotation: eight, minutes: 90 }],
			weeks: {
				1: Object.fromEntries(
					eight.filter((a) => a !== "rings").map((a) => [a, [{ drill: "all", minutes: 11 }]]),
				),
			},
		});
		expect(time.planned).toBe(77);
		expect(time.blocks.map((b) => b.apparatus)).toEqual(eight.filter((a) => a !== "rings"));
	});
});

describe("shares over several classes", () => {
	it("are the ratio of the sums and not the mean of the ratios", () => {
		const times = classTimes(
			build({
				...base,
				drills: [{ id: "all", levels: ["l1"], turn: turn(20, 2) }],
				classes: [
					{ id: "short", levels: ["l1"], minutes: 20, gymnasts: 2 },
					{ id: "long", levels: ["l1"], minutes: 100, gymnasts: 2 },
				],
				weeks: { 1: { floor: [{ drill: "all", minutes: 20 }] } },
			}),
		);
		expect(times.map((t) => t.activeShare)).toEqual([1, 0.2]);
		expect(activeShareOver(times)).toBeCloseTo(40 / 120, 12);
	});

	it("as in the published table that prints the other one (doi 10.1186/s12966-017-0504-0)", () => {
		// 11.9 of 33 minutes is 36.1 %; the table prints 37.0 %, the mean of its lessons' shares.
		const share = activeShareOver([{ activeMinutes: 11.9, unknownMinutes: 0, available: 33 }]);
		expect(Math.round((share ?? 0) * 1000) / 10).toBe(36.1);
		// Two lessons with those sums: their mean share is another number.
		const lessons = [
			{ activeMinutes: 5.9, unknownMinutes: 0, available: 12 },
			{ activeMinutes: 6, unknownMinutes: 0, available: 21 },
		];
		expect(activeShareOver(lessons)).toBeCloseTo(11.9 / 33, 12);
		expect((5.9 / 12 + 6 / 21) / 2).not.toBeCloseTo(11.9 / 33, 2);
	});

	it("are nothing where no class says its minutes", () => {
		expect(activeShareOver([{ activeMinutes: 5, unknownMinutes: 0, available: undefined }])).toBeUndefined();
	});
});

describe("findings", () => {
	const plan: Draft = {
		...base,
		targets: { activeShare: 0.5 },
		classes: [
			{
				id: "mixed",
				levels: ["l1"],
				minutes: 20,
				warmUp: 5,
				coolDown: 5,
				gymnasts: 10,
				rotation: ["floor", "beam"],
				day: "monday",
			},
		],
		weeks: { 1: { floor: [{ drill: "one", minutes: 8 }], beam: [{ drill: "all", minutes: 3 }] } },
	};

	it("tell a class that is over its minutes, where to cut, and by how much", () => {
		const [over] = timeMeasure.findings(count(plan), WORDS);
		expect(over).toMatchObject({
			code: "H308",
			weight: "serious",
			path: ["apparatus", "floor"],
			about: { week: 1, class: "mixed" },
		});
		expect(over?.what).toContain("21 minutes planned in a class of 20");
		expect(over?.fix).toContain("Take 1 minute out");
	});

	it("tell parts that add up to what is planned: the ways too, and one of the groups at the same time", () => {
		const tooLong = (more: object) => {
			const classes = (plan.classes ?? []).map((one) => ({ ...one, ...more }));
			return timeMeasure.findings(count({ ...plan, classes }), WORDS).find((f) => f.code === "H308")?.what;
		};
		expect(tooLong({ between: 2 })).toContain(
			"23 minutes planned in a class of 20 (5 before, 8 floor, 3 beam, 2 from one to the next and 5 after)",
		);
		const group = { levels: ["l1"], gymnasts: 5 };
		const groups = [
			{ id: "a", name: "a", ...group, rotation: ["beam"] },
			{ id: "b", name: "b", ...group, rotation: ["beam", "floor"] },
		];
		expect(tooLong({ groups })).toContain(
			"21 minutes planned in a class of 20 (5 before, 3 beam, 8 floor and 5 after)",
		);
	});

	it("tell an active share under the target, and the drill with the longest wait", () => {
		const still = timeMeasure.findings(count(plan), WORDS).find((f) => f.code === "H309");
		// 5 + 8/10 of the 17 minutes of which somebody says who moves.
		expect(still?.what).toContain("5.8 of 17 minutes, 34.1 %");
		expect(still?.path).toEqual(["apparatus", "floor", "blocks", 0]);
		expect(
			timeMeasure.findings(count({ ...plan, targets: { activeShare: 0.34 } }), WORDS).map((f) => f.code),
		).toEqual(["H308"]);
	});

	it("tell empty minutes before a wait that is shorter, and no split of what is a station already", () => {
		const stillOf = (minutes: number, weeks: NonNullable<Draft["weeks"]> = plan.weeks ?? {}) => {
			const classes = (plan.classes ?? []).map((one) => ({ ...one, minutes }));
			return timeMeasure.findings(count({ ...plan, weeks, classes }), WORDS).find((f) => f.code === "H309");
		};
		expect(stillOf(20)?.what).not.toContain("Nothing is planned");
		expect(stillOf(20)?.fix).toContain("Split “");
		expect(stillOf(40)?.what).toContain("Nothing is planned for 19 minutes.");
		expect(stillOf(40)?.fix).toBe("Plan something in the empty time (19 minutes).");
		const stations = { 1: { floor: [{ stations: ["one", "all"], minutes: 10 }] } };
		expect(stillOf(20, stations)?.fix).toContain("Add a station beside “");
	});

	it("tell a class with nothing to do, but not one that is closed that day or has no rotation", () => {
		const idle: Draft = { ...plan, weeks: { 1: { floor: [{ drill: "three", minutes: 5 }] } } };
		expect(timeMeasure.findings(count(idle), WORDS).map((f) => f.code)).toEqual(["H313"]);
		const other = { id: "other", levels: ["l3"], day: "friday" as const };
		const closed: Draft = {
			...idle,
			classes: [...(plan.classes ?? []), other],
			term: { closed: [{ from: "2027-01-04", to: "2027-01-04" }] },
		};
		expect(timeMeasure.findings(count(closed), WORDS)).toEqual([]);
		expect(
			timeMeasure.findings(
				count({ ...idle, classes: [{ id: "free", levels: ["l1"], rotation: [] }] }),
				WORDS,
			),
		).toEqual([]);
	});
});
