/**
 * Every change list that a finding offers takes the finding away: each is written out as YAML, read again,
 * made, and the whole plan is counted anew.
 */

import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { mendOf } from "../../scripts/compute/mend.ts";
import { changePlan } from "../../scripts/edit/change-plan.ts";
import { changeList } from "../../scripts/edit/write-changes.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import type { Finding } from "../../scripts/model.ts";
import { FIXTURES } from "../open-fixture.ts";

function opened(dir: string, list?: string): Handbook {
	const { handbook, problems } = openHandbook(
		dir,
		list === undefined ? {} : { change: (files) => changePlan(files, list) },
	);
	if (handbook === undefined) throw new Error(problems.map(({ what }) => what).join("\n"));
	return handbook;
}

/** What a finding is, whatever its words and numbers. */
const same = ({ code, about }: Finding): string => JSON.stringify([code, about]);

/** The change lists that are offered, by code, and what is wrong with a plan after each; nothing where all is well. */
function tried(dir: string) {
	const handbook = opened(dir);
	const offered = handbook.findings.flatMap((one) => {
		const changes = mendOf(handbook, one);
		return changes.length === 0 ? [] : [{ one, list: changeList(changes) }];
	});
	const wrong = offered.flatMap(({ one, list }) => {
		// Problems that are errors throw.
		const after = opened(dir, list).findings;
		return after.some((other) => same(other) === same(one)) ? [`${same(one)}\n${list}`] : [];
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
});
