/**
 * The store-room list of a week, by where things are kept, and the labels that go with them.
 */

import { dateOf, meets } from "../../scripts/compute/calendar.ts";
import { equipmentFor, equipmentForClass } from "../../scripts/compute/equipment.ts";
import type { Id, LinkedEquipment, Weekday, WeekPlan } from "../../scripts/model.ts";
import { html } from "../../scripts/views/html.ts";
import type { Words } from "../../scripts/words/words.ts";
import type { SheetPiece } from "./sheet-file.ts";
import { AS_DESIGNED, fixedPiece, pouredPiece, type SheetMaker, stepsFrom } from "./side.ts";

/** What one item is needed for. */
interface Wanted {
	readonly item: LinkedEquipment;
	/** By apparatus, in the club's order. */
	readonly at: ReadonlyMap<Id, number>;
	/** With every apparatus set out at the same time. */
	readonly all: number;
	/** Days on which a class uses it, from Monday. */
	readonly days: readonly Weekday[];
}

const DAYS: readonly Weekday[] = [
	"monday",
	"tuesday",
	"wednesday",
	"thursday",
	"friday",
	"saturday",
	"sunday",
];

function wantedIn({ site: { curriculum } }: SheetMaker, week: WeekPlan): readonly Wanted[] {
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
		return [
			{
				item,
				at: places,
				all: [...places.values()].reduce((sum, needed) => sum + needed, 0),
				days: DAYS.filter((day) => days.get(item.id)?.has(day) === true),
			},
		];
	});
}

const dayWords = ({ shortDays }: Words, days: readonly Weekday[]) =>
	days.map((day) => shortDays[day]).join(" ");

/** The list; undefined where the week needs nothing. */
export function storeRoomList(maker: SheetMaker, week: WeekPlan): SheetPiece | undefined {
	const { curriculum, words } = maker.site;
	const say = words.storeRoom;
	const wanted = wantedIn(maker, week);
	if (wanted.length === 0) return undefined;
	const here = [...curriculum.apparatus.values()].filter(({ id }) => wanted.some(({ at }) => at.has(id)));
	const groups = Map.groupBy(wanted, ({ item }) => item.stored ?? say.elsewhere);
	const days = DAYS.flatMap((day) => {
		const own = curriculum.term.classes.filter(
			(group) => group.day === day && meets(curriculum.term, week.week, group),
		);
		const date = own[0] && dateOf(curriculum.term, week.week, own[0]);
		if (own.length === 0) return [];
		const name = words.days[day];
		return [
			say.classesOn(
				date === undefined ? name : words.sheets.dayOfMonth(name, Number(date.slice(8))),
				own.map((group) => `${group.start ?? ""} ${group.name}`.trim()),
			),
		];
	});
	return {
		title: say.title(week.week),
		label: words.pageLabels.storeRoom(week.week),
		html: pouredPiece(maker, {
			kind: "store-room",
			bound: true,
			head: html`<header class="head"><p class="when">${words.week(week.week)} · ${maker.site.inline("", week.theme)}</p><h1>${say.name} <span>${say.goesOut}</span></h1>
<p>${say.lead}</p></header>`,
			again: html`<header class="again"><b>${say.name}</b> ${words.ofWeek(week.week)}</header>`,
			items: [
				...Array.from(
					groups,
					([
						stored,
						items,
					]) => html`<section class="item"><table><thead><tr><th scope="col">${stored}</th><th scope="col" class="n">${say.all}</th><th scope="col" class="n">${say.owned}</th>${here.map(({ name }) => html`<th scope="col" class="n">${name}</th>`)}<th scope="col" class="days">${say.days}</th><th scope="col">${say.back}</th></tr></thead>
<tbody>${items.map(
						({ item, all, at, days: on }) =>
							html`<tr><th scope="row"><i class="tick"></i> ${item.name}</th><td class="n"><b>${words.number(all)}</b></td><td class="n${item.owned !== undefined && item.owned < all && " short"}">${item.owned ?? "–"}</td>${here.map(({ id }) => html`<td class="n">${at.get(id) ?? ""}</td>`)}<td class="days">${dayWords(words, on)}</td><td><i class="tick"></i></td></tr>`,
					)}</tbody></table></section>`,
				),
				days.length > 0 &&
					html`<section class="item"><h2>${words.destinations.classes}</h2>${days.map((line) => html`<p>${line}</p>`)}</section>`,
				html`<p class="item small">${say.short}</p>`,
			].filter((item) => item !== false),
		}),
		most: 2,
		steps: stepsFrom(1.12, 0.8),
		words: wanted.flatMap(({ item, all }) => [
			`${item.name} ${words.number(all)}`,
			item.stored ?? say.elsewhere,
		]),
		safety: [],
		place: week.source.place(["apparatus"]),
	};
}

/** Labels to a side, and side by side. */
const LABELS = 14;

/** One label for each item at each apparatus; undefined where the week needs nothing. */
export function labelSheet(maker: SheetMaker, week: WeekPlan): SheetPiece | undefined {
	const { curriculum, words } = maker.site;
	const say = words.storeRoom;
	const wanted = wantedIn(maker, week);
	const labels = [...curriculum.apparatus.values()].flatMap(({ id, name }) =>
		wanted.flatMap(({ item, at, days }) => {
			const needed = at.get(id);
			return needed === undefined ? [] : [{ item, needed, apparatus: name, days }];
		}),
	);
	if (labels.length === 0) return undefined;
	const sides = Array.from({ length: Math.ceil(labels.length / LABELS) }, (_, side) => {
		const own = labels.slice(side * LABELS, (side + 1) * LABELS);
		return html`<div class="labels">${own.map(
			({ item, needed, apparatus, days }) =>
				html`<div class="box"><p class="count">${words.number(needed)}</p><div><h2>${item.name}</h2><p class="to">${say.to(html`<b>${apparatus}</b>`)}</p><p>${item.stored !== undefined && say.backTo(item.stored)}</p><p class="small">${words.ofWeek(week.week)}${days.length > 0 && ` · ${dayWords(words, days)}`}</p></div></div>`,
		)}</div>`;
	});
	return {
		title: say.labels(week.week),
		label: words.pageLabels.labels(week.week),
		html: fixedPiece(maker, "label-sheet", sides),
		most: sides.length,
		steps: AS_DESIGNED,
		words: labels.map(
			({ item, needed, apparatus }) => `${words.number(needed)} ${item.name} ${say.to(apparatus).join("")}`,
		),
		safety: [],
		place: week.source.place(["apparatus"]),
	};
}
