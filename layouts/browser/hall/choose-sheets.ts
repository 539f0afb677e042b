/**
 * Which class sheets to offer on a date.
 *
 * Steps: leave out closed days; take the classes of today. On a day with classes they come first: the
 * class opened last at their head, else the one that is on or next. On any other day the class opened
 * last comes first with its next sheet, then the classes of the next class day; where it does not meet
 * again its last sheet comes last. Classes without a day are offered in their week, after the first.
 */

import type { ClubTime } from "./club-time.ts";

/** A class in a week. Dates are ISO 8601, times "HH:MM"; empty where they are not known. */
export interface Sheet {
	readonly class: string;
	readonly name: string;
	readonly week: string;
	readonly date: string;
	readonly start: string;
	readonly end: string;
	readonly closed: boolean;
	/** The first and last day of its week, for a class without a day. */
	readonly weekFrom: string;
	readonly weekTo: string;
	readonly href: string;
}

export interface Offer {
	readonly sheet: Sheet;
	/** How its day stands to today. */
	readonly when: "today" | "on now" | "over" | "next" | "past" | "this week";
	/** Whether it is the class opened last. */
	readonly last: boolean;
}

export interface Choice {
	readonly day: "class day" | "free" | "closed" | "before term" | "after term";
	/** The last closed day of the closure that today falls into. */
	readonly closedUntil?: string;
	/** The next day with a class, where there is none today. */
	readonly next?: string;
	/** The first is the one that most coaches want. */
	readonly offers: readonly Offer[];
}

/** Chooses. `closures` are ISO 8601 intervals of days ("from/to"); `lastClass` an id. */
export function chooseSheets(
	sheets: readonly Sheet[],
	closures: readonly string[],
	lastClass: string | undefined,
	{ date: today, clock }: ClubTime,
): Choice {
	const dated = sheets
		.filter((sheet) => sheet.date !== "" && !sheet.closed)
		.sort((a, b) => compare(a.date + a.start, b.date + b.start));
	const offer = (sheet: Sheet): Offer => ({
		sheet,
		when: whenOf(sheet, today, clock),
		last: sheet.class === lastClass,
	});
	const loose = sheets
		.filter((sheet) => sheet.date === "" && sheet.weekFrom <= today && today <= sheet.weekTo)
		.map(offer);
	const next = dated.find((sheet) => sheet.date > today)?.date;

	const todays = dated.filter((sheet) => sheet.date === today).map(offer);
	if (todays.length > 0) {
		const first = todays.find(({ last }) => last) ?? todays.find(({ when }) => when !== "over") ?? todays[0];
		const own = todays.some(({ last }) => last) ? undefined : nextOf(dated, lastClass, today);
		return {
			day: "class day",
			offers: [
				...(first === undefined ? [] : [first]),
				...todays.filter((other) => other !== first),
				...loose,
				...(own === undefined ? [] : [offer(own)]),
			],
		};
	}

	const own = nextOf(dated, lastClass, today);
	// A class that does not meet again has only its last sheet left: that comes last.
	const ahead = own !== undefined && own.date > today;
	const offers = [
		...(own !== undefined && ahead ? [offer(own)] : []),
		...loose,
		...dated.filter((sheet) => sheet.date === next && sheet !== own).map(offer),
		...(own !== undefined && !ahead ? [offer(own)] : []),
	];
	const closure = closures
		.map((interval) => interval.split("/"))
		.find(([from = "", to = from]) => from <= today && today <= to);
	const day =
		closure !== undefined
			? "closed"
			: next === undefined
				? "after term"
				: dated[0] !== undefined && today < dated[0].date
					? "before term"
					: "free";
	const closedUntil = closure?.[1] ?? closure?.[0];
	return {
		day,
		...(closedUntil === undefined ? {} : { closedUntil }),
		...(next === undefined ? {} : { next }),
		offers,
	};
}

/** The next sheet of a class from today on; after its last meeting that one. */
function nextOf(dated: readonly Sheet[], id: string | undefined, today: string): Sheet | undefined {
	const own = dated.filter((sheet) => sheet.class === id);
	return own.find((sheet) => sheet.date >= today) ?? own.at(-1);
}

function whenOf({ date, start, end }: Sheet, today: string, clock: string): Offer["when"] {
	if (date === "") return "this week";
	if (date !== today) return date > today ? "next" : "past";
	if (end !== "" && end <= clock) return "over";
	return start !== "" && start <= clock && end !== "" ? "on now" : "today";
}

function compare(a: string, b: string): number {
	return a < b ? -1 : a > b ? 1 : 0;
}
