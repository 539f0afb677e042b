/**
 * How the languages write numbers, counts and dates, held against the Unicode CLDR as Node's `Intl` has it
 * (https://cldr.unicode.org): `en-GB`, which puts the day first, and `fr-FR`.
 */

import { describe, expect, it } from "vitest";
import { wordsFor } from "../../scripts/words/words.ts";

const LENGTHS = {
	short: { day: "numeric", month: "short" },
	medium: { day: "numeric", month: "short", year: "numeric" },
	long: { day: "numeric", month: "long", year: "numeric" },
	full: { weekday: "long", day: "numeric", month: "long", year: "numeric" },
} as const;

describe.each([
	["en", "en-GB"],
	["fr", "fr-FR"],
])("%s", (language, locale) => {
	const { date, number, counts } = wordsFor(language);

	it.each(["short", "medium", "long", "full"] as const)("writes every day of two years: %s", (length) => {
		const format = new Intl.DateTimeFormat(locale, { timeZone: "UTC", ...LENGTHS[length] });
		for (let day = 0; day < 731; day++) {
			const at = new Date(Date.UTC(2027, 0, 1 + day));
			expect(date(at.toISOString().slice(0, 10), length)).toBe(format.format(at));
		}
	});

	it("writes numbers with its decimal sign", () => {
		const format = new Intl.NumberFormat(locale, { maximumFractionDigits: 1, useGrouping: false });
		for (const value of [0, 0.5, 1, 1.04, 1.5, 2, 12.3, 1234.5, -1.5])
			expect(number(value)).toBe(format.format(value));
	});

	it("counts with the form that its rule gives a number as it is written", () => {
		const rules = new Intl.PluralRules(locale);
		for (const value of [0, 0.04, 0.5, 1, 1.04, 1.5, 1.94, 1.96, 2, 3, 21, 101, 1000]) {
			const model = rules.select(Math.round(value * 10) / 10) === "one" ? counts.weeks(1) : counts.weeks(2);
			expect(counts.weeks(value)).toBe(model.replace(/^\d+/, number(value)));
		}
	});
});
