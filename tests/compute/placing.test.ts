/**
 * Places of stations: drawn props keep their sizes, free placing keeps free space, and what is wrong with
 * a written plan is measured. The demo's hall is held against the same rules.
 */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { footprintOf } from "../../scripts/compute/footprints.ts";
import { FREE_SPACE, floorPlanOf, gapOf, overlapOf, placingMeasure } from "../../scripts/compute/placing.ts";
import { arrange, type PropNeed, type Rect } from "../../scripts/compute/station-layout.ts";
import type { Curriculum, Side, Station } from "../../scripts/model.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { demoHandbook } from "../demo.ts";
import { cases } from "../random-cases.ts";
import { build, type DrillDraft } from "./build-curriculum.ts";

const WORDS = wordsFor("en");

const need = (item: string, n = 1) => ({ item, count: n, per: "station" as const });
const item = (id: string, more: { readonly name?: string; readonly size?: readonly [number, number] } = {}) =>
	footprintOf({ id, name: more.name ?? id, ...(more.size === undefined ? {} : { size: more.size }) });

const ITEMS = [
	"panel-mat",
	"landing-mat",
	"soft-mat",
	"wedge",
	"foam-block",
	"low-beam",
	"high-bar",
	"springboard",
	"box-top",
	"wall-space",
	"floor-line",
	"cone",
	"hoop",
	"beanbag",
	"spotting-block",
	"zorgel",
];

/** One block of stations on an apparatus of a size. */
function planOf(
	stations: readonly (DrillDraft & { readonly at?: readonly [number, number] })[],
	size: readonly [number, number] | undefined,
	apparatus = "hall",
	walls: readonly Side[] = [],
) {
	const made = build({
		apparatus: [apparatus],
		equipment: ITEMS.map((id) => ({ id })),
		drills: stations.map(({ at: _, ...drill }) => drill),
		weeks: {
			1: {
				[apparatus]: [
					{
						minutes: 20,
						stations: stations.map(
							({ id, at }): Station => ({ drill: id, ...(at === undefined ? {} : { at }) }),
						),
					},
				],
			},
		},
	});
	const place = made.apparatus.get(apparatus);
	if (place === undefined) throw new Error("the draft has no apparatus");
	const curriculum: Curriculum = {
		...made,
		apparatus: new Map([[apparatus, { ...place, walls, ...(size === undefined ? {} : { plan: size }) }]]),
	};
	const plan = curriculum.weeks[0]?.apparatus[0];
	const block = plan?.blocks[0];
	if (plan === undefined || block === undefined) throw new Error("the draft has no block");
	return { curriculum, floorPlan: floorPlanOf(curriculum, plan, block) };
}

const drill = (
	id: string,
	equipment: readonly ReturnType<typeof need>[],
	more: Partial<DrillDraft> = {},
) => ({
	id,
	levels: ["junior"],
	equipment,
	...more,
});

describe("sizes", () => {
	it("of the federation are the published ones, and say so", () => {
		expect(item("high-beam")).toMatchObject({ length: 5, width: 0.1, symbol: "beam" });
		expect(item("vault-table")).toMatchObject({ length: 1.2, width: 0.95, symbol: "table" });
		for (const id of ["high-beam", "vault-table"]) expect(item(id).source).toContain("FIG");
		expect(item("panel-mat").source).toBeUndefined();
	});

	it("go by the words of the id, the particular before the general, then by the name", () => {
		expect(item("floor-bar")).not.toEqual(item("high-bar"));
		expect(item("beam-pad").role).toBe("on");
		expect(item("wall-bars").role).toBe("wall");
		expect(item("mats").symbol).toBe("mat");
		expect(item("m7", { name: "Landing mat (20 cm)" }).symbol).toBe("landing");
		// Whole words only: a barrel is no bar.
		expect(item("barrel").symbol).toBe("cylinder");
	});

	it("are the club's own where it gives one, and a square metre for what nobody knows", () => {
		expect(item("landing-mat", { size: [3, 2] })).toMatchObject({
			length: 3,
			width: 2,
			role: "landing",
			from: "club",
		});
		expect(item("zorgel")).toEqual({ symbol: "other", role: "body", length: 1, width: 1, from: "unknown" });
	});
});

describe("a station", () => {
	const needs = (...list: readonly (readonly [string, number])[]): readonly PropNeed[] =>
		list.map(([id, n]) => ({ item: id, count: n, footprint: item(id) }));

	it("lays a lane one behind the other, in the order board, box, landing, after a run", () => {
		const { props, run, length } = arrange(
			{ direction: "forward" },
			needs(["landing-mat", 2], ["box-top", 1], ["springboard", 1]),
			4,
		);
		const left = (id: string) => props.filter((p) => p.item === id).map((p) => p.left);
		expect(run).toEqual({ left: 0, top: 0.25, length: 6, width: 1 });
		expect(left("springboard")).toEqual([6]);
		expect(left("box-top")).toEqual([7.2]);
		expect(left("landing-mat")).toEqual([8, 10]);
		expect(length).toBe(12);
	});

	it("gives as many lanes as gymnasts go at once, and no more than are there", () => {
		const run = (values: { run?: number; runOut?: number }) =>
			arrange(values, needs(["springboard", 1], ["landing-mat", 1]), 1);
		expect(run({}).run?.length).toBe(6);
		expect(run({ run: 15 }).run?.length).toBe(15);
		expect(run({ run: 15 }).length - run({ run: 2 }).length).toBe(13);
		expect(run({ runOut: 4 }).length - run({}).length).toBe(4);
		// Without a board too: a tumbling run is before its mats.
		const tumbling = arrange({ run: 8 }, needs(["panel-mat", 1]), 1);
		expect(tumbling.run).toMatchObject({ left: 0, length: 8 });
		expect(tumbling.props[0]?.left).toBe(8);
		const mats = (atOnce: number, gymnasts: number) =>
			new Set(
				arrange({ turn: { seconds: 10, atOnce } }, needs(["panel-mat", 4]), gymnasts).props.map((p) => p.top),
			).size;
		expect(mats(1, 8)).toBe(1);
		expect(mats(2, 8)).toBe(2);
		expect(mats(4, 3)).toBe(3);
	});

	it("puts mats under a bar and beams, and wants the edge for a wall", () => {
		const bar = arrange({}, needs(["high-bar", 1], ["landing-mat", 2]), 2).props;
		const [mat1, mat2] = bar.filter((p) => p.item === "landing-mat");
		const [beam] = bar.filter((p) => p.item === "high-bar");
		expect((mat1?.left ?? 0) + (mat1?.length ?? 0)).toBe(mat2?.left);
		expect((beam?.left ?? 0) + (beam?.length ?? 0) / 2).toBe(mat2?.left);
		expect(arrange({}, needs(["wall-space", 1]), 2).wall).toBe(true);
	});

	it("has nothing but landing mats in a run: other mats lie on both sides of what is jumped over", () => {
		const { run, props, width } = arrange(
			{ direction: "forward", run: 12 },
			needs(["springboard", 1], ["box-top", 1], ["panel-mat", 2], ["landing-mat", 1]),
			4,
		);
		expect(run).toMatchObject({ left: 0, length: 12 });
		const mats = props.filter(({ item: id }) => id === "panel-mat");
		expect(mats.map(({ left }) => left)).toEqual([12, 12]);
		const [box] = props.filter(({ item: id }) => id === "box-top");
		const middle = (box?.top ?? 0) + (box?.width ?? 0) / 2;
		expect(mats.map(({ top }) => top < middle)).toEqual([true, false]);
		expect(Math.max(...mats.map((mat) => mat.top + mat.width))).toBeCloseTo(width, 2);
		const anyNeeds = fc.array(
			fc.tuple(
				fc.constantFrom("springboard", "box-top", "panel-mat", "landing-mat"),
				fc.integer({ min: 1, max: 4 }),
			),
			{ maxLength: 4 },
		);
		fc.assert(
			fc.property(anyNeeds, fc.integer({ min: 1, max: 20 }), (list, length) => {
				const any = arrange({ direction: "forward", run: length }, needs(...list), 4);
				for (const prop of any.props.filter(({ landing }) => !landing)) {
					expect(any.run === undefined ? 0 : overlapOf(any.run, prop)).toBe(0);
				}
			}),
			{ seed: 18, numRuns: cases(200) },
		);
	});

	it("keeps every prop inside its ground, whatever it needs", () => {
		const anyNeeds = fc.array(fc.tuple(fc.constantFrom(...ITEMS), fc.integer({ min: 1, max: 8 })), {
			maxLength: 6,
		});
		const anyDrill = fc.record({
			direction: fc.constantFrom("forward", "backward", "sideways", "none") as fc.Arbitrary<"none">,
			turn: fc.record({ seconds: fc.constant(10), atOnce: fc.integer({ min: 1, max: 16 }) }),
			contacts: fc.record({ landings: fc.integer({ min: 0, max: 2 }), hands: fc.constant(0) }),
		});
		fc.assert(
			fc.property(anyDrill, anyNeeds, fc.integer({ min: 1, max: 20 }), (one, list, gymnasts) => {
				const { length, width, props } = arrange(one, needs(...list), gymnasts);
				expect(length).toBeGreaterThan(0);
				for (const p of props) {
					expect(p.left).toBeGreaterThanOrEqual(0);
					expect(p.top).toBeGreaterThanOrEqual(0);
					expect(p.left + p.length).toBeLessThanOrEqual(length + 0.02);
					expect(p.top + p.width).toBeLessThanOrEqual(width + 0.02);
				}
			}),
			{ seed: 6, numRuns: cases(300) },
		);
	});
});

describe("stations without a place", () => {
	const four = ["a", "b", "c", "d"].map((id) => drill(id, [need("panel-mat", 2), need("landing-mat")]));

	it("stand inside the plan with free space between and around landings, always in the same places", () => {
		const { floorPlan } = planOf(four, [12, 10]);
		expect(floorPlan.crowding).toEqual([]);
		expect(planOf(four, [12, 10]).floorPlan).toEqual(floorPlan);
		for (const [i, a] of floorPlan.stations.entries()) {
			expect(a.left).toBeGreaterThanOrEqual(0);
			expect(a.left + a.length).toBeLessThanOrEqual(12);
			for (const b of floorPlan.stations.slice(i + 1)) {
				expect(gapOf(a, b)).toBeGreaterThanOrEqual(FREE_SPACE.between - 0.02);
				for (const p of a.props.filter((q) => q.landing))
					expect(gapOf(p, b)).toBeGreaterThanOrEqual(FREE_SPACE.landing - 0.02);
			}
		}
	});

	it("never overlap where there is plenty of room, whatever they need", () => {
		const anyStation = fc.array(fc.tuple(fc.constantFrom(...ITEMS), fc.integer({ min: 1, max: 3 })), {
			maxLength: 4,
		});
		fc.assert(
			fc.property(fc.array(anyStation, { minLength: 1, maxLength: 5 }), (list) => {
				const stations = list.map((needs, i) =>
					drill(
						`d${i}`,
						needs.map(([id, n]) => need(id, n)),
					),
				);
				for (const size of [[60, 40], undefined] as const) {
					const { floorPlan } = planOf(stations, size);
					expect(floorPlan.crowding.filter(({ kind }) => kind !== "wall")).toEqual([]);
					expect(floorPlan.stations).toHaveLength(list.length);
				}
			}),
			{ seed: 7, numRuns: cases(60) },
		);
	});

	it("are moved from the edge only where a wall is wanted: that one stands against it", () => {
		const { floorPlan } = planOf(
			[drill("w", [need("wall-space"), need("panel-mat")]), ...four.slice(1)],
			[14, 10],
		);
		expect(floorPlan.stations[0]?.fromWall).toBe(0);
		expect(floorPlan.crowding).toEqual([]);
	});

	it("that want a wall stand at one, where the club says which sides are walls", () => {
		const stations = [drill("w", [need("wall-space"), need("panel-mat")]), ...four.slice(1)];
		for (const side of ["start", "end", "left", "right"] as const) {
			const { floorPlan } = planOf(stations, [14, 10], "hall", [side]);
			const [one] = floorPlan.stations;
			if (one === undefined) throw new Error("no station");
			const gap = {
				start: one.left,
				left: one.top,
				end: 14 - one.left - one.length,
				right: 10 - one.top - one.width,
			};
			expect(gap[side], side).toBeCloseTo(0, 2);
			expect(floorPlan.crowding).toEqual([]);
		}
	});

	it("say so where they cannot fit: the block itself is to be changed", () => {
		const { curriculum } = planOf(four, [5, 4]);
		const found = placingMeasure.findings({ curriculum, exposures: [] }, WORDS);
		expect(found.map(({ code }) => code)).toContain("H318");
		expect(found[0]?.path).toEqual(curriculum.weeks[0]?.apparatus[0]?.blocks[0]?.path);
		expect(found[0]?.fix).toContain("_data/apparatus.yaml");
	});
});

describe("stations with a place", () => {
	const at = (a: readonly [number, number], b: readonly [number, number], more: Partial<DrillDraft> = {}) =>
		planOf(
			[
				{ ...drill("a", [need("panel-mat")], more), at: a },
				{ ...drill("b", [need("panel-mat")], more), at: b },
			],
			[10, 8],
		);
	const middle = (r: Rect | undefined) => r && [r.left + r.length / 2, r.top + r.width / 2];

	it("have their middle there, even over the edge", () => {
		const { floorPlan } = at([0.5, 4], [8, 4]);
		expect(middle(floorPlan.stations[0])).toEqual([0.5, 4]);
		// A mat of 1.8 × 1.2 m has a ground of 2 × 1.5 m: turned, it stands 0.25 m over.
		expect(floorPlan.crowding).toEqual([{ kind: "edge", stations: [1], gap: -0.25 }]);
	});

	it("that overlap are found with what they share", () => {
		const { curriculum, floorPlan } = at([4, 4], [5, 4]);
		expect(floorPlan.crowding).toEqual([{ kind: "overlap", stations: [1, 2], gap: 0 }]);
		const [a, b] = floorPlan.stations;
		if (a === undefined || b === undefined) throw new Error("two stations were planned");
		expect(overlapOf(a, b)).toBeGreaterThan(0);
		const [found] = placingMeasure.findings({ curriculum, exposures: [] }, WORDS);
		expect(found?.code).toBe("H318");
		expect(found?.path.slice(-3)).toEqual(["stations", 1, "at"]);
	});

	it("that stand too near are found with the gap between them", () => {
		const { floorPlan } = at([2, 4], [4.1, 4]);
		expect(floorPlan.crowding.map(({ kind }) => kind)).not.toContain("overlap");
		const near = at([2, 4], [2, 5.9]).floorPlan.crowding;
		expect(near).toEqual([{ kind: "between", stations: [1, 2], gap: 0.4 }]);
	});

	it("keep landings clear: the landing's own station is named first", () => {
		const { floorPlan } = planOf(
			[
				{ ...drill("land", [need("landing-mat")]), at: [3, 3] },
				{ ...drill("sit", [need("panel-mat")]), at: [3, 5.5] },
			],
			[10, 8],
		);
		expect(floorPlan.crowding.map(({ kind, stations }) => [kind, stations])).toEqual([["landing", [1, 2]]]);
	});
});

describe("gaps and overlaps", () => {
	const rect = (left: number, top: number, length: number, width: number): Rect => ({
		left,
		top,
		length,
		width,
	});
	it("are measured between edges, across corners by the straight line", () => {
		expect(gapOf(rect(0, 0, 1, 1), rect(3, 0, 1, 1))).toBe(2);
		expect(gapOf(rect(0, 0, 1, 1), rect(4, 5, 1, 1))).toBe(5);
		expect(gapOf(rect(0, 0, 2, 2), rect(1, 1, 2, 2))).toBe(0);
		expect(overlapOf(rect(0, 0, 2, 2), rect(1, 1, 2, 2))).toBe(1);
		expect(overlapOf(rect(0, 0, 2, 2), rect(2, 0, 2, 2))).toBe(0);
	});
});

describe("plans without a size", () => {
	it("are the norm's on a floor, with its border, and else as large as their stations need", () => {
		const floor = planOf([drill("a", [need("panel-mat")])], undefined, "floor").floorPlan;
		expect([floor.length, floor.width, floor.border, floor.from]).toEqual([12, 12, 1, "norm"]);
		// Its border is free, but not where the club says that a wall stands.
		const over = [{ ...drill("a", [need("panel-mat")]), at: [0.5, 6] as const }];
		expect(planOf(over, undefined, "floor").floorPlan.crowding).toEqual([]);
		expect(planOf(over, undefined, "floor", ["start"]).floorPlan.crowding).toEqual([
			{ kind: "edge", stations: [1], gap: -0.25 },
		]);
		const other = planOf([drill("a", [need("low-beam", 3)])], undefined, "annexe").floorPlan;
		expect(other.from).toBe("stations");
		expect(other.crowding).toEqual([]);
	});
});

describe("the demo club", () => {
	const handbook = demoHandbook();
	it("has a plan for every block of stations, with at most one true finding", () => {
		if (handbook === undefined) throw new Error("the demo club has errors");
		let blocks = 0;
		for (const week of handbook.curriculum.weeks) {
			for (const plan of week.apparatus) {
				for (const block of plan.blocks.filter(({ kind }) => kind === "stations")) {
					const { stations } = floorPlanOf(handbook.curriculum, plan, block);
					expect(stations.map(({ number }) => number)).toEqual(block.stations.map((_, i) => i + 1));
					blocks++;
				}
			}
		}
		expect(blocks).toBeGreaterThan(80);
		const found = handbook.findings.filter(({ code }) => ["H318", "H319", "H320"].includes(code));
		expect(found.length).toBeLessThanOrEqual(1);
	});
});
