/** Random clubs for property tests: small, and rich in the awkward cases. */

import fc from "fast-check";
import type { Pattern } from "../../scripts/model.ts";
import type { BlockDraft, DrillDraft, WeekDraft } from "./build-curriculum.ts";

export const LEVELS = ["l1", "l2", "l3"];
export const APPARATUS = ["floor", "beam"];
export const SHAPES = ["hollow", "arch", "tuck"];
const PATTERNS: readonly Pattern[] = ["landing", "rotation", "spring"];
export const SKILLS = ["roll", "jump", "hold"].map((id, i) => ({
	id,
	levels: LEVELS.slice(i),
	...(PATTERNS[i] === undefined ? {} : { pattern: PATTERNS[i] }),
}));
export const DRILL_IDS = ["d0", "d1", "d2", "d3", "d4", "d5"];

const some = (ids: readonly string[], minLength = 0) => fc.subarray([...ids], { minLength });

/** Levels with values of their own in place of the drill's. */
const ownLevels = fc.record(
	Object.fromEntries(
		LEVELS.map((level) => [
			level,
			fc.record(
				{
					sets: fc.integer({ min: 1, max: 4 }),
					reps: fc.integer({ min: 1, max: 4 }),
					spotters: fc.integer({ min: 0, max: 2 }),
					turn: fc.record({
						seconds: fc.integer({ min: 1, max: 60 }),
						atOnce: fc.integer({ min: 1, max: 3 }),
					}),
					contacts: fc.record({ landings: fc.constantFrom(0, 2), hands: fc.constantFrom(0, 1) }),
					equipment: fc.constant([{ item: "mat", count: 1, per: "gymnast" as const }]),
				},
				{ requiredKeys: [] },
			),
		]),
	),
);

const drillOf = (id: string): fc.Arbitrary<DrillDraft> =>
	fc.record(
		{
			id: fc.constant(id),
			apparatus: fc.constant(APPARATUS),
			levels: fc.oneof(some(LEVELS, 1), ownLevels),
			shapes: some(SHAPES),
			skills: some(SKILLS.map((s) => s.id)),
			direction: fc.constantFrom("forward", "backward", "none"),
			reps: fc.integer({ min: 1, max: 9 }),
			performs: some(SKILLS.map((s) => s.id)),
			elements: fc.array(
				fc.record({
					skill: fc.constantFrom(...SKILLS.map((s) => s.id)),
					count: fc.integer({ min: 1, max: 3 }),
				}),
				{ maxLength: 2 },
			),
			turn: fc.record(
				{
					seconds: fc.integer({ min: 1, max: 60 }),
					atOnce: fc.integer({ min: 1, max: 6 }),
					reps: fc.integer({ min: 1, max: 5 }),
				},
				{ requiredKeys: ["seconds", "atOnce"] },
			),
			spotters: fc.integer({ min: 0, max: 2 }),
			watch: fc.boolean(),
			contacts: fc.record({
				landings: fc.integer({ min: 0, max: 3 }),
				hands: fc.integer({ min: 0, max: 3 }),
			}),
			equipment: fc.array(
				fc.record({
					item: fc.constantFrom("mat", "rope"),
					count: fc.integer({ min: 1, max: 3 }),
					per: fc.constantFrom("station", "gymnast"),
				}),
				{ maxLength: 2 },
			),
		},
		{ requiredKeys: ["id", "apparatus", "levels"] },
	);

const dose = fc.record(
	{ sets: fc.integer({ min: 1, max: 3 }), reps: fc.integer({ min: 1, max: 6 }) },
	{ requiredKeys: [] },
);

const block: fc.Arbitrary<BlockDraft> = fc.record(
	{
		options: fc.array(fc.constantFrom(...DRILL_IDS), { minLength: 2, maxLength: 3 }),
		choose: fc.integer({ min: 1, max: 2 }),
		show: fc.constantFrom(0, 1, 2.5),
		dose,
		stations: fc.array(fc.constantFrom(...DRILL_IDS), { minLength: 1, maxLength: 4 }),
		minutes: fc.integer({ min: 0, max: 30 }),
		change: fc.constantFrom(0, 0.5, 1, 2),
		levels: some(LEVELS, 1),
	},
	{ requiredKeys: ["stations", "minutes"] },
);

const week: fc.Arbitrary<WeekDraft> = fc.record(
	{ floor: fc.array(block, { maxLength: 3 }), beam: fc.array(block, { maxLength: 2 }) },
	{ requiredKeys: [] },
);

/** A club of three levels, two apparatus, six drills and five planned weeks of six. */
export const club = fc.record({
	levels: fc.constant(LEVELS),
	apparatus: fc.constant(APPARATUS),
	shapes: fc.constant(SHAPES),
	skills: fc.constant(SKILLS),
	equipment: fc.constant([{ id: "mat", owned: 3 }, { id: "rope" }]),
	drills: fc.tuple(...DRILL_IDS.map(drillOf)).map((drills) => [...drills]),
	weeks: fc.record({ 1: week, 2: week, 3: week, 4: week, 6: week }),
	term: fc.constant({ weeks: 6 }),
	classes: fc
		.array(
			fc.record({
				levels: some(LEVELS),
				minutes: fc.integer({ min: 20, max: 120 }),
				gymnasts: fc.integer({ min: 1, max: 20 }),
				rotation: some(APPARATUS, 1),
				day: fc.constantFrom("monday", "tuesday"),
				start: fc.constantFrom("16:00", "16:20"),
			}),
			{ maxLength: 3 },
		)
		.map((classes) => classes.map((c, i) => ({ id: `c${i}`, ...c }))),
	targets: fc.constant({
		shapeWeeks: 3,
		skillWeeks: 2,
		shapeGap: 2,
		skillGap: 2,
		pairDirections: true,
		activeShare: 0.5,
		loadStep: 1.5,
	}),
});
