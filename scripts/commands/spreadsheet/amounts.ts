/**
 * Numbers and times as people type them into cells: 1,5 · ½ · 1 1/2 · 2 min · 1:30 · 1 min 30 s · 1h15.
 *
 * A time is given in the unit of its field, so that two minutes under seconds are 120 and not 2. What can
 * mean two things, such as 1:30 of a class (minutes or hours?), is not read but told.
 */

/** The unit a field is written in, or a heading names. */
export type TimeUnit = "seconds" | "minutes" | "hours";

const SECONDS: Readonly<Record<TimeUnit, number>> = { seconds: 1, minutes: 60, hours: 3600 };

/** A number, or why there is none. */
export type Amount = number | { readonly wrong: string };

const FRACTIONS: Readonly<Record<string, number>> = {
	"½": 1 / 2,
	"⅓": 1 / 3,
	"⅔": 2 / 3,
	"¼": 1 / 4,
	"¾": 3 / 4,
	"⅕": 1 / 5,
	"⅛": 1 / 8,
};

const FIGURES = String.raw`\d+\s*[/⁄]\s*\d+|[-−]?\d+(?:[.,]\d+)?(?:\s*[½⅓⅔¼¾⅕⅛]|\s+\d+\s*[/⁄]\s*\d+)?|[½⅓⅔¼¾⅕⅛]`;
const ABOUT = String.raw`(?:about|around|environ|env\.?|ca\.?|approx\.?|[~≈])?\s*`;
const COUNTED = /\s*(?:x|×|times|fois|reps?|r[ée]p[ée]titions?|sets?|s[ée]ries?|pcs)?\.?$/i;

/** A number without a unit of time; words that count, as in "10 reps", may stand behind it. */
export function numberOf(text: string): Amount {
	const match = new RegExp(`^${ABOUT}(${FIGURES})(.*)$`, "i").exec(text.trim());
	const rest = match?.[2] ?? "";
	if (match === null || !new RegExp(`^${COUNTED.source}`, "i").test(rest)) return notOne(text);
	const number = figuresOf(match[1] ?? "", text);
	return typeof number === "number" ? rounded(number) : number;
}

/**
 * A time in the unit of its field.
 *
 * @param bare the unit of a number that names none: the heading's, else the field's own
 */
export function timeOf(text: string, field: "seconds" | "minutes", bare: TimeUnit = field): Amount {
	const words = text.trim().replace(new RegExp(`^${ABOUT}(?=[\\d½⅓⅔¼¾⅕⅛])`, "i"), "");
	const clock = /^(\d{1,3}):([0-5]\d)(?::([0-5]\d))?\s*([a-zé]*)\.?$/i.exec(words);
	if (clock !== null) return clockOf(clock, text, field, bare);
	const parts = Array.from(
		words.matchAll(new RegExp(`(${FIGURES})\\s*(${UNIT_WORDS})?\\.?\\s*(?:and|et|,)?\\s*`, "giy")),
	);
	const whole = parts.reduce((length, [part]) => length + part.length, 0);
	if (parts.length === 0 || whole !== words.length) {
		return /\d\s*(?:cm|mm|km|metres?|meters?|kg)\b/i.test(words)
			? { wrong: `“${text}” is no time: write it in ${field}` }
			: notOne(text);
	}
	let seconds = 0;
	let last: TimeUnit | undefined;
	for (const [i, [, figures = "", word]] of parts.entries()) {
		// "1 min 30" and "1h15" leave the unit of what follows to the reader.
		const unit = word === undefined ? (i === 0 ? bare : below(last)) : unitOf(word);
		const number = figuresOf(figures, text);
		if (typeof number !== "number") return number;
		// A larger unit first, each once: "5 4 min" and "30 s 1 s" are not one time.
		if (unit === undefined || (last !== undefined && SECONDS[unit] >= SECONDS[last])) return notOne(text);
		if (unit === "minutes" && word !== undefined && /[.,][1-5]0$/.test(figures)) {
			return {
				wrong: `“${text}” could be ${figures.replace(/[.,]/, ":")} or a decimal: write it in ${field}`,
			};
		}
		seconds += number * SECONDS[unit];
		last = unit;
	}
	return rounded(seconds / SECONDS[field]);
}

/** The unit of time that a heading names, in brackets or at its end: "Hold (sec)", "Turn, min". */
export function unitInHeading(heading: string): TimeUnit | undefined {
	const inside = Array.from(
		heading.matchAll(/[([]\s*(?:in\s+|en\s+)?([^\])]*?)\.?\s*[\])]/g),
		([, words = ""]) => words,
	);
	const after = /(?:,|\bin|\ben|\/)\s*(\p{L}+)\.?\s*$/iu.exec(heading)?.[1];
	const last = /\s(\p{L}+)\.?\s*$/u.exec(heading)?.[1];
	for (const word of [...inside, after, last]) {
		if (word === undefined || !new RegExp(`^(?:${UNIT_WORDS})$`, "i").test(word)) continue;
		return unitOf(word);
	}
	return undefined;
}

const UNIT_WORDS = `h(?:ours?|rs?|eures?)?|min(?:ute)?s?|mn|m(?![a-zé])|s(?:ec(?:onde?)?s?)?(?![a-zé])|''|['′"″]`;

function unitOf(word: string): TimeUnit {
	if (/^h/i.test(word)) return "hours";
	return /^(m|['′]$)/i.test(word) ? "minutes" : "seconds";
}

function below(unit: TimeUnit | undefined): TimeUnit | undefined {
	return unit === "hours" ? "minutes" : unit === "minutes" ? "seconds" : undefined;
}

function clockOf(clock: RegExpExecArray, text: string, field: TimeUnit, bare: TimeUnit): Amount {
	const [, first = "", second = "", third, word = ""] = clock;
	const isUnit = new RegExp(`^(?:${UNIT_WORDS})$`, "i").test(word);
	if (word !== "" && !isUnit) return notOne(text);
	const unit = isUnit ? unitOf(word) : bare;
	if (third !== undefined) {
		return rounded((Number(first) * 3600 + Number(second) * 60 + Number(third)) / SECONDS[field]);
	}
	// Under seconds a hold of 1:30 is minutes and seconds; under minutes it may be hours as well.
	if (unit === "minutes" && word === "") {
		return { wrong: `“${text}” could be minutes and seconds or hours and minutes: write it in ${field}` };
	}
	const high = unit === "hours" ? 3600 : 60;
	return rounded((Number(first) * high + (Number(second) * high) / 60) / SECONDS[field]);
}

function figuresOf(figures: string, text: string): Amount {
	// A comma before three figures is a thousand to one reader and a decimal to another.
	if (/[1-9]\d*,\d{3}$/.test(figures)) {
		return {
			wrong: `“${text}” could be a thousand or a decimal: write it without the comma, or with a point`,
		};
	}
	const parts = /^([-−]?\d+(?:[.,]\d+)?)?\s*(?:([½⅓⅔¼¾⅕⅛])|(\d+)\s*[/⁄]\s*(\d+))?$/.exec(
		fractionFirst(figures),
	);
	if (parts === null) return notOne(text);
	const [, whole = "0", sign, above, under] = parts;
	const number = Number(whole.replace(",", ".").replace("−", "-"));
	const part =
		sign === undefined ? (under === undefined ? 0 : Number(above) / Number(under)) : (FRACTIONS[sign] ?? 0);
	const sum = number < 0 ? number - part : number + part;
	return Number.isFinite(sum) ? sum : notOne(text);
}

/** "1/2" alone has no whole number before it, which "1 1/2" has. */
function fractionFirst(figures: string): string {
	return /^\d+\s*[/⁄]\s*\d+$/.test(figures.trim()) ? `0 ${figures.trim()}` : figures.trim();
}

/** A third and the like to what is written of it; decimals of a file stay as they are. */
function rounded(number: number): number {
	return Number(number.toPrecision(15));
}

function notOne(text: string): Amount {
	return { wrong: `“${text}” is not one number` };
}
