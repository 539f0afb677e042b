/**
 * Spreadsheet files to sheets of cells: CSV in the encodings and with the signs that programs use, and
 * XLSX. Formulas are never computed: of a cell that holds one, the result that was saved with it is read.
 */

import { isUtf8 } from "node:buffer";
import { basename, extname } from "node:path";
import Papa from "papaparse";
import readXlsxFile from "read-excel-file/node";
import { type Cell, isFilled } from "./cells.ts";
import { COLUMNS, columnFor } from "./columns.ts";
import { htmlTables } from "./html-tables.ts";
import { type Unseen, unseenIn } from "./left-out.ts";
import { lookIntoWorkbook } from "./look-into-workbook.ts";
import { UnreadableSheet } from "./unreadable-sheet.ts";

export { UnreadableSheet };

export interface Sheet {
	/** The file's name, and for XLSX the sheet's. */
	readonly name: string;
	/** The sheet's own name; for CSV the file's name without its ending. */
	readonly title: string;
	readonly rows: readonly (readonly Cell[])[];
	/** What is hidden or struck out in the workbook, and so not among the rows. */
	readonly leftOut?: readonly LeftOut[];
	/** The encoding a CSV file was taken to be in. */
	readonly encoding?: string;
}

/** Something of a sheet that is not read, at its place: rows count from 1, columns by their letters. */
export interface LeftOut {
	readonly row?: number;
	readonly column?: string;
	readonly what: string;
}

/** The sheets of one file. Throws UnreadableSheet where it is none. */
export async function readSheets(file: string, bytes: Buffer): Promise<readonly Sheet[]> {
	const name = basename(file);
	const ending = extname(file).toLowerCase();
	if (ending === ".xls" || ending === ".ods" || ending === ".numbers") {
		throw new UnreadableSheet(`${name} is a ${ending} file. Save it as .xlsx or .csv first.`);
	}
	if (ending === ".xlsx" || bytes.subarray(0, 2).toString("latin1") === "PK")
		return readWorkbook(name, bytes);
	const { text, encoding } = decode(bytes);
	// What is copied from a word processor and kept is HTML, whatever the file is called.
	if (/^\s*(?:Version:[^<]*)?<(?:!doctype|html|table|meta|body|div|span|!--)/i.test(text.slice(0, 2000))) {
		const tables = htmlTables(text);
		if (tables.length === 0)
			throw new UnreadableSheet(`${name} holds no table. Copy the whole table, with its headings.`);
		return tables.map(({ title, rows, leftOut }, i) => ({
			name: tables.length === 1 ? name : `${name}, table ${i + 1}`,
			title: title ?? (tables.length === 1 ? basename(file, extname(file)) : `table ${i + 1}`),
			rows: rows.map((row) => row.map((cell): Cell => (cell === "" ? null : unguarded(cell)))),
			...(leftOut.length === 0 ? {} : { leftOut }),
			encoding,
		}));
	}
	return [{ name, title: basename(file, extname(file)), rows: csvRows(name, text), encoding }];
}

async function readWorkbook(name: string, bytes: Buffer): Promise<readonly Sheet[]> {
	await lookIntoWorkbook(name, bytes);
	try {
		const sheets = await readXlsxFile(bytes, { trim: false });
		const unseen = unseenIn(bytes);
		return sheets.map(({ sheet, data }) => ({
			name: `${name}, ${sheet}`,
			title: sheet,
			...seenOf(
				data.map((row) => row.map((cell) => unguarded(cell as Cell))),
				unseen.get(sheet),
			),
		}));
	} catch (error) {
		const why = error instanceof Error ? error.message : String(error);
		throw new UnreadableSheet(
			`${name} cannot be read as a workbook (${why}). Open it and save it again as .xlsx.`,
		);
	}
}

/** The cells that somebody sees who opens the workbook; what is hidden or struck out is empty, and told. */
function seenOf(
	rows: readonly (readonly Cell[])[],
	unseen: Unseen | undefined,
): Pick<Sheet, "rows"> & Partial<Pick<Sheet, "leftOut">> {
	if (unseen === undefined) return { rows };
	if (unseen.hidden) {
		const leftOut = rows.some((row) => row.some(isFilled))
			? [{ what: "the sheet is hidden and left out" }]
			: [];
		return { rows: [], leftOut };
	}
	const leftOut: LeftOut[] = [];
	const isHidden = (column: number): boolean =>
		unseen.columns.some(({ from, to }) => from <= column && column <= to);
	const widest = Math.max(0, ...rows.map((row) => row.length));
	for (let column = 0; column < widest; column++) {
		if (!isHidden(column) || !rows.some((row) => isFilled(row[column]))) continue;
		leftOut.push({ column: letterOf(column), what: "the column is hidden and left out" });
	}
	const seen = rows.map((row, at): readonly Cell[] => {
		const full = row.flatMap((cell, column) => (isFilled(cell) && !isHidden(column) ? [column] : []));
		const struck = full.filter((column) => unseen.struck.has(`${at},${column}`));
		if (full.length > 0 && unseen.rows.has(at)) {
			leftOut.push({ row: at + 1, what: "the row is hidden and left out" });
			return [];
		}
		if (struck.length > 0 && struck.length === full.length) {
			leftOut.push({ row: at + 1, what: "the row is struck out and left out" });
			return [];
		}
		for (const column of struck) {
			leftOut.push({ row: at + 1, column: letterOf(column), what: "the cell is struck out and left out" });
		}
		return row.map((cell, column) => (isHidden(column) || struck.includes(column) ? null : cell));
	});
	return { rows: seen, leftOut };
}

/** A column's letters: A, B … Z, AA … */
export function letterOf(index: number): string {
	const last = String.fromCharCode(65 + (index % 26));
	return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}

/** Text by its byte order mark, else UTF-8 where it is that, else as Windows writes Western text. */
function decode(bytes: Buffer): { readonly text: string; readonly encoding: string } {
	const as = (encoding: string, from: Buffer) => ({ text: new TextDecoder(encoding).decode(from), encoding });
	if (bytes[0] === 0xff && bytes[1] === 0xfe) return as("utf-16le", bytes);
	if (bytes[0] === 0xfe && bytes[1] === 0xff) return as("utf-16be", bytes);
	const start = bytes.subarray(0, 200);
	const zeros = (odd: number) => start.filter((byte, i) => i % 2 === odd && byte === 0).length;
	if (zeros(1) > start.length / 4) return as("utf-16le", bytes);
	if (zeros(0) > start.length / 4) return as("utf-16be", bytes);
	return isUtf8(bytes) ? as("utf-8", bytes) : as("windows-1252", bytes);
}

/** Letters of one cell: what the usual programs hold (Excel specifications and limits: 32,767). */
const LONGEST_CELL = 32_767;

function csvRows(name: string, text: string): readonly (readonly Cell[])[] {
	// Spreadsheets may say the sign between cells in a first line of its own.
	const said = /^sep=(.)\r?\n/i.exec(text);
	const body = said === null ? text : text.slice(said[0].length);
	const data = parsed(body, said?.[1] ?? delimiterOf(body));
	for (const [i, row] of data.entries()) {
		if (row.some((cell) => cell.length > LONGEST_CELL)) {
			throw new UnreadableSheet(
				`${name}: a cell of row ${i + (said === null ? 1 : 2)} holds more than ${LONGEST_CELL} letters. Most likely a quote was opened there and not closed: close it, or save the file again from a spreadsheet program.`,
			);
		}
	}
	const rows = data.map((row) => row.map((cell): Cell => (cell === "" ? null : unguarded(cell))));
	// What the first line said counts as a line, so that rows have the numbers people see.
	return said === null ? rows : [[], ...rows];
}

function parsed(text: string, delimiter: string): readonly (readonly string[])[] {
	return Papa.parse<string[]>(text, { delimiter }).data;
}

/**
 * The sign between cells: the one with which the most headings are known, since cells may hold commas
 * and semicolons of their own; where none is, the one that cuts the first rows most.
 */
function delimiterOf(text: string): string {
	const head = text.slice(0, 20_000);
	let best = { sign: ",", score: 0 };
	for (const sign of [",", ";", "\t", "|"]) {
		const rows = parsed(head, sign).slice(0, HEADINGS_WITHIN);
		const known = Math.max(0, ...rows.map((row) => row.filter(isHeading).length));
		const cells = Math.max(0, ...rows.map((row) => row.length));
		const score = known * 1000 + cells;
		if (score > best.score) best = { sign, score };
	}
	return best.sign;
}

/** Rows in which headings are looked for. */
export const HEADINGS_WITHIN = 25;

function isHeading(cell: string): boolean {
	for (const kind of COLUMNS.keys()) if (columnFor(kind, cell) !== undefined) return true;
	return false;
}

/** Takes off the sign that keeps a spreadsheet from reading a text as a formula. */
function unguarded(cell: Cell): Cell {
	return typeof cell === "string" && /^'+[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell;
}
