/**
 * The store-room list of a week, by where things are kept, and the labels that go with them.
 */

import type { Weekday } from "../../scripts/model.ts";
import { html } from "../../scripts/views/html.ts";
import type { SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import type { LabelsView, StoreRoomView } from "../../scripts/views/sheets/store-room.ts";
import type { Words } from "../../scripts/words/words.ts";
import { pageCode } from "./page-code.ts";
import type { Drawn } from "./sheet-file.ts";
import { AS_DESIGNED, fixedPiece, pouredPiece, stepsFrom } from "./side.ts";

const dayWords = ({ shortDays }: Words, days: readonly Weekday[]) =>
	days.map((day) => shortDays[day]).join(" ");

export function storeRoomList(facts: SheetFacts, view: StoreRoomView): Drawn {
	const { words } = facts;
	const { week, page, theme, apparatus, shelves, days } = view;
	const say = words.storeRoom;
	return {
		html: pouredPiece(facts, {
			kind: "store-room",
			bound: true,
			head: html`<div class="with-code"><header class="head"><p class="when">${words.week(week)} · ${theme}</p><h1>${say.name} <span>${say.goesOut}</span></h1>
<p>${say.lead}</p></header>${pageCode(facts, page, say.name)}</div>`,
			again: html`<header class="again"><b>${say.name}</b> ${words.ofWeek(week)}</header>`,
			items: [
				html`<table class="item"><thead><tr><th scope="col">${words.equipmentPage.kept}</th><th scope="col" class="name">${words.equipmentPage.item}</th><th scope="col" class="n">${say.all}</th><th scope="col" class="n">${say.owned}</th>${apparatus.map((name) => html`<th scope="col" class="n">${name}</th>`)}<th scope="col" class="days">${say.days}</th><th scope="col">${say.back}</th></tr></thead>
<tbody>${shelves.map(({ stored, items }) =>
					items.map(
						({ name, owned, all, needed, days: on }, i) =>
							html`<tr${i === 0 && html` class="shelf"`}><td>${i === 0 && html`<b>${stored ?? say.elsewhere}</b>`}</td><th scope="row"><i class="tick"></i> ${name}</th><td class="n"><b>${words.number(all)}</b></td><td class="n${owned !== undefined && owned < all && " short"}">${owned ?? "–"}</td>${needed.map((count) => html`<td class="n">${count}</td>`)}<td class="days">${dayWords(words, on)}</td><td><i class="tick"></i></td></tr>`,
					),
				)}</tbody></table>`,
				...(days.length === 0
					? []
					: [
							html`<p class="item"><b>${words.destinations.classes}</b> ${days.map((day, i) => `${i > 0 ? " · " : ""}${classesOn(words, day)}`)}</p>`,
						]),
				html`<p class="item small">${say.short}</p>`,
			],
		}),
		most: 1,
		leaves: true,
		steps: stepsFrom(1.12, 0.9),
	};
}

function classesOn(words: Words, { day, date, classes }: StoreRoomView["days"][number]): string {
	const name = words.days[day];
	return words.storeRoom.classesOn(
		date === undefined ? name : words.sheets.dayOfMonth(name, Number(date.slice(8))),
		classes,
	);
}

/** Labels to a side, and side by side. */
const LABELS = 14;

/** One label for each item at each apparatus. */
export function labelSheet(facts: SheetFacts, { week, labels }: LabelsView): Drawn {
	const { words } = facts;
	const say = words.storeRoom;
	const sides = Array.from({ length: Math.ceil(labels.length / LABELS) }, (_, side) => {
		const own = labels.slice(side * LABELS, (side + 1) * LABELS);
		return html`<div class="labels">${own.map(
			({ name, page, needed, apparatus, stored, days }) =>
				html`<div class="box"><p class="count">${words.number(needed)}</p><div><h2>${name}</h2><p class="to">${say.to(html`<b>${apparatus}</b>`)}</p><p>${stored !== undefined && say.backTo(stored)}</p><p class="small">${words.ofWeek(week)}${days.length > 0 && ` · ${dayWords(words, days)}`}</p></div>${pageCode(facts, page, name)}</div>`,
		)}</div>`;
	});
	return { html: fixedPiece(facts, "label-sheet", sides), most: sides.length, steps: AS_DESIGNED };
}
