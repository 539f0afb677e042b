/**
 * Changes of the plan that would mend a finding. Only those are offered that are sure to take it away,
 * and that ask for no more minutes than the classes have: `check --what-if` says what else they do.
 */

import type { Block, Curriculum, Id, LinkedDrill, PlanChange, WeekPlan } from "../model.ts";
import { getOrMake } from "./get-or-make.ts";
import { classTime } from "./time.ts";
import { groupWorks, groupWorksIn } from "./work.ts";

/**
 * Minutes that every class has left in a week which does something of a block, or would of one added on
 * an apparatus for these levels; 0 where a class does not say its minutes, or nobody would do it.
 */
export function spareMinutes(
	curriculum: Curriculum,
	plan: WeekPlan,
	does: { readonly block: Block } | { readonly apparatus: Id; readonly levels: readonly Id[] },
): number {
	const works = groupWorksIn(curriculum, plan.week).filter(({ group, blocks }) =>
		"block" in does
			? blocks.some(({ block }) => block === does.block)
			: group.rotation.includes(does.apparatus) && does.levels.some((level) => group.levels.includes(level)),
	);
	const spare = works.map(({ group }) => {
		const { planned, available } = classTime(curriculum, plan, group.class);
		return available === undefined ? 0 : available - planned;
	});
	return spare.length === 0 ? 0 : Math.max(0, Math.min(...spare));
}

/** Minutes of a block that is added, at most and at least. */
const ADDED = { most: 5, least: 3 } as const;

/**
 * A block more in a week, of the first of the drills that all the levels have done before: so it comes
 * after all it builds on. Nothing where there is none, or no time.
 *
 * @param places the apparatus where it may be
 */
export function onceMore(
	curriculum: Curriculum,
	plan: WeekPlan,
	levels: readonly Id[],
	drills: readonly LinkedDrill[],
	places: readonly Id[] = plan.apparatus.map(({ apparatus }) => apparatus),
): readonly PlanChange[] {
	for (const apparatus of places) {
		const drill = drills.find(
			(one) =>
				one.apparatus.includes(apparatus) &&
				levels.every((level) => hasDone(curriculum, level, one.id, plan.week)),
		);
		if (drill === undefined) continue;
		const spare = Math.floor(spareMinutes(curriculum, plan, { apparatus, levels }));
		if (spare < ADDED.least) continue;
		const minutes = Math.min(ADDED.most, spare);
		return [{ add: { week: plan.week, apparatus, block: { drill: drill.id, minutes, levels } } }];
	}
	return [];
}

/** Whether every group of a level that ever does a drill has done it before a week, and one has. */
export function hasDone(curriculum: Curriculum, level: Id, drill: Id, week: number): boolean {
	return (lastFirsts(curriculum).get(`${level} ${drill}`) ?? Number.POSITIVE_INFINITY) < week;
}

const known = new WeakMap<Curriculum, ReadonlyMap<string, number>>();

/** The week by which every group of a level that ever does a drill has done it, by `level drill`. */
function lastFirsts(curriculum: Curriculum): ReadonlyMap<string, number> {
	return getOrMake(known, curriculum, () => {
		const seen = new Set<string>();
		const last = new Map<string, number>();
		for (const { week, group, blocks } of groupWorks(curriculum)) {
			for (const { level, drill } of blocks.flatMap((block) => block.stations)) {
				const key = `${group.name} ${level} ${drill.id}`;
				if (seen.has(key)) continue;
				seen.add(key);
				last.set(`${level} ${drill.id}`, week);
			}
		}
		return last;
	});
}
