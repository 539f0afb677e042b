/**
 * Taught: what coaches reported, held against the plan.
 *
 * Steps: find the block of the plan that each entry is about (the same apparatus and drills, its number
 * where there are several: a newer edition may have moved it); join what several coaches of a group say
 * (the least that was done holds, so that nobody is taken to have met what one of them says was missed);
 * take what was not done out of the groups' work, and so much of the minutes and repetitions of shortened
 * blocks as was lost. What nobody reported counts as planned.
 *
 * The past of a group ends with the last week that it reported. What the club asks of coming weeks is
 * asked again of what was taught until then.
 */

import type { Block, BlockReport, ClassReport, Curriculum, Id } from "../model.ts";
import { teachingWeeks } from "./calendar.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";
import { type Group, groupsOf } from "./groups.ts";
import { type OrderRow, orderRows, orderRowsIn } from "./meeting-order.ts";
import { type Share, wilson } from "./wilson.ts";
import { type BlockWork, type GroupWork, groupWorks } from "./work.ts";

/** Nothing is concluded from fewer gymnasts or reports. */
export const FEWEST = 5;

/**
 * The plan with its past kept as it is: weeks that somebody reported, and weeks that are over. What is
 * looked for to mend it may then change the coming weeks alone.
 *
 * @param today ISO 8601
 */
export function keptPast(curriculum: Curriculum, today: string): Curriculum {
	const reported = new Set(curriculum.taught.map(({ week }) => week));
	const over = new Set(
		teachingWeeks(curriculum.term).flatMap(({ week, sunday }) => (sunday < today ? [week] : [])),
	);
	return {
		...curriculum,
		weeks: curriculum.weeks.map((plan) =>
			reported.has(plan.id) || over.has(plan.week) ? { ...plan, keep: true } : plan,
		),
	};
}

/** What one coach says of one block of the plan. */
export interface SaidOfBlock {
	readonly report: ClassReport;
	readonly said: BlockReport;
}

export type TaughtBlock = ReturnType<typeof joined>;

/** One group in one week that somebody reported. */
export interface TaughtWeek {
	readonly week: number;
	readonly group: Group;
	readonly blocks: readonly TaughtBlock[];
	readonly reports: readonly ClassReport[];
}

/** An entry about a block that the plan of the week no longer has. */
export interface Unplaced {
	readonly week: number;
	readonly report: ClassReport;
	readonly said: BlockReport;
}

export interface Taught {
	/** By week, then as in the term. */
	readonly weeks: readonly TaughtWeek[];
	readonly unplaced: readonly Unplaced[];
	/** The work of every group and week as it was taught, as far as anybody said. */
	readonly works: readonly GroupWork[];
	/** The last week that each group's gymnasts reported, by their id. */
	readonly until: ReadonlyMap<string, number>;
}

export const taughtOf = onceEach((curriculum: Curriculum): Taught => {
	const byKey = reportsByGroup(curriculum);
	const weeks: TaughtWeek[] = [];
	const unplaced: Unplaced[] = [];
	const works = groupWorks(curriculum).map((work) => {
		const reports = byKey.get(`${work.week} ${work.group.name}`);
		if (reports === undefined) return work;
		const { placed, left } = placeAll(work, reports);
		unplaced.push(...left.map((one) => ({ week: work.week, ...one })));
		const blocks = work.blocks.map((block) => joined(block, placed.get(block) ?? []));
		weeks.push({ week: work.week, group: work.group, blocks, reports });
		return asTaught(work, blocks);
	});
	const until = new Map<string, number>();
	for (const { week, group } of weeks) {
		until.set(group.gymnastsId, Math.max(week, until.get(group.gymnastsId) ?? 0));
	}
	return { weeks, unplaced, works: works.filter(({ blocks }) => blocks.length > 0), until };
});

/** The reports of each group and week, by `week group`. */
function reportsByGroup(curriculum: Curriculum): ReadonlyMap<string, readonly ClassReport[]> {
	const weekOf = new Map(curriculum.weeks.map(({ id, week }) => [id, week]));
	const byKey = new Map<string, ClassReport[]>();
	for (const group of groupsOf(curriculum)) {
		for (const report of curriculum.taught) {
			const week = weekOf.get(report.week);
			if (week === undefined || report.class !== group.class.id) continue;
			const isOwn = report.blocks.some((block) => isOf(block, group)) || group.class.groups.length === 0;
			if (isOwn) getOrMake(byKey, `${week} ${group.name}`, () => []).push(report);
		}
	}
	return byKey;
}

/** Whether an entry is about a group: the one it names, or the class's only one. */
function isOf({ group }: { readonly group?: Id }, { name, class: own }: Group): boolean {
	return own.groups.length === 0 || name === `${own.id}/${group ?? ""}`;
}

function placeAll(work: GroupWork, reports: readonly ClassReport[]) {
	const placed = new Map<BlockWork, SaidOfBlock[]>();
	const left: SaidOfBlock[] = [];
	for (const report of reports) {
		const taken = new Set<BlockWork>();
		for (const said of report.blocks.filter((block) => isOf(block, work.group))) {
			const block = placeOf(work, said, taken);
			if (block === undefined) left.push({ report, said });
			else {
				taken.add(block);
				getOrMake(placed, block, () => []).push({ report, said });
			}
		}
	}
	return { placed, left };
}

function placeOf(
	{ blocks }: GroupWork,
	said: BlockReport,
	taken: ReadonlySet<BlockWork>,
): BlockWork | undefined {
	const wanted = [...new Set(said.drills)].sort().join(" ");
	const same = blocks.filter(
		(one) =>
			one.apparatus === said.apparatus &&
			!taken.has(one) &&
			[...new Set(one.stations.map(({ drill }) => drill.id))].sort().join(" ") === wanted,
	);
	return same.find(({ block }) => block.number === said.block) ?? same[0];
}

function joined(work: BlockWork, said: readonly SaidOfBlock[]) {
	const { minutes } = work.block;
	const lostOf = ({ done, lost }: BlockReport): number =>
		done === "not-done" ? minutes : done === "shortened" ? Math.min(lost ?? minutes / 2, minutes) : 0;
	const lost = Math.max(0, ...said.map((one) => lostOf(one.said)));
	const causes = new Set(said.flatMap((one) => one.said.cause ?? []));
	const differ = (["done", "felt"] as const).filter(
		(field) => new Set(said.flatMap((one) => one.said[field] ?? [])).size > 1,
	);
	const [cause] = causes;
	return {
		work,
		said,
		/** Of its minutes and repetitions, what was taught: 1 as planned, 0 not at all. */
		share: minutes === 0 ? 1 : (minutes - lost) / minutes,
		/** Minutes that were lost, and why where the coaches name one cause. */
		lost,
		cause: causes.size === 1 ? cause : undefined,
		/** Two coaches say different things. */
		differ,
	};
}

/** The work of a group without what was missed. */
function asTaught(work: GroupWork, blocks: readonly TaughtBlock[]): GroupWork {
	const shareOf = new Map(blocks.map(({ work: block, share }) => [block, share]));
	const own = (all: readonly BlockWork[]): readonly BlockWork[] =>
		all.flatMap((block) => {
			const share = shareOf.get(block) ?? 1;
			return share <= 0 ? [] : share === 1 ? [block] : [scaled(block, share)];
		});
	return {
		...work,
		blocks: own(work.blocks),
		stays: work.stays.map((stay) => ({ ...stay, blocks: own(stay.blocks) })),
		minutes: work.minutes - blocks.reduce((sum, { lost }) => sum + lost, 0),
	};
}

/** How much of a block of the plan a group was taught: all of it where nobody said. */
export function shareTaught(curriculum: Curriculum, week: number, group: Group, block: Block): number {
	const own = taughtOf(curriculum).weeks.find((one) => one.week === week && one.group.name === group.name);
	return own?.blocks.find(({ work }) => work.block === block)?.share ?? 1;
}

function scaled(block: BlockWork, share: number): BlockWork {
	const of = (value: number | undefined): number | undefined => value && value * share;
	return {
		...block,
		stations: block.stations.map((one) => ({
			...one,
			minutes: one.minutes * share,
			turns: of(one.turns),
			fits: of(one.fits),
			done: of(one.done),
		})),
	};
}

/** A drill of a coming week that builds on what its group missed. */
export interface BuiltOnMissed {
	readonly row: OrderRow;
	/** The week in which what is asked for was planned and not taught. */
	readonly missed: number;
}

/** What the plan has in order and what was taught has not, in weeks that are still to come. */
export function builtOnMissed(curriculum: Curriculum): readonly BuiltOnMissed[] {
	const { works, until, weeks } = taughtOf(curriculum);
	if (until.size === 0) return [];
	// What was missed may now be met for the first time: in another week, or on another day of it.
	const keyOf = ({ group, drill, rule, skill, id }: OrderRow): string =>
		[group.gymnastsId, drill, rule, skill, id].join(" ");
	const planned = new Map(orderRows(curriculum).map((row) => [keyOf(row), row.met]));
	return orderRowsIn(curriculum, groupsOf(curriculum), works).flatMap((row) => {
		const past = until.get(row.group.gymnastsId);
		if (past === undefined || row.week <= past || row.met !== "no") return [];
		if (planned.get(keyOf(row)) === "no") return [];
		const missed = weeks
			.filter(({ group }) => group.gymnastsId === row.group.gymnastsId)
			.flatMap(({ week, blocks }) =>
				blocks.some(({ share, work }) => share < 1 && work.stations.some((one) => brings(one.drill, row)))
					? [week]
					: [],
			)
			.at(-1);
		return missed === undefined ? [] : [{ row, missed }];
	});
}

function brings(
	drill: { readonly id: Id; readonly skills: readonly Id[]; readonly performs: readonly Id[] },
	{ kind, id }: OrderRow,
): boolean {
	return kind === "drill" ? drill.id === id : drill.performs.includes(id) || drill.skills.includes(id);
}

/** Minutes lost in the term, by cause; `undefined` for no cause, or several. */
export function minutesLost(curriculum: Curriculum): readonly {
	readonly cause: BlockReport["cause"] | undefined;
	readonly minutes: number;
	readonly blocks: number;
}[] {
	const blocks = taughtOf(curriculum)
		.weeks.flatMap((week) => week.blocks)
		.filter(({ lost }) => lost > 0);
	return [...Map.groupBy(blocks, ({ cause }) => cause)]
		.map(([cause, own]) => ({
			cause,
			minutes: own.reduce((sum, { lost }) => sum + lost, 0),
			blocks: own.length,
		}))
		.sort((a, b) => b.minutes - a.minutes || ((a.cause ?? "~") < (b.cause ?? "~") ? -1 : 1));
}

/** How many of a group, or of all, can do a skill in a week. */
export interface Learned {
	readonly week: number;
	readonly skill: Id;
	readonly of: number;
	readonly alone: number;
	readonly helped: number;
	/** The share that does it alone; undefined for fewer than five gymnasts. */
	readonly share: Share | undefined;
	/** Two coaches of one group count differently. */
	readonly differ: boolean;
}

export interface LearnedByGroup extends Learned {
	readonly group: Group;
}

/** By skill in the club's order, then by week, then as in the term. */
export function learnedByGroup(curriculum: Curriculum): readonly LearnedByGroup[] {
	const weekOf = new Map(curriculum.weeks.map(({ id, week }) => [id, week]));
	const rows = groupsOf(curriculum).flatMap((group) =>
		[...Map.groupBy(curriculum.taught, ({ week }) => week)].flatMap(([id, reports]) => {
			const week = weekOf.get(id);
			if (week === undefined) return [];
			const said = reports
				.filter((report) => report.class === group.class.id)
				.flatMap((report) => report.skills.filter((skill) => isOf(skill, group)));
			return [...Map.groupBy(said, ({ skill }) => skill)].flatMap(([skill, all]) => {
				// The more careful of two coaches holds.
				const least = [...all].sort(
					(a, b) => a.alone / a.of - b.alone / b.of || b.of - a.of || a.helped - b.helped,
				)[0];
				if (least === undefined) return [];
				const { of, alone, helped } = least;
				const differ = new Set(all.map((one) => `${one.of} ${one.alone} ${one.helped}`)).size > 1;
				return [{ week, group, skill, of, alone, helped, share: shareOf(alone, of), differ }];
			});
		}),
	);
	const rank = new Map([...curriculum.skills.keys()].map((id, i) => [id, i]));
	return rows.sort((a, b) => (rank.get(a.skill) ?? 0) - (rank.get(b.skill) ?? 0) || a.week - b.week);
}

/** The same, with all groups of a week together. */
export function learned(curriculum: Curriculum): readonly Learned[] {
	const rows = Map.groupBy(learnedByGroup(curriculum), ({ skill, week }) => `${skill} ${week}`);
	return [...rows.values()].flatMap((all) => {
		const [first] = all;
		if (first === undefined) return [];
		const sum = (of: "of" | "alone" | "helped"): number => all.reduce((total, one) => total + one[of], 0);
		const own = { of: sum("of"), alone: sum("alone"), helped: sum("helped") };
		return [
			{
				week: first.week,
				skill: first.skill,
				...own,
				share: shareOf(own.alone, own.of),
				differ: all.some(({ differ }) => differ),
			},
		];
	});
}

/** The last count of each group and skill. The same gymnasts on two days are counted once, on the later one. */
export function lastCounts(curriculum: Curriculum): readonly LearnedByGroup[] {
	const last = new Map(
		learnedByGroup(curriculum).map((row) => [`${row.group.gymnastsId} ${row.skill}`, row] as const),
	);
	return [...last.values()];
}

function shareOf(alone: number, of: number): Share | undefined {
	return of < FEWEST ? undefined : wilson(alone, of);
}

/** A skill that a level may arrive with next term, by the club's own rule. */
export interface Arrival {
	readonly level: Id;
	readonly skill: Id;
	readonly alone: number;
	readonly of: number;
}

/**
 * Skills that so many of a level's gymnasts do alone as the club's `arrives-with` says, at the last count of
 * each group, and that the level does not arrive with yet; of groups of one level, and of five gymnasts or
 * more together. Without the target nothing is proposed.
 */
export function arrivals(curriculum: Curriculum): readonly Arrival[] {
	const least = curriculum.targets.arrivesWith;
	if (least === undefined) return [];
	const counts = lastCounts(curriculum).filter(({ group }) => group.levels.length === 1);
	return [...curriculum.levels.values()].flatMap(({ id: level, entry }) =>
		[...curriculum.skills.keys()].flatMap((skill) => {
			const own = counts.filter((row) => row.skill === skill && row.group.levels[0] === level);
			const of = own.reduce((sum, row) => sum + row.of, 0);
			const alone = own.reduce((sum, row) => sum + row.alone, 0);
			const isReached = of >= FEWEST && alone / of >= least - 1e-9;
			return isReached && !entry.includes(skill) ? [{ level, skill, alone, of }] : [];
		}),
	);
}

/** Drills of which two reports or more say the same: that they were too hard, or too easy. */
export function saidTwice(curriculum: Curriculum): readonly {
	readonly drill: Id;
	readonly felt: "too-easy" | "too-hard";
	readonly times: number;
}[] {
	return [...curriculum.drills.keys()].flatMap((drill) =>
		(["too-hard", "too-easy"] as const).flatMap((felt) => {
			const times = curriculum.taught.filter(({ blocks }) =>
				blocks.some((block) => block.felt === felt && block.drills.includes(drill)),
			).length;
			return times < 2 ? [] : [{ drill, felt, times }];
		}),
	);
}
