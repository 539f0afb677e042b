/** Gaps as taught, and what was kept over breaks, on clubs small enough to count by hand. */

import { describe, expect, it } from "vitest";
import { groupsOf } from "../../scripts/compute/groups.ts";
import { measure } from "../../scripts/compute/measures.ts";
import { reachIn } from "../../scripts/compute/reach.ts";
import { taughtOf } from "../../scripts/compute/taught.ts";
import { keptByWeeks, keptOverBreaks, spacedLess } from "../../scripts/compute/taught-spacing.ts";
import { wilson } from "../../scripts/compute/wilson.ts";
import type { ClassReport, Targets } from "../../scripts/model.ts";
import { build, reportOf } from "./build-curriculum.ts";

/** Rolls in some of six weeks, walks in all of them; the third calendar week may be closed. */
function club(
	rolls: readonly number[],
	taught: readonly ClassReport[],
	targets: Targets = {},
	isClosed = false,
) {
	return build({
		skills: [{ id: "roll", levels: ["junior"] }],
		drills: [
			{ id: "wedge", levels: ["junior"], skills: ["roll"], performs: ["roll"] },
			{ id: "walk", levels: ["junior"] },
		],
		weeks: Object.fromEntries(
			[1, 2, 3, 4, 5, 6].map((week) => [
				week,
				{
					floor: [
						{ drill: "walk", minutes: 10 },
						...(rolls.includes(week) ? [{ drill: "wedge", minutes: 10 }] : []),
					],
				},
			]),
		),
		term: isClosed ? { closed: [{ from: "2027-01-18", to: "2027-01-24" }] } : {},
		classes: [{ id: "mon", levels: ["junior"], day: "monday", start: "16:00", minutes: 60, gymnasts: 12 }],
		targets,
		taught,
	});
}

const missed = (week: number) => reportOf("mon", week, [{ block: 2, drills: ["wedge"], done: "not-done" }]);
const done = (week: number) => reportOf("mon", week, []);
const counted = (week: number, alone: number, of: number) =>
	reportOf("mon", week, [], [{ skill: "roll", of, alone, helped: 0 }]);

describe("a gap", () => {
	it("is found where it grew over the target since something was missed, and a week is left for it", () => {
		const curriculum = club([1, 3, 5], [missed(3)], { skillGap: 2 });
		expect(spacedLess(curriculum)).toMatchObject([
			{ kind: "skill", id: "roll", weeks: [1, 5], missed: [3], gap: [1, 5], wanted: 2 },
		]);
		const found = measure(curriculum).findings.filter(({ code }) => code === "H353");
		expect(found).toHaveLength(1);
		expect(found[0]).toMatchObject({ about: { week: 4, skill: "roll", class: "mon" } });
		expect(found[0]?.what).toMatch(
			/in week 1 and not again before week 5.*planned for week 3, and not taught/,
		);
		expect(found[0]?.fix).toContain("between weeks 3 and 5");
	});

	it.each([
		["nothing was missed", [1, 3, 5], [done(3)], 2],
		["the plan has it too", [1, 5], [done(3)], 2],
		["nothing was reported", [1, 3, 5], [], 2],
		["it is within the target", [1, 3, 5], [missed(3)], 4],
		["the next week meets it at once", [1, 3, 5], [missed(3), done(4)], 2],
		["no week is to come", [1, 3, 5], [missed(3), done(6)], 2],
	] as const)("is not found where %s", (_, rolls, taught, skillGap) => {
		expect(spacedLess(club(rolls, taught, { skillGap }))).toEqual([]);
	});

	it("is not found where the groups of the term were worked out anew in between, as they are while mending", () => {
		const one = club([1, 3, 5], [missed(3)], { skillGap: 4 });
		const before = reachIn(one, taughtOf(one).works);
		groupsOf({ ...one, levels: new Map(one.levels) });
		expect(reachIn(one, taughtOf(one).works)).toEqual(before);
		expect(spacedLess(one)).toEqual([]);
	});

	it("is a number of weeks where that is what was wanted", () => {
		expect(spacedLess(club([1, 2, 3], [missed(2)], { skillWeeks: 3 }))).toMatchObject([
			{ weeks: [1, 3], gap: undefined, wanted: 3 },
		]);
		expect(spacedLess(club([1, 2, 3, 4], [missed(2)], { skillWeeks: 3 }))).toEqual([]);
		const [found] = measure(club([1, 2, 3], [missed(2)], { skillWeeks: 3 })).findings.filter(
			({ code }) => code === "H353",
		);
		expect(found?.what).toContain("in 2 weeks (weeks 1 and 3)");
	});
});

describe("what was kept over a break", () => {
	const kept = (rolls: readonly number[], taught: readonly ClassReport[], isClosed = false) =>
		keptOverBreaks(club(rolls, taught, {}, isClosed)).map(({ before, after, weeks, kept: own }) => ({
			from: before.week,
			to: after.week,
			weeks,
			kept: own,
		}));

	it("is at most so many of those who did it before, with Wilson's interval", () => {
		const over = { from: 1, to: 4, weeks: 2 };
		expect(kept([1, 4], [counted(1, 8, 12), counted(4, 6, 12)])).toEqual([
			{ ...over, kept: { kept: 6, of: 8, share: wilson(6, 8) } },
		]);
		// More than before: who was new to it has not kept it.
		expect(kept([1, 4], [counted(1, 8, 12), counted(4, 11, 12)])[0]?.kept).toMatchObject({ kept: 8, of: 8 });
	});

	it("is of no share where fewer than five did it, and nothing where fewer than five or fewer than before were there", () => {
		expect(kept([1, 4], [counted(1, 4, 12), counted(4, 3, 12)])[0]?.kept).toEqual({
			kept: 3,
			of: 4,
			share: undefined,
		});
		expect(kept([1, 4], [counted(1, 8, 12), counted(4, 8, 11)])[0]?.kept).toBeUndefined();
		expect(kept([1, 4], [counted(1, 4, 4), counted(4, 4, 12)])).toEqual([]);
	});

	it("asks what was taught between, and not what was planned", () => {
		const counts = [counted(1, 8, 12), counted(5, 6, 12)];
		expect(kept([1, 3, 5], counts)).toEqual([]);
		expect(kept([1, 3, 5], [...counts, missed(3)])[0]).toMatchObject({ from: 1, to: 5, weeks: 3 });
	});

	it("knows a closed week as a break, and no break from one week to the next", () => {
		const counts = [counted(2, 8, 12), counted(3, 6, 12)];
		expect(kept([2, 3], counts)).toEqual([]);
		expect(kept([2, 3], counts, true)[0]).toMatchObject({ weeks: 1, kept: { kept: 6, of: 8 } });
	});

	it("is added up by the length of the break, also of few", () => {
		const rows = keptOverBreaks(club([1, 3, 5], [counted(1, 3, 12), counted(3, 3, 12), counted(5, 2, 12)]));
		expect(keptByWeeks(rows)).toEqual([{ weeks: 1, kept: 5, of: 6, share: wilson(5, 6) }]);
	});
});
