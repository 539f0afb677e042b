/**
 * What a workbook shows to nobody: hidden sheets, rows and columns, and cells that are struck out.
 *
 * A club strikes a drill out or hides its row when it is no longer to be taught; the reader of workbooks
 * gives such cells like any others. They are looked up here, in the parts of the file that say so, by the
 * names of ECMA-376 part 1, 18.2.19 (sheet), 18.3.1.13 (col), 18.3.1.73 (row), 18.8.22 (font).
 */

import { strFromU8, unzipSync } from "fflate";
import { Parser } from "saxen";

/** What of a sheet is not to be taken. Rows and columns count from 0. */
export interface Unseen {
	readonly hidden: boolean;
	readonly rows: ReadonlySet<number>;
	readonly columns: readonly { readonly from: number; readonly to: number }[];
	/** Cells that are struck out whole, as "row,column". */
	readonly struck: ReadonlySet<string>;
}

/** Larger parts are no plan of a club; of a sheet like that nothing is known here. */
const MOST_BYTES = 100_000_000;

/** What is unseen in a workbook, by the names of its sheets. Throws where it cannot be read. */
export function unseenIn(bytes: Uint8Array): ReadonlyMap<string, Unseen> {
	const parts = unzipSync(bytes, {
		filter: ({ name, originalSize }) =>
			originalSize <= MOST_BYTES &&
			/^\/?xl\/(workbook|styles|sharedStrings|_rels\/workbook|worksheets\/[^/]+)\.xml(\.rels)?$/i.test(name),
	});
	const texts = new Map(
		Object.entries(parts).map(([name, part]) => [name.replace(/^\//, "").toLowerCase(), part] as const),
	);
	const text = (name: string): string => {
		const part = texts.get(name.toLowerCase());
		return part === undefined ? "" : strFromU8(part);
	};
	const targets = new Map<string, string>();
	read(text("xl/_rels/workbook.xml.rels"), (name, { Id = "", Target = "" }) => {
		if (name === "Relationship") targets.set(Id, Target);
	});
	const struckStyles = struckStylesIn(text("xl/styles.xml"));
	const struckStrings = struckStringsIn(text("xl/sharedStrings.xml"));
	const sheets = new Map<string, Unseen>();
	read(text("xl/workbook.xml"), (name, attributes, decode) => {
		if (name !== "sheet") return;
		const id = Object.entries(attributes).find(([key]) => key === "id" || key.endsWith(":id"))?.[1] ?? "";
		const target = targets.get(id) ?? "";
		const path = target.startsWith("/") ? target.slice(1) : `xl/${target}`;
		const hidden = /^(hidden|veryHidden)$/.test(attributes.state ?? "");
		sheets.set(decode(attributes.name ?? ""), {
			hidden,
			...sheetOf(text(path), struckStyles, struckStrings),
		});
	});
	return sheets;
}

function struckStylesIn(xml: string): ReadonlySet<number> {
	const fonts: boolean[] = [];
	const styles = new Set<number>();
	const within: string[] = [];
	let style = 0;
	read(
		xml,
		(name, attributes) => {
			if (name === "font" && within.at(-1) === "fonts") fonts.push(false);
			if (name === "strike" && within.includes("fonts") && isOn(attributes)) fonts[fonts.length - 1] = true;
			if (name === "xf" && within.at(-1) === "cellXfs") {
				if (fonts[Number(attributes.fontId ?? 0)] === true) styles.add(style);
				style += 1;
			}
			within.push(name);
		},
		() => within.pop(),
	);
	return styles;
}

/** The shared texts of which every run is struck through. */
function struckStringsIn(xml: string): ReadonlySet<number> {
	const struck = new Set<number>();
	let at = -1;
	const runs = new Runs();
	read(
		xml,
		(name, attributes) => {
			if (name === "si") {
				at += 1;
				runs.start();
			}
			runs.open(name, attributes);
		},
		(name) => {
			runs.close(name);
			if (name === "si" && runs.areStruck) struck.add(at);
		},
		(text) => runs.text(text),
	);
	return struck;
}

/** Whether all letters of a text in runs are struck through. */
class Runs {
	#inRun = false;
	#inText = false;
	#isStruck = false;
	#any = false;
	#all = true;

	get areStruck(): boolean {
		return this.#any && this.#all;
	}

	start(): void {
		[this.#any, this.#all, this.#inRun, this.#isStruck, this.#inText] = [false, true, false, false, false];
	}

	open(name: string, attributes: Attributes): void {
		if (name === "r") [this.#inRun, this.#isStruck] = [true, false];
		if (name === "strike" && this.#inRun) this.#isStruck = isOn(attributes);
		if (name === "t") this.#inText = true;
	}

	close(name: string): void {
		if (name === "t") this.#inText = false;
		if (name === "r") [this.#inRun, this.#isStruck] = [false, false];
	}

	text(text: string): void {
		if (!this.#inText || text.trim() === "") return;
		this.#any = true;
		this.#all &&= this.#isStruck;
	}
}

function sheetOf(
	xml: string,
	struckStyles: ReadonlySet<number>,
	struckStrings: ReadonlySet<number>,
): Omit<Unseen, "hidden"> {
	const rows = new Set<number>();
	const columns: { from: number; to: number }[] = [];
	const struck = new Set<string>();
	const runs = new Runs();
	let [row, column] = [-1, -1];
	let [isShared, inValue, value] = [false, false, ""];
	read(
		xml,
		(name, attributes) => {
			if (name === "col" && (isTrue(attributes.hidden) || Number(attributes.width ?? 1) === 0)) {
				columns.push({ from: Number(attributes.min) - 1, to: Number(attributes.max) - 1 });
			}
			if (name === "row") {
				row = attributes.r === undefined ? row + 1 : Number(attributes.r) - 1;
				column = -1;
				if (isTrue(attributes.hidden) || Number(attributes.ht ?? 1) === 0) rows.add(row);
			}
			if (name === "c") {
				column = attributes.r === undefined ? column + 1 : columnOf(attributes.r);
				if (struckStyles.has(Number(attributes.s ?? 0))) struck.add(`${row},${column}`);
				[isShared, value] = [attributes.t === "s", ""];
				runs.start();
			}
			if (name === "v") inValue = true;
			runs.open(name, attributes);
		},
		(name) => {
			runs.close(name);
			if (name === "v") inValue = false;
			const isStruck = (isShared && struckStrings.has(Number(value))) || runs.areStruck;
			if (name === "c" && isStruck) struck.add(`${row},${column}`);
		},
		(text) => {
			if (inValue) value += text;
			runs.text(text);
		},
	);
	return { rows, columns, struck };
}

/** The column of a cell's address, from 0: "C4" is 2. */
function columnOf(address: string): number {
	let column = 0;
	for (const letter of /^[A-Z]+/i.exec(address)?.[0].toUpperCase() ?? "") {
		column = column * 26 + letter.charCodeAt(0) - 64;
	}
	return column - 1;
}

type Attributes = Readonly<Record<string, string>>;

function isTrue(value: string | undefined): boolean {
	return value === "1" || value === "true";
}

/** A property of letters holds where it is named, unless it says that it does not. */
function isOn({ val }: Attributes): boolean {
	return val === undefined || isTrue(val);
}

/** Reads XML from its start to its end; names come without their prefixes. */
function read(
	xml: string,
	open: (name: string, attributes: Attributes, decode: (text: string) => string) => void,
	close: (name: string) => void = () => undefined,
	text: (text: string) => void = () => undefined,
): void {
	// A workbook without shared texts or styles has no such part.
	if (xml === "") return;
	const bare = (name: string): string => name.slice(name.indexOf(":") + 1);
	const parser = new Parser();
	parser.on("openTag", (name, attributes, decode) => open(bare(name), attributes(), decode));
	parser.on("closeTag", (name) => close(bare(name)));
	parser.on("text", text);
	parser.on("error", (error) => {
		throw error;
	});
	parser.parse(xml);
}
