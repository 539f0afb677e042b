/**
 * Plans drawn as grids: weeks down and areas across, the other way round, one sheet a week, one a level.
 *
 *   1. what the sheet's name and the lines above the table say: a week and its theme, a level, an area
 *   2. the row of headings: the one with most areas, weeks or levels across, or with a column of drills
 *   3. the columns that name a row: week, area, level, minutes, theme; an empty cell says what stands above
 *   4. every other cell: the drills of one week in one area, taken apart by grid-cells.ts
 *
 * A sheet is a grid only where each cell has a week and an area; else it is told what is missing.
 */

import type { Id } from "../../model.ts";
import { numberOf, timeOf } from "./amounts.ts";
import { type Cell, clean, fold, readCell } from "./cells.ts";
import { columnFor, foldHeading } from "./columns.ts";
import { letterOf, type Sheet } from "./read-sheets.ts";

/** What words of a sheet stand for in this club. */
export interface GridWords {
	readonly find: (kind: "apparatus" | "level", words: string) => readonly Id[] | undefined;
	/** The teaching week that a day lies in. */
	readonly weekOn: (day: string) => number | undefined;
}

/** One cell of a plan: the drills of a week in an area. */
export interface GridCell {
	readonly week: number;
	readonly theme?: string | undefined;
	readonly apparatus: Id;
	readonly levels: readonly Id[];
	/** For all drills of the week and area together: what the heading or the sheet says. */
	readonly minutes?: number | undefined;
	/** What the cell's own row says, for the drills of the cell. */
	readonly own?: number | undefined;
	readonly note?: string | undefined;
	readonly text: string;
	readonly row: number;
	readonly column: string;
}

export interface Grid {
	readonly cells: readonly GridCell[];
	/** Whether each row is one drill, with minutes of its own. */
	readonly isList: boolean;
	/** The row of headings, from 1. */
	readonly headings: number;
	/** Columns that are no part of it, with their headings. */
	readonly unknown: readonly { readonly column: string; readonly words: string }[];
	/** Rows that name no week or no area. */
	readonly unplaced: readonly number[];
}

type Dimension = "week" | "apparatus" | "level";

/** What one cell of a heading or a row's name says. */
interface Said {
	readonly week?: number;
	readonly theme?: string | undefined;
	readonly apparatus?: Id;
	readonly levels?: readonly Id[];
	readonly minutes?: number | undefined;
}

/** A column: one that names its rows, or one of cells with what its heading says. */
type Role =
	| { readonly names: "week" | "apparatus" | "level" | "minutes" | "theme" | "note" | "dose" }
	| { readonly cells: Said };

const HEADINGS_WITHIN = 25;
const MOST_WEEKS = 60;
const WEEK =
	/^(?:week|wk|w|semaine|sem|s|s[eé]ance|lesson|session)\s*\.?\s*(?:no\.?|n°|#)?\s*(\d{1,2})(?!\d)\s*[:.,–—-]*\s*(.*)$/i;

/** The plan that a sheet draws; undefined where it draws none. */
export function findGrid(sheet: Sheet, words: GridWords): Grid | undefined {
	let best:
		| { readonly row: number; readonly roles: readonly (Role | undefined)[]; readonly score: number }
		| undefined;
	for (let row = 0; row < Math.min(HEADINGS_WITHIN, sheet.rows.length); row++) {
		const context = contextOf(sheet, row, words);
		const roles = rolesOf(sheet, row, context, words);
		const score = roles?.filter((role) => role !== undefined && "cells" in role).length ?? 0;
		if (roles !== undefined && score > (best?.score ?? 0)) best = { row, roles, score };
	}
	return best === undefined ? undefined : cellsOf(sheet, best.row, best.roles, words);
}

/** What the name of the sheet and the lines above the headings say of all cells. */
function contextOf(sheet: Sheet, row: number, words: GridWords): Said {
	const lines = [
		sheet.title,
		...sheet.rows.slice(0, row).flatMap((cells) => {
			const full = cells.map((cell) => textOf(cell)).filter((text) => text !== "");
			// A line above a table has a cell or two; more are rows of another table.
			return full.length <= 3 ? full : [];
		}),
	];
	let said: Said = {};
	for (const line of lines) {
		for (const part of [line, ...line.split(/\s*(?:[:|,·–—]|\s-\s)\s*/)]) {
			const found = saidBy(part, words);
			if (found !== undefined) said = { ...found, ...said };
		}
	}
	return said;
}

/** What a heading, a name of a row or of a sheet says, where it is a week, an area or a level. */
function saidBy(text: string, words: GridWords): Said | undefined {
	const line = text.trim();
	if (line === "" || line.length > 120) return undefined;
	const week = WEEK.exec(line);
	if (week !== null && Number(week[1]) >= 1 && Number(week[1]) <= MOST_WEEKS) {
		const theme = week[2]?.replace(/^\((.*)\)$/, "$1").trim();
		return { week: Number(week[1]), ...(theme === "" || theme === undefined ? {} : { theme }) };
	}
	const minutes = /(\d+(?:[.,]\d+)?)\s*(?:min(?:ute)?s?|mn|['′])/i.exec(line)?.[0];
	const bare =
		minutes === undefined
			? line
			: line
					.replace(minutes, " ")
					.replace(/\(\s*\)/g, " ")
					.trim();
	const amount = minutes === undefined ? undefined : timeOf(minutes, "minutes");
	const length = typeof amount === "number" ? { minutes: amount } : {};
	const [area, ...more] = words.find("apparatus", bare) ?? [];
	if (area !== undefined && more.length === 0) return { apparatus: area, ...length };
	const levels = words.find("level", bare);
	if (levels !== undefined && levels.length > 0) return { levels, ...length };
	const day = /\d/.test(line)
		? dayIn(line.replace(/^(?:w\/?c|week (?:of|commencing)|semaine du)\s*/i, ""), words)
		: undefined;
	const onDay = day === undefined ? undefined : words.weekOn(day);
	return onDay === undefined ? undefined : { week: onDay };
}

/** The day of a date; of one that could be two, the one that lies in the term. */
function dayIn(text: string, words: GridWords): string | undefined {
	const read = (date: string) => {
		const day = readCell({ form: "date" }, date, { refer: () => undefined, unclear: () => undefined });
		return typeof day === "string" ? day : undefined;
	};
	const day = read(text);
	const [, first = "", second = "", year = ""] = /^(\d{1,2})[-–/](\d{1,2})[-–/](\d{4})$/.exec(text) ?? [];
	if (day !== undefined || year === "") return day;
	const days = [read(`${year}-${second}-${first}`), read(`${year}-${first}-${second}`)];
	const inTerm = days.filter((one) => one !== undefined && words.weekOn(one) !== undefined);
	return inTerm.length === 1 ? inTerm[0] : undefined;
}

/** What each column is, where the row can be the headings of a grid. */
function rolesOf(
	sheet: Sheet,
	row: number,
	context: Said,
	words: GridWords,
): readonly (Role | undefined)[] | undefined {
	const cells = sheet.rows[row] ?? [];
	const texts = cells.map((cell) => textOf(cell));
	const named = texts.map(namesRows);
	const numbered = named.includes("week") || texts.some((text) => /^(semaines?|weeks?)$/i.test(text));
	const across = texts.map((text, i): Said | undefined => {
		if (text === "") return undefined;
		// Weeks in figures alone, beside a heading that says so.
		const isNumber = numbered && /^\d{1,2}$/.test(text) && Number(text) >= 1;
		const said = isNumber ? { week: Number(text) } : saidBy(dateText(cells[i]) ?? text, words);
		return said;
	});
	const kinds: readonly Dimension[] = ["apparatus", "week", "level"];
	const counted = kinds.map((kind) => across.filter((said) => dimensionOf(said) === kind).length);
	const most = Math.max(...counted);
	const kind = kinds[counted.indexOf(most)];
	const drillAt = texts.findIndex((text) => text !== "" && columnFor("plan", text)?.heading === "drill");
	const isList = most < 2 && drillAt >= 0;
	if (!isList && (most === 0 || kind === undefined)) return undefined;
	// One area, week or level alone is a heading only where the others name rows.
	const isSaid = (text: string, i: number) =>
		text === "" || across[i] !== undefined || named[i] !== undefined;
	if (!isList && most < 2 && named[0] === undefined && !texts.every(isSaid)) return undefined;
	const roles = texts.map((text, i): Role | undefined => {
		if (isList) return i === drillAt ? { cells: {} } : roleNamed(named[i]);
		const said = across[i];
		if (said !== undefined && dimensionOf(said) === kind) return { cells: said };
		return text === "" ? undefined : roleNamed(named[i]);
	});
	const first = roles.findIndex((role) => role !== undefined && "cells" in role);
	const taken = new Set<string>(isList ? [] : [kind ?? ""]);
	for (const role of roles) if (role !== undefined && "names" in role) taken.add(role.names);
	// A column before the cells that has no heading, or one of its own, is known by what it holds.
	for (let i = 0; i < first; i++) {
		if (roles[i] !== undefined) continue;
		const held = heldBy(sheet, row, i, words);
		if (held === undefined || taken.has(held)) continue;
		taken.add(held);
		roles[i] = { names: held };
	}
	const has = (wanted: "week" | "apparatus") => taken.has(wanted) || context[wanted] !== undefined;
	if (!has("week") || !has("apparatus")) return undefined;
	// A long list that has both columns is read as the list it is.
	if (isList && named.includes("week") && named.includes("apparatus")) return undefined;
	return roles;
}

function roleNamed(name: Naming | undefined): Role | undefined {
	return name === undefined ? undefined : { names: name };
}

type Naming = Extract<Role, { readonly names: string }>["names"];

/** What a column of a plan's field says of its rows. */
const NAMES: Readonly<Record<string, Naming>> = {
	week: "week",
	apparatus: "apparatus",
	levels: "level",
	minutes: "minutes",
	theme: "theme",
	focus: "theme",
	note: "note",
};

/** What a heading says of the rows below it. */
function namesRows(text: string): Naming | undefined {
	if (text === "") return undefined;
	const folded = foldHeading(text);
	if (/^(sets x reps|dose|dosage|rep|reps|set|how many|repetition|serie)$/.test(folded)) return "dose";
	return NAMES[columnFor("plan", text)?.heading ?? ""];
}

/** What most of the cells of a column name. */
function heldBy(sheet: Sheet, row: number, column: number, words: GridWords) {
	const below = sheet.rows.slice(row + 1, row + 61).flatMap((cells) => {
		const text = dateText(cells[column]) ?? textOf(cells[column]);
		return text === "" ? [] : [text];
	});
	const kinds = below.map((text) =>
		/^\d{1,2}$/.test(text) && Number(text) >= 1
			? "week"
			: /^\d+\s*(?:min\w*|mn|['′])$/i.test(text)
				? "minutes"
				: dimensionOf(saidBy(text, words)),
	);
	for (const kind of ["week", "apparatus", "level", "minutes"] as const) {
		if (below.length > 0 && kinds.filter((one) => one === kind).length * 2 > below.length) return kind;
	}
	return undefined;
}

function dimensionOf(said: Said | undefined): Dimension | undefined {
	if (said === undefined) return undefined;
	return said.week !== undefined ? "week" : said.apparatus !== undefined ? "apparatus" : "level";
}

function cellsOf(
	sheet: Sheet,
	headings: number,
	roles: readonly (Role | undefined)[],
	words: GridWords,
): Grid {
	const context = contextOf(sheet, headings, words);
	const cells: GridCell[] = [];
	const unplaced: number[] = [];
	const above: { -readonly [Name in keyof Said]: Said[Name] } = {};
	const lengths = new Map<number, number>();
	for (const [at, row] of sheet.rows.entries()) {
		if (at <= headings || row.every((cell) => textOf(cell) === "")) continue;
		const own = rowSays(row, roles, words);
		// A name in the row's first column ends what stood above it for what it holds.
		if (own.said.week !== undefined) delete above.theme;
		Object.assign(above, own.said, { minutes: own.said.minutes });
		const isLengths = own.lengths && own.said.week === undefined && own.said.apparatus === undefined;
		for (const [i, role] of roles.entries()) {
			if (role === undefined || !("cells" in role)) continue;
			const text = textOf(row[i], "\n");
			if (text === "") continue;
			if (isLengths) {
				const minutes = minutesIn(row[i]);
				if (minutes !== undefined) lengths.set(i, minutes);
				continue;
			}
			const said: Said = { ...context, ...above, ...role.cells };
			if (said.week === undefined || said.apparatus === undefined) {
				unplaced.push(at + 1);
				continue;
			}
			cells.push({
				week: said.week,
				theme: said.theme,
				apparatus: said.apparatus,
				levels: said.levels ?? [],
				minutes: role.cells.minutes ?? lengths.get(i) ?? context.minutes,
				own: above.minutes,
				note: own.note,
				text: own.dose === undefined ? text : `${text} ${own.dose}`,
				row: at + 1,
				column: letterOf(i),
			});
		}
	}
	const unknown = (sheet.rows[headings] ?? []).flatMap((cell, i) =>
		roles[i] === undefined && textOf(cell) !== "" ? [{ column: letterOf(i), words: textOf(cell) }] : [],
	);
	const isList = roles.every(
		(role) => role === undefined || !("cells" in role) || Object.keys(role.cells).length === 0,
	);
	return { cells, isList, headings: headings + 1, unknown, unplaced: [...new Set(unplaced)] };
}

/** What the naming columns of a row say. */
function rowSays(row: readonly Cell[], roles: readonly (Role | undefined)[], words: GridWords) {
	let said: Said = {};
	let note: string | undefined;
	let dose: string | undefined;
	let lengths = false;
	for (const [i, role] of roles.entries()) {
		const text = textOf(row[i]);
		if (role === undefined || !("names" in role) || text === "") continue;
		if (role.names === "minutes") said = { ...said, minutes: minutesIn(row[i]) };
		else if (role.names === "theme") said = { ...said, theme: text };
		else if (role.names === "note") note = text;
		else if (role.names === "dose") dose = text;
		else if (role.names === "week" && /^\d{1,2}$/.test(text)) said = { ...said, week: Number(text) };
		else if (/^(?:min(?:ute)?s?|time|dur[eé]e|temps)\b/i.test(text)) lengths = true;
		else said = { ...said, ...saidBy(dateText(row[i]) ?? text, words) };
	}
	return { said, note, dose, lengths };
}

function minutesIn(cell: Cell | undefined): number | undefined {
	const text = textOf(cell);
	const plain = numberOf(text);
	const minutes = typeof plain === "number" ? plain : timeOf(text, "minutes");
	return typeof minutes === "number" && minutes > 0 ? minutes : undefined;
}

function dateText(cell: Cell | undefined): string | undefined {
	return cell instanceof Date ? cell.toISOString().slice(0, 10) : undefined;
}

function textOf(cell: Cell | undefined, joint = " "): string {
	if (cell === null || cell === undefined || cell instanceof Date) return dateText(cell) ?? "";
	return clean(String(cell)).replaceAll("\n", joint);
}

/** Whether a sheet may be meant as a plan: what is told where it was not read says so. */
export function seenIn(sheet: Sheet, words: GridWords): string | undefined {
	for (const row of sheet.rows.slice(0, HEADINGS_WITHIN)) {
		const texts = row.map((cell) => textOf(cell)).filter((text) => text !== "");
		if (texts.length < 2) continue;
		const known = texts.filter((text) => fold(text) !== "" && saidBy(text, words) !== undefined);
		const shown = texts.slice(0, 12).map((text) => `“${text.length > 30 ? `${text.slice(0, 29)}…` : text}”`);
		return `${shown.join(", ")}${known.length === 0 ? "" : `; known as weeks, areas or levels: ${known.length}`}`;
	}
	return undefined;
}
