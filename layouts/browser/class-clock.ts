/**
 * On the day of the class, marks the block and the stop that the clock has reached.
 *
 * Times are the club's, in its time zone. Looks again every half minute, and whenever the page is
 * looked at again.
 */

const sheet = document.querySelector<HTMLElement>("[data-class-date]");
const steps = [...document.querySelectorAll<HTMLElement>(".block[data-from]")];
const stops = [...document.querySelectorAll<HTMLElement>(".run [data-from]")];

function tick(): void {
	const { date, clock } = now(sheet?.dataset.timezone);
	const isToday = date === sheet?.dataset.classDate;
	for (const step of steps) {
		const { from = "", until = "" } = step.dataset;
		step.classList.toggle("now-here", isToday && from <= clock && clock < until);
	}
	const reached = isToday ? stops.findLast((stop) => (stop.dataset.from ?? "") <= clock) : undefined;
	for (const stop of stops) {
		const here = stop === reached && stop !== stops.at(-1);
		stop.classList.toggle("now-here", here);
		if (here) stop.setAttribute("aria-current", "step");
		else stop.removeAttribute("aria-current");
	}
}

function now(timeZone: string | undefined): { readonly date: string; readonly clock: string } {
	const parts = new Intl.DateTimeFormat("en", {
		...(timeZone === undefined ? {} : { timeZone }),
		year: "numeric",
		month: "2-digit",
		day: "2-digit",
		hour: "2-digit",
		minute: "2-digit",
		hourCycle: "h23",
	}).formatToParts(new Date());
	const part = (type: string) => parts.find((p) => p.type === type)?.value ?? "";
	return {
		date: `${part("year")}-${part("month")}-${part("day")}`,
		clock: `${part("hour")}:${part("minute")}`,
	};
}

if (sheet?.dataset.classDate !== undefined) {
	tick();
	setInterval(tick, 30_000);
	document.addEventListener("visibilitychange", tick);
}
