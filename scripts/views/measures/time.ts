/**
 * Time as a page: each class week by week, planned against available, and who moves for how long.
 */

import { levelsOf } from "../../compute/levels-of.ts";
import { activeShareOver, type ClassTime, type DrillTime } from "../../compute/time.ts";
import type { Bar } from "../../figures/bar-chart.ts";
import type { TimePoint } from "../../figures/time-line.ts";
import type { ClubClass, Id, WeekPlan } from "../../model.ts";
import type { Words } from "../../words/words.ts";
import { addressOf, classSheetAddress } from "../addresses.ts";
import { type Link, linkTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { type MeasureHead, measureHead } from "./measure-head.ts";

export interface TimeView {
	readonly head: MeasureHead;
	/** The active share of each class over the term, in percent; empty where no class says its minutes. */
	readonly shares: readonly Bar[];
	/** In percent. */
	readonly shareWanted: number | undefined;
	readonly classes: readonly ClassTimes[];
	/** For each level that has anything planned, the minutes of its blocks on each apparatus. */
	readonly apparatus: readonly LevelMinutes[];
}

export interface LevelMinutes {
	readonly id: Id;
	readonly level: Link;
	/** Those that the level works on in some week. */
	readonly apparatus: readonly Link[];
	readonly rows: readonly {
		readonly number: number;
		readonly week: Link;
		/** One for each apparatus. */
		readonly minutes: readonly number[];
		readonly sum: number;
	}[];
}

export interface ClassTimes {
	readonly id: Id;
	readonly link: Link;
	/** Over the weeks that are planned. */
	readonly activeShare: number | undefined;
	readonly points: readonly TimePoint[];
	readonly rows: readonly TimeRow[];
}

export interface TimeRow {
	readonly week: number;
	/** Leads to the class's sheet. */
	readonly sheet: Link;
	readonly planned: number;
	readonly available: number | undefined;
	/** Minutes left; below 0 where the plan asks for more than there is. */
	readonly free: number | undefined;
	readonly activeShare: number | undefined;
	readonly over: boolean;
	readonly still: boolean;
	/** What the share was counted from. */
	readonly drills: readonly TimedDrill[];
}

export interface TimedDrill {
	readonly drill: Link;
	readonly apparatus: string;
	readonly time: DrillTime;
}

/** Minutes such as 0.1 + 0.2 must not pass for more than 0.3. */
const ROUNDING = 1e-9;

/** The page of time. */
export function timeView(site: SiteIndex): TimeView {
	const classes = site.curriculum.term.classes
		.map((group) => classTimesView(site, group))
		.filter((times) => times.rows.length > 0);
	const wanted = site.curriculum.targets.activeShare;
	return {
		head: measureHead(site, "time"),
		classes,
		apparatus: [...site.curriculum.levels.values()]
			.map(({ id, name }) => minutesByApparatus(site, id, name))
			.filter(({ apparatus }) => apparatus.length > 0),
		shareWanted: wanted === undefined ? undefined : wanted * 100,
		shares: classes.flatMap(({ link, activeShare }) => {
			if (activeShare === undefined) return [];
			const under = wanted !== undefined && activeShare < wanted - ROUNDING;
			return [
				{
					name: link.name,
					values: [Math.round(activeShare * 1000) / 10],
					href: link.to,
					...(under ? { note: { words: site.words.time.under, warns: true } } : {}),
				},
			];
		}),
	};
}

/** What each week plans for a level on each apparatus: the minutes of the blocks that count for it. */
function minutesByApparatus(site: SiteIndex, level: Id, name: string): LevelMinutes {
	const { curriculum, words } = site;
	const minutesOn = (plan: WeekPlan, apparatus: Id): number =>
		plan.apparatus
			.filter((one) => one.apparatus === apparatus)
			.flatMap(({ blocks }) => blocks)
			.filter((block) => levelsOf(block, curriculum).includes(level))
			.reduce((sum, { minutes }) => sum + minutes, 0);
	const used = [...curriculum.apparatus.keys()].filter((id) =>
		curriculum.weeks.some((plan) => minutesOn(plan, id) > 0),
	);
	return {
		id: level,
		level: { to: addressOf({ kind: "level", id: level }), name },
		apparatus: used.map((id) => linkTo(curriculum, "apparatus", id)),
		rows: curriculum.weeks.map((plan) => {
			const minutes = used.map((id) => minutesOn(plan, id));
			return {
				number: plan.week,
				week: { to: addressOf({ kind: "week", id: plan.id }), name: words.week(plan.week) },
				minutes,
				sum: minutes.reduce((sum, one) => sum + one, 0),
			};
		}),
	};
}

/** A class week by week. */
export function classTimesView(site: SiteIndex, group: ClubClass): ClassTimes {
	const times = site.measures.times(group.id);
	const rows = times.map((time) => timeRow(site, time));
	return {
		id: group.id,
		link: { to: `classes/${group.id}/`, name: group.name },
		activeShare: activeShareOver(times),
		rows,
		points: rows.map(({ week, planned, available, sheet }) => ({
			name: site.words.week(week),
			short: String(week),
			planned,
			href: sheet.to,
			...(available === undefined ? {} : { available }),
		})),
	};
}

/** One class in one week. */
export function timeRow(site: SiteIndex, time: ClassTime): TimeRow {
	const { curriculum } = site;
	const { planned, available, activeShare } = time;
	const plan = site.weekByNumber.get(time.week);
	const wanted = curriculum.targets.activeShare;
	const free = available === undefined ? undefined : available - planned;
	return {
		week: time.week,
		sheet: {
			to: plan === undefined ? `classes/${time.class}/` : classSheetAddress(time.class, plan.id),
			name: site.words.week(time.week),
		},
		planned,
		available,
		free,
		activeShare,
		over: free !== undefined && free < -ROUNDING,
		still: wanted !== undefined && activeShare !== undefined && activeShare < wanted - ROUNDING,
		drills: time.blocks.flatMap(({ apparatus, drills }) =>
			drills.map((drill) => ({
				drill: linkTo(curriculum, "drill", drill.drill),
				apparatus: linkTo(curriculum, "apparatus", apparatus).name,
				time: drill,
			})),
		),
	};
}

/** "9 min, 2 of 6 move, 6 turns each, 40 s between". */
export function drillTimeWords(words: Words, { minutes, moving, gymnasts, turns, wait }: DrillTime): string {
	return [
		words.min(minutes),
		moving >= gymnasts ? words.time.allMove : words.time.someMove(moving, gymnasts),
		...(turns === undefined ? [] : [words.time.turnsEach(turns)]),
		...(wait === undefined || wait === 0 ? [] : [words.block.wait(wait)]),
	].join(", ");
}
