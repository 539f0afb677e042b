/**
 * Finds how far the marks on each page of a PDF reach: paths and pictures, not letters.
 *
 *   1. the drawing commands of a page are unpacked and read one by one
 *   2. matrices, saved and restored states, and forms within forms are followed
 *   3. a path counts where it is filled or stroked; one that only clips does not
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

/** The extremes of each page, nothing where it has no marks. Throws where the bytes are not a PDF. */
export async function paintedExtremes(pdf: Uint8Array): Promise<readonly (Extremes | undefined)[]> {
	const file = new PdfFile(pdf);
	return file.pages().pages.map((page) => {
		const reach = new Reach();
		const written = entriesOf(file.object(page).text).get("Contents");
		const contents = file.value(written);
		const parts = contents?.startsWith("[") === true ? itemsOf(contents) : [written];
		const commands = parts.map((part) => commandsOf(file, part)).join("\n");
		follow({ file, commands, resources: file.inherited(page, "Resources") }, UNCHANGED, reach, 0);
		return reach.extremes;
	});
}

/** Drawing commands, and where they find what they name. */
interface Drawing {
	readonly file: PdfFile;
	readonly commands: string;
	readonly resources: string | undefined;
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

function commandsOf(file: PdfFile, stream: string | undefined): string {
	const number = referred(stream);
	const found = number === undefined ? undefined : file.object(number);
	if (found?.stream === undefined) return "";
	return unpackedStream(entriesOf(found.text), found.stream).toString("latin1");
}

/** A string, an array's or dictionary's edge, a name, or a number or operator. */
const TOKEN = /\((?:\\[\s\S]|[^\\()])*\)|<<|>>|<[^>]*>|[[\]]|\/[^\s/[\]<>()]*|[^\s/[\]<>()]+/g;

/** Follows drawing commands. */
function follow(drawing: Drawing, start: Matrix, reach: Reach, depth: number): void {
	let matrix = start;
	const stack: Matrix[] = [];
	let numbers: number[] = [];
	let name = "";
	/** Of the path that is being drawn. */
	let path = new Reach();
	let [x, y] = [0, 0];
	const to = (toX: number, toY: number) => {
		[x, y] = [toX, toY];
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
	for (const [token] of drawing.commands.matchAll(TOKEN)) {
		const first = token[0] ?? "";
		if ((first >= "0" && first <= "9") || first === "-" || first === "." || first === "+") {
			numbers.push(Number(token));
			continue;
		}
		if (first === "/") {
			name = token.slice(1);
			continue;
		}
		if (first === "(" || first === "<" || first === ">" || first === "[" || first === "]") continue;
		const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers;
		numbers = [];
		switch (token) {
			case "q":
				stack.push(matrix);
				break;
			case "Q":
				matrix = stack.pop() ?? start;
				break;
			case "cm":
				matrix = product(matrix, [a, b, c, d, e, f]);
				break;
			case "m":
			case "l":
				to(a, b);
				break;
			case "c":
				curve(a, b, c, d, e, f);
				break;
			case "v":
				curve(x, y, a, b, c, d);
				break;
			case "y":
				curve(a, b, c, d, c, d);
				break;
			case "re":
				to(a + c, b);
				to(a + c, b + d);
				to(a, b + d);
				to(a, b);
				break;
			case "S":
			case "s":
			case "f":
			case "F":
			case "f*":
			case "B":
			case "B*":
			case "b":
			case "b*":
				reach.addAll(path);
				path = new Reach();
				break;
			case "n":
				path = new Reach();
				break;
			case "Do":
				paintObject(name, drawing, matrix, reach, depth);
				break;
			case "BI":
				throw new Error("A picture stands among the drawing commands, which the browser does not write.");
			default:
		}
	}
}

/** A picture fills the unit square; a form is commands of its own. */
function paintObject(
	name: string,
	{ file, resources }: Drawing,
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
	const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = itemsOf(
		file.value(form.get("Matrix")) ?? "[]",
	).map(Number);
	follow(
		{ file, commands: commandsOf(file, value), resources: form.get("Resources") ?? resources },
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
