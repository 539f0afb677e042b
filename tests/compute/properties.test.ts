/**
 * What must hold for every plan: random clubs, each measure, and changes that may not matter or that
 * may move a number in one direction only.
 */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { directionBalances, patternBalance } from "../../scripts/compute/balance.ts";
import { coverage } from "../../scripts/compute/coverage.ts";
import { equipmentFor } from "../../scripts/compute/equipment.ts";
import { groupLoads } from "../../scripts/compute/load.ts";
import { MEASURES, measure } from "../../scripts/compute/measures.ts";
import { spacings } from "../../scripts/compute/spacing.ts";
import { rounded } from "../../scripts/compute/tables.ts";
import { classTimes } from "../../scripts/compute/time.ts";
import { groupWorks } from "../../scripts/compute/work.ts";
import type { Cell } from "../../scripts/model.ts";
import { cases } from "../random-cases.ts";
import { build, count, type Draft } from "./build-curriculum.ts";
import { APPARATUS, club, DRILL_IDS, LEVELS, SHAPES, SKILLS } from "./random-club.ts";

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);

describe("for every plan", () => {
	it("shares add up to the scheduled minutes of the drills that name something", () => {
		fc.assert(
			fc.property(club, (draft: Draft) => {
				const counted = count(draft);
				for (const kind of ["shape", "skill"] as const) {
					const table = coverage(counted, kind, "week");
					const shares = [...table.columns.values()].map((cell) => cell.share);
					const naming = counted.exposures.filter((e) => {
						const drill = counted.curriculum.drills.get(e.drill);
						return ((kind === "shape" ? drill?.shapes : drill?.skills) ?? []).length > 0;
					});
					expect(sum(shares)).toBeCloseTo(sum(naming.map((e) => e.minutes)), 9);
				}
				const patterns = [...patternBalance(counted, "level").values()].flatMap((row) => [...row.values()]);
				const withPattern = counted.exposures.filter(
					(e) => (counted.curriculum.drills.get(e.drill)?.skills ?? []).length > 0,
				);
				expect(sum(patterns.map((p) => p.share))).toBeCloseTo(sum(withPattern.map((e) => e.minutes)), 9);
			}),
			{ numRuns: cases(100) },
		);
	});

	it("directions, loads and class times add up to what the exposures and blocks hold", () => {
		fc.assert(
			fc.property(club, (draft: Draft) => {
				const counted = count(draft);
				const { curriculum, exposures } = counted;
				const directed = exposures.filter((e) => curriculum.drills.get(e.drill)?.direction !== undefined);
				const balances = directionBalances(counted).flatMap((b) => [...b.directions.values()]);
				expect(sum(balances.map((t) => t.minutes))).toBeCloseTo(sum(directed.map((e) => e.minutes)), 9);
				const landings = groupWorks(curriculum)
					.flatMap((work) => work.blocks.flatMap((block) => block.stations))
					.map(({ drill, done = 1 }) => (drill.contacts?.landings ?? 0) * done);
				expect(sum(groupLoads(curriculum).map((l) => l.landings))).toBeCloseTo(sum(landings), 9);
				for (const time of classTimes(curriculum)) {
					for (const { block, drills } of time.blocks) {
						const lost = block.show + (block.kind === "options" ? 0 : (drills.length - 1) * block.change);
						const worked = sum(drills.map((d) => d.minutes));
						expect(worked).toBeCloseTo(Math.max(0, block.minutes - lost), 9);
						for (const d of drills) {
							// Without a turn nobody knows who moves and who waits.
							const known = d.turns === undefined ? 0 : d.minutes;
							expect(d.activeMinutes + d.waitingMinutes).toBeCloseTo(known, 9);
						}
					}
				}
			}),
			{ numRuns: cases(100) },
		);
	});

	it("moving a block to another week keeps the totals of the term", () => {
		fc.assert(
			fc.property(club, (draft: Draft) => {
				const floor = draft.weeks?.[1]?.floor ?? [];
				const moved: Draft = {
					...draft,
					weeks: {
						...draft.weeks,
						1: { ...draft.weeks?.[1], floor: floor.slice(1) },
						2: { ...draft.weeks?.[2], floor: [...(draft.weeks?.[2]?.floor ?? []), ...floor.slice(0, 1)] },
					},
				};
				const before = count(draft);
				const after = count(moved);
				for (const kind of ["shape", "skill", "direction"] as const) {
					for (const by of ["level", "apparatus"] as const) {
						const cells = (c: typeof before) =>
							[...coverage(c, kind, by).cells].flatMap(([row, line]) =>
								[...line].map(([id, cell]) => [`${row} ${id}`, cell] as const),
							);
						const afterCells = new Map(cells(after));
						expect(afterCells.size).toBe(cells(before).length);
						for (const [key, cell] of cells(before)) {
							expect(afterCells.get(key)?.minutes).toBeCloseTo(cell.minutes, 9);
							if (cell.repetitions === undefined) expect(afterCells.get(key)?.repetitions).toBeUndefined();
							else expect(afterCells.get(key)?.repetitions).toBeCloseTo(cell.repetitions, 9);
							expect(new Set(afterCells.get(key)?.drills)).toEqual(new Set(cell.drills));
						}
					}
				}
				const landings = (c: typeof before) => sum(groupLoads(c.curriculum).map((l) => l.landings));
				expect(landings(after)).toBeCloseTo(landings(before), 9);
				const planned = (c: typeof before) =>
					sum(classTimes(c.curriculum).map((t) => sum(t.blocks.map((b) => b.block.minutes))));
				expect(planned(after)).toBeCloseTo(planned(before), 9);
			}),
			{ numRuns: cases(100) },
		);
	});

	it("adding a drill to the plan never lowers coverage, weeks taught, load or equipment", () => {
		fc.assert(
			fc.property(
				club,
				fc.constantFrom(...DRILL_IDS),
				fc.constantFrom(1, 3, 5),
				(draft: Draft, drill, weekNumber) => {
					const plan = draft.weeks?.[weekNumber];
					const more: Draft = {
						...draft,
						weeks: {
							...draft.weeks,
							[weekNumber]: { ...plan, floor: [...(plan?.floor ?? []), { drill, minutes: 7 }] },
						},
					};
					const before = count(draft);
					const after = count(more);
					for (const kind of ["shape", "skill", "direction"] as const) {
						const grown = coverage(after, kind, "week");
						for (const [row, line] of coverage(before, kind, "week").cells) {
							for (const [id, cell] of line) {
								const now = grown.cells.get(row)?.get(id);
								expect(now?.minutes ?? 0).toBeGreaterThanOrEqual(cell.minutes);
								expect(now?.share ?? 0).toBeGreaterThanOrEqual(cell.share - 1e-9);
								expect(now?.drills.length ?? 0).toBeGreaterThanOrEqual(cell.drills.length);
							}
						}
					}
					const key = (s: { kind: string; id: string; level: string }) => `${s.kind} ${s.id} ${s.level}`;
					const spaced = new Map(spacings(after).map((s) => [key(s), s]));
					for (const s of spacings(before)) {
						const now = spaced.get(key(s));
						expect(now?.taught.length ?? 0).toBeGreaterThanOrEqual(s.taught.length);
						expect(s.taught.every((w) => now?.taught.includes(w))).toBe(true);
					}
					const loaded = new Map(groupLoads(after.curriculum).map((l) => [`${l.week} ${l.group.name}`, l]));
					for (const l of groupLoads(before.curriculum)) {
						expect(loaded.get(`${l.week} ${l.group.name}`)?.landings).toBeGreaterThanOrEqual(l.landings);
					}
					const list = (c: typeof before) => {
						const floor = c.curriculum.weeks
							.find((w) => w.week === weekNumber)
							?.apparatus.find((p) => p.apparatus === "floor");
						return floor === undefined ? [] : equipmentFor(c.curriculum, floor);
					};
					for (const line of list(before)) {
						expect(list(after).find((l) => l.item === line.item)?.needed).toBeGreaterThanOrEqual(line.needed);
					}
				},
			),
			{ numRuns: cases(100) },
		);
	});

	it("renaming every id changes nothing but the names", () => {
		// The new names sort the other way round, so nothing may lean on the alphabet. Drills' tables sort
		// by id as text, and are compared as sets.
		const flip = (c: string) =>
			c >= "a" ? String.fromCharCode(219 - c.charCodeAt(0)) : String.fromCharCode(105 - c.charCodeAt(0));
		const rename = (id: string): string => [...id].map(flip).join("");
		fc.assert(
			fc.property(club, (draft: Draft) => {
				const ids = [
					...LEVELS,
					...SHAPES,
					...SKILLS.map((s) => s.id),
					...DRILL_IDS,
					"mat",
					"rope",
					"c0",
					"c1",
					"c2",
				];
				const names = new Map([...ids, ...APPARATUS].map((id) => [id, rename(id)]));
				const renamed = renameIn(draft, names);
				const here = measure(build(draft));
				const there = measure(build(renamed));
				// Sums of the same minutes in another order may differ in their last bit.
				const text = (cell: Cell): string =>
					typeof cell === "number" ? String(rounded(cell)) : String(cell);
				for (const [name, table] of here.tables) {
					const expected = table.rows.map((row) => row.map((cell) => text(names.get(String(cell)) ?? cell)));
					const found = (there.tables.get(name)?.rows ?? []).map((row) => row.map(text));
					if (name === "exposures") expect(new Set(found.map(String))).toEqual(new Set(expected.map(String)));
					else expect(found).toEqual(expected);
				}
				// How much floor a thing takes goes by the words of its id, so what fits on a plan follows them.
				const kinds = (m: typeof here) =>
					m.findings
						.filter((f) => !["H318", "H319", "H320", "H346"].includes(f.code))
						.map((f) => `${f.code} ${f.weight} ${f.source.place(f.path).line}`);
				expect(kinds(there).sort()).toEqual(kinds(here).sort());
			}),
			{ numRuns: cases(60) },
		);
	});

	it("the order in which the files were read changes nothing", () => {
		fc.assert(
			fc.property(club, (draft: Draft) => {
				const curriculum = build(draft);
				// Linking sorts drills and weeks; what is left to the order of reading is the order of a week's apparatus.
				const shuffled = {
					...curriculum,
					weeks: curriculum.weeks.map((w) => ({ ...w, apparatus: [...w.apparatus].reverse() })),
				};
				const a = measure(curriculum);
				const b = measure(shuffled);
				expect([...b.tables].map(([name, t]) => [name, t.rows])).toEqual(
					[...a.tables].map(([name, t]) => [name, t.rows]),
				);
				const lines = (m: typeof a) => m.findings.map((f) => `${f.code} ${f.what}`).sort();
				expect(lines(b)).toEqual(lines(a));
			}),
			{ numRuns: cases(60) },
		);
	});

	it("every measure gives finite numbers, exact columns, sorted rows without doubles, and findings with a place", () => {
		fc.assert(
			fc.property(club, (draft: Draft) => {
				const { tables, findings } = measure(build(draft));
				for (const table of tables.values()) {
					for (const row of table.rows) {
						expect(row).toHaveLength(table.columns.length);
						for (const cell of row) if (typeof cell === "number") expect(Number.isFinite(cell)).toBe(true);
					}
					expect(new Set(table.rows.map(String)).size).toBe(table.rows.length);
				}
				for (const f of findings) {
					expect(f.source.file).toMatch(/^(content|_data)\//);
					expect(f.what).not.toMatch(/undefined|NaN|Infinity/);
					expect(f.fix).not.toMatch(/undefined|NaN|Infinity/);
				}
			}),
			{ numRuns: cases(100) },
		);
	});
});

describe("the data files", () => {
	it("have exactly the columns of the format", () => {
		const counted = count({ drills: [{ id: "roll", levels: ["junior"] }] });
		const heads = Object.fromEntries(
			MEASURES.flatMap((m) => m.tables(counted)).map((t) => [
				t.name,
				t.columns.map((c) => c.name).join(", "),
			]),
		);
		expect(heads).toMatchObject({
			spacing: "kind, id, level, weeks, first, last, longest-gap",
			time: "week, class, planned, available, active-share, unknown-share, new-drills",
			practice: "week, group, apparatus, block, drill, turns, planned, fits, done",
			reach: "kind, id, group, weeks, minutes, performed, prepared, first, last, longest-gap",
			coaches: "week, group, apparatus, block, hands, watched, needed, present",
			"set-out": "week, class, item, together, at-once, owned",
			order: "group, drill, week, rule, id, had, wanted, met",
			equipment: "week, apparatus, item, needed, owned",
			load: "week, group, landings, hands, planned-landings, planned-hands, landings-step, hands-step",
		});
	});
});

/** The draft with every id replaced, keys included. */
function renameIn<T>(value: T, names: ReadonlyMap<string, string>): T {
	const renamed = (v: unknown): unknown => {
		if (typeof v === "string") return names.get(v) ?? v;
		if (Array.isArray(v)) return v.map(renamed);
		if (typeof v !== "object" || v === null) return v;
		return Object.fromEntries(
			Object.entries(v).map(([key, inner]) => [
				names.get(key) ?? key,
				// Words of the format that happen to be ids as well are left alone.
				key === "pattern" || key === "direction" || key === "per" ? inner : renamed(inner),
			]),
		);
	};
	return renamed(value) as T;
}
