/**
 * Equipment: what each apparatus needs in each week, and what classes need at the same moment.
 *
 * Steps: within a block, stations stand side by side, so their items add; blocks follow each other,
 * so across them the largest wins. Items per gymnast are multiplied by the gymnasts at that drill.
 * Then each class is laid along the clock, block by block; where classes overlap, what they need at
 * the same moment is added up and held against what the club owns.
 */

import type {
	ApparatusPlan,
	Block,
	ClubClass,
	Column,
	Curriculum,
	Finding,
	Id,
	Weekday,
	WeekPlan,
} from "../model.ts";
import type { Words } from "../words/words.ts";
import { meets, WEEKDAYS } from "./calendar.ts";
import { clockOf, minuteOf } from "./clock.ts";
import { finding } from "./finding.ts";
import { levelsOfClass } from "./levels-of.ts";
import type { Measure } from "./measure.ts";
import { sortedRows } from "./tables.ts";
import { classTime, gymnastsAt, stationPath, stationsFor } from "./time.ts";

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
 * What an apparatus needs in a week: all stations of each block, with items per gymnast counted for
 * the largest class that visits the apparatus and does the drill (1 where no class does). In the
 * order of the store room's list.
 */
export function equipmentFor(curriculum: Curriculum, plan: ApparatusPlan): readonly EquipmentLine[] {
	const known = listsOf.get(plan);
	if (known?.curriculum === curriculum) return known.lines;
	const lines = largest(
		curriculum,
		plan.blocks.map((block) => ({ block, needs: needsInBlock(curriculum, plan, block) })),
	);
	listsOf.set(plan, { curriculum, lines });
	return lines;
}

/** What the stations of one block need side by side, in the order of the store room's list. */
export function equipmentForBlock(
	curriculum: Curriculum,
	plan: ApparatusPlan,
	block: Block,
): readonly { readonly item: Id; readonly needed: number; readonly stations: readonly number[] }[] {
	const needs = needsInBlock(curriculum, plan, block);
	return [...curriculum.equipment.keys()].flatMap((item) => {
		const need = needs.get(item);
		return need === undefined ? [] : [{ item, needed: need.count, stations: need.stations }];
	});
}

/**
 * How many gymnasts to count for at a station of a block: those of the largest class that visits the
 * apparatus and does the station's drill; 1 where no class does.
 */
export function gymnastsAtStations(
	curriculum: Curriculum,
	plan: ApparatusPlan,
	block: Block,
): (station: number) => number {
	// Largest first: the first class that does a drill is the one to count for.
	const here = curriculum.term.classes
		.filter((group) => group.rotation.includes(plan.apparatus))
		.sort((a, b) => b.gymnasts - a.gymnasts)
		.map((group) => ({
			gymnasts: group.gymnasts,
			stations: stationsFor(curriculum, block, levelsOfClass(curriculum, group)),
		}));
	return (station) => {
		const group = here.find(({ stations }) => stations.includes(station));
		return group === undefined ? 1 : gymnastsAt(group.gymnasts, group.stations.length);
	};
}

function needsInBlock(curriculum: Curriculum, plan: ApparatusPlan, block: Block): Needs {
	return needsOf(
		curriculum,
		block,
		block.stations.map((_, station) => station),
		gymnastsAtStations(curriculum, plan, block),
	);
}

/** The table, the findings and the pages all ask for the same lists. */
const listsOf = new WeakMap<
	ApparatusPlan,
	{ readonly curriculum: Curriculum; readonly lines: readonly EquipmentLine[] }
>();

/** What one class needs on an apparatus: the stations that count for one of its levels, for its own gymnasts. */
export function equipmentForClass(
	curriculum: Curriculum,
	plan: ApparatusPlan,
	group: ClubClass,
): readonly EquipmentLine[] {
	return largest(
		curriculum,
		plan.blocks.map((block) => {
			const stations = stationsFor(curriculum, block, levelsOfClass(curriculum, group));
			const needs = needsOf(curriculum, block, stations, () => gymnastsAt(group.gymnasts, stations.length));
			return { block, needs };
		}),
	);
}

/** How many of each item, and the stations that use it. */
type Needs = ReadonlyMap<Id, { readonly count: number; readonly stations: readonly number[] }>;

function needsOf(
	curriculum: Curriculum,
	block: Block,
	stations: readonly number[],
	gymnasts: (station: number) => number,
): Needs {
	const needs = new Map<Id, { count: number; stations: number[] }>();
	for (const station of stations) {
		const drill = curriculum.drills.get(block.stations[station]?.drill ?? "");
		for (const { item, count, per } of drill?.equipment ?? []) {
			const found = needs.get(item) ?? { count: 0, stations: [] };
			needs.set(item, found);
			found.count += per === "gymnast" ? count * gymnasts(station) : count;
			found.stations.push(station);
		}
	}
	return needs;
}

function largest(
	curriculum: Curriculum,
	blocks: readonly { readonly block: Block; readonly needs: Needs }[],
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
				drills: [...new Set(stations.map((s) => block.stations[s]?.drill ?? ""))],
			});
		}
	}
	return [...curriculum.equipment.keys()].flatMap((item) => lines.get(item) ?? []);
}

/** A moment of a week in which classes together need more of an item than the club owns. */
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
		readonly apparatus: Id;
		readonly block: Block;
		readonly needed: number;
	}[];
}

interface Stretch {
	readonly from: number;
	readonly to: number;
	readonly class: ClubClass;
	readonly apparatus: Id;
	readonly block: Block;
	readonly needs: Needs;
}

/**
 * Where classes that overlap need more of an item at the same moment than the club owns: the worst
 * moment for each week, day and item. A class starts with its warm-up and then does its blocks in the
 * order of its rotation, one after the other; what runs past its end is left out. Classes without a
 * day or a start, and classes that do not meet that week, are not in the timetable.
 */
export function clashes(curriculum: Curriculum): readonly Clash[] {
	return curriculum.weeks.flatMap((plan) =>
		WEEKDAYS.flatMap((day) => clashesOn(curriculum, plan.week, day, timetable(curriculum, plan, day))),
	);
}

function timetable(curriculum: Curriculum, plan: WeekPlan, day: Weekday): readonly Stretch[] {
	return curriculum.term.classes.flatMap((group) => {
		if (group.day !== day || group.start === undefined) return [];
		if (!meets(curriculum.term, plan.week, group)) return [];
		const start = minuteOf(group.start);
		const end = start + (group.minutes ?? Number.POSITIVE_INFINITY);
		let at = start + group.warmUp;
		return classTime(curriculum, plan, group).blocks.flatMap(({ apparatus, block, drills }) => {
			const from = at;
			at += block.minutes;
			const to = Math.min(at, end);
			if (to <= from) return [];
			const stations = drills.map((d) => d.station - 1);
			const needs = needsOf(curriculum, block, stations, () => drills[0]?.gymnasts ?? 0);
			return [{ from, to, class: group, apparatus, block, needs }];
		});
	});
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
					class: s.class.id,
					apparatus: s.apparatus,
					block: s.block,
					needed: s.needs.get(item)?.count ?? 0,
				})),
			});
		}
	}
	return [...curriculum.equipment.keys()].flatMap((item) => worst.get(item) ?? []);
}

const COLUMNS: readonly Column[] = [
	{ name: "week", order: "number" },
	{ name: "apparatus", order: "apparatus" },
	{ name: "item", order: "equipment" },
	{ name: "needed", order: "number" },
	{ name: "owned", order: "number" },
];

/** equipment.csv, and H310 and H317. */
export const equipmentMeasure: Measure = {
	name: "equipment",
	tables: ({ curriculum }) => {
		const rows = curriculum.weeks.flatMap(({ week, apparatus }) =>
			apparatus.flatMap((plan) =>
				equipmentFor(curriculum, plan).map((l) => [week, plan.apparatus, l.item, l.needed, l.owned]),
			),
		);
		return [{ name: "equipment", columns: COLUMNS, rows: sortedRows(curriculum, COLUMNS, rows) }];
	},
	findings: ({ curriculum }, words) => [
		...curriculum.weeks.flatMap((week) =>
			week.apparatus.flatMap((plan) =>
				equipmentFor(curriculum, plan).flatMap((line) => shortOf(curriculum, week, plan, line, words)),
			),
		),
		...clashes(curriculum).map((clash) => clashing(curriculum, clash, words)),
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
		say.wanted(
			className(curriculum, c.class),
			c.needed,
			curriculum.apparatus.get(c.apparatus)?.name ?? c.apparatus,
		),
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

function itemName(curriculum: Curriculum, id: Id): string {
	return curriculum.equipment.get(id)?.name ?? id;
}

function className(curriculum: Curriculum, id: Id): string {
	return curriculum.term.classes.find((c) => c.id === id)?.name ?? id;
}
