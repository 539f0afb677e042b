/**
 * What one cell of a spreadsheet holds, both ways: a value as a person would write it, and back.
 *
 * A value is written in its plain form (`level-1; level-2`, one cue a line) where reading that form
 * gives the value back, and as JSON where it does not: so nothing is lost on a round trip, and hardly
 * any cell looks like data. Reading is generous: what people type into spreadsheets is taken where it
 * can mean one thing only, and said to be unclear where it cannot. A cell is never run as a formula.
 */

import { isDeepStrictEqual } from "node:util";
import { type Data, isData } from "../../read/data.ts";
import { TERMS } from "../../validate/cures.ts";
import { numberOf, type TimeUnit, timeOf } from "./amounts.ts";

/** A cell as a spreadsheet library gives it. */
export type Cell = string | number | boolean | Date | null;

/** Kinds of thing that an id in a cell can stand for. */
export type RefKind =
	| "level"
	| "apparatus"
	| "shape"
	| "skill"
	| "equipment"
	| "purpose"
	| "drill"
	/** What a level arrives with may be either. */
	| "skill or drill";

export type Form =
	| "id"
	| "text"
	| "body"
	| "texts"
	| "names"
	| "number"
	| "choice"
	| "date"
	| "flag"
	| "ref"
	| "refs"
	| "sequence"
	| "doses"
	| "needs"
	| "heights"
	| "faults"
	| "media"
	| "pair"
	/** Two numbers of metres, or the name of a spot. */
	| "place"
	/** A whole number, or several. */
	| "numbers"
	| "days"
	| "data";

/** Whether anything stands in a cell. */
export function isFilled(cell: Cell | undefined): boolean {
	return cell !== null && cell !== undefined && String(cell).trim() !== "";
}

/** What reading a cell may ask and say. */
export interface CellContext {
	/** The ids that words stand for; undefined where none is known and none may be made. */
	readonly refer: (kind: RefKind, words: string) => readonly string[] | undefined;
	/** Says that a cell, or a part of it, was left out, and why. */
	readonly unclear: (what: string) => void;
	/** The unit of time that the column's heading names. */
	readonly unit?: TimeUnit | undefined;
}

export interface CellForm {
	readonly form: Form;
	readonly of?: RefKind;
	readonly choices?: readonly string[];
	/** Of a number that is a time: what the field counts in. */
	readonly unit?: "seconds" | "minutes";
}

/** Words that stand for a choice besides the choice itself, folded. */
const SYNONYMS: Readonly<Record<string, string>> = {
	...TERMS,
	back: "backward",
	side: "sideways",
	"no direction": "none",
	"left and right": "each",
};

const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/** Words compared without case, accents, dashes and other signs. */
export function fold(words: string): string {
	return words
		.normalize("NFKD")
		.replace(/\p{M}/gu, "")
		.toLowerCase()
		.replace(/[^\p{L}\p{N}]+/gu, " ")
		.trim();
}

/** Line ends, hard spaces and invisible characters as a person would have typed them. */
export function clean(text: string): string {
	return (
		text
			.replace(/\r\n?/g, "\n")
			.replace(/[\u00a0\u2007\u202f]/g, " ")
			.replace(/[\u200b\u2060\ufeff]/g, "")
			// By line: a pattern for blanks at the end of one takes a time with the square of a long run of them.
			.split("\n")
			.map((line) => line.trimEnd())
			.join("\n")
			.trim()
	);
}

/** Letters of a cell that is taken apart; longer ones are texts, or an accident. */
const LONGEST_READ = 5_000;

const AS_WRITTEN: CellContext = { refer: (_kind, words) => [words], unclear: () => undefined };

/** A value as a cell. Reading it in the same form gives the value back. */
export function writeCell(form: CellForm, value: unknown): Cell {
	if (value === undefined || value === null) return null;
	const plain = FORMS[form.form].write(value);
	if (plain !== undefined && isDeepStrictEqual(readCell(form, plain, AS_WRITTEN), value)) return plain;
	return JSON.stringify(value);
}

function doseLine([level, dose]: readonly [string, unknown]): string {
	const { do: how, sets, reps, hold } = (dose ?? {}) as Data;
	const parts = [
		level,
		...(sets === undefined ? [] : [`sets ${String(sets)}`]),
		...(reps === undefined ? [] : [`reps ${String(reps)}`]),
		...(hold === undefined ? [] : [`hold ${String(hold)}`]),
		...(how === undefined ? [] : [String(how)]),
	];
	return parts.length === 1 ? `${level} |` : parts.join(" | ");
}

function needWords([item, need]: readonly [string, unknown]): string {
	if (!isData(need)) return `${item} x ${String(need)}`;
	const per = need.per === undefined ? "" : ` per ${String(need.per)}`;
	return `${item} x ${String(need.count)}${per}`;
}

function heightLines([what, height]: readonly [string, unknown]): readonly string[] {
	if (!isData(height)) return [`${what}: ${String(height)}`];
	return Object.entries(height).map(([level, landmark]) => `${what} | ${level}: ${String(landmark)}`);
}

function columns(value: unknown, names: readonly string[]): string | undefined {
	if (!isList(value)) return undefined;
	return value
		.map((row) =>
			names
				.map((name) => String((row as Data)[name] ?? ""))
				.join(" | ")
				.replace(/[ |]+$/, ""),
		)
		.join("\n");
}

/**
 * What a cell holds; undefined where it is empty or left out as unclear.
 *
 * @param context how words become ids, and where what is unclear is said
 */
export function readCell(form: CellForm, cell: Cell, context: CellContext): unknown {
	if (cell === null || cell === undefined) return undefined;
	if (cell instanceof Date) return fromDate(form, cell, context);
	if (typeof cell === "string" && /^\s*["[{]/.test(cell)) {
		const data = jsonOf(cell);
		if (data !== undefined && FORMS[form.form].holds(data)) return data;
	}
	if (form.form === "body") {
		const body = String(cell)
			.replace(/\r\n?/g, "\n")
			.replace(/^\u200b/, "");
		return body.trim() === "" ? undefined : `${body}\n`;
	}
	const words = clean(String(cell));
	if (words === "") return undefined;
	if (words.length > LONGEST_READ && form.form !== "text" && form.form !== "texts") {
		context.unclear(`“${short(words)}” is ${words.length} letters long, too long to be read here`);
		return undefined;
	}
	return FORMS[form.form].read(words, context, form, cell);
}

/** A day, where one is wanted. */
function fromDate(form: CellForm, cell: Date, context: CellContext): string | undefined {
	if (form.form === "date") return cell.toISOString().slice(0, 10);
	// Spreadsheets take 1:30 for a time of day, and keep it as one of their first days.
	context.unclear(
		cell.getUTCFullYear() < 1905
			? `A time of day (${cell.toISOString().slice(11, 16)}) stands where ${wanted(form)} is wanted; write the number alone${form.unit === undefined ? "" : `, in ${form.unit}`}`
			: `A date (${cell.toISOString().slice(0, 10)}) stands where ${wanted(form)} is wanted; spreadsheets turn ranges such as 3-4 into dates`,
	);
	return undefined;
}

/** How one form is written, what of JSON it holds, and what a text of it says. */
interface FormRules {
	/** Undefined for what has no plain form. */
	readonly write: (value: unknown) => Cell | undefined;
	readonly holds: (data: unknown) => boolean;
	/** Of a text that is cleaned, and not too long. */
	readonly read: (text: string, context: CellContext, form: CellForm, cell: Cell) => unknown;
}

const isText = (value: unknown): value is string => typeof value === "string";
const textAlone = (value: unknown) => (isText(value) ? value : undefined);
const joined = (joint: string) => (value: unknown) =>
	isList(value) && value.every(isText) ? value.join(joint) : undefined;
const byName = (words: (entry: readonly [string, unknown]) => string | readonly string[], joint: string) => {
	return (value: unknown) => (isData(value) ? Object.entries(value).flatMap(words).join(joint) : undefined);
};
const text: FormRules = { write: textAlone, holds: isText, read: (words) => words };

const FORMS: Readonly<Record<Form, FormRules>> = {
	id: text,
	text,
	body: {
		...text,
		write: (value) => (isText(value) ? value.replace(/\n$/, "") : undefined),
	},
	choice: { ...text, read: (words, context, { choices = [] }) => choiceIn(words, choices, context) },
	date: { ...text, read: (words, context, _form, cell) => dateIn(cell, words, context) },
	ref: { ...text, read: (words, context, { of }) => refsIn(words, of, context)[0] },
	number: {
		write: (value) => (typeof value === "number" ? value : undefined),
		holds: () => false,
		read: (words, context, form, cell) => numberIn(cell, words, form, context),
	},
	flag: {
		write: (value) => (value === true ? "yes" : "no"),
		holds: () => false,
		read: (words, context) => {
			if (/^(yes|y|true|1|x|✓|✔)$/i.test(words)) return true;
			if (/^(no|n|false|0)$/i.test(words)) return false;
			return context.unclear(`“${words}” is neither yes nor no`);
		},
	},
	texts: {
		write: joined("\n"),
		holds: isList,
		read: (words) =>
			split(words, words.includes("\n") ? /\n/ : /;/).map((item) => item.replace(/^([-•*–]|\d+[.)])\s+/, "")),
	},
	names: {
		write: joined("; "),
		holds: isList,
		read: (words) => split(words, words.includes("\n") ? /\n/ : words.includes(";") ? /;/ : /,/),
	},
	days: { write: joined("; "), holds: isList, read: (words) => split(words, /[;,\n]/) },
	refs: {
		write: joined("; "),
		holds: isList,
		read: (words, context, { of }) => some(refsIn(words, of, context)),
	},
	sequence: {
		write: joined("; "),
		holds: isList,
		read: (words, context, { of }) => some(refsIn(words, of, context)),
	},
	doses: {
		write: byName(doseLine, "\n"),
		holds: (data) => isData(data) || isList(data),
		read: dosesIn,
	},
	needs: { write: byName(needWords, "; "), holds: isData, read: needsIn },
	heights: {
		write: byName(heightLines, "\n"),
		holds: isData,
		read: (words, context, { choices = [] }) => heightsIn(words, choices, context),
	},
	faults: { write: (value) => columns(value, ["see", "say"]), holds: isList, read: faultsIn },
	media: {
		write: (value) => columns(value, ["file", "alt", "caption", "poster"]),
		holds: isList,
		read: (words) =>
			split(words, /\n/).map((line) => {
				const [file, alt, caption, poster] = line.split("|").map((part) => part.trim());
				return defined({ file, alt, caption, poster });
			}),
	},
	pair: {
		write: (value) => (isList(value) ? value.join(" x ") : undefined),
		holds: isList,
		read: (words, context) => {
			const numbers = words.split(/\s*(?:[x×;,/]|–|-|to)\s*/).map((part) => Number(part));
			if (numbers.length === 2 && numbers.every(Number.isFinite)) return numbers;
			return context.unclear(`“${words}” is not two numbers such as 12 x 8`);
		},
	},
	place: {
		write: (value) => (isList(value) ? value.join(" x ") : textAlone(value)),
		holds: (data) => isText(data) || isList(data),
		read: (words) => {
			const numbers = words.split(/\s*[x×;,]\s*/).map((part) => Number(part));
			return numbers.length === 2 && numbers.every(Number.isFinite) ? numbers : words;
		},
	},
	numbers: {
		write: (value) => (isList(value) ? value.join("; ") : typeof value === "number" ? value : undefined),
		holds: isList,
		read: (words, context) => {
			const numbers = split(words, /[;,\n]|\band\b|&/).map((part) => Number(part));
			if (numbers.every(Number.isInteger)) return numbers.length === 1 ? numbers[0] : numbers;
			return context.unclear(`“${short(words)}” is not whole numbers such as 1; 2`);
		},
	},
	data: {
		write: () => undefined,
		holds: (data) => typeof data === "object",
		read: (words, context) => context.unclear(`“${short(words)}” cannot be read as data`),
	},
};

function wanted({ form }: CellForm): string {
	return form === "number" ? "a number" : form === "pair" ? "two numbers" : "text";
}

function jsonOf(text: string): unknown {
	try {
		return JSON.parse(text.trim());
	} catch {
		return undefined;
	}
}

function numberIn(cell: Cell, text: string, { unit }: CellForm, context: CellContext): number | undefined {
	// A number is what it is, but for a heading that names another unit than the field's.
	if (typeof cell === "number" && (unit === undefined || (context.unit ?? unit) === unit)) return cell;
	const amount = unit === undefined ? numberOf(text) : timeOf(text, unit, context.unit);
	if (typeof amount === "number") return amount;
	context.unclear(amount.wrong.replace(text, short(text)));
	return undefined;
}

function choiceIn(text: string, choices: readonly string[], context: CellContext): string | undefined {
	const folded = fold(text);
	const found = choices.find((c) => c === text) ?? choices.find((c) => fold(c) === folded);
	if (found !== undefined) return found;
	const synonym = Object.hasOwn(SYNONYMS, folded) ? SYNONYMS[folded] : undefined;
	if (synonym !== undefined && choices.includes(synonym)) return synonym;
	if (/^(-|–|—|n\/?a|\?)$/i.test(text)) return undefined;
	context.unclear(`“${short(text)}” is none of ${choices.join(", ")}`);
	return undefined;
}

function dateIn(cell: Cell, text: string, context: CellContext): string | undefined {
	// Days since 1899-12-30, as spreadsheets count them: 1954 to 2119.
	const serial = typeof cell === "number" ? cell : /^\d{5}$/.test(text) ? Number(text) : undefined;
	if (serial !== undefined && serial >= 20_000 && serial <= 80_000) {
		return new Date(Date.UTC(1899, 11, 30) + Math.floor(serial) * 86_400_000).toISOString().slice(0, 10);
	}
	const iso = /^(\d{4})[-–/.](\d{1,2})[-–/.](\d{1,2})(?:[T ].*)?$/.exec(text);
	if (iso !== null) return dayOf(iso[1], iso[2], iso[3], text, context);
	const worded = /^(\d{1,2})(?:st|nd|rd|th)?[ -]+([a-z]{3})[a-z]*\.?,?[ -]+(\d{4})$/i.exec(text);
	const month = worded === null ? -1 : MONTHS.indexOf((worded[2] ?? "").toLowerCase());
	if (worded !== null && month >= 0) return dayOf(worded[3], String(month + 1), worded[1], text, context);
	const figures = /^(\d{1,2})([-–/.])(\d{1,2})[-–/.](\d{4})$/.exec(text);
	if (figures !== null) {
		const [first, second] = [Number(figures[1]), Number(figures[3])];
		// Points stand between day and month; with slashes, either may come first.
		if (figures[2] === "." || first > 12 || first === second) {
			return dayOf(figures[4], figures[3], figures[1], text, context);
		}
		if (second > 12) return dayOf(figures[4], figures[1], figures[3], text, context);
	}
	context.unclear(`“${short(text)}” could be more than one date, or none; write it as 2026-09-14`);
	return undefined;
}

function dayOf(year = "", month = "", day = "", text: string, context: CellContext): string | undefined {
	const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
	const iso = `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
	if (!Number.isNaN(date.getTime()) && date.toISOString().slice(0, 10) === iso) return iso;
	context.unclear(`“${text}” is not a day that exists`);
	return undefined;
}

/** Ids in a cell: the whole of it first, then its parts, then the parts of those. */
function refsIn(text: string, kind: RefKind | undefined, context: CellContext): readonly string[] {
	if (kind === undefined) return split(text, /[;,\n]/);
	const ids = split(text, /[;,\n|]/).flatMap((part) => {
		const known = context.refer(kind, part);
		if (known !== undefined) return known;
		const smaller = part.split(/\s*[/&+]\s*|\s+and\s+/i).filter((word) => word !== "");
		const parts = smaller.map((word) => context.refer(kind, word));
		if (smaller.length > 1 && parts.every((ids) => ids !== undefined)) return parts.flat();
		context.unclear(`there is no ${kind} “${short(part)}”`);
		return [];
	});
	// A list may name a thing twice on purpose only in a sequence; the caller keeps that in JSON or order.
	return ids;
}

function dosesIn(text: string, context: CellContext): unknown {
	if (!text.includes("|")) {
		const levels = refsIn(text, "level", context);
		return some([...new Set(levels)]);
	}
	const doses: [string, unknown][] = [];
	for (const line of split(text, /\n/)) {
		const [name = "", ...parts] = line.split("|").map((part) => part.trim());
		const dose: Record<string, unknown> = {};
		for (const part of parts.filter((p) => p !== "")) {
			const [, field, words = ""] = /^(sets|reps|hold) (\S.*)$/.exec(part) ?? [];
			const amount = field === "hold" ? timeOf(words, "seconds") : numberOf(words);
			if (
				field !== undefined &&
				typeof amount === "number" &&
				dose[field] === undefined &&
				dose.do === undefined
			)
				dose[field] = amount;
			else if (dose.do === undefined) dose.do = part;
			else dose.do = `${String(dose.do)} | ${part}`;
		}
		for (const level of refsIn(name, "level", context)) {
			const { do: how, ...amounts } = dose;
			doses.push([level, how === undefined ? amounts : { do: how, ...amounts }]);
		}
	}
	return doses.length === 0 ? undefined : Object.fromEntries(doses);
}

function needsIn(text: string, context: CellContext): unknown {
	const needs: [string, unknown][] = [];
	for (const part of split(text, /[;,\n]/)) {
		if (/^(nil|none|nothing|no (kit|equipment)|n\/?a|[-–—]+|0)\.?$/i.test(part)) continue;
		const per = /^(.*\S)\s+(?:per|for each|a)\s+(station|gymnast|child)$/i.exec(part);
		const words = per?.[1] ?? part;
		const after = /^(.*?\S)(?:\s*[x×:]\s*|\s+|\s*\()(\d+)\)?$/i.exec(words);
		const before = /^(\d+)\s*[x×]?\s*(\D.*)$/i.exec(words);
		const whole = context.refer("equipment", words);
		const [name, count] =
			after !== null && !(whole !== undefined && before === null && !/[x×:(]/.test(words))
				? [after[1] ?? "", Number(after[2])]
				: before !== null
					? [before[2] ?? "", Number(before[1])]
					: [words, 1];
		const ids = context.refer("equipment", name);
		if (ids === undefined) context.unclear(`there is no equipment “${short(name)}”`);
		for (const id of ids ?? []) {
			needs.push([
				id,
				per === null ? count : { count, per: per[2]?.toLowerCase() === "station" ? "station" : "gymnast" },
			]);
		}
	}
	return needs.length === 0 ? undefined : Object.fromEntries(needs);
}

function heightsIn(text: string, choices: readonly string[], context: CellContext): unknown {
	const heights = new Map<string, unknown>();
	for (const line of split(text, /[\n;]/)) {
		const match = /^(.*?\S)\s*(?::|=|\bat\b|->|–|—)\s*(\S.*)$/.exec(line);
		if (match === null) {
			context.unclear(`“${short(line)}” is not a height such as low bar: shoulder, or box | level-1: knee`);
			continue;
		}
		const landmark = choiceIn((match[2] ?? "").replace(/ height$/i, ""), choices, context);
		if (landmark === undefined) continue;
		// For a level alone: what stands there, then the level.
		const [what = "", level, ...more] = (match[1] ?? "").split("|").map((part) => part.trim());
		if (level === undefined || more.length > 0) {
			heights.set(match[1] ?? "", landmark);
			continue;
		}
		const before = heights.get(what);
		const own = refsIn(level, "level", context).map((id) => [id, landmark] as const);
		heights.set(what, { ...(isData(before) ? before : {}), ...Object.fromEntries(own) });
	}
	return heights.size === 0 ? undefined : Object.fromEntries(heights);
}

function faultsIn(text: string, context: CellContext): unknown {
	return some(
		split(text, text.includes("\n") || text.includes("|") ? /\n/ : /;/).flatMap((line) => {
			const match = /^(.*?\S)\s*(?:\||->|→|=>|\s[–—-]\s)\s*(\S.*)$/.exec(line);
			if (match !== null) return [{ see: match[1] ?? "", say: match[2] ?? "" }];
			context.unclear(`“${short(line)}” does not say what to say: write it as what is seen | what to say`);
			return [];
		}),
	);
}

function split(text: string, at: RegExp): readonly string[] {
	return text
		.split(at)
		.map((part) => part.trim())
		.filter((part) => part !== "");
}

function some<T>(list: readonly T[]): readonly T[] | undefined {
	return list.length === 0 ? undefined : list;
}

/** Leaves out what is empty. */
function defined(data: Data): Data {
	return Object.fromEntries(Object.entries(data).filter(([, value]) => value !== undefined && value !== ""));
}

function isList(value: unknown): value is readonly unknown[] {
	return Array.isArray(value);
}

function short(text: string): string {
	const line = text.replaceAll("\n", " ");
	return line.length > 60 ? `${line.slice(0, 57)}…` : line;
}
