/**
 * Set-out: whether a class's equipment can stand before it begins, and what is carried where it cannot.
 *
 * Steps: for each apparatus take the most of each item that its blocks need in one minute, those of
 * groups who work there side by side added up; add that up over the apparatus the class visits
 * (together), and over what its groups use in the same minute anywhere (at once);
 * hold both against what is owned. Where together is too many, walk the visits in order of time: what
 * is left over is set out first come, first served; what is missing is carried from the apparatus that
 * was left longest ago, in the minutes between.
 */

import type { Curriculum, Finding, Id } from "../model.ts";
import type { Words } from "../words/words.ts";
import { clockOf, minuteOf } from "./clock.ts";
import { finding, sourceOfWeek } from "./finding.ts";
import { getOrMake, onceEach } from "./get-or-make.ts";
import type { Measure } from "./measure.ts";
import { apparatusName, itemName } from "./names.ts";
import { needsOf } from "./needs.ts";
import { tableOf } from "./tables.ts";
import { type BlockWork, type GroupWork, groupWorksIn, type Stay } from "./work.ts";

export interface SetOutRow {
	readonly week: number;
	readonly class: Id;
	readonly item: Id;
	/** Of all its apparatus together. */
	readonly together: number;
	/** The most that its groups use in one minute. */
	readonly atOnce: number;
	readonly owned: number | undefined;
	/** What is carried during the class; empty where all of it can stand before. */
	readonly carried: readonly Carried[];
	/**
	 * What an apparatus lacks even so, since it is in use elsewhere. That one apparatus needs more than is
	 * owned is for the equipment measure to say.
	 */
	readonly missing: readonly { readonly apparatus: Id; readonly count: number }[];
}

export interface Carried {
	readonly count: number;
	readonly from: Id;
	readonly to: Id;
	/** Minutes after the start of the class at which it must stand. */
	readonly at: number;
	/** Adults who carry one. */
	readonly adults: number;
}

interface Visit {
	readonly apparatus: Id;
	readonly from: number;
	readonly to: number;
	readonly needs: ReadonlyMap<Id, number>;
}

/** By the work of a class's first group, which is the same in every plan that leaves its week as it is. */
const rowsOfWork = new WeakMap<GroupWork, readonly SetOutRow[]>();

/** Each class and item by week, then as in the term, then in the order of the store room's list. */
export const setOutRows = onceEach((curriculum: Curriculum): readonly SetOutRow[] =>
	curriculum.weeks.flatMap(({ week }) => {
		const works = groupWorksIn(curriculum, week);
		return curriculum.term.classes.flatMap((one) => {
			const own = works.filter((work) => work.group.class === one);
			const [first] = own;
			return first === undefined
				? []
				: getOrMake(rowsOfWork, first, () => rowsOf(curriculum, week, one.id, own));
		});
	}),
);

function rowsOf(
	curriculum: Curriculum,
	week: number,
	id: Id,
	works: readonly GroupWork[],
): readonly SetOutRow[] {
	const visits = visitsOf(works);
	const together = togetherOf(visits);
	const most = mostAtOnce(works);
	return [...curriculum.equipment.values()].flatMap((item) => {
		const count = together.get(item.id) ?? 0;
		if (count === 0) return [];
		const { owned } = item;
		const { carried, missing } =
			owned === undefined || count <= owned || item.adults === 0
				? { carried: [], missing: [] }
				: carriedOf(item.id, owned, item.adults, visits);
		const atOnce = most.get(item.id) ?? 0;
		return [{ week, class: id, item: item.id, together: count, atOnce, owned, carried, missing }];
	});
}

/** Of each item the sum over the apparatus of the most that is needed there. */
function togetherOf(visits: readonly Visit[]): ReadonlyMap<Id, number> {
	const together = new Map<Id, number>();
	for (const needs of mostOf(visits).values()) {
		for (const [item, count] of needs) together.set(item, (together.get(item) ?? 0) + count);
	}
	return together;
}

/** Of each item the most that the groups use in one minute: use only rises where a block that needs it begins. */
function mostAtOnce(works: readonly GroupWork[]): ReadonlyMap<Id, number> {
	const most = new Map<Id, number>();
	for (const work of works) {
		for (const block of work.blocks) {
			// A group is in one block at a time.
			const others = works.flatMap((other) =>
				other === work
					? []
					: other.blocks.filter(({ from, to }) => from <= block.from && block.from < to).map(needsOf),
			);
			for (const [item, { count }] of needsOf(block)) {
				let now = count;
				for (const needs of others) now += needs.get(item)?.count ?? 0;
				if (now > (most.get(item) ?? 0)) most.set(item, now);
			}
		}
	}
	return most;
}

/** Each group's stay on each apparatus, by the time it begins, with what stands there meanwhile at most. */
function visitsOf(works: readonly GroupWork[]): readonly Visit[] {
	const all = works.flatMap((work) => work.stays.map((stay) => ({ work, ...stay })));
	return all
		.map((stay): Visit => {
			const { work, apparatus, from, to } = stay;
			const others = all.filter(
				(other) => other.work !== work && other.apparatus === apparatus && other.from < to && from < other.to,
			);
			const stays = [stay, ...others];
			// Its own blocks, and those that another group begins there meanwhile.
			const begun = stays.flatMap(({ blocks }) =>
				blocks === stay.blocks ? blocks : blocks.filter((block) => from < block.from && block.from < to),
			);
			const needs = new Map<Id, number>();
			for (const block of begun) {
				// Of each item what the block and those that go on beside it, when it begins, need together.
				const beside = others.length === 0 ? [] : blocksBeside(block, stays);
				for (const one of [block, ...beside]) {
					for (const item of needsOf(one).keys()) {
						let now = needsOf(block).get(item)?.count ?? 0;
						for (const other of beside) now += needsOf(other).get(item)?.count ?? 0;
						if (now > (needs.get(item) ?? 0)) needs.set(item, now);
					}
				}
			}
			return { apparatus, from, to, needs };
		})
		.sort((a, b) => a.from - b.from);
}

/** The blocks of other groups that go on when a block begins. */
function blocksBeside(block: BlockWork, stays: readonly Stay[]): readonly BlockWork[] {
	// A group is in one block at a time.
	return stays.flatMap(({ blocks }) =>
		blocks.includes(block) ? [] : blocks.filter((other) => other.from <= block.from && block.from < other.to),
	);
}

/** The most of each item that stands on each apparatus of a class, in the order of its visits. */
export function mostOnEach(works: readonly GroupWork[]): ReadonlyMap<Id, ReadonlyMap<Id, number>> {
	return mostOf(visitsOf(works));
}

function mostOf(visits: readonly Visit[]): ReadonlyMap<Id, ReadonlyMap<Id, number>> {
	const most = new Map<Id, Map<Id, number>>();
	for (const { apparatus, needs } of visits) {
		const here = getOrMake(most, apparatus, () => new Map<Id, number>());
		for (const [item, count] of needs) here.set(item, Math.max(here.get(item) ?? 0, count));
	}
	return most;
}

function carriedOf(
	item: Id,
	owned: number,
	adults: number,
	visits: readonly Visit[],
): Pick<SetOutRow, "carried" | "missing"> {
	const standing = new Map<Id, number>();
	let left = owned;
	// Before the class: each apparatus in the order in which it is visited, as far as there is any.
	for (const { apparatus, needs } of visits) {
		const wanted = Math.max(0, (needs.get(item) ?? 0) - (standing.get(apparatus) ?? 0));
		const put = Math.min(left, wanted);
		if (put > 0) standing.set(apparatus, (standing.get(apparatus) ?? 0) + put);
		left -= put;
	}
	const carried: Carried[] = [];
	const lacking: { readonly apparatus: Id; readonly count: number }[] = [];
	for (const [i, visit] of visits.entries()) {
		let missing = (visit.needs.get(item) ?? 0) - (standing.get(visit.apparatus) ?? 0);
		if (missing <= 0) continue;
		for (const earlier of visits.slice(0, i)) {
			if (missing <= 0) break;
			if (earlier.to > visit.from || earlier.apparatus === visit.apparatus) continue;
			// What a later stay at the same place needs is not taken from under it while it is there.
			const isBusy = visits.some(
				(other) => other.apparatus === earlier.apparatus && other.from < visit.to && visit.from < other.to,
			);
			const there = isBusy ? 0 : (standing.get(earlier.apparatus) ?? 0);
			const count = Math.min(missing, there);
			if (count <= 0) continue;
			standing.set(earlier.apparatus, there - count);
			standing.set(visit.apparatus, (standing.get(visit.apparatus) ?? 0) + count);
			missing -= count;
			carried.push({ count, from: earlier.apparatus, to: visit.apparatus, at: visit.from, adults });
		}
		// A group that is there at the same time lacks the same ones.
		const isTold = lacking.some(({ apparatus, count }) => apparatus === visit.apparatus && count >= missing);
		if (missing > 0 && (visit.needs.get(item) ?? 0) <= owned && !isTold) {
			lacking.push({ apparatus: visit.apparatus, count: missing });
		}
	}
	return { carried, missing: lacking };
}

/** set-out.csv, and H333. */
export const setOutMeasure: Measure = {
	name: "set-out",
	tables: ({ curriculum }) => [
		tableOf(curriculum, "set-out", setOutRows(curriculum), {
			week: (r) => r.week,
			class: (r) => r.class,
			item: (r) => r.item,
			together: (r) => r.together,
			"at-once": (r) => r.atOnce,
			owned: (r) => r.owned,
		}),
	],
	findings: ({ curriculum }, words) =>
		[...Map.groupBy(setOutRows(curriculum), (row) => `${row.week} ${row.class}`).values()].flatMap((rows) =>
			carriedFindings(curriculum, rows, words),
		),
};

/** For each class and week one finding of everything that is carried, and one of each thing that cannot be brought. */
function carriedFindings(
	curriculum: Curriculum,
	rows: readonly SetOutRow[],
	words: Words,
): readonly Finding[] {
	const say = words.findings.hall;
	const first = rows[0];
	const one = curriculum.term.classes.find((c) => c.id === first?.class);
	if (first === undefined || one === undefined) return [];
	const { week } = first;
	const parts = rows.flatMap((row) =>
		row.carried.map(({ count, from, to, at, adults }) => ({
			count,
			at,
			text: say.carry(
				count,
				itemName(curriculum, row.item),
				apparatusName(curriculum, from),
				apparatusName(curriculum, to),
				one.start === undefined ? words.number(at) : clockOf(minuteOf(one.start) + at),
				adults,
			),
		})),
	);
	// That its groups use more in one minute than there is, is for the equipment measure to say.
	const missing = rows
		.filter((row) => row.owned === undefined || row.atOnce <= row.owned)
		.flatMap((row) => row.missing.map((m) => ({ ...m, item: row.item })));
	const source = sourceOfWeek(curriculum, week);
	const about = { week, class: one.id };
	return [
		...missing.map(({ item, apparatus, count }) =>
			finding(
				words,
				"H333",
				"serious",
				say.missing(week, one.name, itemName(curriculum, item), apparatusName(curriculum, apparatus), count),
				{ source, path: ["apparatus", apparatus] },
				{ ...about, apparatus, equipment: item },
			),
		),
		...(parts.length === 0
			? []
			: [
					finding(
						words,
						"H333",
						one.between > 0 ? "worth a look" : "serious",
						say.carried(week, one.name, [
							...[...parts].sort((a, b) => a.at - b.at).map(({ text }) => text),
							...(one.between > 0 ? [] : [say.noTimeToCarry]),
						]),
						{ source, path: ["apparatus"] },
						about,
						undefined,
						parts.reduce((sum, { count }) => sum + count, 0),
					),
				]),
	];
}
