/**
 * Time: whether a week fits into each class, and how much of it each gymnast spends moving.
 *
 * Steps: for a class in a week, walk the apparatus of its rotation and the blocks that count for one
 * of its levels; share the class out over the stations; work out minutes, turns and waiting at each
 * drill; add up. A class's week is held against its minutes and the club's target of activity.
 *
 * A share of several classes or weeks is the ratio of their sums, never the mean of their ratios.
 */

import type { Block, ClubClass, Column, Curriculum, DataPath, Finding, Id, WeekPlan } from "../model.ts";
import type { Words } from "../words/words.ts";
import { meets } from "./calendar.ts";
import { stationMinutes } from "./exposures.ts";
import { finding } from "./finding.ts";
import type { Measure } from "./measure.ts";
import { sortedRows } from "./tables.ts";

/** A drill as one class does it in one block. */
export interface DrillTime {
	readonly drill: Id;
	/** Counted from 1 among the block's stations as written. */
	readonly station: number;
	readonly minutes: number;
	/** Gymnasts at this drill at the same time. */
	readonly gymnasts: number;
	/** Gymnasts who move at once: `at-once`, at most all; all of them where the drill has no `turn`. */
	readonly moving: number;
	/** Turns each gymnast gets; undefined where the drill has no `turn`. */
	readonly turns: number | undefined;
	/** Seconds from the end of a gymnast's turn to her next; undefined where the drill has no `turn`. */
	readonly wait: number | undefined;
	/** Minutes of this drill in which a gymnast moves, and in which she waits. */
	readonly activeMinutes: number;
	readonly waitingMinutes: number;
}

/** A block as one class does it. */
export interface BlockTime {
	readonly apparatus: Id;
	readonly block: Block;
	/** The stations that count for any of the class's levels. */
	readonly drills: readonly DrillTime[];
}

/** One class in one week. */
export interface ClassTime {
	readonly week: number;
	readonly class: Id;
	/** In the order in which the class does them. */
	readonly blocks: readonly BlockTime[];
	/** Warm-up, blocks and cool-down, in minutes. */
	readonly planned: number;
	/** The class's minutes, where it says them. */
	readonly available: number | undefined;
	/** Warm-up and the minutes of each drill in which a gymnast moves. */
	readonly activeMinutes: number;
	/** Active minutes over the class's minutes; undefined where the class does not say them. */
	readonly activeShare: number | undefined;
}

/** The levels of a class: those it names, or all. */
export function levelsOfClass(curriculum: Curriculum, group: ClubClass): readonly Id[] {
	return group.levels.length === 0 ? [...curriculum.levels.keys()] : group.levels;
}

/**
 * The stations of a block, by their position, that count for any of the levels: the block names the
 * level or none, and the station's drill offers it. A block of one drill is a block of one station.
 */
export function stationsFor(curriculum: Curriculum, block: Block, levels: readonly Id[]): readonly number[] {
	const named = block.levels.length === 0 ? levels : levels.filter((level) => block.levels.includes(level));
	const stations: number[] = [];
	if (named.length === 0) return stations;
	for (const [i, station] of block.stations.entries()) {
		const offered = curriculum.drills.get(station.drill)?.levels;
		if (offered !== undefined && named.some((level) => offered.has(level))) stations.push(i);
	}
	return stations;
}

/** Gymnasts at each of n stations: the class over n, rounded up. */
export function gymnastsAt(gymnasts: number, stations: number): number {
	return Math.ceil(gymnasts / stations);
}

/**
 * One class in one week. Blocks on an apparatus that stands twice in a rotation count once.
 */
export function classTime(curriculum: Curriculum, plan: WeekPlan, group: ClubClass): ClassTime {
	let times = timesOf.get(curriculum);
	if (times === undefined) {
		times = new Map();
		timesOf.set(curriculum, times);
	}
	let ofWeek = times.get(plan);
	if (ofWeek === undefined) {
		ofWeek = new Map();
		times.set(plan, ofWeek);
	}
	let time = ofWeek.get(group);
	if (time === undefined) {
		time = countTime(curriculum, plan, group);
		ofWeek.set(group, time);
	}
	return time;
}

/** A curriculum never changes; the table, the findings, the timetable and the pages all ask for the same times. */
const timesOf = new WeakMap<Curriculum, Map<WeekPlan, Map<ClubClass, ClassTime>>>();

function countTime(curriculum: Curriculum, plan: WeekPlan, group: ClubClass): ClassTime {
	const levels = levelsOfClass(curriculum, group);
	const blocks: BlockTime[] = [];
	for (const apparatus of new Set(group.rotation)) {
		for (const block of plan.apparatus.find((p) => p.apparatus === apparatus)?.blocks ?? []) {
			const drills = drillTimes(curriculum, block, levels, group.gymnasts);
			if (drills.length > 0) blocks.push({ apparatus, block, drills });
		}
	}
	const worked = sum(blocks.map(({ block }) => block.minutes));
	const moved = sum(blocks.flatMap(({ drills }) => drills.map((d) => d.activeMinutes)));
	const activeMinutes = group.warmUp + moved;
	const available = group.minutes;
	return {
		week: plan.week,
		class: group.id,
		blocks,
		planned: group.warmUp + worked + group.coolDown,
		available,
		activeMinutes,
		activeShare: available === undefined || available === 0 ? undefined : activeMinutes / available,
	};
}

/** Every class in every planned week in which it has something to do, by week, then in the club's order. */
export function classTimes(curriculum: Curriculum): readonly ClassTime[] {
	return curriculum.weeks.flatMap((plan) =>
		curriculum.term.classes
			.map((group) => classTime(curriculum, plan, group))
			.filter((time) => time.blocks.length > 0),
	);
}

/** The active share of several classes and weeks together: the sum of active minutes over the sum of minutes. */
export function activeShareOver(
	times: readonly Pick<ClassTime, "activeMinutes" | "available">[],
): number | undefined {
	const known = times.filter((time) => time.available !== undefined);
	const minutes = sum(known.map((time) => time.available ?? 0));
	return minutes === 0 ? undefined : sum(known.map((time) => time.activeMinutes)) / minutes;
}

function drillTimes(
	curriculum: Curriculum,
	block: Block,
	levels: readonly Id[],
	classGymnasts: number,
): readonly DrillTime[] {
	const stations = stationsFor(curriculum, block, levels);
	const n = stations.length;
	const minutes = stationMinutes(block, n);
	const gymnasts = gymnastsAt(classGymnasts, n);
	const times: DrillTime[] = [];
	for (const station of stations) {
		const drill = curriculum.drills.get(block.stations[station]?.drill ?? "");
		if (drill === undefined) continue;
		const { turn } = drill;
		const moving = turn === undefined ? gymnasts : Math.min(turn.atOnce, gymnasts);
		const activeMinutes = (minutes * moving) / gymnasts;
		times.push({
			drill: drill.id,
			station: station + 1,
			minutes,
			gymnasts,
			moving,
			turns: turn === undefined ? undefined : turnsEach(block, n, gymnasts, turn),
			wait: turn === undefined ? undefined : turn.seconds * Math.max(0, gymnasts / turn.atOnce - 1),
			activeMinutes,
			waitingMinutes: minutes - activeMinutes,
		});
	}
	return times;
}

/**
 * floor(60 · minutes · at-once / (gymnasts · seconds)). The minutes of a station are a quotient, so
 * the division is done last: 6⅓ minutes must not lose a turn to binary fractions.
 */
function turnsEach(
	block: Pick<Block, "minutes" | "change">,
	stations: number,
	gymnasts: number,
	turn: { readonly seconds: number; readonly atOnce: number },
): number {
	const minutes = Math.max(0, block.minutes - (stations - 1) * block.change);
	const turns = (60 * minutes * turn.atOnce) / (stations * gymnasts * turn.seconds);
	return Math.floor(turns * (1 + 4 * Number.EPSILON));
}

const COLUMNS: readonly Column[] = [
	{ name: "week", order: "number" },
	{ name: "class", order: "class" },
	{ name: "planned", order: "number" },
	{ name: "available", order: "number" },
	{ name: "active-share", order: "number" },
];

/** time.csv, and H308, H309, H313 and H316. */
export const timeMeasure: Measure = {
	name: "time",
	tables: ({ curriculum }) => [
		{
			name: "time",
			columns: COLUMNS,
			rows: sortedRows(
				curriculum,
				COLUMNS,
				classTimes(curriculum).map((t) => [t.week, t.class, t.planned, t.available, t.activeShare]),
			),
		},
	],
	findings: ({ curriculum }, words) =>
		curriculum.weeks.flatMap((plan) =>
			curriculum.term.classes.flatMap((group) =>
				// A class without a rotation does not say where it goes; one that a closed day cancels has no time.
				group.rotation.length > 0 && meets(curriculum.term, plan.week, group)
					? findingsOf(curriculum, plan, group, words)
					: [],
			),
		),
};

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
	return [
		...tooLong(curriculum, plan, group, time, words),
		...tooStill(curriculum, plan, group, time, words),
		...noTurn(curriculum, plan, group, time, words),
	];
}

function tooLong(
	curriculum: Curriculum,
	plan: WeekPlan,
	group: ClubClass,
	time: ClassTime,
	words: Words,
): readonly Finding[] {
	const say = words.findings.time;
	const { planned, available } = time;
	// Minutes such as 0.1 + 0.2 must not pass for more than 0.3.
	if (available === undefined || planned <= available + 1e-9) return [];
	const sums = [...Map.groupBy(time.blocks, (b) => b.apparatus)].map(([apparatus, blocks]) => ({
		apparatus,
		minutes: sum(blocks.map((b) => b.block.minutes)),
	}));
	const longest = sums.reduce((a, b) => (b.minutes > a.minutes ? b : a));
	const parts = [
		...(group.warmUp > 0 ? [say.before(group.warmUp)] : []),
		...sums.map((s) => `${words.number(s.minutes)} ${apparatusName(curriculum, s.apparatus)}`),
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

function tooStill(
	curriculum: Curriculum,
	plan: WeekPlan,
	group: ClubClass,
	time: ClassTime,
	words: Words,
): readonly Finding[] {
	const say = words.findings.time;
	const target = curriculum.targets.activeShare;
	const { activeShare, available, activeMinutes } = time;
	if (target === undefined || activeShare === undefined || activeShare >= target - 1e-9) return [];
	const waits = time.blocks
		.flatMap(({ apparatus, block, drills }) => drills.map((drill) => ({ apparatus, block, drill })))
		.sort((a, b) => b.drill.waitingMinutes - a.drill.waitingMinutes)
		.filter(({ drill }) => drill.waitingMinutes > 0);
	const worst = waits[0];
	return [
		finding(
			words,
			"H309",
			"worth a look",
			say.tooStill(group.name, plan.week, {
				active: activeMinutes,
				available: available ?? 0,
				share: activeShare,
				target,
				waits: waits.slice(0, 3).map(({ drill }) => ({
					drill: drillName(curriculum, drill.drill),
					minutes: drill.waitingMinutes,
				})),
			}),
			{ source: plan.source, path: worst?.block.path ?? ["apparatus"] },
			{ week: plan.week, class: group.id },
			worst === undefined ? say.nobodyWaits : say.split(drillName(curriculum, worst.drill.drill)),
		),
	];
}

function noTurn(
	curriculum: Curriculum,
	plan: WeekPlan,
	group: ClubClass,
	time: ClassTime,
	words: Words,
): readonly Finding[] {
	return time.blocks.flatMap(({ apparatus, block, drills }) =>
		drills
			.filter((drill) => drill.turns === 0)
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
	return block.kind === "drill" ? [...block.path, "drill"] : [...block.path, "stations", station - 1];
}

function apparatusName(curriculum: Curriculum, id: Id): string {
	return curriculum.apparatus.get(id)?.name ?? id;
}

function drillName(curriculum: Curriculum, id: Id): string {
	return curriculum.drills.get(id)?.title ?? id;
}

function sum(values: readonly number[]): number {
	return values.reduce((total, value) => total + value, 0);
}
