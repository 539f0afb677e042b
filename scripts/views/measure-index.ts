/**
 * What the measures say, ready to be looked up by a page: each is counted once for a build, when the
 * first page asks for it, and found by its key from then on.
 */

import { type DirectionBalance, directionBalances } from "../compute/balance.ts";
import { type CoverageKind, type CoverageTable, coverage } from "../compute/coverage.ts";
import { type Clash, clashes } from "../compute/equipment.ts";
import { exposuresOf } from "../compute/exposures.ts";
import { getOrMake, once } from "../compute/get-or-make.ts";
import { type GroupLoad, groupLoads } from "../compute/load.ts";
import type { Measured } from "../compute/measure.ts";
import {
	gapWanted,
	isExpected,
	type SpacedKind,
	type Spacing,
	spacings,
	weeksWanted,
} from "../compute/spacing.ts";
import { type Suggestion, suggestions } from "../compute/suggest.ts";
import { type ClassTime, classTimes } from "../compute/time.ts";
import type { MapSkill } from "../figures/progression-map.ts";
import type { Exposure, Id } from "../model.ts";
import { addressOf } from "./addresses.ts";

/** How one thing at one level stands against the club's targets for it. */
export interface Standing {
	readonly spacing: Spacing;
	/** Whether a target is missed. Nothing misses one that the level is not expected to train. */
	readonly tooFew: boolean;
	readonly tooFar: boolean;
}

export interface MeasureIndex {
	/** Every shape and skill that a level meets or should meet, in the club's order. */
	standings(kind: SpacedKind, level: Id): readonly Standing[];
	/** The same by thing, lowest level first. */
	standingsOf(kind: SpacedKind, id: Id): readonly Standing[];
	/** Week by thing, of one level or of all. */
	coverage(kind: CoverageKind, level: Id | undefined): CoverageTable;
	loads(): readonly GroupLoad[];
	/** Of each group in a week, as in the term. */
	loadsIn(week: number): readonly GroupLoad[];
	/** Where a drill is done, in the order of the term. */
	exposures(drill: Id): readonly Exposure[];
	balances(): readonly DirectionBalance[];
	balancesIn(week: number): readonly DirectionBalance[];
	/** Of one class, by week. */
	times(group: Id): readonly ClassTime[];
	clashes(): readonly Clash[];
	suggestion(week: number, level: Id, apparatus: Id): Suggestion;
	/** All skills as the boxes of a progression picture; addresses from the root of the site. */
	mapSkills(): readonly MapSkill[];
}

/** Counts nothing yet. */
export function indexMeasures(measured: Measured): MeasureIndex {
	const { curriculum } = measured;
	const planned = curriculum.weeks.length > 0;
	const standings = once(() =>
		spacings(measured).map((spacing): Standing => {
			const weeks = weeksWanted(curriculum, spacing.kind);
			const gap = gapWanted(curriculum, spacing.kind);
			const { taught, longestGap } = spacing;
			const judged = planned && isExpected(curriculum, spacing.kind, spacing.id, spacing.level);
			return {
				spacing,
				tooFew: judged && weeks !== undefined && taught.length < weeks,
				tooFar: judged && gap !== undefined && longestGap !== undefined && longestGap > gap,
			};
		}),
	);
	const byLevel = once(() => Map.groupBy(standings(), ({ spacing: s }) => `${s.kind} ${s.level}`));
	const byThing = once(() => Map.groupBy(standings(), ({ spacing: s }) => `${s.kind} ${s.id}`));
	const tables = new Map<string, CoverageTable>();
	const allLoads = once(() => groupLoads(curriculum));
	const loadsByWeek = once(() => Map.groupBy(allLoads(), (load) => load.week));
	const balances = once(() => directionBalances(measured));
	const balancesByWeek = once(() => Map.groupBy(balances(), (b) => b.week));
	const times = once(() => Map.groupBy(classTimes(curriculum), (time) => time.class));
	const suggest = once(() => suggestions(measured));
	const suggested = new Map<string, Suggestion>();
	return {
		standings: (kind, level) => byLevel().get(`${kind} ${level}`) ?? [],
		standingsOf: (kind, id) => byThing().get(`${kind} ${id}`) ?? [],
		coverage: (kind, level) =>
			getOrMake(tables, `${kind} ${level ?? ""}`, () =>
				coverage(measured, kind, "week", level === undefined ? undefined : (e) => e.level === level),
			),
		loads: allLoads,
		loadsIn: (week) => loadsByWeek().get(week) ?? [],
		exposures: (drill) =>
			curriculum.drills.get(drill)?.planned.length ? exposuresOf(curriculum, drill) : [],
		balances,
		balancesIn: (week) => balancesByWeek().get(week) ?? [],
		times: (group) => times().get(group) ?? [],
		clashes: once(() => clashes(curriculum)),
		suggestion: (week, level, apparatus) =>
			getOrMake(suggested, `${week} ${level} ${apparatus}`, () => suggest()(week, level, apparatus)),
		mapSkills: once(() =>
			Array.from(curriculum.skills.values(), ({ id, name, needs }) => ({
				id,
				name,
				needs,
				href: addressOf({ kind: "skill", id }),
				...(planned
					? {
							first: (byThing().get(`skill ${id}`) ?? []).flatMap(({ spacing: { level, first } }) =>
								first === undefined
									? []
									: [{ level: curriculum.levels.get(level)?.name ?? level, week: first }],
							),
						}
					: {}),
			})),
		),
	};
}
