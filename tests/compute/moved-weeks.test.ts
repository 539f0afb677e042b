/** Weeks under another number: held against themselves, told in one line, whatever else changed. */

import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compare } from "../../scripts/compute/compare.ts";
import { followWeeks, runsOf } from "../../scripts/compute/moved-weeks.ts";
import { type PlanRecord, recordOf, type Written } from "../../scripts/compute/plan-record.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { FIXTURES } from "../open-fixture.ts";

const { handbook } = openHandbook(join(FIXTURES, "base-club"));
if (handbook === undefined) throw new Error("the base club is sound");
const RECORD = recordOf(handbook, handbook.edition);

/** A plan whose weeks have these themes and blocks, one after the other; each counts a minute. */
function planOf(weeks: readonly { readonly theme: string; readonly blocks: number }[]): PlanRecord {
	const numbered = weeks.map((week, i) => [String(i + 1), week] as const);
	return {
		...RECORD,
		things: {
			...RECORD.things,
			week: Object.fromEntries(numbered.map(([number, week]) => [number, week as Written])),
		},
		names: {
			...RECORD.names,
			week: Object.fromEntries(numbered.map(([number, { theme }]) => [number, theme])),
		},
		tables: [
			{
				name: "time",
				columns: ["week", "class", "planned"],
				keys: ["week", "class"],
				rows: numbered.map(([number, { blocks }]) => [Number(number), "mon", blocks]),
			},
		],
		findings: numbered.map(([number, { theme }]) => ({
			code: "H309",
			weight: "note",
			what: `Monday, week ${number}: ${theme}.`,
			about: { week: Number(number) },
		})),
	};
}

function told(earlier: PlanRecord, later: PlanRecord) {
	const { before, moved } = followWeeks(earlier, later);
	const { things, numbers, findings } = compare(before, later);
	return { moved: runsOf(moved), week: things.week, numbers, findings };
}

const [a, b, c, d] = ["a", "b", "c", "d"].map((theme, i) => ({ theme, blocks: i + 1 }));
const NEW = { theme: "new", blocks: 9 };
const all = (...weeks: readonly (typeof NEW | undefined)[]) => planOf(weeks.flatMap((one) => one ?? []));

describe("a week put in", () => {
	it("is one new week, and the later ones only have another number", () => {
		expect(told(all(a, b, c, d), all(a, NEW, b, c, d))).toMatchObject({
			moved: [{ from: [2, 4], to: [3, 5] }],
			week: { added: ["2"], removed: [], changed: [] },
			numbers: [],
			findings: { gone: [], come: [{ about: { week: 2 } }], changed: [] },
		});
	});

	it("hides no change of a week that moved", () => {
		const longer = { theme: "c", blocks: 7 };
		expect(told(all(a, b, c, d), all(a, NEW, b, longer, d))).toMatchObject({
			moved: [{ from: [2, 4], to: [3, 5] }],
			week: { added: ["2"], changed: [{ id: "4", fields: [{ field: "blocks", before: 3, after: 7 }] }] },
			numbers: [{ row: { week: 4 }, before: 3, after: 7 }],
		});
	});
});

it("a week taken out is gone, and makes way for the one that has its number", () => {
	const { moved, week, findings } = told(all(a, b, c, d), all(a, c, d));
	expect(moved).toEqual([{ from: [3, 4], to: [2, 3] }]);
	expect(week).toEqual({ added: [], removed: ["(2)"], changed: [] });
	expect(findings).toMatchObject({ gone: [{ what: "Monday, week (2): b." }], come: [], changed: [] });
});

it("two weeks that trade places have each other's number", () => {
	expect(told(all(a, b, c, d), all(a, c, b, d))).toMatchObject({
		moved: [
			{ from: [2, 2], to: [3, 3] },
			{ from: [3, 3], to: [2, 2] },
		],
		week: { added: [], removed: [], changed: [] },
		findings: { gone: [], come: [], changed: [] },
	});
});

it("a week whose theme and blocks both change under its number is changed, not moved", () => {
	expect(told(all(a, b), all(a, NEW))).toMatchObject({ moved: [], week: { changed: [{ id: "2" }] } });
});

it("any order of weeks that differ is only other numbers, and nothing is lost on the way", () => {
	const weeks = Array.from({ length: 6 }, (_, i) => ({ theme: `week of ${i}`, blocks: i }));
	fc.assert(
		fc.property(fc.shuffledSubarray(weeks), fc.shuffledSubarray(weeks), (earlier, later) => {
			const { week } = told(planOf(earlier), planOf(later));
			// One that came under the number of one that went is that week changed.
			const [come, gone] = [
				later.filter((one) => !earlier.includes(one)).length,
				earlier.filter((one) => !later.includes(one)).length,
			];
			expect(week.changed.length).toBeLessThanOrEqual(Math.min(come, gone));
			expect(week.added.length + week.changed.length).toBe(come);
			expect(week.removed.length + week.changed.length).toBe(gone);
		}),
	);
});
