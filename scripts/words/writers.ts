/**
 * How a language writes numbers, counts, lists and dates. Each language's file makes its own from these.
 *
 * Plural rules, decimal signs and the names of months are those of the Unicode CLDR, through `Intl`.
 */

/** Writes a number with at most so many decimals and no grouping: 4, 4.5, 0.3 (in French 4,5). */
export type WriteNumber = (value: number, decimals?: number) => string;

/** The forms of a counted noun; `#` stands for the number. */
export interface Forms {
	readonly one: string;
	readonly other: string;
}

/** Numbers with the decimal sign of a language. */
export function numbersOf(locale: string): WriteNumber {
	// Asked for when the first fraction is written: on a phone the question costs a tenth of a second.
	let sign: string | undefined;
	return (value, decimals = 1) => {
		const scale = 10 ** decimals;
		const rounded = Math.round(value * scale) / scale;
		const text = String(Object.is(rounded, -0) ? 0 : rounded);
		if (Number.isInteger(rounded)) return text;
		sign ??=
			new Intl.NumberFormat(locale).formatToParts(0.5).find(({ type }) => type === "decimal")?.value ?? ".";
		return sign === "." ? text : text.replace(".", sign);
	};
}

/**
 * Counted nouns: `count("# week", "# weeks")(3)` is "3 weeks". Which form a number takes is the
 * language's own rule: French says "0 semaine" and "1,5 semaine".
 */
export function countsOf(
	locale: string,
	write: WriteNumber,
): (one: string, other: string) => (count: number) => string {
	let rules: Intl.PluralRules | undefined;
	return (one, other) => {
		const forms: Forms = { one, other };
		return (count) => {
			rules ??= new Intl.PluralRules(locale);
			// The rule is asked for the number as it is written, so that 1.04 is "1 week".
			const form = rules.select(Math.round(count * 10) / 10) === "one" ? forms.one : forms.other;
			return form.replace("#", write(count));
		};
	};
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

const DATE_LENGTHS = {
	short: { day: "numeric", month: "short" },
	medium: { day: "numeric", month: "short", year: "numeric" },
	long: { day: "numeric", month: "long", year: "numeric" },
	full: { weekday: "long", day: "numeric", month: "long", year: "numeric" },
} as const satisfies Readonly<Record<string, Intl.DateTimeFormatOptions>>;

/** An ISO 8601 date: "4 Jan" (short), "4 Jan 2027" (medium), "4 January 2027" (long) or "Monday 4 January 2027" (full). */
export type WriteDate = (iso: string, length?: keyof typeof DATE_LENGTHS) => string;

/** Dates of a language; a year with each full one. Formatting is dear and a term's dates come often, so they are kept. */
export function datesOf(locale: string): WriteDate {
	const formats = new Map<string, Intl.DateTimeFormat>();
	const written = new Map<string, string>();
	return (iso, length = "short") => {
		const key = `${length} ${iso}`;
		const known = written.get(key);
		if (known !== undefined) return known;
		let format = formats.get(length);
		if (format === undefined) {
			format = new Intl.DateTimeFormat(locale, { timeZone: "UTC", ...DATE_LENGTHS[length] });
			formats.set(length, format);
		}
		const words = format.format(new Date(`${iso}T00:00:00Z`));
		written.set(key, words);
		return words;
	};
}

/**
 * A sentence around things that are not text, such as links: its parts in their order. A template
 * writes it as it writes any list.
 */
export type Sentence<T> = readonly (T | string)[];
