/**
 * Work: what each group really does in a week, block by block. Practice, reach, load, time, coaches,
 * set-out, space and order are all counted from it.
 *
 * Steps: walk the apparatus of the group's rotation and the blocks that count for one of its levels and
 * for this meeting of the week; give each station the drill as the group's first level does it; share
 * the minutes and the gymnasts out over the stations; lay the blocks along the clock.
 */

import { originalOf } from "../link/join-records.ts";
import type { Block, Curriculum, Id, LinkedDrill, WeekPlan } from "../model.ts";
import { doseOf, optionShare } from "./dose-of.ts";
import { drillAt } from "./drill-at.ts";
import { stationMinutes } from "./exposures.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";
import { type Group, groupsOf, isOfSession, isThere } from "./groups.ts";

/** A drill at one station, as a group does it. */
export interface StationWork {
	/** From 1 among the block's stations as written. */
	readonly station: number;
	/** As the level does it. */
	readonly drill: LinkedDrill;
	/** The first of the group's levels, in the club's order, that does it here. */
	readonly level: Id;
	/** Minutes of a gymnast at it. */
	readonly minutes: number;
	/** Gymnasts at it at the same time. */
	readonly gymnasts: number;
	/** Turns of a gymnast; undefined where the drill has no `turn`. */
	readonly turns: number | undefined;
	/** Repetitions: sets × reps of the dose in force; undefined where neither is said. */
	readonly planned: number | undefined;
	/** Repetitions that the turns give; undefined where the drill has no `turn`. */
	readonly fits: number | undefined;
	/** The smaller of planned and fits; where one is unknown, the other. */
	readonly done: number | undefined;
}

export interface BlockWork {
	readonly apparatus: Id;
	readonly block: Block;
	/** Stations that count for the group; of options, each that does. */
	readonly stations: readonly StationWork[];
	/** Minutes after the start of the class. */
	readonly from: number;
	readonly to: number;
}

/** All that a group does on one apparatus, one block after the other. */
export interface Stay {
	readonly apparatus: Id;
	readonly blocks: readonly BlockWork[];
	/** Minutes after the start of the class. */
	readonly from: number;
	readonly to: number;
}

/** One group in one week in which its class meets. */
export interface GroupWork {
	readonly week: number;
	readonly group: Group;
	readonly blocks: readonly BlockWork[];
	/** Its stays on the apparatus on which it does something, in order. */
	readonly stays: readonly Stay[];
	/** Minutes of its blocks and of the ways between apparatus. */
	readonly minutes: number;
}

/** Every group in every planned week in which it does something: by week, then in the order of the classes. */
export function groupWorks(curriculum: Curriculum): readonly GroupWork[] {
	return worksOf(curriculum).all;
}

/** The same of one week. */
export function groupWorksIn(curriculum: Curriculum, week: number): readonly GroupWork[] {
	return worksOf(curriculum).byWeek.get(week) ?? [];
}

export function worksOfGroups(curriculum: Curriculum, groups: readonly Group[]): readonly GroupWork[] {
	return curriculum.weeks.flatMap((plan) =>
		groups.flatMap((group) => {
			if (!isThere(curriculum, plan.week, group)) return [];
			const work = workOf(curriculum, plan, group);
			return work.blocks.length === 0 ? [] : [work];
		}),
	);
}

/** The measures and the pages all ask for the same work. */
const worksOf = onceEach((curriculum: Curriculum) => {
	const all = worksOfGroups(curriculum, groupsOf(curriculum));
	return { all, byWeek: Map.groupBy(all, (work) => work.week) };
});

/** By the original: a plan that is tried asks for no week that it leaves as it is. */
const workOfWeek = onceEach((_original: Curriculum) =>
	onceEach((_plan: WeekPlan) => new Map<Group, GroupWork>()),
);

/** One group in one week, whether it meets or not. */
export function workOf(curriculum: Curriculum, plan: WeekPlan, group: Group): GroupWork {
	const groups = workOfWeek(originalOf(curriculum))(plan);
	return getOrMake(groups, group, () => countWork(curriculum, plan, group));
}

function countWork(curriculum: Curriculum, plan: WeekPlan, group: Group): GroupWork {
	const { warmUp, between } = group.class;
	const stays: Stay[] = [];
	let at = warmUp;
	for (const apparatus of group.rotation) {
		// The way to the next apparatus, once the group has been on one.
		const from = at + (stays.length > 0 ? between : 0);
		let to = from;
		const blocks: BlockWork[] = [];
		for (const block of plan.apparatus.find((p) => p.apparatus === apparatus)?.blocks ?? []) {
			if (!isOfSession(block, group)) continue;
			const stations = stationsOf(curriculum, block, group);
			if (stations.length === 0) continue;
			blocks.push({ apparatus, block, stations, from: to, to: to + block.minutes });
			to += block.minutes;
		}
		if (blocks.length === 0) continue;
		stays.push({ apparatus, blocks, from, to });
		at = to;
	}
	return {
		week: plan.week,
		group,
		blocks: stays.flatMap((stay) => stay.blocks),
		stays,
		minutes: at - warmUp,
	};
}

const stationsOfBlock = onceEach((_original: Curriculum) =>
	onceEach((_block: Block) => new Map<Group, readonly StationWork[]>()),
);

/** The stations of a block that count for a group, as its levels do them. */
export function stationsOf(curriculum: Curriculum, block: Block, group: Group): readonly StationWork[] {
	const groups = stationsOfBlock(originalOf(curriculum))(block);
	return getOrMake(groups, group, () => countStations(curriculum, block, group));
}

function countStations(curriculum: Curriculum, block: Block, group: Group): readonly StationWork[] {
	const levels = levelsDoing(block, group);
	const here = block.stations.flatMap((station, i) => {
		const drill = curriculum.drills.get(station.drill);
		const level = drill && levels.find((id) => drill.levels.has(id));
		return drill === undefined || level === undefined ? [] : [{ station: i + 1, drill, level }];
	});
	const share = shareOf(block, group, here.length);
	return here.map(({ station, drill, level }) => stationWork(share, station, drill, level));
}

export function levelsDoing({ levels }: Block, group: Group): readonly Id[] {
	return levels.length === 0 ? group.levels : group.levels.filter((id) => levels.includes(id));
}

/** What of a block falls to each of the stations that count for a group. */
export interface Share {
	readonly block: Block;
	/** Stations that count. */
	readonly stations: number;
	readonly minutes: number;
	/** Of repetitions: options stand in place of each other. */
	readonly repetitions: number;
	/** At one station at the same time: of options, everybody is at the one that is chosen. */
	readonly gymnasts: number;
}

export function shareOf(block: Block, group: Group, stations: number): Share {
	return {
		block,
		stations,
		minutes: stationMinutes(block, stations),
		repetitions: optionShare(block, stations),
		gymnasts: Math.ceil(group.gymnasts / (block.kind === "options" ? 1 : stations)),
	};
}

/** A drill at a station, in the group's share of the block. */
export function stationWork(share: Share, station: number, ofLibrary: LinkedDrill, level: Id): StationWork {
	const { block, gymnasts } = share;
	const drill = drillAt(ofLibrary, level);
	const { reps, repetitions } = doseOf(drill, level, block);
	const turns = drill.turn && turnsEach(block, share.stations, gymnasts, drill.turn);
	const planned = repetitions === undefined ? undefined : repetitions * share.repetitions;
	const fits = turns === undefined ? undefined : turns * (drill.turn?.reps ?? reps ?? 1);
	return {
		station,
		drill,
		level,
		minutes: share.minutes,
		gymnasts,
		turns,
		planned,
		fits,
		done: planned === undefined ? fits : fits === undefined ? planned : Math.min(planned, fits),
	};
}

/** What takes up a block's minutes before anybody has a turn, where nothing is left of them; undefined elsewhere. */
export function eatenUp({ block, stations }: BlockWork):
	| {
			readonly minutes: number;
			readonly show: number;
			readonly changes: number;
			readonly stations: number;
	  }
	| undefined {
	const { minutes, show, change } = block;
	const changes = block.kind === "options" ? 0 : (stations.length - 1) * change;
	return show + changes > 0 && show + changes >= minutes - 1e-9
		? { minutes, show, changes, stations: stations.length }
		: undefined;
}

/**
 * floor(60 · minutes · at-once / (gymnasts · seconds)), of at-once no more than there are gymnasts. The minutes of a station are a quotient, so
 * the division is done last: 6⅓ minutes must not lose a turn to binary fractions.
 */
export function turnsEach(
	block: Pick<Block, "kind" | "minutes" | "show" | "change">,
	stations: number,
	gymnasts: number,
	turn: { readonly seconds: number; readonly atOnce: number },
): number {
	const changes = block.kind === "options" ? 0 : (stations - 1) * block.change;
	const minutes = Math.max(0, block.minutes - block.show - changes);
	// Nobody is on two turns at once, however much room there is.
	const atOnce = Math.min(turn.atOnce, gymnasts);
	const turns = (60 * minutes * atOnce) / (stations * gymnasts * turn.seconds);
	return Math.floor(turns * (1 + 4 * Number.EPSILON));
}
