/** Sums that may be published: none below five, nor the rest of one, in fives. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { taughtSums } from "../../scripts/compute/taught-sums.ts";
import type { BlockReport, SkillReport } from "../../scripts/model.ts";
import { build, reportOf } from "./build-curriculum.ts";

const CLASSES = ["mon", "tue", "wed"];

type Counted = Pick<SkillReport, "of" | "alone"> & { readonly class: string; readonly week: number };
type Lost = Required<Pick<BlockReport, "lost" | "cause">> & {
	readonly class: string;
	readonly week: number;
};

function sums(counted: readonly Counted[], lost: readonly Lost[] = []) {
	return taughtSums(
		build({
			skills: [{ id: "roll", levels: ["junior"] }],
			drills: [{ id: "rock", levels: ["junior"] }],
			weeks: {
				1: { floor: [{ drill: "rock", minutes: 60 }] },
				2: { floor: [{ drill: "rock", minutes: 60 }] },
			},
			classes: CLASSES.map((id) => ({ id, levels: ["junior"], minutes: 90, gymnasts: 20 })),
			taught: [
				...counted.map(({ class: own, week, ...skill }) =>
					reportOf(own, week, [], [{ skill: "roll", helped: 0, ...skill }]),
				),
				...lost.map(({ class: own, week, ...said }) =>
					reportOf(own, week, [{ block: 1, drills: ["rock"], done: "shortened", ...said }]),
				),
			],
		}),
	);
}

const roll = (...counted: readonly (readonly [class_: string, week: number, alone: number, of: number])[]) =>
	sums(counted.map(([own, week, alone, of]) => ({ class: own, week, alone, of }))).skills;

describe("sums of who can do a skill", () => {
	it("are of the last count of every class together, in fives", () => {
		expect(roll(["mon", 1, 1, 9], ["mon", 2, 6, 9], ["tue", 1, 6, 13])).toEqual([
			{ skill: "roll", alone: 10, of: 20 },
		]);
	});

	it("are left out where fewer than five do it, or fewer than five do not", () => {
		expect(roll(["mon", 2, 4, 20])).toEqual([]);
		expect(roll(["mon", 2, 5, 10])).toEqual([{ skill: "roll", alone: 5, of: 10 }]);
		expect(roll(["mon", 2, 16, 20])).toEqual([]);
		expect(roll(["mon", 2, 20, 20])).toEqual([]);
		expect(roll(["mon", 2, 0, 20])).toEqual([]);
	});
});

describe("sums of minutes lost", () => {
	const lostBy = (cause: Lost["cause"], classes: readonly string[]) =>
		classes.map((one) => {
			const [own = "", week] = one.split(" ");
			return { class: own, week: Number(week), lost: 4, cause };
		});

	it("are left out where fewer than five classes named the cause, and there is no total", () => {
		const five = ["mon 1", "mon 2", "tue 1", "tue 2", "wed 1"];
		expect(sums([], lostBy("late", five)).lost).toEqual([{ cause: "late", minutes: 20 }]);
		expect(sums([], lostBy("late", five.slice(1))).lost).toEqual([]);
		expect(Object.keys(sums([], lostBy("late", five)))).toEqual(["skills", "lost"]);
	});
});

it("no number of fewer than five can be worked out of what is published", () => {
	const count = fc
		.tuple(
			fc.constantFrom(...CLASSES),
			fc.integer({ min: 1, max: 2 }),
			fc.nat({ max: 20 }),
			fc.nat({ max: 20 }),
		)
		.map(([own, week, a, b]) => ({ class: own, week, alone: Math.min(a, b), of: Math.max(a, b, 1) }));
	let shown = 0;
	fc.assert(
		fc.property(fc.uniqueArray(count, { selector: (one) => `${one.class} ${one.week}` }), (counted) => {
			const last = CLASSES.flatMap(
				(own) => counted.filter((one) => one.class === own).toSorted((a, b) => b.week - a.week)[0] ?? [],
			);
			const of = last.reduce((sum, one) => sum + one.of, 0);
			const alone = last.reduce((sum, one) => sum + one.alone, 0);
			for (const row of sums(counted).skills) {
				shown++;
				expect([alone >= 5, of - alone >= 5]).toEqual([true, true]);
				// Whatever is taken from whatever is a multiple of five, and each number may stand for five others.
				expect([alone - row.alone, of - row.of].every((over) => over >= 0 && over < 5)).toBe(true);
				expect([row.alone % 5, row.of % 5]).toEqual([0, 0]);
			}
		}),
		{ numRuns: 100 },
	);
	expect(shown).toBeGreaterThan(10);
});
