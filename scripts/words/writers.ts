/**
 * How a language writes numbers, counts, lists and dates. Each language's file makes its own from these.
 *
 * Plural rules, decimal signs and dates are those of the Unicode CLDR; a test holds them against `Intl`.
 * That is not asked here: its first answers cost a phone a tenth of a second before every first page, and
 * a phone with another version of the CLDR would write a page differently from the host.
 */

import type { Weekday } from "../model.ts";

/** Writes a number with at most so many decimals and no grouping: 4, 4.5, 0.3 (in French 4,5). */
export type WriteNumber = (value: number, decimals?: number) => string;

/** Numbers with the decimal sign of a language. */
export function numbersOf(sign: string): WriteNumber {
	return (value, decimals = 1) => {
		const scale = 10 ** decimals;
		const rounded = Math.round(value * scale) / scale;
		const text = String(Object.is(rounded, -0) ? 0 : rounded);
		return sign === "." ? text : text.replace(".", sign);
	};
}

/**
 * Counted nouns: `count("# week", "# weeks")(3)` is "3 weeks". Which form a number takes is the
 * language's own rule: French says "0 semaine" and "1,5 semaine".
 */
export function countsOf(
	write: WriteNumber,
	isOne: (count: number) => boolean,
): (one: string, other: string) => (count: number) => string {
	// The rule is asked for the number as it is written, so that 1.04 is "1 week".
	return (one, other) => (count) =>
		(isOne(Math.round(count * 10) / 10) ? one : other).replace("#", write(count));
}

/** "a", "a and b", "a, b and c"; beyond `most` the rest is counted by `more`. */
export type WriteList = (words: readonly string[], most?: number) => string;

/** Lists that end in a word such as "and". */
export function listsOf(last: string, more: (count: number) => string): WriteList {
	return (words, most = Number.POSITIVE_INFINITY) => {
		const shown = words.length > most ? [...words.slice(0, most - 1), more(words.length - most + 1)] : words;
		return shown.length < 2
			? (shown[0] ?? "")
			: `${shown.slice(0, -1).join(", ")} ${last} ${shown.at(-1) ?? ""}`;
	};
}

/** An ISO 8601 date: "4 Jan" (short), "4 Jan 2027" (medium), "4 January 2027" (long) or "Monday, 4 January 2027" (full). */
export type WriteDate = (iso: string, length?: "short" | "medium" | "long" | "full") => string;

const WEEKDAYS: readonly Weekday[] = [
	"sunday",
	"monday",
	"tuesday",
	"wednesday",
	"thursday",
	"friday",
	"saturday",
];

/**
 * Dates of a language that puts the day before the month.
 *
 * @param months from January, and as they are shortened
 * @param full puts the day of the week before a date
 */
export function datesOf(
	months: readonly string[],
	short: readonly string[],
	full: (day: Weekday, date: string) => string,
): WriteDate {
	return (iso, length = "short") => {
		const [year = "", month = "", day = ""] = iso.split("-");
		const names = length === "short" || length === "medium" ? short : months;
		const date = `${Number(day)} ${names[Number(month) - 1]}`;
		if (length === "short") return date;
		const long = `${date} ${Number(year)}`;
		return length === "full" ? full(WEEKDAYS[new Date(iso).getUTCDay()] ?? "sunday", long) : long;
	};
}

/**
 * A sentence around things that are not text, such as links: its parts in their order. A template
 * writes it as it writes any list.
 */
export type Sentence<T> = readonly (T | string)[];
