/**
 * Time as a page: each class week by week, planned against available, and who moves for how long.
 */

import { levelsOf } from "../../compute/levels-of.ts";
import { activeShareOver, type ClassTime, type DrillTime } from "../../compute/time.ts";
import type { ClubClass, Id, WeekPlan } from "../../model.ts";
import type { Words } from "../../words/words.ts";
import { addressOf, classSheetAddress } from "../addresses.ts";
import { linkTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { measureHead } from "./measure-head.ts";

export type TimeView = ReturnType<typeof timeView>;

export type LevelMinutes = ReturnType<typeof minutesByApparatus>;

export type TimeRow = ReturnType<typeof timeRow>;

/** Minutes such as 0.1 + 0.2 must not pass for more than 0.3. */
const ROUNDING = 1e-9;

export function timeView(site: SiteIndex) {
	const classes = site.curriculum.term.classes
		.map((group) => classTimesView(site, group))
		.filter((times) => times.rows.length > 0);
	const wanted = site.curriculum.targets.activeShare;
	return {
		head: measureHead(site, "time"),
		classes,
		/** For each level that has anything planned, the minutes of its blocks on each apparatus. */
		apparatus: [...site.curriculum.levels.values()]
			.map(({ id, name }) => minutesByApparatus(site, id, name))
			.filter(({ apparatus }) => apparatus.length > 0),
		/** In percent. */
		shareWanted: wanted === undefined ? undefined : wanted * 100,
		/** The active share of each class over the term, in percent; empty where no class says its minutes. */
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
function minutesByApparatus(site: SiteIndex, level: Id, name: string) {
	const { curriculum, words } = site;
	const minutesOn = (plan: WeekPlan, apparatus: Id): number =>
		(plan.apparatus.find((one) => one.apparatus === apparatus)?.blocks ?? [])
			.filter((block) => levelsOf(block, curriculum).includes(level))
			.reduce((sum, { minutes }) => sum + minutes, 0);
	const used = [...curriculum.apparatus.keys()].filter((id) =>
		curriculum.weeks.some((plan) => minutesOn(plan, id) > 0),
	);
	return {
		id: level,
		level: { to: addressOf({ kind: "level", id: level }), name },
		/** Those that the level works on in some week. */
		apparatus: used.map((id) => linkTo(curriculum, "apparatus", id)),
		rows: curriculum.weeks.map((plan) => {
			const minutes = used.map((id) => minutesOn(plan, id));
			return {
				number: plan.week,
				week: { to: addressOf({ kind: "week", id: plan.id }), name: words.week(plan.week) },
				/** One for each apparatus. */
				minutes,
				sum: minutes.reduce((sum, one) => sum + one, 0),
			};
		}),
	};
}

/** A class week by week. */
export function classTimesView(site: SiteIndex, group: ClubClass) {
	const times = site.measures.times(group.id);
	const rows = times.map((time) => timeRow(site, time));
	return {
		id: group.id,
		link: { to: `classes/${group.id}/`, name: group.name },
		/** Over the weeks that are planned. */
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

export function timeRow(site: SiteIndex, time: ClassTime) {
	const { curriculum } = site;
	const { planned, available, activeShare } = time;
	const plan = site.weekByNumber.get(time.week);
	const wanted = curriculum.targets.activeShare;
	const free = available === undefined ? undefined : available - planned;
	return {
		week: time.week,
		/** Leads to the class's sheet. */
		sheet: {
			to: plan === undefined ? `classes/${time.class}/` : classSheetAddress(time.class, plan.id),
			name: site.words.week(time.week),
		},
		planned,
		available,
		/** Minutes left; below 0 where the plan asks for more than there is. */
		free,
		activeShare,
		over: free !== undefined && free < -ROUNDING,
		still: wanted !== undefined && activeShare !== undefined && activeShare < wanted - ROUNDING,
		/** What the share was counted from. */
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
