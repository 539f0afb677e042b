/**
 * The store-room list of a week, by where things are kept, and the labels that go with them.
 */

import { dateOf, meets, WEEKDAYS } from "../../compute/calendar.ts";
import { equipmentFor, equipmentForClass } from "../../compute/equipment.ts";
import type { Curriculum, Id, LinkedEquipment, Weekday, WeekPlan } from "../../model.ts";
import { type Address, addressOf } from "../addresses.ts";
import type { Html } from "../html.ts";
import type { SiteIndex } from "../site-index.ts";
import type { PieceOf } from "./sheet.ts";

export interface StoreRoomView {
	readonly week: number;
	/** The week's page. */
	readonly page: Address;
	readonly theme: Html;
	/** Those that need something. */
	readonly apparatus: readonly string[];
	/** By where it is kept. */
	readonly shelves: readonly { readonly stored: string | undefined; readonly items: readonly WantedItem[] }[];
	/** The days on which classes meet, with their hours. */
	readonly days: readonly {
		readonly day: Weekday;
		readonly date: string | undefined;
		readonly classes: readonly string[];
	}[];
}

export interface WantedItem {
	readonly name: string;
	readonly owned: number | undefined;
	/** With every apparatus set out at the same time. */
	readonly all: number;
	/** By apparatus; undefined where it is not needed. */
	readonly needed: readonly (number | undefined)[];
	/** Days on which a class uses it, from Monday. */
	readonly days: readonly Weekday[];
}

export interface LabelsView {
	readonly week: number;
	readonly labels: readonly {
		readonly name: string;
		/** The item's page. */
		readonly page: Address;
		readonly needed: number;
		readonly apparatus: string;
		readonly stored: string | undefined;
		readonly days: readonly Weekday[];
	}[];
}

/** What one item is needed for. */
interface Wanted {
	readonly item: LinkedEquipment;
	readonly at: ReadonlyMap<Id, number>;
	readonly all: number;
	readonly days: readonly Weekday[];
}

function wantedIn(curriculum: Curriculum, week: WeekPlan): readonly Wanted[] {
	const at = new Map<Id, Map<Id, number>>();
	const days = new Map<Id, Set<Weekday>>();
	for (const plan of week.apparatus) {
		for (const { item, needed } of equipmentFor(curriculum, plan)) {
			at.set(item, (at.get(item) ?? new Map()).set(plan.apparatus, needed));
		}
		for (const group of curriculum.term.classes) {
			const { day } = group;
			if (day === undefined || !group.rotation.includes(plan.apparatus)) continue;
			if (!meets(curriculum.term, week.week, group)) continue;
			for (const { item } of equipmentForClass(curriculum, plan, group)) {
				days.set(item, (days.get(item) ?? new Set()).add(day));
			}
		}
	}
	return [...curriculum.equipment.values()].flatMap((item) => {
		const places = at.get(item.id);
		if (places === undefined) return [];
		const all = [...places.values()].reduce((sum, needed) => sum + needed, 0);
		return [{ item, at: places, all, days: WEEKDAYS.filter((day) => days.get(item.id)?.has(day) === true) }];
	});
}

/** The list; undefined where the week needs nothing. */
export function storeRoomList(site: SiteIndex, week: WeekPlan): PieceOf<"store-room"> | undefined {
	const { curriculum, words } = site;
	const { term } = curriculum;
	const say = words.storeRoom;
	const wanted = wantedIn(curriculum, week);
	if (wanted.length === 0) return undefined;
	const here = [...curriculum.apparatus.values()].filter(({ id }) => wanted.some(({ at }) => at.has(id)));
	return {
		kind: "store-room",
		title: say.title(week.week),
		label: words.pageLabels.storeRoom(week.week),
		view: {
			week: week.week,
			page: addressOf({ kind: "week", id: week.id }),
			theme: site.line("", week.theme),
			apparatus: here.map(({ name }) => name),
			shelves: Array.from(
				Map.groupBy(wanted, ({ item }) => item.stored),
				([stored, own]) => ({
					stored,
					items: own.map(({ item: { name, owned }, all, at, days }) => ({
						name,
						owned,
						all,
						needed: here.map(({ id }) => at.get(id)),
						days,
					})),
				}),
			),
			days: WEEKDAYS.flatMap((day) => {
				const own = term.classes.filter((group) => group.day === day && meets(term, week.week, group));
				const [first] = own;
				if (first === undefined) return [];
				const classes = own.map(({ start = "", name }) => `${start} ${name}`.trim());
				return [{ day, date: dateOf(term, week.week, first), classes }];
			}),
		},
		words: wanted.flatMap(({ item, all }) => [
			`${item.name} ${words.number(all)}`,
			item.stored ?? say.elsewhere,
		]),
		safety: [],
		place: week.source.place(["apparatus"]),
	};
}

/** One label for each item at each apparatus; undefined where the week needs nothing. */
export function labelSheet(site: SiteIndex, week: WeekPlan): PieceOf<"label-sheet"> | undefined {
	const { curriculum, words } = site;
	const say = words.storeRoom;
	const wanted = wantedIn(curriculum, week);
	const labels = [...curriculum.apparatus.values()].flatMap(({ id, name: apparatus }) =>
		wanted.flatMap(({ item: { id: item, name, stored }, at, days }) => {
			const needed = at.get(id);
			const page = addressOf({ kind: "equipment", id: item });
			return needed === undefined ? [] : [{ name, page, needed, apparatus, stored, days }];
		}),
	);
	if (labels.length === 0) return undefined;
	return {
		kind: "label-sheet",
		title: say.labels(week.week),
		label: words.pageLabels.labels(week.week),
		view: { week: week.week, labels },
		words: labels.map(
			({ name, needed, apparatus }) => `${words.number(needed)} ${name} ${say.to(apparatus).join("")}`,
		),
		safety: [],
		place: week.source.place(["apparatus"]),
	};
}
