/**
 * Time: whether a week fits into each class, and how much of it each gymnast spends moving.
 *
 * Steps: for a class in a week, walk the apparatus of its rotation and the blocks that count for one
 * of its levels; share the class out over the stations; work out minutes, turns and waiting at each
 * drill; add up. A class's week is held against its minutes and the club's target of activity.
 *
 * A share of several classes or weeks is the ratio of their sums, never the mean of their ratios.
 */

import { originalOf } from "../link/join-records.ts";
import type { Block, ClubClass, Curriculum, DataPath, Finding, Id, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import { meets } from "./calendar.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";
import { groupsOfClass } from "./groups.ts";
import type { Measure } from "./measure.ts";
import { aboutGroup, apparatusName, drillName, groupName } from "./names.ts";
import { tableOf } from "./tables.ts";
import { type BlockWork, eatenUp, type GroupWork, groupWorks, type StationWork, workOf } from "./work.ts";

/** A drill as one class does it in one block. */
export type DrillTime = ReturnType<typeof drillTime>;

/** A block as one group of a class does it. */
export interface BlockTime {
	readonly apparatus: Id;
	readonly block: Block;
	/** The group's name, `class` or `class/group`. */
	readonly group: string;
	/** The stations that count for any of the group's levels. */
	readonly drills: readonly DrillTime[];
}

export interface ClassTime {
	readonly week: number;
	readonly class: Id;
	/** In the order in which each group does them, group after group. */
	readonly blocks: readonly BlockTime[];
	/** Warm-up, blocks, the ways between apparatus and cool-down, in minutes; of groups at the same time, the longest. */
	readonly planned: number;
	/** The class's minutes, where it says them. */
	readonly available: number | undefined;
	/** Minutes in which a gymnast is known to move: the warm-up, and her part of each drill with a `turn`. */
	readonly activeMinutes: number;
	/** Minutes of drills without `turn`: nobody knows who moves. */
	readonly unknownMinutes: number;
	/** Active minutes over the class's minutes less the unknown; undefined where there is nothing to divide by. */
	readonly activeShare: number | undefined;
	/** Unknown minutes over the class's minutes. */
	readonly unknownShare: number | undefined;
	/** Drills that its gymnasts do for the first time; of groups at the same time, those of the group that meets most. */
	readonly newDrills: readonly Id[];
}

/**
 * One class in one week. Blocks on an apparatus that stands twice in a rotation count once.
 */
export function classTime(curriculum: Curriculum, plan: WeekPlan, one: ClubClass): ClassTime {
	return getOrMake(timesOf(curriculum)(plan), one, () => ({
		...timeWithoutNew(curriculum, plan, one),
		newDrills: newDrillsOf(curriculum).get(`${one.id} ${plan.week}`) ?? [],
	}));
}

/** The same without what hangs on the weeks before. */
export function timeWithoutNew(curriculum: Curriculum, plan: WeekPlan, one: ClubClass) {
	return getOrMake(withoutNew(originalOf(curriculum))(plan), one, () => countTime(curriculum, plan, one));
}

/** The table, the findings, the timetable and the pages all ask for the same times. */
const timesOf = onceEach((_: Curriculum) => onceEach((_plan: WeekPlan) => new Map<ClubClass, ClassTime>()));
const withoutNew = onceEach((_original: Curriculum) =>
	onceEach((_plan: WeekPlan) => new Map<ClubClass, Omit<ClassTime, "newDrills">>()),
);

function countTime(curriculum: Curriculum, plan: WeekPlan, one: ClubClass): Omit<ClassTime, "newDrills"> {
	const parts = groupsOfClass(curriculum, one).map((group) => {
		const work = workOf(curriculum, plan, group);
		const blocks = work.blocks.map(
			({ apparatus, block, stations }): BlockTime => ({
				apparatus,
				block,
				group: group.name,
				drills: stations.map(drillTime),
			}),
		);
		const drills = blocks.flatMap((block) => block.drills);
		return {
			gymnasts: group.gymnasts,
			blocks,
			minutes: work.minutes,
			active: one.warmUp + sum(drills.map((d) => d.activeMinutes)),
			unknown: sum(drills.map((d) => (d.turns === undefined ? d.minutes : 0))),
		};
	});
	// Of several groups each gymnast counts once: the sums are means over gymnasts.
	const gymnasts = sum(parts.map((part) => part.gymnasts));
	const mean = (of: "active" | "unknown"): number =>
		gymnasts === 0 ? 0 : sum(parts.map((part) => part[of] * part.gymnasts)) / gymnasts;
	const longest = Math.max(0, ...parts.map(({ minutes }) => minutes));
	const available = one.minutes;
	const activeMinutes = mean("active");
	const unknownMinutes = mean("unknown");
	const known = available === undefined ? 0 : available - unknownMinutes;
	return {
		week: plan.week,
		class: one.id,
		blocks: parts.flatMap((part) => part.blocks),
		planned: one.warmUp + longest + one.coolDown,
		available,
		activeMinutes,
		unknownMinutes,
		activeShare: known <= 1e-9 ? undefined : activeMinutes / known,
		unknownShare: available === undefined || available === 0 ? undefined : unknownMinutes / available,
	};
}

/** The drills that are new to a class in a week, by `class week`: its gymnasts did them neither here nor on another day. */
const newDrillsOf = onceEach((curriculum: Curriculum): ReadonlyMap<string, readonly Id[]> => {
	const met = new Map<string, Set<Id>>();
	const found = new Map<string, readonly Id[]>();
	const works = [...groupWorks(curriculum)].sort(
		(a, b) => a.week - b.week || a.group.session - b.group.session,
	);
	for (const { week, group, blocks } of works) {
		const seen = met.get(group.gymnastsId) ?? new Set<Id>();
		met.set(group.gymnastsId, seen);
		const drills = new Set(blocks.flatMap((block) => block.stations.map(({ drill }) => drill.id)));
		const fresh = [...drills].filter((drill) => !seen.has(drill));
		for (const drill of fresh) seen.add(drill);
		// Nobody meets what the group beside hers meets.
		const key = `${group.class.id} ${week}`;
		const most = found.get(key);
		if (most === undefined || fresh.length > most.length) found.set(key, fresh);
	}
	return found;
});

/** Every class in every planned week in which it meets and has something to do, by week, then in the club's order. */
export function classTimes(curriculum: Curriculum): readonly ClassTime[] {
	return curriculum.weeks.flatMap((plan) =>
		curriculum.term.classes
			.filter((group) => meets(curriculum.term, plan.week, group))
			.map((group) => classTime(curriculum, plan, group))
			.filter((time) => time.blocks.length > 0),
	);
}

/** The active share of several classes and weeks together: the sum of active minutes over the sum of known minutes. */
export function activeShareOver(
	times: readonly Pick<ClassTime, "activeMinutes" | "unknownMinutes" | "available">[],
): number | undefined {
	const known = times.filter((time) => time.available !== undefined);
	const minutes = sum(known.map((time) => (time.available ?? 0) - time.unknownMinutes));
	return minutes <= 1e-9 ? undefined : sum(known.map((time) => time.activeMinutes)) / minutes;
}

/** A drill's minutes, turns and waiting, of a station as a group does it. */
export function drillTime({ drill, station, minutes, gymnasts, turns }: StationWork) {
	const { turn } = drill;
	const moving = turn === undefined ? gymnasts : Math.min(turn.atOnce, gymnasts);
	const activeMinutes = turn === undefined ? 0 : (minutes * moving) / gymnasts;
	return {
		drill: drill.id,
		/** Counted from 1 among the block's stations as written. */
		station,
		minutes,
		/** Gymnasts at this drill at the same time. */
		gymnasts,
		/** Gymnasts who move at once: `at-once`, at most all; all of them may where the drill has no `turn`. */
		moving,
		/** Turns each gymnast gets; undefined where the drill has no `turn`. */
		turns,
		/** Seconds from the end of a gymnast's turn to her next; undefined where the drill has no `turn`. */
		wait: turn === undefined ? undefined : turn.seconds * Math.max(0, gymnasts / turn.atOnce - 1),
		/** Minutes of this drill in which a gymnast moves, and in which she waits. */
		activeMinutes,
		waitingMinutes: turn === undefined ? 0 : minutes - activeMinutes,
	};
}

/** time.csv, and H308, H309, H313, H316, H341 and H344. */
export const timeMeasure: Measure = {
	name: "time",
	tables: ({ curriculum }) => [
		tableOf(curriculum, "time", classTimes(curriculum), {
			week: (t) => t.week,
			class: (t) => t.class,
			planned: (t) => t.planned,
			available: (t) => t.available,
			"active-share": (t) => t.activeShare,
			"unknown-share": (t) => t.unknownShare,
			"new-drills": (t) => t.newDrills.length,
		}),
	],
	findings: ({ curriculum }, words) => [
		...curriculum.weeks.flatMap((plan) =>
			curriculum.term.classes.flatMap((group) =>
				// A class without a rotation does not say where it goes; one that a closed day cancels has no time.
				group.rotation.length > 0 && meets(curriculum.term, plan.week, group)
					? findingsOf(curriculum, plan, group, words)
					: [],
			),
		),
		...eatenBlocks(curriculum, words),
	],
};

/** Blocks of which showing and changing leave nothing, one finding for each with the groups it is so for. */
function eatenBlocks(curriculum: Curriculum, words: Words): readonly Finding[] {
	const found = groupWorks(curriculum).flatMap((work) =>
		work.blocks.flatMap((block) => {
			const eaten = eatenUp(block);
			return eaten === undefined ? [] : [{ work, block, eaten }];
		}),
	);
	const same = Map.groupBy(
		found,
		({ work, block, eaten }) => `${work.week} ${block.apparatus} ${block.block.number} ${eaten.stations}`,
	);
	return [...same.values()].flatMap((list) => {
		const [first] = list;
		return first === undefined ? [] : [eatenBlock(curriculum, first, list, words)];
	});
}

function eatenBlock(
	curriculum: Curriculum,
	{ work: { week, group }, block: { apparatus, block }, eaten }: EatenPlace,
	all: readonly EatenPlace[],
	words: Words,
): Finding {
	const place = { week, apparatus: apparatusName(curriculum, apparatus), block: block.number };
	const names = all.map(({ work }) => groupName(words, work.group));
	return finding(
		words,
		"H344",
		"serious",
		words.findings.time.eaten(place, names, eaten),
		{ source: sourceOfWeek(curriculum, week), path: block.path },
		{ week, apparatus, ...(all.length === 1 ? aboutGroup(group) : {}) },
		undefined,
		all.length,
	);
}

interface EatenPlace {
	readonly work: GroupWork;
	readonly block: BlockWork;
	readonly eaten: NonNullable<ReturnType<typeof eatenUp>>;
}

/** A class in a week, and the words for what is found there. */
interface InClass {
	readonly curriculum: Curriculum;
	readonly plan: WeekPlan;
	readonly group: ClubClass;
	readonly time: ClassTime;
	readonly words: Words;
}

function findingsOf(
	curriculum: Curriculum,
	plan: WeekPlan,
	group: ClubClass,
	words: Words,
): readonly Finding[] {
	const time = classTime(curriculum, plan, group);
	if (time.blocks.length === 0) {
		return [
			finding(
				words,
				"H313",
				"serious",
				words.findings.time.nothing(group.name, plan.week),
				{ source: plan.source, path: ["apparatus"] },
				{ week: plan.week, class: group.id },
			),
		];
	}
	const here = { curriculum, plan, group, time, words };
	return [...tooLong(here), ...tooStill(here), ...noTurn(here), ...tooNew(here)];
}

function tooNew({ curriculum, plan, group, time: { newDrills }, words }: InClass): readonly Finding[] {
	const most = curriculum.targets.newDrills;
	// In the first week everything is new.
	if (most === undefined || newDrills.length <= most || plan.week === curriculum.weeks[0]?.week) return [];
	return [
		finding(
			words,
			"H341",
			"worth a look",
			words.findings.hall.newDrills(group.name, plan.week, newDrills.length, most),
			{ source: plan.source, path: ["apparatus"] },
			{ week: plan.week, class: group.id },
		),
	];
}

function tooLong({ curriculum, plan, group, time, words }: InClass): readonly Finding[] {
	const say = words.findings.time;
	const { planned, available } = time;
	// Minutes such as 0.1 + 0.2 must not pass for more than 0.3.
	if (available === undefined || planned <= available + 1e-9) return [];
	const minutesOf = (blocks: readonly BlockTime[]) => sum(blocks.map((b) => b.block.minutes));
	// Groups work at the same time: the parts are those of the one that takes longest.
	const own = [...Map.groupBy(time.blocks, (b) => b.group).values()].reduce((a, b) =>
		minutesOf(b) > minutesOf(a) ? b : a,
	);
	const sums = [...Map.groupBy(own, (b) => b.apparatus)].map(([apparatus, blocks]) => ({
		apparatus,
		minutes: minutesOf(blocks),
	}));
	const ways = planned - group.warmUp - group.coolDown - minutesOf(own);
	const longest = sums.reduce((a, b) => (b.minutes > a.minutes ? b : a));
	const parts = [
		...(group.warmUp > 0 ? [say.before(group.warmUp)] : []),
		...sums.map((s) => `${words.number(s.minutes)} ${apparatusName(curriculum, s.apparatus)}`),
		...(ways > 1e-9 ? [say.between(ways)] : []),
		...(group.coolDown > 0 ? [say.after(group.coolDown)] : []),
	];
	return [
		finding(
			words,
			"H308",
			"serious",
			say.tooLong(group.name, plan.week, planned, available, parts),
			{ source: plan.source, path: ["apparatus", longest.apparatus] },
			{ week: plan.week, class: group.id },
			say.takeOut(planned - available, apparatusName(curriculum, longest.apparatus)),
		),
	];
}

function tooStill({ curriculum, plan, group, time, words }: InClass): readonly Finding[] {
	const say = words.findings.time;
	const target = curriculum.targets.activeShare;
	const { activeShare, available = 0, activeMinutes, planned } = time;
	if (target === undefined || activeShare === undefined || activeShare >= target - 1e-9) return [];
	const waits = time.blocks
		.flatMap(({ apparatus, block, drills }) => drills.map((drill) => ({ apparatus, block, drill })))
		.sort((a, b) => b.drill.waitingMinutes - a.drill.waitingMinutes)
		.filter(({ drill }) => drill.waitingMinutes > 0);
	const worst = waits[0];
	const empty = Math.max(0, available - planned);
	const cure =
		worst === undefined
			? say.nobodyWaits
			: empty > worst.drill.waitingMinutes
				? say.planRest(empty)
				: (worst.block.kind === "stations" ? say.beside : say.split)(
						drillName(curriculum, worst.drill.drill),
					);
	return [
		finding(
			words,
			"H309",
			"worth a look",
			say.tooStill(group.name, plan.week, {
				active: activeMinutes,
				available: available - time.unknownMinutes,
				share: activeShare,
				target,
				empty,
				waits: waits.slice(0, 3).map(({ drill }) => ({
					drill: drillName(curriculum, drill.drill),
					minutes: drill.waitingMinutes,
				})),
			}),
			{ source: plan.source, path: worst?.block.path ?? ["apparatus"] },
			{ week: plan.week, class: group.id },
			cure,
		),
	];
}

function noTurn({ curriculum, plan, group, time, words }: InClass): readonly Finding[] {
	return time.blocks.flatMap(({ apparatus, block, drills }) =>
		drills
			// Where nothing is left of the block, that is the one cause.
			.filter((drill) => drill.turns === 0 && drill.minutes > 0)
			.map((drill) =>
				finding(
					words,
					"H316",
					"worth a look",
					words.findings.time.noTurn(
						{ group: group.name, week: plan.week, apparatus: apparatusName(curriculum, apparatus) },
						drill.minutes,
						drillName(curriculum, drill.drill),
						drill.gymnasts,
					),
					{ source: plan.source, path: stationPath(block, drill.station) },
					{ week: plan.week, class: group.id, apparatus, drill: drill.drill },
				),
			),
	);
}

/** Where a station's drill is written. */
export function stationPath(block: Block, station: number): DataPath {
	return block.kind === "drill" ? [...block.path, "drill"] : [...block.path, block.kind, station - 1];
}

function sum(values: readonly number[]): number {
	return values.reduce((total, value) => total + value, 0);
}
