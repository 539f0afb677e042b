/**
 * `export`: the drill library, the plan and all else a club has written, as spreadsheets.
 *
 * Writes one workbook and, beside it, a CSV file for each sheet. `import` reads either back.
 */

import { join, relative } from "node:path";
import { isInside, makeFolder, openFolder, realPlace } from "../files/folder.ts";
import { openHandbook } from "../handbook.ts";
import { readClub } from "../read/read-club.ts";
import { csvFor, withNames } from "../site/count-tables.ts";
import { count, reportProblems } from "./report.ts";
import type { Run } from "./run.ts";
import { clubSheets } from "./spreadsheet/club-sheets.ts";
import { unitsOf } from "./spreadsheet/sheet-units.ts";
import { keepMergeBase } from "./spreadsheet/three-way.ts";
import { CellTooLong, csvOf, type SheetOut, workbookOf } from "./spreadsheet/write-sheets.ts";

export interface ExportOptions {
	/** The folder the spreadsheets go into; one in the club folder where it is left out. */
	readonly to?: string;
	/** Whether spreadsheets that are there already may be written over. */
	readonly replace?: boolean;
	/** What was counted instead of what was written: a workbook, and CSV in the signs of the club's language. */
	readonly counts?: boolean;
	readonly json?: boolean;
}

/** @returns 0; 1 where the content has errors or a text does not fit; 2 where a file is in the way, or the folder is no place for them */
export async function exportCommand(
	{ clubDir, out }: Run,
	{ to, replace, counts = false, json }: ExportOptions,
): Promise<number> {
	const own = to === undefined ? undefined : ownFolderAround(clubDir, to);
	if (own !== undefined) {
		out.line(
			`${to} lies in the club's own ${own}/, where only what the club writes is read: name a folder beside it.`,
		);
		return 2;
	}
	const { problems, handbook } = openHandbook(clubDir);
	const errors = problems.filter(({ severity }) => severity === "error");
	if (handbook === undefined) {
		if (json) out.line(JSON.stringify({ problems: errors, files: [] }, null, "\t"));
		else reportProblems(errors, clubDir, out);
		return 1;
	}
	const { files: written } = readClub(clubDir);
	const counted = [...handbook.tables.values()].map((table) => withNames(table, handbook.curriculum));
	// The name of a sheet has at most 31 letters.
	const sheets: readonly SheetOut[] = counts
		? counted.map((table) => ({ ...table, title: table.name.slice(0, 31) }))
		: clubSheets(written);
	const files = new Map<string, string | Buffer>();
	try {
		files.set(counts ? "counts.xlsx" : "handbook.xlsx", await workbookOf(sheets));
	} catch (error) {
		if (!(error instanceof CellTooLong)) throw error;
		out.line(error.message);
	}
	const complete = files.size === 1;
	if (counts) {
		for (const table of counted)
			files.set(`${table.name}.csv`, csvFor(handbook.curriculum.club.language, table));
	} else for (const sheet of sheets) files.set(`${sheet.title.toLowerCase()}.csv`, csvOf(sheet));
	// A folder that somebody named may stand anywhere; the club's own may not lead out of it.
	const folder = to === undefined ? openFolder(clubDir).inner("spreadsheets") : makeFolder(to);
	const inTheWay = [...files.keys()].filter((name) => folder.has(name));
	if (inTheWay.length > 0 && !replace) {
		out.line(
			`There already: ${inTheWay.join(", ")}. Name another folder with --to, or write over them with --replace.`,
		);
		return 2;
	}
	for (const [name, content] of files) folder.write(name, content);
	// What is handed out is what a sheet that comes back is held against.
	if (!counts) keepMergeBase(openFolder(clubDir), unitsOf(written), () => true, true);
	const here = relative(process.cwd(), folder.path) || ".";
	if (json)
		out.line(JSON.stringify({ problems: [], folder: folder.path, files: [...files.keys()] }, null, "\t"));
	else {
		const rows = sheets.map(({ title, rows }) => `${title} ${rows.length}`).join(", ");
		out.line(`wrote ${count(files.size, "file")} to ${here}: rows ${rows}`);
	}
	return complete ? 0 : 1;
}

/** The folder that the club's own files are read from in which a path lies. */
function ownFolderAround(clubDir: string, path: string): string | undefined {
	return ["content", "_data"].find((name) => isInside(realPlace(join(clubDir, name)), realPlace(path)));
}
