/**
 * Equipment: what each apparatus needs in each week, and what classes need at the same moment.
 *
 * Steps: within a block, stations stand side by side, so their items add (options stand in place of each
 * other: the largest counts); blocks follow each other, so across them the largest wins. Items per gymnast
 * are multiplied by the gymnasts at that drill. Then each group is laid along the clock, block by block;
 * where groups overlap, what they need at the same moment is added up and held against what the club owns.
 */

import { originalOf } from "../link/join-records.ts";
import type {
	ApparatusPlan,
	Block,
	ClubClass,
	Curriculum,
	Finding,
	Id,
	LinkedDrill,
	Weekday,
	WeekPlan,
} from "../model.ts";
import type { Words } from "../words/words.ts";
import { WEEKDAYS } from "./calendar.ts";
import { clockOf, minuteOf } from "./clock.ts";
import { drillAt } from "./drill-at.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";
import { type Group, groupsOf, groupsOfClass } from "./groups.ts";
import { levelsOf } from "./levels-of.ts";
import type { Measure } from "./measure.ts";
import { apparatusName, groupName, itemName } from "./names.ts";
import { joined, type Need, needsOf } from "./needs.ts";
import { type SetOutRow, setOutRows } from "./set-out.ts";
import { tableOf } from "./tables.ts";
import { stationPath } from "./time.ts";
import { groupWorksIn, stationsOf, workOf } from "./work.ts";

/** One item of a list. */
export interface EquipmentLine {
	readonly item: Id;
	readonly needed: number;
	/** Undefined where the club does not say. */
	readonly owned: number | undefined;
	/** The block that needs the most of it, and the drills there that use it. */
	readonly block: Block;
	readonly drills: readonly Id[];
}

/**
 * What an apparatus needs in a week: all stations of each block, whatever levels they are for, each as
 * the level does it that needs most of the item. In the order of the store room's list.
 */
export function equipmentFor(curriculum: Curriculum, plan: ApparatusPlan): readonly EquipmentLine[] {
	const known = listsOf.get(plan);
	const original = originalOf(curriculum);
	if (known?.original === original) return known.lines;
	const lines = largest(
		curriculum,
		plan.blocks.map((block) => ({ block, needs: needsInBlock(curriculum, plan, block) })),
	);
	listsOf.set(plan, { original, lines });
	return lines;
}

/** What the stations of one block need, in the order of the store room's list; stations by their position. */
export function equipmentForBlock(
	curriculum: Curriculum,
	plan: ApparatusPlan,
	block: Block,
): readonly { readonly item: Id; readonly needed: number; readonly stations: readonly number[] }[] {
	const needs = needsInBlock(curriculum, plan, block);
	return [...curriculum.equipment.keys()].flatMap((item) => {
		const need = needs.get(item);
		return need === undefined
			? []
			: [{ item, needed: need.count, stations: need.stations.map((station) => station - 1) }];
	});
}

/** A station of a block as its levels do it. */
export interface StationUse {
	/** The drill as the level does it that most of the gymnasts here are of; undefined where no level does. */
	readonly drill: LinkedDrill | undefined;
	/** Gymnasts of the largest group that does it here; 1 where none does. */
	readonly gymnasts: number;
	/** Of each item the most that any of its levels needs. */
	readonly needs: ReadonlyMap<Id, number>;
}

/**
 * The stations of a block. Each level that does a station's drill counts, with the gymnasts of the largest
 * group that visits the apparatus and does it at that level; 1 where none does.
 */
export function stationUses(
	curriculum: Curriculum,
	plan: ApparatusPlan,
	block: Block,
): readonly StationUse[] {
	return getOrMake(usesOf(originalOf(curriculum)), block, () => countUses(curriculum, plan, block));
}

/** The lists and the floor plans ask for the same uses. */
const usesOf = onceEach((_original: Curriculum) => new WeakMap<Block, readonly StationUse[]>());

function countUses(curriculum: Curriculum, plan: ApparatusPlan, block: Block): readonly StationUse[] {
	// Largest first: the first group that does a drill at a level is the one to count for.
	const groups = groupsOf(curriculum)
		.filter((group) => group.rotation.includes(plan.apparatus))
		.sort((a, b) => b.gymnasts - a.gymnasts)
		.map((group) => stationsOf(curriculum, block, group));
	const levels = levelsOf(block, curriculum);
	return block.stations.map((written, i) => {
		const here = groups.flatMap((stations) => stations.filter(({ station }) => station === i + 1));
		const drill = curriculum.drills.get(written.drill);
		const needs = new Map<Id, number>();
		for (const level of levels) {
			if (drill?.levels.has(level) !== true) continue;
			const gymnasts = here.find((station) => station.level === level)?.gymnasts ?? 1;
			const own = new Map<Id, number>();
			for (const { item, count, per } of drillAt(drill, level).equipment) {
				own.set(item, (own.get(item) ?? 0) + (per === "gymnast" ? count * gymnasts : count));
			}
			for (const [item, count] of own) needs.set(item, Math.max(needs.get(item) ?? 0, count));
		}
		const first = levels.find((level) => drill?.levels.has(level) === true);
		return {
			drill: here[0]?.drill ?? (drill && first !== undefined ? drillAt(drill, first) : drill),
			gymnasts: here[0]?.gymnasts ?? 1,
			needs,
		};
	});
}

function needsInBlock(curriculum: Curriculum, plan: ApparatusPlan, block: Block): ReadonlyMap<Id, Need> {
	return joined(
		block.kind,
		stationUses(curriculum, plan, block).map(({ needs }, i) => ({ station: i + 1, needs })),
	);
}

/** The table, the findings and the pages all ask for the same lists. */
const listsOf = new WeakMap<
	ApparatusPlan,
	{ readonly original: Curriculum; readonly lines: readonly EquipmentLine[] }
>();

/**
 * What one class needs on an apparatus, for its own gymnasts: the most that a block of one of its groups
 * does, with what another of its groups uses there in the same minute.
 */
export function equipmentForClass(
	curriculum: Curriculum,
	plan: ApparatusPlan,
	one: ClubClass,
): readonly EquipmentLine[] {
	const week = curriculum.weeks.find(({ apparatus }) => apparatus.includes(plan));
	if (week === undefined) return [];
	const moments = groupsOfClass(curriculum, one).flatMap((group) =>
		workOf(curriculum, week, group)
			.blocks.filter(({ apparatus }) => apparatus === plan.apparatus)
			.map((block) => ({ group, block, needs: needsOf(block) })),
	);
	return largest(
		curriculum,
		moments.map((moment) => {
			const beside = moments.filter(
				({ group, block }) =>
					group !== moment.group && block.from <= moment.block.from && moment.block.from < block.to,
			);
			const needs = new Map(moment.needs);
			for (const other of beside) {
				for (const [item, need] of other.needs) {
					const own = needs.get(item) ?? { count: 0, stations: need.stations };
					needs.set(item, { ...own, count: own.count + need.count });
				}
			}
			return { block: moment.block.block, needs };
		}),
	);
}

function largest(
	curriculum: Curriculum,
	blocks: readonly { readonly block: Block; readonly needs: ReadonlyMap<Id, Need> }[],
): readonly EquipmentLine[] {
	const lines = new Map<Id, EquipmentLine>();
	for (const { block, needs } of blocks) {
		for (const [item, { count, stations }] of needs) {
			const found = lines.get(item);
			if (found !== undefined && found.needed >= count) continue;
			lines.set(item, {
				item,
				needed: count,
				owned: curriculum.equipment.get(item)?.owned,
				block,
				drills: [...new Set(stations.map((s) => block.stations[s - 1]?.drill ?? ""))],
			});
		}
	}
	return [...curriculum.equipment.keys()].flatMap((item) => lines.get(item) ?? []);
}

/** A moment of a week in which groups together need more of an item than the club owns. */
export interface Clash {
	readonly week: number;
	readonly day: Weekday;
	readonly item: Id;
	readonly needed: number;
	readonly owned: number;
	/** Minutes since midnight: when the shortage is at its worst, from the first such minute to its end. */
	readonly from: number;
	readonly to: number;
	/** Who needs how many then, where. */
	readonly classes: readonly {
		readonly class: Id;
		readonly group: Group;
		readonly apparatus: Id;
		readonly block: Block;
		readonly needed: number;
	}[];
}

interface Stretch {
	readonly from: number;
	readonly to: number;
	readonly group: Group;
	readonly apparatus: Id;
	readonly block: Block;
	readonly needs: ReadonlyMap<Id, Need>;
}

/**
 * Where groups need more of an item at the same moment than the club owns: the worst moment for each
 * week, day and item. A class starts with its warm-up; then each of its groups does its blocks in the
 * order of its rotation, with the way from one apparatus to the next; what runs past the end of the
 * class is left out. Classes without a day or a start, and classes that do not meet that week, are not in
 * the timetable.
 */
export const clashes = onceEach((curriculum: Curriculum): readonly Clash[] =>
	curriculum.weeks.flatMap((plan) => {
		const stretches = timetable(curriculum, plan);
		return WEEKDAYS.flatMap((day) => clashesOn(curriculum, plan.week, day, stretches.get(day) ?? []));
	}),
);

function timetable(curriculum: Curriculum, plan: WeekPlan): ReadonlyMap<Weekday, readonly Stretch[]> {
	const days = new Map<Weekday, Stretch[]>();
	for (const { group, blocks } of groupWorksIn(curriculum, plan.week)) {
		const { day, start, minutes } = group.class;
		if (day === undefined || start === undefined) continue;
		const begin = minuteOf(start);
		const end = begin + (minutes ?? Number.POSITIVE_INFINITY);
		const own = days.get(day) ?? [];
		days.set(day, own);
		for (const work of blocks) {
			const from = begin + work.from;
			const to = Math.min(begin + work.to, end);
			if (to <= from) continue;
			own.push({ from, to, group, apparatus: work.apparatus, block: work.block, needs: needsOf(work) });
		}
	}
	return days;
}

function clashesOn(
	curriculum: Curriculum,
	week: number,
	day: Weekday,
	stretches: readonly Stretch[],
): readonly Clash[] {
	const worst = new Map<Id, Clash>();
	const byStart = [...stretches].sort((a, b) => a.from - b.from);
	let now: Stretch[] = [];
	for (let i = 0; i < byStart.length; ) {
		const from = byStart[i]?.from ?? 0;
		now = now.filter((s) => from < s.to);
		// The need of an item can only rise where a block that uses it begins.
		const risen = new Set<Id>();
		for (let next = byStart[i]; next?.from === from; next = byStart[++i]) {
			now.push(next);
			for (const item of next.needs.keys()) risen.add(item);
		}
		if (now.length < 2) continue;
		for (const item of risen) {
			const owned = curriculum.equipment.get(item)?.owned;
			const users = now.filter((s) => (s.needs.get(item)?.count ?? 0) > 0);
			const needed = users.reduce((total, s) => total + (s.needs.get(item)?.count ?? 0), 0);
			if (owned === undefined || users.length < 2 || needed <= owned) continue;
			if (needed <= (worst.get(item)?.needed ?? 0)) continue;
			worst.set(item, {
				week,
				day,
				item,
				needed,
				owned,
				from,
				to: Math.min(...users.map((s) => s.to)),
				classes: users.map((s) => ({
					class: s.group.class.id,
					group: s.group,
					apparatus: s.apparatus,
					block: s.block,
					needed: s.needs.get(item)?.count ?? 0,
				})),
			});
		}
	}
	return [...curriculum.equipment.keys()].flatMap((item) => worst.get(item) ?? []);
}

/** equipment.csv, and H310 and H317. */
export const equipmentMeasure: Measure = {
	name: "equipment",
	tables: ({ curriculum }) => {
		const lines = curriculum.weeks.flatMap(({ week, apparatus }) =>
			apparatus.flatMap((plan) =>
				equipmentFor(curriculum, plan).map((line) => ({ week, apparatus: plan.apparatus, ...line })),
			),
		);
		return [
			tableOf(curriculum, "equipment", lines, {
				week: (l) => l.week,
				apparatus: (l) => l.apparatus,
				item: (l) => l.item,
				needed: (l) => l.needed,
				owned: (l) => l.owned,
			}),
		];
	},
	findings: ({ curriculum }, words) => [
		...curriculum.weeks.flatMap((week) =>
			week.apparatus.flatMap((plan) =>
				equipmentFor(curriculum, plan).flatMap((line) => shortOf(curriculum, week, plan, line, words)),
			),
		),
		...clashes(curriculum).map((clash) => clashing(curriculum, clash, words)),
		...setOutRows(curriculum).flatMap((row) => untimed(curriculum, row, words)),
	],
};

function shortOf(
	curriculum: Curriculum,
	week: WeekPlan,
	plan: ApparatusPlan,
	line: EquipmentLine,
	words: Words,
): readonly Finding[] {
	const { item, needed, owned, block, drills } = line;
	if (owned === undefined || needed <= owned) return [];
	const station = block.stations.findIndex((s) => s.drill === drills[0]) + 1;
	return [
		finding(
			words,
			"H310",
			"serious",
			words.findings.equipment.short(
				week.week,
				curriculum.apparatus.get(plan.apparatus)?.name ?? plan.apparatus,
				{ item: itemName(curriculum, item), needed, owned },
				drills.map((d) => curriculum.drills.get(d)?.title ?? d),
			),
			{ source: week.source, path: drills.length === 1 ? stationPath(block, station) : block.path },
			{
				week: week.week,
				apparatus: plan.apparatus,
				equipment: item,
				...(drills.length === 1 && drills[0] !== undefined ? { drill: drills[0] } : {}),
			},
		),
	];
}

function clashing(curriculum: Curriculum, clash: Clash, words: Words): Finding {
	const { week, day, item, needed, owned, from, classes } = clash;
	const plan = curriculum.weeks.find((w) => w.week === week);
	const last = classes.at(-1);
	if (plan === undefined || last === undefined) throw new Error(`A clash in week ${week} without a plan.`);
	const say = words.findings.equipment;
	const who = classes.map((c) =>
		say.wanted(groupName(words, c.group), c.needed, apparatusName(curriculum, c.apparatus)),
	);
	return finding(
		words,
		"H317",
		"serious",
		say.clash(week, day, clockOf(from), { item: itemName(curriculum, item), needed, owned }, who),
		{ source: plan.source, path: last.block.path },
		{ week, apparatus: last.apparatus, class: last.class, equipment: item },
	);
}

/** The groups of one class need more together than is owned; a class with a day and a start is in the timetable. */
function untimed(
	curriculum: Curriculum,
	{ week, class: id, item, atOnce, owned }: SetOutRow,
	words: Words,
): readonly Finding[] {
	const one = curriculum.term.classes.find((c) => c.id === id);
	if (one === undefined || one.groups.length === 0 || owned === undefined || atOnce <= owned) return [];
	if (one.day !== undefined && one.start !== undefined) return [];
	return [
		finding(
			words,
			"H317",
			"serious",
			words.findings.hall.atOnce(week, one.name, itemName(curriculum, item), atOnce, owned),
			{ source: sourceOfWeek(curriculum, week), path: ["apparatus"] },
			{ week, class: id, equipment: item },
		),
	];
}
