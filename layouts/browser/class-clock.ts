/**
 * On the day of the class, marks the block and the stop that the clock has reached.
 *
 * Times are the club's, in its time zone. Looks again every half minute, and whenever the page is
 * looked at again.
 */

import { hall } from "../../scripts/words/en.ts";
import { clubTime } from "./hall/club-time.ts";

const sheet = document.querySelector<HTMLElement>("[data-class-date]");
const steps = [...document.querySelectorAll<HTMLElement>(".block[data-from]")];
const way = document.querySelector<HTMLAnchorElement>("a.one-block");
const stops = [...document.querySelectorAll<HTMLElement>(".run [data-from]")];

function tick(): void {
	const { date, clock } = clubTime(sheet?.dataset.timezone);
	const isToday = date === sheet?.dataset.classDate;
	for (const step of steps) {
		const { from = "", until = "" } = step.dataset;
		step.classList.toggle("now-here", isToday && from <= clock && clock < until);
	}
	const reached = isToday ? stops.findLast((stop) => (stop.dataset.from ?? "") <= clock) : undefined;
	const present = steps.find((step) => step.classList.contains("now-here"));
	// The way into the view of one block leads to the present one, else to the first.
	if (way !== null && steps[0] !== undefined) {
		way.href = `#${(present ?? steps[0]).id}`;
		way.textContent = present === undefined ? hall.blockByBlock : hall.toPresent;
	}
	for (const stop of stops) {
		const here = stop === reached && stop !== stops.at(-1);
		stop.classList.toggle("now-here", here);
		if (here) stop.setAttribute("aria-current", "step");
		else stop.removeAttribute("aria-current");
	}
}

if (sheet?.dataset.classDate !== undefined) {
	tick();
	setInterval(tick, 30_000);
	document.addEventListener("visibilitychange", tick);
}
