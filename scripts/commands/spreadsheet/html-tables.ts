/**
 * Tables of an HTML file, as word processors and mail programs hand them on: cells that stand over several
 * rows or columns fill the first one, and what is hidden or struck out is left out and told.
 */

import { Parser } from "htmlparser2";
import { type LeftOut, letterOf } from "./read-sheets.ts";

export interface HtmlTable {
	/** Its caption, or the heading that stands before it. */
	readonly title: string | undefined;
	readonly rows: readonly (readonly string[])[];
	readonly leftOut: readonly LeftOut[];
}

const BLOCKS = new Set(["p", "div", "li", "br", "h1", "h2", "h3", "h4", "h5", "h6"]);
const HEADINGS = new Set(["h1", "h2", "h3", "h4", "h5", "h6", "caption"]);
const UNSEEN = new Set(["script", "style", "head", "template"]);
const STRUCK = new Set(["s", "del", "strike"]);
/** Styles that hide, and that strike out. */
const UNSHOWN = /display\s*:\s*none|mso-hide\s*:\s*all/i;
const STRUCK_BY = /text-decoration[^;]*line-through/i;
/** Rows and columns that one cell may be said to stand over. */
const MOST_SPANNED = 1000;

interface OpenTable {
	title: string | undefined;
	readonly rows: string[][];
	/** Places that a cell of an earlier row stands over, as "row,column". */
	readonly taken: Set<string>;
	readonly leftOut: LeftOut[];
	rowHidden: boolean;
}

interface OpenCell {
	text: string;
	/** What is struck out. */
	struck: string;
	hidden: boolean;
	readonly columns: number;
	readonly rows: number;
}

/** Every table of an HTML text. A table inside another one's cell is text of that cell. */
export function htmlTables(html: string): readonly HtmlTable[] {
	const tables: OpenTable[] = [];
	let table: OpenTable | undefined;
	let cell: OpenCell | undefined;
	let depth = 0;
	let heading = "";
	let inHeading = false;
	/** Elements that are open, and whether what is in them is struck out or not shown. */
	const open: { readonly name: string; readonly struck: boolean; readonly hidden: boolean }[] = [];
	const isStruck = () => open.some(({ struck }) => struck);
	const isHidden = () => open.some(({ hidden }) => hidden);
	const closeCell = (): void => {
		if (cell !== undefined && table !== undefined) placeCell(table, cell);
		cell = undefined;
	};
	const parser = new Parser({
		onopentag(name, { style = "", colspan, rowspan, ...attributes }) {
			const hidden = UNSEEN.has(name) || attributes.hidden !== undefined || UNSHOWN.test(style);
			open.push({ name, hidden, struck: STRUCK.has(name) || STRUCK_BY.test(style) });
			if (name === "table") {
				if (depth++ > 0) return;
				const title = heading.trim() || undefined;
				table = { title, rows: [], taken: new Set(), leftOut: [], rowHidden: false };
				heading = "";
				tables.push(table);
			}
			if (HEADINGS.has(name) && cell === undefined) {
				inHeading = true;
				heading = "";
			}
			if (depth === 1 && table !== undefined && name === "tr") {
				closeCell();
				table.rows.push([]);
				table.rowHidden = isHidden();
			}
			if (depth === 1 && (name === "td" || name === "th")) {
				closeCell();
				cell = { text: "", struck: "", hidden: isHidden(), columns: span(colspan), rows: span(rowspan) };
			}
			if (cell !== undefined && BLOCKS.has(name)) cell.text += "\n";
			if (cell !== undefined && name === "li") cell.text += "• ";
		},
		ontext(text) {
			if (cell === undefined) {
				if (inHeading && !isHidden()) heading += text;
				return;
			}
			if (isHidden() && !cell.hidden) return;
			// A line end in the file is a blank in the text.
			const words = text.replace(/[ \t\r\n]+/g, " ");
			if (isStruck()) cell.struck += words;
			else cell.text += words;
		},
		onclosetag(name) {
			const at = open.findLastIndex((one) => one.name === name);
			if (at >= 0) open.splice(at);
			if (HEADINGS.has(name)) {
				inHeading = false;
				if (name === "caption" && table !== undefined) table.title = heading.trim() || table.title;
			}
			if (cell !== undefined && BLOCKS.has(name) && name !== "br") cell.text += "\n";
			if (depth === 1 && (name === "td" || name === "th" || name === "tr")) closeCell();
			if (name !== "table" || depth === 0) return;
			if (--depth > 0) return;
			closeCell();
			table = undefined;
			heading = "";
		},
	});
	parser.write(html);
	parser.end();
	return tables.filter(({ rows }) => rows.length > 0);
}

function placeCell({ rows, taken, leftOut, rowHidden }: OpenTable, cell: OpenCell): void {
	const row = rows.at(-1);
	if (row === undefined) return;
	const at = rows.length - 1;
	while (taken.has(`${at},${row.length}`)) row.push("");
	const text = cell.text
		.split("\n")
		.map((line) => line.trim())
		.filter((line) => line !== "" && line !== "•")
		.join("\n");
	const column = row.length;
	if (cell.struck.trim() !== "") {
		const what = `“${cell.struck.trim().slice(0, 60)}” is struck out and left out`;
		leftOut.push({ row: at + 1, column: letterOf(column), what });
	}
	if (
		cell.hidden &&
		text !== "" &&
		!leftOut.some((left) => left.row === at + 1 && left.column === undefined)
	) {
		leftOut.push(
			rowHidden
				? { row: at + 1, what: "the row is hidden and left out" }
				: { row: at + 1, column: letterOf(column), what: "the cell is hidden and left out" },
		);
	}
	row.push(cell.hidden ? "" : text);
	for (let right = 1; right < cell.columns; right++) row.push("");
	for (let down = 1; down < cell.rows; down++)
		for (let right = 0; right < cell.columns; right++) taken.add(`${at + down},${column + right}`);
}

function span(said: string | undefined): number {
	const number = Number(said ?? 1);
	return Number.isInteger(number) && number > 0 ? Math.min(number, MOST_SPANNED) : 1;
}
