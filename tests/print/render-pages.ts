/** Renders pages of a PDF to pixels, with a library that did not write it. */

import { createCanvas } from "@napi-rs/canvas";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

/** A page's pixels, grey, one byte each. */
export interface Picture {
	readonly width: number;
	readonly height: number;
	readonly grey: Uint8Array;
}

/** Renders single pages on demand; each page once. */
export interface Pictures {
	page(position: number): Promise<Picture>;
	close(): Promise<void>;
}

/** @param scale pixels in a point */
export async function openPictures(bytes: Uint8Array, scale: number): Promise<Pictures> {
	const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0, disableFontFace: true });
	const document = await task.promise;
	const done = new Map<number, Picture>();
	return {
		async page(position) {
			const known = done.get(position);
			if (known !== undefined) return known;
			const page = await document.getPage(position + 1);
			const viewport = page.getViewport({ scale });
			const [width, height] = [Math.round(viewport.width), Math.round(viewport.height)];
			const canvas = createCanvas(width, height);
			const context = canvas.getContext("2d");
			// The library draws on what a browser calls a canvas; this one behaves like it.
			await page.render({
				canvas: canvas as unknown as HTMLCanvasElement,
				canvasContext: context as unknown as CanvasRenderingContext2D,
				viewport,
			}).promise;
			const { data } = context.getImageData(0, 0, width, height);
			const grey = new Uint8Array(width * height);
			for (let i = 0; i < grey.length; i++) {
				grey[i] = ((data[4 * i] ?? 0) + (data[4 * i + 1] ?? 0) + (data[4 * i + 2] ?? 0)) / 3;
			}
			page.cleanup();
			const picture = { width, height, grey };
			done.set(position, picture);
			return picture;
		},
		close: () => task.destroy(),
	};
}

/**
 * The columns of pixels in which two pictures differ, and how many pixels do.
 *
 * Fonts are cut to what a file uses, and their outlines rounded anew: a pixel may have the grey of any
 * that touches it in the other picture, and a little more.
 */
export function differences(
	a: Picture,
	b: Picture,
): { readonly columns: ReadonlySet<number>; readonly pixels: number } {
	if (a.width !== b.width || a.height !== b.height) return { columns: new Set([-1]), pixels: Infinity };
	const columns = new Set<number>();
	let pixels = 0;
	for (let i = 0; i < a.grey.length; i++) {
		if (a.grey[i] === b.grey[i] || (isNear(a, b, i) && isNear(b, a, i))) continue;
		columns.add(i % a.width);
		pixels++;
	}
	return { columns, pixels };
}

const ROUNDING = 48;

function isNear(a: Picture, b: Picture, at: number): boolean {
	const value = a.grey[at] ?? 0;
	let least = 255;
	let most = 0;
	for (const row of [-b.width, 0, b.width]) {
		for (const column of [-1, 0, 1]) {
			const other = b.grey[at + row + column] ?? 255;
			least = Math.min(least, other);
			most = Math.max(most, other);
		}
	}
	return value >= least - ROUNDING && value <= most + ROUNDING;
}
