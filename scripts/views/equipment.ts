/**
 * Equipment: the inventory, and the page of one item.
 */

import type { LinkedEquipment } from "../model.ts";
import { addressOf, weekApparatusAddress } from "./addresses.ts";
import { drillLines } from "./drill.ts";
import { linkTo, weekLink } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export type EquipmentListView = ReturnType<typeof equipmentListView>;

export type EquipmentView = ReturnType<typeof equipmentView>;

/** The whole inventory in the club's order. */
export function equipmentListView(site: SiteIndex) {
	const { curriculum } = site;
	const needed = site.rows("equipment", ["item"]);
	return {
		/** The planned weeks, each with a list for the store room. */
		weeks: curriculum.weeks.map((week) => ({ link: weekLink(site.words, week), number: week.week })),
		items: Array.from(curriculum.equipment.values(), (item) => {
			const amounts = (needed.get(item.id) ?? []).map((row) => Number(row.needed ?? 0));
			return {
				link: linkTo(curriculum, "equipment", item.id),
				aliases: item.aliases,
				owned: item.owned,
				stored: item.stored,
				/** The most that one apparatus needs in any week. */
				most: amounts.length === 0 ? undefined : Math.max(...amounts),
				drills: item.drills.length,
			};
		}),
	};
}

/** One item: where it is kept, where the term needs it, and its drills. */
export function equipmentView(site: SiteIndex, item: LinkedEquipment) {
	const { curriculum } = site;
	const page = addressOf({ kind: "equipment", id: item.id });
	return {
		name: item.name,
		aliases: item.aliases,
		owned: item.owned,
		stored: item.stored,
		uses: (site.rows("equipment", ["item"]).get(item.id) ?? []).flatMap((row) => {
			const week = site.weekByNumber.get(Number(row.week));
			if (week === undefined) return [];
			const apparatus = String(row.apparatus);
			return [
				{
					link: { to: weekApparatusAddress(week.id, apparatus), name: site.words.week(week.week) },
					apparatus: linkTo(curriculum, "apparatus", apparatus).name,
					needed: Number(row.needed ?? 0),
				},
			];
		}),
		drills: drillLines(site, page, item.drills),
	};
}
