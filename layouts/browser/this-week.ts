/**
 * Shows the week of today on home, and marks today wherever weeks and classes are listed.
 *
 * Dates are the club's, in its time zone, whatever the device's. Before the term the first week is
 * shown, between weeks the next, after the term the last. All weeks stay in the list of weeks.
 */

import { tenses } from "../../scripts/words/en.ts";
import { clubTime } from "./hall/club-time.ts";

const region = document.querySelector<HTMLElement>("[data-timezone]");
const today = clubTime(region?.dataset.timezone).date;

const cards = [...document.querySelectorAll<HTMLElement>(".week-card[data-from]")];
const shown = cards.find((card) => today <= (card.dataset.to ?? "")) ?? cards.at(-1);
if (shown !== undefined) {
	for (const card of cards) card.hidden = card !== shown;
	const tense = shown.querySelector<HTMLElement>(".tense");
	if (tense !== null) {
		tense.textContent = tenseOf(shown);
		tense.hidden = false;
	}
	shown.classList.toggle("today", isNow(shown));
}

for (const row of document.querySelectorAll<HTMLElement>(".week-rows [data-from]")) {
	if (isNow(row)) mark(row, tenses.badges.week);
}
for (const row of document.querySelectorAll<HTMLElement>("[data-date]")) {
	if (row.dataset.date === today) mark(row, tenses.badges.day);
}

function tenseOf(card: HTMLElement): string {
	if (isNow(card)) return tenses.now;
	return today < (card.dataset.from ?? "") ? tenses.next : tenses.past;
}

function isNow(element: HTMLElement): boolean {
	return (element.dataset.from ?? "") <= today && today <= (element.dataset.to ?? "");
}

function mark(row: HTMLElement, words: string): void {
	row.classList.add("today");
	const link = row.querySelector("a");
	const badge = document.createElement("span");
	badge.className = "badge";
	badge.textContent = words;
	link?.append(" ", badge);
}
