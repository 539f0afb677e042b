/**
 * What a coach reports of one class in one week, as it travels from a phone to the director: a line of
 * JSON of at most 2 kB, which the class sheet writes and the build reads, by this one file.
 *
 *   write   report → text: short names of fields, a choice by its place in its list, nothing that was not
 *           said; a block by its apparatus, its number and a mark of its drills, so that it is found again
 *           in a newer edition
 *   read    any text (a file, a mail with the line somewhere in it, several of them) → reports and what is
 *           wrong with the others. A stranger's text is a stranger's: its size is looked at before it is
 *           read, every field by its rule, and a field that has none is refused
 *
 * There is no field for a person. `from` is drawn by the device for one class in one week, so that two
 * coaches of a class are told apart and a report that is sent twice is not.
 */

import type { BlockReport, SkillReport } from "../model.ts";

/** UTF-8 bytes of one report. */
export const MOST_BYTES = 2048;
/** Letters of a text that is looked through for reports: a hundred of them with the mails around. */
const MOST_TEXT = 400_000;
export const MOST_NOTE = 140;
const MOST_ENTRIES = 60;
export const MOST_GYMNASTS = 99;
const VERSION = 1;
const START = '{"handbook":"taught"';

export const DONE = ["done", "shortened", "not-done"] as const satisfies readonly BlockReport["done"][];
export const FELT = ["too-easy", "right", "too-hard"] as const satisfies readonly BlockReport["felt"][];
export const LOOKS = ["equipment", "near-miss"] as const satisfies readonly BlockReport["look"][];
export const CAUSES = [
	"late",
	"set-up",
	"coaches",
	"settling",
	"other",
] as const satisfies readonly BlockReport["cause"][];
export type Done = (typeof DONE)[number];

/** What is said of one block; `mark` stands for its drills: `markOf`. */
export type ReportedBlock = Omit<BlockReport, "drills" | "path"> & { readonly mark: string };

export type ReportedSkill = Omit<SkillReport, "path">;

export interface Report {
	/** The id of the week's file. */
	readonly week: string;
	readonly class: string;
	readonly from: string;
	/** Counts what was sent: the larger holds. */
	readonly revision: number;
	/** The number of the edition that the coach had. */
	readonly edition: number;
	readonly note?: string;
	readonly blocks: readonly ReportedBlock[];
	readonly skills: readonly ReportedSkill[];
}

/** Short names of fields, and the rule for what stands in each. */
type Rule =
	| { readonly kind: "id" | "note" | "mark" | "from" }
	| { readonly kind: "whole"; readonly least: number; readonly most: number }
	| { readonly kind: "choice"; readonly of: readonly string[] };
type Field = readonly [short: string, name: string, rule: Rule, isNeeded: boolean];

const ID: Rule = { kind: "id" };
const NOTE: Rule = { kind: "note" };
const whole = (least: number, most: number): Rule => ({ kind: "whole", least, most });
const choice = (of: readonly string[]): Rule => ({ kind: "choice", of });

const HEAD: readonly Field[] = [
	["w", "week", ID, true],
	["c", "class", ID, true],
	["i", "from", { kind: "from" }, true],
	["r", "revision", whole(1, 9999), true],
	["e", "edition", whole(0, 1_000_000), true],
	["t", "note", NOTE, false],
];
const BLOCK: readonly Field[] = [
	["g", "group", ID, false],
	["a", "apparatus", ID, true],
	["n", "block", whole(1, 99), true],
	["h", "mark", { kind: "mark" }, true],
	["d", "done", choice(DONE), false],
	["l", "lost", whole(1, 240), false],
	["c", "cause", choice(CAUSES), false],
	["f", "felt", choice(FELT), false],
	["s", "look", choice(LOOKS), false],
	["t", "note", NOTE, false],
];
const SKILL: readonly Field[] = [
	["g", "group", ID, false],
	["s", "skill", ID, true],
	["o", "of", whole(1, MOST_GYMNASTS), true],
	["a", "alone", whole(0, MOST_GYMNASTS), true],
	["p", "helped", whole(0, MOST_GYMNASTS), true],
];

const ID_FORM = /^[a-z0-9]+(-[a-z0-9]+)*$/;
const LONGEST_ID = 80;
/** Controls, ends of lines, and signs that turn the direction of writing or hide. */
const UNWRITABLE = /[\p{Cc}\p{Cf}\p{Co}\p{Cs}\u2028\u2029]/u;

/** Stands for the drills of a block, whatever their order: FNV-1a of 32 bits over their ids, in base 36. */
export function markOf(drills: readonly string[]): string {
	let hash = 0x811c9dc5;
	for (const letter of [...new Set(drills)].sort().join(",")) {
		hash ^= letter.codePointAt(0) ?? 0;
		hash = Math.imul(hash, 0x01000193);
	}
	return (hash >>> 0).toString(36);
}

/** A note as it may travel: one line, without signs that cannot be seen, cut to its length; undefined for nothing. */
export function noteOf(typed: string): string | undefined {
	const line = typed
		.normalize("NFC")
		.replace(/[\s\u2028\u2029]+/gu, " ")
		.replace(new RegExp(UNWRITABLE, "gu"), "")
		.trim();
	const cut = [...line].slice(0, MOST_NOTE).join("").trim();
	return cut === "" ? undefined : cut;
}

/** The text that is sent: one line. It may be longer than what is read; `isSmallEnough` says. */
export function reportText(report: Report): string {
	const { blocks, skills } = report;
	return JSON.stringify({
		handbook: "taught",
		v: VERSION,
		...shortened(report, HEAD),
		b: blocks.map((block) => shortened(block, BLOCK)),
		k: skills.map((skill) => shortened(skill, SKILL)),
	});
}

export function isSmallEnough(report: Report): boolean {
	return bytesOf(reportText(report)) <= MOST_BYTES;
}

function bytesOf(text: string): number {
	return new TextEncoder().encode(text).length;
}

function shortened(thing: object, fields: readonly Field[]): Readonly<Record<string, unknown>> {
	const said = fields.map(([short, name, rule]) => {
		const value: unknown = Reflect.get(thing, name);
		return [short, rule.kind === "choice" && value !== undefined ? rule.of.indexOf(String(value)) : value];
	});
	return Object.fromEntries(said.filter(([, value]) => value !== undefined));
}

/** What was found in a text. */
export interface ReadReports {
	readonly reports: readonly Report[];
	/** What is wrong with each of the others, in words for the director. Nothing of their text is in it. */
	readonly faults: readonly string[];
}

/** Reads every report of a text, wherever in it they stand; also such as a mail has broken into lines. */
export function readReports(text: string): ReadReports {
	if (text.length > MOST_TEXT) return { reports: [], faults: ["It is larger than reports are."] };
	const reports: Report[] = [];
	const faults: string[] = [];
	for (let at = text.indexOf(START); at >= 0; at = text.indexOf(START, at + START.length)) {
		const end = endOf(text, at);
		const found = end === undefined ? "It breaks off, or is too long." : readOne(text.slice(at, end));
		if (typeof found === "string") faults.push(found);
		else reports.push(found);
	}
	if (reports.length + faults.length === 0) faults.push("There is no report in it.");
	return { reports, faults };
}

/** The end of the braces that open at a place; undefined where there is none within the size of a report. */
function endOf(text: string, start: number): number | undefined {
	let depth = 0;
	let isInText = false;
	// A mail's quoting marks and ends of lines stand between.
	const last = Math.min(text.length, start + MOST_BYTES * 2);
	for (let at = start; at < last; at++) {
		const letter = text[at];
		if (isInText) {
			if (letter === "\\") at++;
			else if (letter === '"') isInText = false;
		} else if (letter === '"') isInText = true;
		else if (letter === "{" || letter === "[") {
			if (++depth > 3) return undefined;
		} else if (letter === "}" || letter === "]") {
			if (--depth === 0) return at + 1;
		}
	}
	return undefined;
}

function readOne(found: string): Report | string {
	const text = found.replace(/[ \t]*\r?\n[> \t]*/g, " ");
	if (bytesOf(text) > MOST_BYTES) return "It is larger than 2 kB.";
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch {
		return "It cannot be read as JSON.";
	}
	return judged(value);
}

/** A report, where a value is one by every rule; else what is wrong with it. */
export function judged(value: unknown): Report | string {
	if (!isFields(value)) return "It is no map of fields.";
	const { handbook, v, b, k, ...head } = value;
	if (handbook !== "taught") return "It is no report.";
	if (v !== VERSION) return "It is of another version of this program.";
	if (!Array.isArray(b) || !Array.isArray(k)) return "Its lists are missing.";
	if (b.length > MOST_ENTRIES || k.length > MOST_ENTRIES) return "It has too many entries.";
	const own = fieldsOf(head, HEAD);
	if (typeof own === "string") return own;
	const blocks = entriesOf(b, BLOCK, ({ group, apparatus, block, mark }) =>
		[group, apparatus, block, mark].join(" "),
	);
	if (typeof blocks === "string") return blocks;
	const skills = entriesOf(k, SKILL, ({ group, skill }) => [group, skill].join(" "));
	if (typeof skills === "string") return skills;
	if (skills.some(({ of, alone, helped }) => Number(alone) + Number(helped) > Number(of))) {
		return "More can do a skill than were there.";
	}
	// Every field has been held against its rule.
	return { ...own, blocks, skills } as unknown as Report;
}

type Fields = Readonly<Record<string, unknown>>;

function isFields(value: unknown): value is Fields {
	return typeof value === "object" && value !== null && !Array.isArray(value);
}

function entriesOf(
	list: readonly unknown[],
	fields: readonly Field[],
	keyOf: (entry: Fields) => string,
): readonly Fields[] | string {
	const entries: Fields[] = [];
	const seen = new Set<string>();
	for (const one of list) {
		const entry = isFields(one) ? fieldsOf(one, fields) : "An entry is no map of fields.";
		if (typeof entry === "string") return entry;
		const key = keyOf(entry);
		if (seen.has(key)) return "It says the same thing twice.";
		seen.add(key);
		entries.push(entry);
	}
	return entries;
}

/** The fields by their long names; what is wrong with the first that breaks its rule. */
function fieldsOf(found: Fields, fields: readonly Field[]): Fields | string {
	const known = new Set(fields.map(([short]) => short));
	if (Object.keys(found).some((name) => !known.has(name))) return "It has a field that reports do not have.";
	const named: Record<string, unknown> = {};
	for (const [short, name, rule, isNeeded] of fields) {
		if (!Object.hasOwn(found, short)) {
			if (isNeeded) return `Its ${name} is missing.`;
			continue;
		}
		const value = found[short];
		if (!keeps(value, rule)) return `Its ${name} is not what may stand there.`;
		named[name] = rule.kind === "choice" ? rule.of[Number(value)] : value;
	}
	return named;
}

function keeps(value: unknown, rule: Rule): boolean {
	switch (rule.kind) {
		case "whole":
			return (
				typeof value === "number" && Number.isInteger(value) && value >= rule.least && value <= rule.most
			);
		case "choice":
			return typeof value === "number" && Object.hasOwn(rule.of, value) && Number.isInteger(value);
		case "id":
			return typeof value === "string" && value.length <= LONGEST_ID && ID_FORM.test(value);
		case "from":
			return typeof value === "string" && /^[a-z0-9]{8,16}$/.test(value);
		case "mark":
			return typeof value === "string" && /^[a-z0-9]{1,7}$/.test(value);
		case "note":
			return (
				typeof value === "string" && value !== "" && [...value].length <= MOST_NOTE && !UNWRITABLE.test(value)
			);
	}
}

/** Whether nothing is said in it. */
export function isEmpty({ note, blocks, skills }: Report): boolean {
	return note === undefined && blocks.length === 0 && skills.length === 0;
}
