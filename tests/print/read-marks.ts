/** How far the marks on pages reach, as pdfjs-dist prepares them to be drawn: a second opinion for tests. */

import { getDocument, OPS } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Extremes } from "../../scripts/pdf/painted.ts";

type Matrix = readonly number[];

/** The extremes of each page in points, nothing where it has no marks. */
export async function readMarks(bytes: Uint8Array): Promise<readonly (Extremes | undefined)[]> {
	const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0, disableFontFace: true });
	const document = await task.promise;
	const pages: (Extremes | undefined)[] = [];
	for (let number = 1; number <= document.numPages; number++) {
		const { fnArray, argsArray } = await (await document.getPage(number)).getOperatorList();
		const xs: number[] = [];
		const ys: number[] = [];
		let matrix: Matrix = [1, 0, 0, 1, 0, 0];
		const stack: Matrix[] = [];
		const mark = (left: number, bottom: number, right: number, top: number) => {
			for (const [x, y] of [
				[left, bottom],
				[right, bottom],
				[left, top],
				[right, top],
			] as const) {
				const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = matrix;
				xs.push(a * x + c * y + e);
				ys.push(b * x + d * y + f);
			}
		};
		fnArray.forEach((operator, position) => {
			const args: unknown = argsArray[position];
			if (operator === OPS.save) stack.push(matrix);
			else if (operator === OPS.restore || operator === OPS.paintFormXObjectEnd) {
				matrix = stack.pop() ?? matrix;
			} else if (operator === OPS.transform && isNumbers(args)) matrix = product(matrix, args);
			else if (operator === OPS.paintFormXObjectBegin && Array.isArray(args)) {
				stack.push(matrix);
				const own: unknown = args[0];
				if (isNumbers(own)) matrix = product(matrix, own);
			} else if (operator === OPS.constructPath && Array.isArray(args)) {
				const [paint, , box]: readonly unknown[] = args;
				if (paint === OPS.endPath || !isNumbers(box)) return;
				const [left = 0, bottom = 0, right = 0, top = 0] = box;
				mark(left, bottom, right, top);
			} else if (operator === OPS.paintImageXObject) mark(0, 0, 1, 1);
		});
		pages.push(
			xs.length === 0
				? undefined
				: {
						left: xs.reduce((a, b) => Math.min(a, b)),
						bottom: ys.reduce((a, b) => Math.min(a, b)),
						right: xs.reduce((a, b) => Math.max(a, b)),
						top: ys.reduce((a, b) => Math.max(a, b)),
					},
		);
	}
	await task.destroy();
	return pages;
}

function isNumbers(value: unknown): value is readonly number[] {
	return (
		typeof value === "object" &&
		value !== null &&
		"length" in value &&
		Array.from(value as ArrayLike<unknown>).every((one) => typeof one === "number")
	);
}

function product(m: Matrix, n: Matrix): Matrix {
	const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = m;
	const [g = 1, h = 0, i = 0, j = 1, k = 0, l = 0] = n;
	return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}
