/**
 * `import`: drills, plans and lists out of spreadsheets.
 *
 * A dry run unless `--write` is given: it lists the files that would be made, how the columns were
 * read, and what is unclear, with sheet, row and column. A file that is there already is not changed;
 * where it holds the same, it is counted as the same. With `--update` what the sheet says otherwise is
 * taken, field by field, where only the sheet has changed since it was last brought in or handed out. What it
 * has no longer stays, unless `--remove` is given too and nothing else names it.
 */

import { basename, dirname } from "node:path";
import { styleText } from "node:util";
import type { Change } from "../edit/change-set.ts";
import { type ClubTexts, readTexts } from "../edit/club-texts.ts";
import { FilesChanged, makeChanges } from "../edit/make-changes.ts";
import { newErrors } from "../edit/new-errors.ts";
import { type Folder, openFolder } from "../files/folder.ts";
import { givenKind, readGiven } from "../files/given.ts";
import { openHandbook } from "../handbook.ts";
import type { SourceFile } from "../model.ts";
import { parseYaml } from "../read/parse-yaml.ts";
import { readClub } from "../read/read-club.ts";
import { mend, tryTexts } from "./edit-club.ts";
import { count, type Output } from "./report.ts";
import type { Run } from "./run.ts";
import { fold } from "./spreadsheet/cells.ts";
import { clubSheets, type WrittenFile } from "./spreadsheet/club-sheets.ts";
import { LIST_KINDS, type SheetKind, sheetKindNamed } from "./spreadsheet/columns.ts";
import { draftMapping, type Seen } from "./spreadsheet/draft-mapping.ts";
import { type Mapping, NO_MAPPING, type Note } from "./spreadsheet/find-table.ts";
import { type DraftFile, readClubSheets } from "./spreadsheet/read-club-sheets.ts";
import { readSheets, type Sheet, UnreadableSheet } from "./spreadsheet/read-sheets.ts";
import { unitsOf } from "./spreadsheet/sheet-units.ts";
import {
	type CellChange,
	type Gone,
	goneFrom,
	keepMergeBase,
	readMergeBase,
	threeWay,
} from "./spreadsheet/three-way.ts";
import { type FileUpdates, isOf, updateFiles, withoutGone } from "./spreadsheet/update-files.ts";
import { clubFilePath, clubFileText } from "./write-club-file.ts";

export interface ImportOptions {
	readonly files: readonly string[];
	/** A YAML file that says what columns, sheets and words stand for. */
	readonly map?: string;
	/** Where a mapping file is written, to be filled in. */
	readonly mapOut?: string;
	/** Take what the sheet says otherwise of things that are there. */
	readonly update?: boolean;
	/** Of cells that changed on both sides, take the sheet's. */
	readonly preferSheet?: boolean;
	/** Take out what the sheet has no longer. */
	readonly remove?: boolean;
	readonly write?: boolean;
	readonly json?: boolean;
}

export interface Planned {
	readonly path: string;
	/** `new` is written, `same` holds the same already, `kept` is there and holds something else. */
	readonly state: "new" | "same" | "kept" | "changed";
	readonly from: string;
	readonly text: string;
}

/** @returns 0; 1 where something was unclear or a file was kept; 2 where a file cannot be read at all */
export async function importCommand(
	{ clubDir, out }: Run,
	{
		files,
		map: mapping,
		mapOut,
		update = false,
		preferSheet = false,
		remove = false,
		write = false,
		json = false,
	}: ImportOptions,
): Promise<number> {
	const given = await readAll(files, mapping);
	if (given instanceof UnreadableSheet) {
		out.line(given.message);
		return 2;
	}
	const { sheets, map } = given;
	if (write) mend({ clubDir, out });
	const club = readClub(clubDir).files;
	const { files: drafts, notes, seen } = readClubSheets(sheets, club, map);
	if (mapOut !== undefined) {
		if (givenKind(mapOut) !== undefined) {
			out.line(`There is a file ${mapOut} already: it may be filled in. Name another one for --map-out.`);
			return 2;
		}
		openFolder(dirname(mapOut)).write(basename(mapOut), draftMapping(seen));
	}
	const folder = openFolder(clubDir);
	const covers = coveredBy(seen);
	const told = update ? updateOf(folder, club, drafts, covers, preferSheet) : undefined;
	const drafted = planFiles(drafts, club, clubDir);
	const made = drafted
		.filter(({ state }) => state === "new")
		.map(({ path, text }) => ({ path, after: text }));
	const removed = remove ? (told?.gone ?? []).filter(({ isChanged }) => preferSheet || !isChanged) : [];
	const updated = [...made, ...(told?.updates.changes ?? [])];
	const changes = withoutGone(folder, club, updated, removed);
	if (removed.length > 0 && wouldBreak(clubDir, changes, out)) return 1;
	const planned = drafted.map((file): Planned => {
		if (told === undefined || file.state !== "kept") return file;
		const isChanged = changes.some(({ path }) => path === file.path);
		return { ...file, state: isChanged ? "changed" : told.isOpen(file.path) ? "kept" : "same" };
	});
	if (write && changes.length > 0) {
		try {
			// A file that is there is never written over, also where somebody wrote it meanwhile.
			makeChanges(clubDir, `import ${files.join(" ")}`, changes);
		} catch (error) {
			if (!(error instanceof FilesChanged)) throw error;
			out.line(`Made by somebody else in the meantime: ${error.paths.join(", ")}. Nothing was written.`);
			return 1;
		}
	}
	if (write && drafts.length > 0) keepMergeBase(folder, unitsOf(drafts), covers, false);
	const unclear = notes.filter(({ weight }) => weight === "unclear");
	const kept = planned.filter(({ state }) => state === "kept");
	if (json) {
		const listed = planned.map(({ path, state, from }) => ({ path, state, from }));
		const more = told === undefined ? {} : { cells: told.cells, gone: told.gone, removed };
		out.line(JSON.stringify({ written: write, files: listed, notes, ...more }, null, "\t"));
	} else {
		if (told !== undefined) reportCells(told, removed, out.line);
		report(planned, removed.length, notes, write, out.colour, out.line);
		for (const { encoding, name } of sheets) {
			if (encoding === "windows-1252") out.line(`${name} was read as Windows-1252 text.`);
		}
	}
	if (mapOut !== undefined && !json)
		out.line(`A mapping to fill in is in ${mapOut}; import with --map reads it.`);
	return unclear.length + kept.length > 0 ? 1 : 0;
}

/** Whether the folder would have errors that it has not now, which are told. */
function wouldBreak(clubDir: string, changes: readonly Change[], out: Output): boolean {
	const after = tryTexts(clubDir, textsAfter(clubDir, changes));
	const wrong = newErrors(openHandbook(clubDir).problems, after.problems);
	for (const { code, what, place } of wrong) out.line(`${place.file}: ${code} ${what}`);
	if (wrong.length > 0)
		out.line(
			"Without what the sheet has no longer, the folder would have these errors. Nothing was written.",
		);
	return wrong.length > 0;
}

async function readAll(files: readonly string[], mapping: string | undefined) {
	try {
		const map = mapping === undefined ? NO_MAPPING : readMapping(mapping);
		const sheets: Sheet[] = [];
		for (const file of files) {
			if (givenKind(file) !== "file") return new UnreadableSheet(`There is no file ${file}.`);
			sheets.push(...(await readSheets(file, readGiven(file))));
		}
		return { sheets, map };
	} catch (error) {
		if (error instanceof UnreadableSheet) return error;
		throw error;
	}
}

interface Told {
	readonly cells: readonly CellChange[];
	readonly added: readonly { readonly kind: SheetKind; readonly id: string }[];
	readonly gone: readonly Gone[];
	readonly updates: FileUpdates;
	/** Whether cells of a file are left as they are though the sheet says otherwise. */
	readonly isOpen: (path: string) => boolean;
}

/** Which columns the sheets have: of others nothing is said. */
function coveredBy({ sheets }: Seen): (kind: SheetKind, heading: string) => boolean {
	const covered = new Set(
		sheets.flatMap(({ kind, headings }) => headings.map(({ field }) => `${kind} ${field}`)),
	);
	const kinds = new Set(sheets.map(({ kind }) => kind));
	return (kind, heading) => {
		if (kind === "plan") return kinds.has("plan") || kinds.has("grid");
		if (kind === "accepted" || kind === "words") return kinds.has(kind);
		return covered.has(`${kind} ${heading}`);
	};
}

/** What the sheets change of what is there, cell by cell, and what that makes of the files. */
function updateOf(
	folder: Folder,
	club: readonly SourceFile[],
	drafts: readonly DraftFile[],
	covers: (kind: SheetKind, heading: string) => boolean,
	preferSheet: boolean,
): Told {
	const [sheet, own, last] = [unitsOf(drafts), unitsOf(club), readMergeBase(folder)];
	const cells = threeWay(sheet, own, last, covers);
	const taken = cells.filter(({ by }) => by === "sheet" || (by === "both" && preferSheet));
	const lists = new Set<SheetKind>(["classes", "plan", ...LIST_KINDS]);
	const added = [...sheet.values()].filter(({ kind, id }) => lists.has(kind) && !own.has(`${kind} ${id}`));
	const gone = goneFrom(sheet, own, last, covers);
	const left = cells.filter((cell) => !taken.includes(cell) && cell.by === "both");
	const open = new Set(left.map(({ kind, id }) => club.find((file) => isOf(kind, id, file))?.file));
	return {
		cells,
		added,
		gone,
		updates: updateFiles(
			folder,
			club,
			drafts,
			[...taken, ...added.filter(({ kind }) => kind === "plan").map(planOfArea)],
			added.filter(({ kind }) => kind !== "plan"),
		),
		isOpen: (path) => open.has(path),
	};
}

/** An area that a week had no plan for. */
function planOfArea({ kind, id }: { readonly kind: SheetKind; readonly id: string }): CellChange {
	return { kind, id, heading: "blocks", by: "sheet", before: "", sheet: "", folder: "" };
}

/** What each cell that differs comes to, by what it is about. */
function reportCells(
	{ cells, added, gone, updates }: Told,
	removed: readonly Gone[],
	line: (text: string) => void,
): void {
	for (const [about, own] of Map.groupBy(cells, ({ kind, id }) => aboutOf(kind, id))) {
		line(about);
		for (const { heading, by, before, sheet, folder } of own) {
			const name = heading === "blocks" || heading === "all" ? "" : `${heading}: `;
			if (by === "sheet") line(`  ${name}${shownCell(folder)} → ${shownCell(sheet)}`);
			else if (by === "folder") line(`  ${name}changed in the folder since, and kept: ${shownCell(folder)}`);
			else {
				line(
					`  ${name}${before === undefined ? "differs, and no earlier import or export is known" : `changed on both sides; it was ${shownCell(before)}`}`,
				);
				line(`    in the sheet: ${shownCell(sheet)}`);
				line(`    in the folder: ${shownCell(folder)}`);
			}
		}
	}
	for (const { kind, id } of added) line(`${aboutOf(kind, id)} is new`);
	for (const one of gone) {
		const comes = removed.includes(one)
			? "taken out of the folder"
			: one.isChanged
				? "changed in the folder since, and kept"
				: "it stays in the folder";
		line(`${aboutOf(one.kind, one.id)} is no longer in the sheet: ${comes}`);
	}
	if (gone.length > 0 && removed.length === 0)
		line(`${count(gone.length, "thing")} no longer in the sheet: --remove takes out what nothing names.`);
	for (const path of updates.writtenAnew) line(`${path} is written anew: its own form could not be kept`);
	const both = cells.filter(({ by }) => by === "both").length;
	if (both > 0)
		line(`${count(both, "cell")} differ on both sides: the folder's stay; --prefer-sheet takes the sheet's.`);
	if (cells.length + added.length + gone.length > 0) line("");
}

function aboutOf(kind: SheetKind, id: string): string {
	if (kind === "plan") return `week ${id.replace("/", ", ")}`;
	return kind === id ? kind : `${kind} ${id}`;
}

/** Letters of a cell that are shown. */
const MOST_OF_CELL = 120;

function shownCell(text: string): string {
	const line = text.replace(/\s*\n\s*/g, " / ");
	if (line === "") return "nothing";
	return line.length > MOST_OF_CELL ? `${line.slice(0, MOST_OF_CELL - 1)}…` : line;
}

function textsAfter(clubDir: string, changes: readonly Change[]): ClubTexts {
	const texts = new Map(readTexts(clubDir));
	for (const { path, after } of changes) {
		if (after === undefined) texts.delete(path);
		else texts.set(path, after);
	}
	return texts;
}

/** What each draft comes to in the club folder. */
function planFiles(
	drafts: readonly DraftFile[],
	club: readonly (WrittenFile & { readonly file: string })[],
	clubDir: string,
): readonly Planned[] {
	const folder = openFolder(clubDir);
	const byName = new Map(club.map((file) => [`${file.kind} ${file.id}`, file]));
	return drafts.map(({ kind, id, data, body, from }) => {
		const there = byName.get(`${kind} ${id}`);
		const path = there?.file ?? clubFilePath(kind, id, data);
		const text = clubFileText(kind, data, body);
		if (there === undefined) {
			return { path, from, text, state: folder.has(path) ? "kept" : "new" };
		}
		// Two files are the same where a spreadsheet would say the same of both.
		const said = (file: WrittenFile) => JSON.stringify(clubSheets([file]));
		return { path, from, text, state: said(there) === said({ kind, id, data, body }) ? "same" : "kept" };
	});
}

/** Reads a mapping file. Throws UnreadableSheet where it is none. */
function readMapping(file: string): Mapping {
	if (givenKind(file) !== "file") throw new UnreadableSheet(`There is no mapping file ${file}.`);
	const parsed = parseYaml(readGiven(file).toString("utf8").replace(/\r\n?/g, "\n"));
	const data = parsed.ok ? parsed.data : undefined;
	if (typeof data !== "object" || data === null) {
		throw new UnreadableSheet(
			`${file} is not a mapping: it holds \`sheets\`, \`columns\` and \`values\`, each a map.`,
		);
	}
	const part = (name: string, from: unknown = data) =>
		Object.entries(
			((from as Readonly<Record<string, unknown>>)[name] ?? {}) as Readonly<Record<string, unknown>>,
		);
	const known = ["sheets", "columns", "values", "minutes"];
	const unknown = Object.keys(data).find((key) => !known.includes(key));
	if (unknown !== undefined) {
		throw new UnreadableSheet(
			`${file}: \`${unknown}\` is none of ${known.map((name) => `\`${name}\``).join(", ")}.`,
		);
	}
	// What nobody has filled in yet says nothing.
	const isOpen = (word: unknown): boolean => word === "?";
	const sheets = part("sheets").flatMap(([name, word]): [string, SheetKind | "skip"][] => {
		if (isOpen(word)) return [];
		const kind = word === "skip" ? "skip" : sheetKindNamed(String(word));
		if (kind === undefined) {
			throw new UnreadableSheet(
				`${file}: \`${String(word)}\` is no kind of sheet; write drills, plan or weeks, or skip.`,
			);
		}
		return [[fold(name), kind]];
	});
	return {
		sheets: new Map(sheets),
		columns: new Map(
			part("columns").flatMap(([heading, field]) =>
				isOpen(field) ? [] : [[fold(heading), String(field)] as const],
			),
		),
		minutes: minutesOf(file, (data as Readonly<Record<string, unknown>>).minutes),
		values: new Map(
			part("values").map(([kind, words]) => [
				kind.replace(/s$/, "").replace(/^apparatu$/, "apparatus"),
				new Map(
					part("of", { of: words }).flatMap(([word, id]) =>
						isOpen(id) ? [] : [[fold(word), Array.isArray(id) ? id.join("; ") : String(id ?? "")] as const],
					),
				),
			]),
		),
	};
}

/** Minutes in an area, or one number for all of them. */
function minutesOf(file: string, said: unknown): ReadonlyMap<string, number> {
	if (said === undefined || said === null || said === "?") return new Map();
	const each = typeof said === "object" ? Object.entries(said) : [["", said] as const];
	return new Map(
		each.flatMap(([area, minutes]) => {
			if (minutes === "?") return [];
			if (typeof minutes === "number" && minutes > 0) return [[area, minutes] as const];
			throw new UnreadableSheet(
				`${file}: \`minutes\` holds a number of minutes, or one for each area, such as {floor: 15}.`,
			);
		}),
	);
}

/** Files named one by one; the rest is counted. */
const SHOWN = 12;

function report(
	planned: readonly Planned[],
	removed: number,
	notes: readonly Note[],
	written: boolean,
	colour: boolean,
	line: (text: string) => void,
): void {
	const paint = (style: "bold" | "yellow" | "dim", text: string) =>
		colour ? styleText(style, text, { validateStream: false }) : text;
	for (const [sheet, own] of Map.groupBy(notes, (note) => note.sheet)) {
		line("");
		line(paint("bold", sheet));
		// The same word about many rows is said once, in the order of the rows.
		for (const alike of Map.groupBy(
			own.toSorted((a, b) => (a.row ?? 0) - (b.row ?? 0)),
			({ weight, what, column = "" }) => `${weight} ${column} ${what}`,
		).values()) {
			const [first] = alike;
			if (first === undefined) continue;
			const rows = alike.flatMap(({ row }) => (row === undefined ? [] : [row]));
			const where = placeOf(rows, first.column);
			const mark = first.weight === "unclear" ? paint("yellow", "unclear") : "note";
			line(`  ${where === "" ? "" : `${where}  `}${mark}  ${first.what}`);
		}
	}
	if (notes.length > 0) line("");
	const titles = {
		new: written ? "Written:" : "Would be made:",
		changed: written ? "Changed:" : "Would be changed:",
		kept: "There already with other content, and kept:",
	};
	for (const state of ["new", "changed", "kept"] as const) {
		const files = planned.filter((file) => file.state === state);
		if (files.length === 0) continue;
		line(titles[state]);
		for (const { path, from } of files.slice(0, SHOWN)) line(`  ${path}  ${paint("dim", from)}`);
		if (files.length > SHOWN) line(`  … and ${files.length - SHOWN} more`);
	}
	const of = (state: Planned["state"]) => planned.filter((file) => file.state === state).length;
	const unclear = notes.filter(({ weight }) => weight === "unclear").length;
	const sum = [
		`${count(of("new"), "file")} ${written ? "written" : "to make"}`,
		...(of("changed") > 0 ? [`${of("changed")} ${written ? "changed" : "to change"}`] : []),
		...(removed > 0 ? [`${removed} ${written ? "taken out" : "to take out"}`] : []),
		...(of("same") > 0 ? [`${of("same")} the same already`] : []),
		...(of("kept") > 0 ? [`${of("kept")} kept`] : []),
		...(unclear > 0 ? [`${unclear} unclear and left out`] : []),
	];
	line(
		`${sum.join(", ")}.${written || of("new") + of("changed") + removed === 0 ? "" : " Nothing is written yet: add --write to write them."}`,
	);
}

/** "row 4, column C", "rows 4, 5 and 9", "column C". */
function placeOf(rows: readonly number[], column: string | undefined): string {
	const shown = rows.slice(0, 8);
	const more = rows.length - shown.length;
	const list = more > 0 ? `${shown.join(", ")} and ${more} more` : shown.join(", ");
	const row = rows.length === 0 ? "" : `${rows.length === 1 ? "row" : "rows"} ${list}`;
	return [row, column === undefined ? "" : `column ${column}`].filter((part) => part !== "").join(", ");
}
