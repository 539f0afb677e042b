/**
 * Offers the class sheets of today, one tap away, with the class that this device opened last at hand.
 *
 * Steps: read the term's class sheets off the page's own lists; choose by the club's date and time;
 * write them as large keys. Chosen anew when the page is looked at again: a phone keeps its pages
 * open for days.
 */

import { date, ofWeek, today } from "../../scripts/words/en.ts";
import { type Choice, chooseSheets, type Offer, type Sheet } from "./hall/choose-sheets.ts";
import { clubTime } from "./hall/club-time.ts";
import { LAST_CLASS, recall } from "./hall/device-memory.ts";

const region = document.querySelector<HTMLElement>(".today-sheets");
if (region !== null) {
	const sheets = [...document.querySelectorAll<HTMLElement>("[data-sheet]")].map(sheetOf);
	offerSheets(region, sheets);
	for (const event of ["visibilitychange", "pageshow"] as const) {
		(event === "pageshow" ? window : document).addEventListener(event, () => offerSheets(region, sheets));
	}
}

function sheetOf(row: HTMLElement): Sheet {
	const { sheet = "", name = "", week = "", date = "", start = "", end = "", closed } = row.dataset;
	const card = row.closest<HTMLElement>(".week-card");
	return {
		class: sheet,
		name,
		week,
		date,
		start,
		end,
		closed: closed !== undefined,
		weekFrom: card?.dataset.from ?? "",
		weekTo: card?.dataset.to ?? "",
		href: row.querySelector("a")?.href ?? "",
	};
}

let shown = "";

function offerSheets(region: HTMLElement, sheets: readonly Sheet[]): void {
	const now = clubTime(region.dataset.timezone);
	const closures = (region.dataset.closures ?? "").split(" ").filter((interval) => interval !== "");
	const choice = chooseSheets(sheets, closures, recall(LAST_CLASS), now);
	const state = JSON.stringify(choice);
	// Written again only where it says something else, so that the keyboard keeps its place.
	if (state === shown) return;
	shown = state;
	const title = region.querySelector("h2");
	const note = region.querySelector<HTMLElement>(".today-note");
	const list = region.querySelector("ul");
	if (title === null || note === null || list === null) return;
	title.textContent = today.titles[choice.day];
	note.textContent = noteOf(choice, now.date);
	note.hidden = note.textContent === "";
	list.replaceChildren(...choice.offers.map(key));
	region.hidden = choice.offers.length === 0;
}

function noteOf({ day, closedUntil, next }: Choice, on: string): string {
	const full = (iso: string) => date(iso, "full");
	if (day === "class day") return full(on);
	return [
		...(closedUntil === undefined || closedUntil === on ? [] : [today.closedUntil(full(closedUntil))]),
		...(next === undefined ? [] : [day === "before term" ? today.first(full(next)) : today.next(full(next))]),
	].join(" ");
}

function key({ sheet, when, last }: Offer): HTMLElement {
	const item = document.createElement("li");
	const link = document.createElement("a");
	link.className = "sheet-key";
	link.href = sheet.href;
	const time = sheet.end === "" ? sheet.start : `${sheet.start}–${sheet.end}`;
	const day = when === "next" || when === "past" ? date(sheet.date) : "";
	link.append(
		words("b", sheet.name),
		words("span", [day, time, ofWeek(Number(sheet.week))].filter((part) => part !== "").join(" · ")),
	);
	if (when === "on now" || when === "over") link.append(words("em", today.when[when]));
	else if (last && when === "next") link.append(words("em", today.openedLast));
	item.append(link);
	return item;
}

function words(name: "b" | "span" | "em", text: string): HTMLElement {
	const element = document.createElement(name);
	element.textContent = text;
	return element;
}
