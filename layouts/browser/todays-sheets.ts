/**
 * Offers the class sheets of today, one tap away, with the class that this device opened last at hand.
 *
 * Steps: read the term's class sheets off the page's own lists; choose by the club's date and time;
 * write them as large keys. Chosen anew when the page is looked at again: a phone keeps its pages
 * open for days.
 */

import { dateWords } from "../../scripts/render/views/words.ts";
import { type Choice, chooseSheets, type Offer, type Sheet } from "./hall/choose-sheets.ts";
import { clubTime } from "./hall/club-time.ts";
import { LAST_CLASS, recall } from "./hall/device-memory.ts";

const TITLES: Readonly<Record<Choice["day"], string>> = {
	"class day": "Today",
	free: "No class sheet for today",
	closed: "The club is closed today",
	"before term": "The term has not begun",
	"after term": "The term is over",
};

const region = document.querySelector<HTMLElement>(".today-sheets");
const language = document.documentElement.lang;

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
	title.textContent = TITLES[choice.day];
	note.textContent = noteOf(choice, now.date);
	note.hidden = note.textContent === "";
	list.replaceChildren(...choice.offers.map(key));
	region.hidden = choice.offers.length === 0;
}

function noteOf({ day, closedUntil, next }: Choice, today: string): string {
	const full = (date: string) => dateWords(date, language, "full");
	if (day === "class day") return full(today);
	return [
		...(closedUntil === undefined || closedUntil === today ? [] : [`Closed until ${full(closedUntil)}.`]),
		...(next === undefined ? [] : [`${day === "before term" ? "First" : "Next"} class day: ${full(next)}.`]),
	].join(" ");
}

function key({ sheet, when, last }: Offer): HTMLElement {
	const item = document.createElement("li");
	const link = document.createElement("a");
	link.className = "sheet-key";
	link.href = sheet.href;
	const time = sheet.end === "" ? sheet.start : `${sheet.start}–${sheet.end}`;
	const day = when === "next" || when === "past" ? dateWords(sheet.date, language) : "";
	link.append(
		words("b", sheet.name),
		words("span", [day, time, `week ${sheet.week}`].filter((part) => part !== "").join(" · ")),
	);
	if (when === "on now" || when === "over") link.append(words("em", when));
	else if (last && when === "next") link.append(words("em", "opened last"));
	item.append(link);
	return item;
}

function words(name: "b" | "span" | "em", text: string): HTMLElement {
	const element = document.createElement(name);
	element.textContent = text;
	return element;
}
