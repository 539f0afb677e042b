/**
 * Every change list that a finding offers takes the finding away: each is written out as YAML, read again,
 * made, and the whole plan is counted anew.
 */

import { rmSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mendOf } from "../../scripts/compute/mend.ts";
import { classTimes } from "../../scripts/compute/time.ts";
import { changePlan } from "../../scripts/edit/change-plan.ts";
import { changeList } from "../../scripts/edit/write-changes.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import type { Finding, SourceFile } from "../../scripts/model.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";
import type { Draft } from "./build-curriculum.ts";
import { club } from "./random-club.ts";
import { writeDraft } from "./write-draft.ts";

function opened(dir: string, list?: string): Handbook {
	const change =
		list === undefined ? {} : { change: (files: readonly SourceFile[]) => changePlan(files, list) };
	const { handbook, problems } = openHandbook(dir, { taught: true, ...change });
	if (handbook === undefined) throw new Error(problems.map(({ what }) => what).join("\n"));
	return handbook;
}

/** What a finding is, whatever its words and numbers. */
const same = ({ code, about }: Finding): string => JSON.stringify([code, about]);

/** Minutes by which classes run over. */
function minutesOver({ curriculum }: Handbook): number {
	return classTimes(curriculum).reduce(
		(sum, { planned, available = planned }) => sum + Math.max(0, planned - available),
		0,
	);
}

/** The change lists that are offered, by code, and what is wrong with a plan after each; nothing where all is well. */
function tried(dir: string, most = Number.POSITIVE_INFINITY) {
	const handbook = opened(dir);
	const offered = handbook.findings
		.flatMap((one) => {
			const changes = mendOf(handbook, one);
			return changes.length === 0 ? [] : [{ one, list: changeList(changes) }];
		})
		.slice(0, most);
	const wrong = offered.flatMap(({ one, list }) => {
		// Problems that are errors throw.
		const after = opened(dir, list);
		const isThere = after.findings.some((other) => same(other) === same(one));
		const isLater = minutesOver(after) > minutesOver(handbook) + 1e-9;
		return isThere || isLater ? [`${same(one)}\n${list}`] : [];
	});
	const lists = Map.groupBy(offered, ({ one }) => one.code);
	return {
		lists: Object.fromEntries([...lists].map(([code, all]) => [code, all.map(({ list }) => list)])),
		wrong,
	};
}

describe("a change list that a finding offers", () => {
	it("takes it away, for each cause of a small club", () => {
		const { lists, wrong } = tried(join(FIXTURES, "clubs/plans-to-mend"));
		expect(wrong).toEqual([]);
		expect(lists).toEqual({
			// The easier drill in some minutes of the harder one, just before it.
			H302: [
				"- add: {week: 2, apparatus: floor, at: 2, block: {drill: hands-down, minutes: 4, levels: [one]}}\n- set: {block: 2/floor/3, minutes: 8}",
			],
			// Weeks 4 and 5 have no free minutes, or fewer; what is added has been done before.
			H303: ["- add: {week: 5, apparatus: floor, block: {drill: dish-hold, minutes: 5, levels: [one]}}"],
			H304: ["- add: {week: 3, apparatus: floor, block: {drill: stand, minutes: 5, levels: [one]}}"],
			H305: ["- add: {week: 5, apparatus: floor, block: {drill: forward-rock, minutes: 5, levels: [one]}}"],
			H306: ["- add: {week: 5, apparatus: floor, block: {drill: forward-rock, minutes: 5, levels: [one]}}"],
			H307: ["- add: {week: 3, apparatus: floor, block: {drill: back-rock, minutes: 5, levels: [one]}}"],
			H308: ["- set: {block: 4/floor/1, minutes: 35}"],
			// More minutes where there are some, else the sets that fit.
			H334: [
				"- set: {block: 3/floor/3, minutes: 12}\n- set: {block: 5/floor/2, dose: {one: {sets: 4, reps: 3}}}",
			],
		});
	});

	it("swaps a drill where no minutes are free, and leaves alone what is kept", () => {
		const draft = (kept: boolean): Draft => {
			const block = (drill: string) => ({ stations: [drill], minutes: 6, ...(kept ? { keep: true } : {}) });
			const drill = (id: string, shape: string) => ({
				id,
				shapes: [shape],
				levels: ["one"],
				apparatus: ["floor"],
			});
			return {
				levels: ["one"],
				apparatus: ["floor"],
				shapes: ["tuck", "dish"],
				drills: [drill("rock", "tuck"), drill("roll", "tuck"), drill("dish-hold", "dish")],
				weeks: {
					1: { floor: [block("dish-hold"), block("rock")] },
					2: { floor: [block("rock"), block("roll")] },
				},
				term: { weeks: 2 },
				classes: [{ id: "c", rotation: ["floor"], gymnasts: 6, minutes: 12, day: "monday" }],
				targets: { shapeWeeks: 2 },
			};
		};
		const lists = [false, true].map((kept) => {
			const dir = writeDraft(draft(kept));
			const found = tried(dir);
			rmSync(dir, { recursive: true });
			expect(found.wrong).toEqual([]);
			return found.lists;
		});
		expect(lists).toEqual([{ H303: ["- swap: {block: 2/floor/1, station: 1, drill: dish-hold}"] }, {}]);
	});

	it("takes it away, for each kind that a plan can mend", () => {
		const lists: Record<string, string | undefined> = {};
		for (const code of Object.keys(FIRST_LISTS)) {
			const found = tried(clubCopy(join(FIXTURES, "problems", code)));
			expect(found.wrong, code).toEqual([]);
			lists[code] = found.lists[code]?.[0];
		}
		expect(lists).toEqual(FIRST_LISTS);
	});

	it.each([
		"bar-at-two-heights",
		"class-to-teach",
		"eight-stations-in-three-minutes",
		"groups-side-by-side",
		"hall-lines",
		"one-minute-opener",
		"options-to-choose-from",
		"ten-landings-then-a-thousand",
		"twice-a-week",
		"undrawn-apparatus",
	])("takes it away in %s", (club) => {
		const { lists, wrong } = tried(join(FIXTURES, "clubs", club));
		expect(Object.keys(lists).length).toBeGreaterThan(0);
		expect(wrong).toEqual([]);
	});

	it("takes it away and asks for no more time, in random clubs", () => {
		let offered = 0;
		fc.assert(
			fc.property(club, (draft: Draft) => {
				const dir = writeDraft(draft);
				const { lists, wrong } = tried(dir, 6);
				rmSync(dir, { recursive: true });
				offered += Object.values(lists).flat().length;
				expect(wrong).toEqual([]);
			}),
			{ numRuns: 12, endOnFailure: true },
		);
		expect(offered).toBeGreaterThan(10);
	});
});

/** The first list of each kind, in the club that stands for the kind. */
const FIRST_LISTS: Readonly<Record<string, string>> = {
	// The two blocks in each other's place.
	H301: "- move: {from: 1/floor/1, to: 1/floor/2}",
	// Without one of the stations that need it.
	H310: "- set: {block: 1/floor/2, stations: [{drill: rock-back, at: [6, 2]}]}",
	// What the step allows.
	H311: "- set: {block: 4/floor/1, dose: {junior: {sets: 1, reps: 5}}}",
	// A turn for everybody.
	H316: "- set: {block: 1/beam/1, minutes: 12}",
	// Where there is room.
	H318: "- set: {block: 1/floor/2, stations: [{drill: wedge-roll, at: [4, 2]}, {drill: rock-back}]}",
	H319: "- set: {block: 1/floor/2, stations: [{drill: wedge-roll, at: [2, 2]}, {drill: rock-back}]}",
	H320: "- set: {block: 1/floor/2, stations: [{drill: wedge-roll}, {drill: rock-back, at: [7, 2]}]}",
	H333: "- set: {block: 1/floor/2, stations: [{drill: rock-back, at: [6, 2]}]}",
	// A hold that the turn has time for.
	H335: "- set: {block: 1/floor/1, dose: {junior: {hold: 2}}}",
	H340: "- set: {block: 1/floor/1, dose: {junior: {sets: 1}}}",
	H344: "- set: {block: 1/floor/2, minutes: 3}",
	// What was missed, before what builds on it, in the week to come.
	H350: "- add: {week: 2, apparatus: floor, at: 1, block: {drill: rock, minutes: 4, levels: [junior, senior]}}\n- set: {block: 2/floor/2, minutes: 16}",
};
