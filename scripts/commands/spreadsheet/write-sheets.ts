/**
 * Sheets of cells to files: one XLSX, or a CSV file for each sheet.
 *
 * A text that starts with = + - or @ would be run as a formula by the program that opens the CSV file.
 * Such a text gets an apostrophe before it, which spreadsheets take as "this is text", and which is
 * taken off again on import; a text that itself starts so gets one more. XLSX says of each cell
 * whether it is text, so only the latter is needed there.
 */

import Papa from "papaparse";
import writeXlsxFile from "write-excel-file/node";
import type { Cell } from "./cells.ts";

export interface SheetOut {
	readonly title: string;
	readonly headings: readonly string[];
	readonly rows: readonly (readonly Cell[])[];
}

/** The most characters that a cell of a workbook may hold. */
const CELL_LIMIT = 32_767;

/** A text too long for a workbook. Its message says where it stands. */
export class CellTooLong extends Error {}

/** RFC 4180, UTF-8 with a byte order mark, by which spreadsheets know the encoding. */
export function csvOf({ headings, rows }: SheetOut): string {
	const cells = rows.map((row) =>
		row.map((cell) => (typeof cell === "string" ? guarded(cell, /^'*[=+\-@\t\r]/) : cell)),
	);
	return `\uFEFF${Papa.unparse([[...headings], ...cells], { newline: "\r\n" })}\r\n`;
}

/** One workbook with all sheets. Throws CellTooLong where a text does not fit a cell. */
export async function workbookOf(sheets: readonly SheetOut[]): Promise<Buffer> {
	const written = sheets.map(({ title, headings, rows }) => ({
		sheet: title,
		stickyRowsCount: 1,
		columns: headings.map((heading, i) => ({ width: widthOf(heading, rows, i) })),
		data: [
			headings.map((value) => ({ value, type: String, fontWeight: "bold" as const })),
			...rows.map((row, r) =>
				row.map((cell, c) => xlsxCell(cell, () => `${title}, row ${r + 2}, ${headings[c] ?? ""}`)),
			),
		],
	}));
	return writeXlsxFile(written).toBuffer();
}

function xlsxCell(cell: Cell, where: () => string) {
	if (cell === null) return null;
	if (typeof cell === "number") return { value: cell, type: Number };
	// A workbook reads _x000D_ and the like as characters; the underscore before them is written as one.
	// The library leaves out U+FFFD, which stands in texts that were once read in a wrong encoding.
	const text = guarded(String(cell), /^'+[=+\-@\t\r]/)
		.replace(/_(?=x[0-9a-f]{4}_)/gi, "_x005F_")
		.replaceAll("\ufffd", "_xFFFD_");
	// The library keeps its strings as keys of an object, where the names of its own methods are taken; a
	// space without width, which reading takes off, keeps a text such as "constructor" apart.
	const value = text in {} ? `\u200b${text}` : text;
	if (value.length > CELL_LIMIT) {
		throw new CellTooLong(
			`${where()}: the text has ${value.length} characters, and a cell of a workbook holds ${CELL_LIMIT}. Export as CSV.`,
		);
	}
	return { value, type: String, wrap: true, alignVertical: "top" as const };
}

function guarded(text: string, pattern: RegExp): string {
	return pattern.test(text) ? `'${text}` : text;
}

/** Wide enough to read, narrow enough to see several columns. */
function widthOf(heading: string, rows: readonly (readonly Cell[])[], column: number): number {
	const longest = rows.slice(0, 100).map((row) =>
		Math.max(
			...String(row[column] ?? "")
				.split("\n")
				.map((l) => l.length),
		),
	);
	return Math.min(44, Math.max(heading.length + 2, 8, ...longest));
}
