/**
 * A list followed in memory makes the plan that it makes in the files, and what it does to the findings is
 * counted as if the files had been read again.
 */

import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareFindings, identityOf } from "../../scripts/compute/compare-findings.ts";
import { getOrMake } from "../../scripts/compute/get-or-make.ts";
import { measure } from "../../scripts/compute/measures.ts";
import { ChangeFault, changedPlan } from "../../scripts/compute/plan-changes.ts";
import { changePlan, readChanges } from "../../scripts/edit/change-plan.ts";
import { changeTexts } from "../../scripts/edit/change-texts.ts";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { changeList } from "../../scripts/edit/write-changes.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import type { Curriculum, PlanChange, SourceFile } from "../../scripts/model.ts";
import type { ReadCache } from "../../scripts/read/read-club.ts";
import { demoHandbook } from "../demo.ts";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { cases } from "../random-cases.ts";

/** What was read of each club: the lists are followed in memory, its files stay as they are. */
const caches = new Map<string, ReadCache>();

function opened(dir: string, list?: string): Handbook | undefined {
	const cache = getOrMake(caches, dir, () => new Map());
	const change =
		list === undefined ? {} : { change: (files: readonly SourceFile[]) => changePlan(files, list) };
	return openHandbook(dir, { cache, ...change }).handbook;
}

/** Weeks without where they were read. */
function plansOf({ weeks }: Curriculum) {
	return weeks.map(({ week, theme, apparatus }) => ({ week, theme, apparatus }));
}

/** Changes that can be made in a plan, drawn from numbers. */
function drawn({ weeks, drills }: Curriculum, numbers: readonly number[]): readonly PlanChange[] {
	const [kind = 0, a = 0, b = 0, c = 0, d = 0] = numbers;
	const pick = <T>(list: readonly T[], n: number): T => list[n % list.length] as T;
	const places = weeks.flatMap(({ week, apparatus }) =>
		apparatus.flatMap((on) =>
			on.blocks.map((block) => ({
				week,
				apparatus: on.apparatus,
				on,
				block,
				name: `${week}/${on.apparatus}/${block.number}`,
			})),
		),
	);
	const place = pick(places, a);
	const here = places.filter((one) => one.apparatus === place.apparatus);
	const able = [...drills.values()].filter((drill) => drill.apparatus.includes(place.apparatus));
	const { block, name, week, apparatus } = place;
	const { stations } = block;
	switch (kind) {
		case 0:
			return [
				{ set: { block: name, minutes: block.minutes + 1 + (b % 5), ...(c % 2 === 0 ? { show: 1 } : {}) } },
			];
		case 1: {
			const station = block.kind === "drill" ? {} : { station: 1 + (b % stations.length) };
			return [{ swap: { block: name, ...station, drill: pick(able, c).id } }];
		}
		case 2:
			return [{ exchange: [name, pick(here, b).name] }];
		case 3:
			return [{ move: { from: name, to: `${pick(here, b).week}/${apparatus}/1` } }];
		case 4: {
			const at = b % 2 === 0 ? {} : { at: 1 + (d % place.on.blocks.length) };
			return [{ add: { week, apparatus, ...at, block: { drill: pick(able, c).id, minutes: 4 } } }];
		}
		case 5:
			return place.on.blocks.length > 1 ? [{ remove: name }] : [];
		case 6:
			return block.kind === "stations" && stations.length > 1
				? [{ split: { block: name, after: 1 + (b % (stations.length - 1)), minutes: [7, 6] } }]
				: [];
		default:
			return [{ exchange: [week, pick(weeks, b).week] }];
	}
}

const CLUBS = [
	"plans-to-mend",
	"hall-lines",
	"options-to-choose-from",
	"twice-a-week",
	"groups-side-by-side",
];

describe("a change list in memory", () => {
	it.each([...CLUBS.map((club) => join(FIXTURES, "clubs", club)), REPOSITORY])(
		"is that of the files: %s",
		(dir) => {
			const start = opened(dir);
			if (start === undefined) throw new Error("a club with errors");
			fc.assert(
				fc.property(
					fc.array(fc.array(fc.nat(), { minLength: 5, maxLength: 5 }), { minLength: 1, maxLength: 4 }),
					(all) => {
						let { curriculum } = start;
						const changes: PlanChange[] = [];
						for (const [kind = 0, ...more] of all) {
							const next = drawn(curriculum, [kind % 8, ...more]);
							curriculum = changedPlan(curriculum, next);
							changes.push(...next);
						}
						const read = opened(dir, changeList(changes) || "[]");
						// A level that its drill does not offer, a spot twice: the files say what is wrong with that.
						fc.pre(read !== undefined && changes.length > 0);
						const counted = measure(changedPlan(start.curriculum, changes));
						expect(plansOf(counted.curriculum)).toEqual(plansOf(read.curriculum));
						expect(plansOf(curriculum)).toEqual(plansOf(read.curriculum));
						const words = read.findings.map((one) => `${identityOf(one)} ${one.what}`).sort();
						expect(counted.findings.map((one) => `${identityOf(one)} ${one.what}`).sort()).toEqual(words);
						const { gone, came, changed } = compareFindings(start.findings, counted.findings);
						expect(start.findings.length - gone.length + came.length).toBe(read.findings.length);
						expect(words).toEqual(
							expect.arrayContaining(came.map((one) => `${identityOf(one)} ${one.what}`)),
						);
						for (const { before, after } of changed) expect(identityOf(before)).toBe(identityOf(after));
					},
				),
				{ numRuns: cases(dir === REPOSITORY ? 12 : 25) },
			);
		},
	);

	it("leaves what it does not touch the same objects, and what was counted for them", () => {
		const { curriculum } = demoHandbook();
		const after = changedPlan(curriculum, [{ set: { block: "3/bars/2", minutes: 18 } }]);
		for (const [i, week] of after.weeks.entries()) expect(week === curriculum.weeks[i]).toBe(week.week !== 3);
		expect(changedPlan(curriculum, [])).toBe(curriculum);
		expect(measure(after).findings.length).toBeGreaterThan(0);
	});

	it.each([
		[[{ remove: "3/beam/9" }], /^Change 1: there is no block 3\/beam\/9/],
		[
			[{ add: { week: 3, apparatus: "bars", block: { drill: "beam-passe-stand", minutes: 4 } } }],
			/is not done on Bars/,
		],
		[
			[{ set: { block: "3/beam/1", minutes: 5 } }, { remove: "30/beam/1" }],
			/^Change 2: week 30 is not planned/,
		],
		[[{ exchange: [3, 40] }], /week 40 is not planned/],
		[
			[{ add: { week: 3, apparatus: "beam", block: { drill: "beam-passe-stnd", minutes: 4 } } }],
			/Did you mean `beam-passe-stand`/,
		],
	] as const)("%j is refused in words", (changes, message) => {
		const { curriculum } = demoHandbook();
		expect(() => changedPlan(curriculum, changes)).toThrow(ChangeFault);
		expect(() => changedPlan(curriculum, changes)).toThrow(message);
	});

	it.each([
		[{ exchange: [3, "3/beam/1"] }, /takes two blocks/],
		[{ move: { from: "3/beam/1" } }, /needs from and to/],
		[{ add: { week: 3, apparatus: "beam", at: "2", block: {} } }, /`at` is the number/],
		[{ set: { minutes: 4 } }, /needs a block/],
		[{ split: { block: "3/beam/1", after: 1, minutes: 8 } }, /minutes of both blocks/],
		[{ swap: { block: "3/beam/1", drill: 7 } }, /needs a drill/],
		[{ remove: "3/beam/1", move: {} }, /has one of the names/],
	])("%j from a page is refused in words", (change, message) => {
		expect(() => readChanges([change])).toThrow(ChangeFault);
		expect(() => readChanges([change])).toThrow(message);
	});

	it("writes two weeks in each other's place as it has them in memory", () => {
		const { curriculum } = demoHandbook();
		const changes = [{ exchange: [3, 5] }] as const;
		const texts = changeTexts(readTexts(REPOSITORY), changes);
		const themes = changedPlan(curriculum, changes).weeks.map(({ week, theme }) => `${week} ${theme}`);
		for (const week of [3, 5]) {
			const text = texts.get(`content/weeks/week-0${week}.md`) ?? "";
			const [, number] = /^week: (\d+)/m.exec(text) ?? [];
			const [, theme] = /^theme: (.*)/m.exec(text) ?? [];
			expect(themes).toContain(`${number} ${theme?.replaceAll('"', "")}`);
			expect(Number(number)).toBe(week);
		}
	});
});
