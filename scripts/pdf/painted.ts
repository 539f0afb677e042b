/**
 * Finds how far the marks on each page of a PDF reach: paths and pictures, not letters.
 *
 *   1. the drawing commands of a page are unpacked and read one by one, as bytes: they are most of a file
 *   2. matrices, saved and restored states, and forms within forms are followed
 *   3. a path counts where it is filled or stroked; one that only clips does not
 *   4. the commands are given back without the paths, for whoever looks for letters
 *
 * What a clip hides counts as if it were seen, and strokes as if they had no width. A general reader
 * answers this as well, and takes ten times as long, since it prepares all that drawing would need; the
 * tests hold its answers against these. Operators: ISO 32000-1, Annex A.
 */

import { PdfFile, unpackedStream } from "./pdf-file.ts";
import { entriesOf, itemsOf, referred } from "./pdf-text.ts";

/** Points, from the page's own origin at the bottom left. */
export interface Extremes {
	readonly left: number;
	readonly bottom: number;
	readonly right: number;
	readonly top: number;
}

type Matrix = readonly [number, number, number, number, number, number];

const UNCHANGED: Matrix = [1, 0, 0, 1, 0, 0];

/** Forms within forms are followed so far. */
const DEEPEST = 12;

/** A file's pages as they are painted. */
export interface Painted {
	/** For each page, nothing where it has no marks. */
	readonly extremes: readonly (Extremes | undefined)[];
	/** The drawing commands of pages and forms without their paths, by the numbers of their streams. */
	readonly letters: ReadonlyMap<number, Uint8Array>;
}

/** The extremes of each page, nothing where it has no marks. Throws where the bytes are not a PDF. */
export function paintedExtremes(pdf: Uint8Array): Painted["extremes"] {
	return followPages(new PdfFile(pdf)).extremes;
}

/** Follows the drawing commands of all pages. */
export function followPages(file: PdfFile): Painted {
	const letters = new Map<number, Uint8Array>();
	const extremes = file.pages().pages.map((page) => {
		const reach = new Reach();
		const written = entriesOf(file.object(page).text).get("Contents");
		const contents = file.value(written);
		const parts = contents?.startsWith("[") === true ? itemsOf(contents) : [written];
		const drawing = { file, parts, resources: file.inherited(page, "Resources"), letters };
		follow(drawing, UNCHANGED, reach, 0);
		return reach.extremes;
	});
	return { extremes, letters };
}

/** Drawing commands, and where they find what they name. */
interface Drawing {
	readonly file: PdfFile;
	/** References to streams that belong together. */
	readonly parts: readonly (string | undefined)[];
	readonly resources: string | undefined;
	readonly letters: Map<number, Uint8Array>;
}

/** How far some points reach. */
class Reach {
	#left = Infinity;
	#bottom = Infinity;
	#right = -Infinity;
	#top = -Infinity;

	/** A point of the page, given as the matrix has it. */
	add(m: Matrix, x: number, y: number): void {
		this.#extend(m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]);
	}

	/** Whether a point would not reach further. */
	holds(m: Matrix, x: number, y: number): boolean {
		const [px, py] = [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];
		return px >= this.#left && px <= this.#right && py >= this.#bottom && py <= this.#top;
	}

	addAll({ extremes }: Reach): void {
		if (extremes === undefined) return;
		this.#extend(extremes.left, extremes.bottom);
		this.#extend(extremes.right, extremes.top);
	}

	#extend(x: number, y: number): void {
		if (x < this.#left) this.#left = x;
		if (x > this.#right) this.#right = x;
		if (y < this.#bottom) this.#bottom = y;
		if (y > this.#top) this.#top = y;
	}

	get extremes(): Extremes | undefined {
		if (this.#left > this.#right) return undefined;
		return { left: this.#left, bottom: this.#bottom, right: this.#right, top: this.#top };
	}
}

/** An operator as a number: its letters as bytes, one after the other. */
function code(operator: string): number {
	return [...operator].reduce((sum, letter) => sum * 256 + letter.charCodeAt(0), 0);
}

const [MOVE, LINE, CURVE, CLOSE, RECTANGLE] = [code("m"), code("l"), code("c"), code("h"), code("re")];
const [CURVE_V, CURVE_Y, NO_PAINT, PAINT, PICTURE] = [
	code("v"),
	code("y"),
	code("n"),
	code("Do"),
	code("BI"),
];
const [SAVE, RESTORE, MATRIX] = [code("q"), code("Q"), code("cm")];
/** They fill or stroke the path. */
const MARKS = new Set(["S", "s", "f", "F", "f*", "B", "B*", "b", "b*"].map(code));

/** They say how paths look, or how they clip. */
const LOOKS = new Set("w J j M d i ri W W* g G rg RG k K cs CS sc SC scn SCN".split(" ").map(code));

/** What ends a number, a name or an operator: space, and the edges of other values. */
const IS_END = new Uint8Array(256);
for (const letter of "\0\t\n\f\r ()<>[]/%") IS_END[letter.charCodeAt(0)] = 1;

const [OPEN, SHUT, BACKSLASH, LESS, MORE, SLASH] = [40, 41, 92, 60, 62, 47];
const [ZERO, NINE, POINT, MINUS, PLUS] = [48, 57, 46, 45, 43];

/** Operands that any of the operators followed here has. */
const MOST_OPERANDS = 6;

/** Follows drawing commands. Long by the number of operators: each is a line or two over the same few variables. */
function follow(drawing: Drawing, start: Matrix, reach: Reach, depth: number): void {
	const { file, letters } = drawing;
	let matrix = start;
	const stack: Matrix[] = [];
	const operands = new Float64Array(MOST_OPERANDS);
	/** Of the path that is being drawn. */
	let path = new Reach();
	let x = 0;
	let y = 0;
	const to = (toX: number, toY: number) => {
		x = toX;
		y = toY;
		path.add(matrix, x, y);
	};
	const curve = (x1: number, y1: number, x2: number, y2: number, toX: number, toY: number) => {
		// A curve stays within its control points: only where they reach further is it looked at closely.
		if (!(path.holds(matrix, x1, y1) && path.holds(matrix, x2, y2))) {
			const [fromX, fromY] = [x, y];
			for (const at of [...bends(fromX, x1, x2, toX), ...bends(fromY, y1, y2, toY)]) {
				path.add(matrix, along(at, fromX, x1, x2, toX), along(at, fromY, y1, y2, toY));
			}
		}
		to(toX, toY);
	};
	/** Does what an operator does; true where that has nothing to do with letters. */
	const isDrawing = (operator: number, name: string): boolean => {
		const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = operands;
		switch (operator) {
			case CURVE:
				curve(a, b, c, d, e, f);
				return true;
			case MOVE:
			case LINE:
				to(a, b);
				return true;
			case CLOSE:
				return true;
			case CURVE_V:
				curve(x, y, a, b, c, d);
				return true;
			case CURVE_Y:
				curve(a, b, c, d, c, d);
				return true;
			case RECTANGLE:
				to(a + c, b);
				to(a + c, b + d);
				to(a, b + d);
				to(a, b);
				return true;
			case SAVE:
				stack.push(matrix);
				return false;
			case RESTORE:
				matrix = stack.pop() ?? start;
				return false;
			case MATRIX:
				matrix = product(matrix, [a, b, c, d, e, f]);
				return false;
			case NO_PAINT:
				path = new Reach();
				return true;
			case PAINT:
				paintObject(name, drawing, matrix, reach, depth);
				return false;
			case PICTURE:
				throw new Error("A picture stands among the drawing commands, which the browser does not write.");
			default:
				if (!MARKS.has(operator)) return LOOKS.has(operator);
				reach.addAll(path);
				path = new Reach();
				return true;
		}
	};
	for (const part of drawing.parts) {
		const number = referred(part);
		const found = number === undefined ? undefined : file.object(number);
		if (number === undefined || found?.stream === undefined) continue;
		const bytes = unpackedStream(entriesOf(found.text), found.stream);
		const rest = scan(bytes, operands, isDrawing);
		if (!letters.has(number)) letters.set(number, rest);
	}
}

/**
 * Reads commands one by one, and gives them back without those that the call says only draw.
 *
 * @param operands gets the first numbers before each operator
 */
function scan(
	bytes: Uint8Array,
	operands: Float64Array,
	isDrawing: (operator: number, name: string) => boolean,
): Uint8Array {
	const rest = new Uint8Array(bytes.length + 1);
	let written = 0;
	/** Where the commands begin that are to be kept and are not written yet, and the present command. */
	let from = 0;
	let command = 0;
	let count = 0;
	let nameStart = 0;
	let nameEnd = 0;
	const { length } = bytes;
	const keep = (end: number) => {
		rest.set(bytes.subarray(from, end), written);
		written += end - from;
	};
	let at = 0;
	while (at < length) {
		const byte = bytes[at] ?? 0;
		if ((byte >= ZERO && byte <= NINE) || byte === MINUS || byte === POINT || byte === PLUS) {
			// Digits as a whole number, divided once: rounded as the language rounds what is written so.
			let whole = 0;
			let places = -1;
			const isNegative = byte === MINUS;
			if (isNegative || byte === PLUS) at++;
			for (; at < length; at++) {
				const digit = bytes[at] ?? 0;
				if (digit >= ZERO && digit <= NINE) {
					whole = whole * 10 + digit - ZERO;
					if (places >= 0) places++;
				} else if (digit === POINT && places < 0) places = 0;
				else break;
			}
			const value = places > 0 ? whole / 10 ** places : whole;
			if (count < MOST_OPERANDS) operands[count++] = isNegative ? -value : value;
		} else if (byte === SLASH) {
			nameStart = ++at;
			while (at < length && IS_END[bytes[at] ?? 0] === 0) at++;
			nameEnd = at;
		} else if (byte === OPEN) {
			let open = 0;
			do {
				const letter = bytes[at];
				if (letter === BACKSLASH) at++;
				else if (letter === OPEN) open++;
				else if (letter === SHUT) open--;
				at++;
			} while (open > 0 && at < length);
		} else if (byte === LESS && bytes[at + 1] !== LESS) {
			while (at < length && bytes[at] !== MORE) at++;
			at++;
		} else if (IS_END[byte] === 1) at++;
		else {
			let operator = 0;
			for (; at < length && IS_END[bytes[at] ?? 0] === 0; at++) operator = operator * 256 + (bytes[at] ?? 0);
			operands.fill(0, count);
			const name =
				operator === PAINT ? Buffer.from(bytes.subarray(nameStart, nameEnd)).toString("latin1") : "";
			if (isDrawing(operator, name)) {
				keep(command);
				from = at;
			}
			command = at;
			count = 0;
		}
	}
	keep(length);
	return rest.subarray(0, written);
}

/** A picture fills the unit square; a form is commands of its own. */
function paintObject(
	name: string,
	{ file, resources, letters }: Drawing,
	matrix: Matrix,
	reach: Reach,
	depth: number,
): void {
	const named = entriesOf(file.value(resources) ?? "<<>>").get("XObject");
	const value = entriesOf(file.value(named) ?? "<<>>").get(name);
	const number = referred(value);
	const found = number === undefined ? undefined : file.object(number);
	if (found?.stream === undefined) return;
	const form = entriesOf(found.text);
	if (form.get("Subtype") === "/Image") {
		for (const [x, y] of [
			[0, 0],
			[1, 0],
			[0, 1],
			[1, 1],
		] as const) {
			reach.add(matrix, x, y);
		}
		return;
	}
	if (depth >= DEEPEST) return;
	const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = itemsOf(file.value(form.get("Matrix")) ?? "[]").map(
		Number,
	);
	follow(
		{ file, parts: [value], resources: form.get("Resources") ?? resources, letters },
		product(matrix, [a, b, c, d, e, f]),
		reach,
		depth + 1,
	);
}

function product(m: Matrix, n: Matrix): Matrix {
	return [
		m[0] * n[0] + m[2] * n[1],
		m[1] * n[0] + m[3] * n[1],
		m[0] * n[2] + m[2] * n[3],
		m[1] * n[2] + m[3] * n[3],
		m[0] * n[4] + m[2] * n[5] + m[4],
		m[1] * n[4] + m[3] * n[5] + m[5],
	];
}

/** Where a cubic curve turns back along one axis, as shares of its way: the roots of its derivative. */
function bends(p0: number, p1: number, p2: number, p3: number): readonly number[] {
	const a = 3 * (p3 - 3 * p2 + 3 * p1 - p0);
	const b = 6 * (p2 - 2 * p1 + p0);
	const c = 3 * (p1 - p0);
	const roots = Math.abs(a) < 1e-12 ? [-c / b] : quadraticRoots(a, b, c);
	return roots.filter((at) => at > 0 && at < 1);
}

function quadraticRoots(a: number, b: number, c: number): readonly number[] {
	const root = Math.sqrt(b * b - 4 * a * c);
	return Number.isNaN(root) ? [] : [(-b + root) / (2 * a), (-b - root) / (2 * a)];
}

function along(at: number, p0: number, p1: number, p2: number, p3: number): number {
	const left = 1 - at;
	return left ** 3 * p0 + 3 * left ** 2 * at * p1 + 3 * left * at ** 2 * p2 + at ** 3 * p3;
}
