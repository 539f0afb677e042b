import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
	type CoverCandidate,
	fewestCovering,
	freeMinutes,
	greedyCovering,
	suggestions,
} from "../../scripts/compute/suggest.ts";
import { count, type Draft } from "./build-curriculum.ts";

/** Tries every choice: the yardstick for small cases. */
function bruteForce(elements: number, candidates: readonly CoverCandidate[], budget: number) {
	let best = { covered: 0, picks: 0, cost: 0 };
	for (let choice = 0; choice < 2 ** candidates.length; choice++) {
		const chosen = candidates.filter((_, i) => (choice >> i) & 1);
		const cost = chosen.reduce((sum, c) => sum + c.cost, 0);
		if (cost > budget + 1e-9) continue;
		const covered = new Set(chosen.flatMap((c) => c.closes)).size;
		const better = covered - best.covered || best.picks - chosen.length || (best.cost - cost > 1e-9 ? 1 : -1);
		if (better > 0) best = { covered, picks: chosen.length, cost };
	}
	return { ...best, elements };
}

const harmonic = (n: number): number => (n === 0 ? 0 : harmonic(n - 1) + 1 / n);

const instance = fc.integer({ min: 1, max: 12 }).chain((elements) =>
	fc.record({
		elements: fc.constant(elements),
		candidates: fc.array(
			fc.record({
				closes: fc.uniqueArray(fc.integer({ min: 0, max: elements - 1 }), { maxLength: elements }),
				cost: fc.integer({ min: 0, max: 12 }),
			}),
			{ maxLength: 10 },
		),
		budget: fc.oneof(fc.constant(Number.POSITIVE_INFINITY), fc.integer({ min: 0, max: 40 })),
	}),
);

describe("the fewest that cover", () => {
	it("equals trying every choice, with a budget and without", () => {
		fc.assert(
			fc.property(instance, ({ elements, candidates, budget }) => {
				const found = fewestCovering(elements, candidates, budget);
				const best = bruteForce(elements, candidates, budget);
				expect(found.exact).toBe(true);
				expect([found.covered, found.picks.length, found.cost]).toEqual([
					best.covered,
					best.picks,
					best.cost,
				]);
				const chosen = found.picks.map((i) => candidates[i]);
				expect(new Set(chosen.flatMap((c) => c?.closes ?? [])).size).toBe(found.covered);
				expect(chosen.reduce((sum, c) => sum + (c?.cost ?? 0), 0)).toBeLessThanOrEqual(budget);
			}),
			{ numRuns: 1500 },
		);
	});

	it("is never more than greedy, and greedy never more than H(d) times as many (Chvátal 1979)", () => {
		fc.assert(
			fc.property(instance, ({ elements, candidates }) => {
				const free = candidates.map((c) => ({ ...c, cost: 1 }));
				const exact = fewestCovering(elements, free, Number.POSITIVE_INFINITY);
				const greedy = greedyCovering(elements, free, Number.POSITIVE_INFINITY);
				const largest = Math.max(0, ...free.map((c) => c.closes.length));
				expect(greedy.covered).toBe(exact.covered);
				expect(exact.picks.length).toBeLessThanOrEqual(greedy.picks.length);
				expect(greedy.picks.length).toBeLessThanOrEqual(harmonic(largest) * exact.picks.length + 1e-9);
			}),
			{ numRuns: 800 },
		);
	});

	it("needs two where greedy takes more, in the textbook case that comes near the bound", () => {
		// Two rows of fourteen; columns of 8, 4 and 2 lead greedy astray (CLRS, exercise on set cover).
		const row = (r: number) => Array.from({ length: 7 }, (_, i) => 2 * i + r);
		const candidates = [row(0), row(1), [0, 1, 2, 3, 4, 5, 6, 7], [8, 9, 10, 11], [12, 13]].map((closes) => ({
			closes,
			cost: 1,
		}));
		expect(fewestCovering(14, candidates, Number.POSITIVE_INFINITY)).toMatchObject({
			picks: [0, 1],
			covered: 14,
			exact: true,
		});
		expect(greedyCovering(14, candidates, Number.POSITIVE_INFINITY).picks).toEqual([2, 3, 4]);
	});

	it("is at least as good as greedy when the search is cut short, and says so", () => {
		const candidates = Array.from({ length: 24 }, (_, i) => ({
			closes: [i, (i * 7 + 3) % 24, (i * 11 + 5) % 24],
			cost: 1 + (i % 3),
		}));
		const greedy = greedyCovering(24, candidates, Number.POSITIVE_INFINITY);
		const cut = fewestCovering(24, candidates, Number.POSITIVE_INFINITY, 3);
		expect(cut.exact).toBe(false);
		expect(cut.covered).toBe(24);
		expect(cut.picks.length).toBeLessThanOrEqual(greedy.picks.length);
		const full = fewestCovering(24, candidates, Number.POSITIVE_INFINITY);
		expect(full.exact).toBe(true);
		expect(full.picks.length).toBeLessThanOrEqual(cut.picks.length);
	});

	it("covers more than 32 gaps", () => {
		const candidates = Array.from({ length: 7 }, (_, i) => ({
			closes: Array.from({ length: 10 }, (_, j) => i * 10 + j),
			cost: 1,
		}));
		expect(fewestCovering(70, candidates, 5)).toMatchObject({ covered: 50, cost: 5, exact: true });
	});

	it("is nothing for no gaps, no candidates or no minutes", () => {
		expect(fewestCovering(0, [{ closes: [], cost: 1 }], 9)).toMatchObject({ picks: [], covered: 0 });
		expect(fewestCovering(3, [], 9)).toMatchObject({ picks: [], covered: 0 });
		expect(fewestCovering(1, [{ closes: [0], cost: 1 }], 0)).toMatchObject({ picks: [], covered: 0 });
	});
});

const base: Draft = {
	levels: ["l1", "l2"],
	apparatus: ["floor", "beam"],
	shapes: ["hollow", "arch", "tuck"],
	skills: [
		{ id: "roll", levels: ["l1"] },
		{ id: "dive", levels: ["l1"], needs: ["roll"] },
	],
	drills: [
		{ id: "rock", levels: ["l1"], shapes: ["hollow"], direction: "forward" },
		{ id: "hold", levels: ["l1"], shapes: ["arch"] },
		{ id: "both", levels: ["l1"], shapes: ["arch", "tuck"], direction: "backward" },
		{ id: "rolling", levels: ["l1"], skills: ["roll"], direction: "forward" },
		{ id: "diving", levels: ["l1"], skills: ["dive"] },
		{ id: "beam-tuck", levels: ["l1"], shapes: ["tuck"], apparatus: ["beam"] },
		{ id: "seniors", levels: ["l2"], shapes: ["tuck"] },
	],
	targets: { shapeWeeks: 2, skillWeeks: 1, shapeGap: 3, skillGap: 3, pairDirections: true },
	weeks: {
		1: { floor: [{ drill: "rock", minutes: 5 }] },
		2: { floor: [{ drill: "rolling", minutes: 5 }] },
		3: { floor: [{ drill: "rock", minutes: 5 }] },
	},
	term: { weeks: 3 },
};
const gapsOf = (s: {
	readonly gaps: readonly { readonly kind: string; readonly id: string; readonly because: string }[];
}) => s.gaps.map((g) => `${g.kind} ${g.id}: ${g.because}`);

describe("suggestions for a week", () => {
	it("name the gaps, the fewest drills, and which gap each closes", () => {
		const s = suggestions(count(base))(3, "l1", "floor");
		expect(gapsOf(s)).toEqual([
			"shape arch: untrained",
			"shape tuck: untrained",
			"skill dive: untrained",
			"direction backward: unmatched",
		]);
		expect(s.drills.map((d) => [d.drill, d.closes.map((g) => g.id)])).toEqual([
			["both", ["arch", "tuck", "backward"]],
			["diving", ["dive"]],
		]);
		expect(s).toMatchObject({ open: [], exact: true, freeMinutes: undefined });
	});

	it("keep the order: no drill before what it is built on", () => {
		const s = suggestions(count(base))(1, "l1", "floor");
		expect(s.drills.map((d) => d.drill)).toEqual(["both"]);
		expect(s.open).toEqual([{ gap: { kind: "skill", id: "dive", because: "untrained" }, reason: "order" }]);
		// In week 2, `rolling` is planned before the end of the floor.
		expect(suggestions(count(base))(2, "l1", "floor").drills.map((d) => d.drill)).toContain("diving");
		const arrives = { ...base, levels: [{ id: "l1", entry: ["roll"] }, "l2"] };
		expect(suggestions(count(arrives))(1, "l1", "floor").drills.map((d) => d.drill)).toContain("diving");
	});

	it("keep `after` as well, and see that a level is never offered some of it", () => {
		const draft = (after: readonly string[]): Draft => ({
			...base,
			drills: base.drills.map((d) => (d.id === "both" ? { ...d, after } : d)),
		});
		const floor = (after: readonly string[], week: number) =>
			suggestions(count(draft(after)))(week, "l1", "floor").drills.map((d) => d.drill);
		expect(floor(["rolling"], 1)).not.toContain("both");
		expect(floor(["rolling"], 2)).toContain("both");
		expect(floor(["seniors"], 1)).toContain("both");
	});

	it("plan nothing before what must be done first, however its skills are known", () => {
		const floor = (ready: Draft["drills"][number]["ready"] & object, week: number) =>
			suggestions(
				count({ ...base, drills: base.drills.map((d) => (d.id === "both" ? { ...d, ready } : d)) }),
			)(week, "l1", "floor").drills.map((d) => d.drill);
		expect(floor([{ drill: "rolling", reps: 5 }], 1)).not.toContain("both");
		expect(floor([{ text: "Holds still." }], 1)).toContain("both");
		// Arriving with what a drill teaches is no reason to skip the drill that comes before.
		const arrives: Draft = {
			...base,
			levels: [{ id: "l1", entry: ["roll"] }, "l2"],
			drills: base.drills.map((d) => (d.id === "both" ? { ...d, after: ["rolling"] } : d)),
		};
		expect(suggestions(count(arrives))(1, "l1", "floor").drills.map((d) => d.drill)).not.toContain("both");
	});

	it("keep the order for every class of the level, whatever its rotation", () => {
		const draft = (rotations: readonly (readonly string[])[]): Draft => ({
			...base,
			drills: [
				...base.drills.filter((d) => d.id !== "diving"),
				{ id: "diving", levels: ["l1"], skills: ["dive"], apparatus: ["beam"] },
			],
			classes: rotations.map((rotation, i) => ({ id: `c${i}`, levels: ["l1"], rotation })),
		});
		const beam = (rotations: readonly (readonly string[])[]) =>
			suggestions(count(draft(rotations)))(2, "l1", "beam").drills.map((d) => d.drill);
		expect(beam([["floor", "beam"]])).toContain("diving");
		expect(
			beam([
				["floor", "beam"],
				["beam", "floor"],
			]),
		).not.toContain("diving");
	});

	it("fit into the free minutes, closing as much as they can, and say what stays open for want of them", () => {
		const classes = [
			{ id: "long", levels: ["l1"], minutes: 60 },
			{ id: "short", levels: ["l1"], minutes: 12, warmUp: 1 },
			{ id: "beam-only", levels: ["l1"], minutes: 5, rotation: ["beam"] },
		];
		const counted = count({ ...base, classes });
		expect(freeMinutes(counted.curriculum, 3, "l1", "floor")).toBe(6);
		const s = suggestions(counted)(3, "l1", "floor");
		expect(s.freeMinutes).toBe(6);
		// Five minutes, as long as the level's blocks on this apparatus: one drill fits.
		expect(s.drills).toMatchObject([{ drill: "both", minutes: 5 }]);
		expect(s.open).toEqual([{ gap: { kind: "skill", id: "dive", because: "untrained" }, reason: "minutes" }]);
	});

	it("leave all open in a full class, and never go below nothing", () => {
		const counted = count({ ...base, classes: [{ id: "full", levels: ["l1"], minutes: 4 }] });
		const s = suggestions(counted)(3, "l1", "floor");
		expect(s).toMatchObject({ freeMinutes: 0, drills: [] });
		expect(new Set(s.open.map((o) => o.reason))).toEqual(new Set(["minutes"]));
	});

	it("ask only for what this apparatus and level can train, and what is due", () => {
		const beam = suggestions(count(base))(3, "l1", "beam");
		expect(gapsOf(beam)).toEqual(["shape tuck: untrained"]);
		const l2 = suggestions(count(base))(3, "l2", "floor");
		expect(l2.drills.map((d) => d.drill)).toEqual(["seniors"]);
		// `hollow` is trained in two weeks, as wanted: not due in week 2.
		expect(gapsOf(suggestions(count(base))(2, "l1", "floor"))).not.toContain("shape hollow: too few weeks");
	});

	it("see a gap that is too long, and a target of weeks that is missed", () => {
		const long: Draft = {
			...base,
			weeks: { 1: { floor: [{ drill: "rock", minutes: 5 }] }, 6: { floor: [{ drill: "rock", minutes: 5 }] } },
			term: { weeks: 6 },
		};
		expect(gapsOf(suggestions(count(long))(3, "l1", "floor"))).toContain("shape hollow: too long a gap");
		const few = { ...long, targets: { shapeWeeks: 3, shapeGap: 9 } };
		expect(gapsOf(suggestions(count(few))(3, "l1", "floor"))).toContain("shape hollow: too few weeks");
	});

	it("leave out what no drill of the library trains: a hole in the library is no gap of a week", () => {
		const drills = base.drills.filter((d) => d.id !== "both" && d.id !== "hold");
		expect(gapsOf(suggestions(count({ ...base, drills }))(3, "l1", "floor"))).toEqual([
			"skill dive: untrained",
		]);
	});

	it("say so where the only drill that could help is planned that week elsewhere", () => {
		const drills = base.drills.map((d) => (d.id === "both" ? { ...d, apparatus: ["floor", "beam"] } : d));
		const weeks = { ...base.weeks, 3: { ...base.weeks?.[3], beam: [{ drill: "both", minutes: 5 }] } };
		expect(suggestions(count({ ...base, drills, weeks }))(3, "l1", "floor").open).toEqual([
			{ gap: { kind: "direction", id: "backward", because: "unmatched" }, reason: "no drill" },
		]);
	});

	it("put the gaps of each suggestion to use: applied, they are gone", () => {
		const suggested = suggestions(count(base))(3, "l1", "floor");
		const week = base.weeks?.[3];
		const applied: Draft = {
			...base,
			weeks: {
				...base.weeks,
				3: {
					floor: [
						...(week?.floor ?? []),
						...suggested.drills.map((d) => ({ drill: d.drill, minutes: d.minutes })),
					],
				},
			},
		};
		expect(suggestions(count(applied))(3, "l1", "floor").gaps).toEqual([]);
	});
});
