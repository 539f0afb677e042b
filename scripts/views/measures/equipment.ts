/**
 * Equipment as a page: needed against owned, where classes meet in the hall, and what is then short.
 */

import { WEEKDAYS } from "../../compute/calendar.ts";
import { clockOf, minuteOf } from "../../compute/clock.ts";
import { equipmentFor } from "../../compute/equipment.ts";
import type { Bar } from "../../figures/bar-chart.ts";
import type { Id } from "../../model.ts";
import { addressOf, classSheetAddress, weekApparatusAddress } from "../addresses.ts";
import { type Link, linkTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { measureHead } from "./measure-head.ts";

export type EquipmentMeasureView = ReturnType<typeof equipmentMeasureView>;

export interface NeededRow {
	readonly id: Id;
	readonly item: Link;
	readonly owned: number | undefined;
	/** One for each week; undefined where none is needed. */
	readonly cells: readonly (
		| { readonly needed: number; readonly link: Link; readonly short: boolean }
		| undefined
	)[];
}

export type ClashView = ReturnType<typeof clashViews>[number];

/** Bars of the tightest items; more would hide them again. */
const MOST_BARS = 12;

export function equipmentMeasureView(site: SiteIndex) {
	const { curriculum } = site;
	const weeks = curriculum.weeks.map(({ week }) => week);
	const needed = new Map<string, Map<number, number>>();
	const most = new Map<Id, number>();
	for (const { week, apparatus } of curriculum.weeks) {
		for (const plan of apparatus) {
			for (const line of equipmentFor(curriculum, plan)) {
				const key = `${plan.apparatus} ${line.item}`;
				const row = needed.get(key) ?? new Map<number, number>();
				needed.set(key, row.set(week, line.needed));
				most.set(line.item, Math.max(most.get(line.item) ?? 0, line.needed));
			}
		}
	}
	return {
		head: measureHead(site, "equipment"),
		/** The items of which the most that is needed comes nearest to what is owned. */
		tightest: tightestOf(site, most),
		weeks,
		apparatus: [...curriculum.apparatus.keys()].flatMap((id) => {
			const rows = [...curriculum.equipment.values()].flatMap((item): readonly NeededRow[] => {
				const row = needed.get(`${id} ${item.id}`);
				if (row === undefined) return [];
				return [
					{
						id: item.id,
						item: linkTo(curriculum, "equipment", item.id),
						owned: item.owned,
						cells: curriculum.weeks.map((plan) => {
							const count = row.get(plan.week);
							if (count === undefined) return undefined;
							return {
								needed: count,
								short: item.owned !== undefined && count > item.owned,
								link: {
									to: `${weekApparatusAddress(plan.id, id)}#set-out`,
									name: `${item.name}, ${site.words.ofWeek(plan.week)}`,
								},
							};
						}),
					},
				];
			});
			return rows.length === 0 ? [] : [{ id, link: linkTo(curriculum, "apparatus", id), rows }];
		}),
		clashes: clashViews(site),
		overlaps: overlapsOf(site),
	};
}

function tightestOf(site: SiteIndex, most: ReadonlyMap<Id, number>): readonly Bar[] {
	return [...most]
		.flatMap(([id, needed]) => {
			const owned = site.curriculum.equipment.get(id)?.owned;
			if (owned === undefined || needed === 0) return [];
			return [{ id, needed, owned, share: owned === 0 ? Number.POSITIVE_INFINITY : needed / owned }];
		})
		.sort((a, b) => b.share - a.share || b.needed - a.needed)
		.slice(0, MOST_BARS)
		.map(({ id, needed, owned }) => {
			const { to, name } = linkTo(site.curriculum, "equipment", id);
			return {
				name,
				values: [needed],
				href: to,
				note: { words: site.words.equipmentMeasure.ofOwned(owned), warns: needed > owned },
			};
		});
}

/** Shortages while classes overlap, in the order of the term. */
export function clashViews(site: SiteIndex, week?: number) {
	const { curriculum } = site;
	return site.measures
		.clashes()
		.filter((clash) => week === undefined || clash.week === week)
		.map((clash) => {
			const plan = site.weekByNumber.get(clash.week);
			return {
				day: clash.day,
				from: clockOf(clash.from),
				to: clockOf(clash.to),
				week: {
					to: plan === undefined ? "weeks/" : addressOf({ kind: "week", id: plan.id }),
					name: site.words.week(clash.week),
				},
				item: linkTo(curriculum, "equipment", clash.item),
				needed: clash.needed,
				owned: clash.owned,
				classes: clash.classes.map((one) => {
					const apparatus = linkTo(curriculum, "apparatus", one.apparatus).name;
					const name = curriculum.term.classes.find(({ id }) => id === one.class)?.name ?? one.class;
					return {
						sheet: {
							to: plan === undefined ? `classes/${one.class}/` : classSheetAddress(one.class, plan.id),
							name,
						},
						place: {
							to:
								plan === undefined
									? `apparatus/${one.apparatus}/`
									: `${weekApparatusAddress(plan.id, one.apparatus)}#block-${one.block.number}`,
							name: site.words.blockAt(apparatus, one.block.number),
						},
						needed: one.needed,
					};
				}),
			};
		});
}

/** Stretches of a day in which two or more classes are in the hall, by day, then time. */
function overlapsOf(site: SiteIndex) {
	const timed = site.curriculum.term.classes.flatMap((group) => {
		if (group.day === undefined || group.start === undefined || group.minutes === undefined) return [];
		const from = minuteOf(group.start);
		return [{ group, day: group.day, from, to: from + group.minutes }];
	});
	return [...Map.groupBy(timed, (one) => one.day)]
		.sort(([a], [b]) => WEEKDAYS.indexOf(a) - WEEKDAYS.indexOf(b))
		.flatMap(([day, classes]) => {
			const edges = [...new Set(classes.flatMap(({ from, to }) => [from, to]))].sort((a, b) => a - b);
			return edges.slice(1).flatMap((to, i) => {
				const from = edges[i] ?? to;
				const here = classes.filter((one) => one.from <= from && to <= one.to);
				if (here.length < 2) return [];
				return [
					{
						day,
						from: clockOf(from),
						to: clockOf(to),
						classes: here.map(({ group }) => ({ to: `classes/${group.id}/`, name: group.name })),
					},
				];
			});
		});
}
