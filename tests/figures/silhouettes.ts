/**
 * Shapes as a reader without any words meets them: black on white, 48 pixels, without the floor.
 *
 * How far two of them are apart is the share of the pixels of both that are more than a pixel off the other,
 * at the place where they lie on each other best, and the way round that suits them best. The pixel between
 * keeps thin bodies from being told apart by a hair's breadth.
 */

import { Resvg } from "@resvg/resvg-js";
import { drawFigure } from "../../scripts/figures/figure.ts";
import type { Posture } from "../../scripts/figures/pose.ts";

export const SIZE = 48;

/** True where there is body. */
export type Mask = readonly boolean[];

/** @param tones whether the far side counts; a printer that is low on toner may lose it */
export function silhouetteOf(posture: Posture, tones = true): Mask {
	const svg = drawFigure(posture, { title: "x", description: "x", size: SIZE })
		.replaceAll("currentColor", "#000")
		.replaceAll(/var\(--figure-far,[^)]*\)/g, tones ? "#000" : "none")
		.replaceAll(/var\(--figure-paper,[^)]*\)/g, "#fff")
		.replaceAll(/<(?:path|circle) class="figure-floor"[^>]*\/>/g, "");
	const { pixels } = new Resvg(svg, { background: "#fff" }).render();
	return Array.from({ length: SIZE * SIZE }, (_, i) => (pixels[4 * i] ?? 255) < 170);
}

const mirrored = (mask: Mask): Mask =>
	mask.map((_, i) => mask[i - (i % SIZE) + SIZE - 1 - (i % SIZE)] ?? false);

/** With a pixel more on every side. */
function grown(mask: Mask): Mask {
	return mask.map((_, i) => {
		const x = i % SIZE;
		for (let dy = -SIZE; dy <= SIZE; dy += SIZE) {
			for (let dx = -1; dx <= 1; dx++) {
				if (x + dx >= 0 && x + dx < SIZE && mask[i + dx + dy] === true) return true;
			}
		}
		return false;
	});
}

/** Pixels of a that b, moved, does not have. */
function only(a: Mask, b: Mask, right: number, down: number): number {
	let count = 0;
	for (let y = 0; y < SIZE; y++) {
		for (let x = 0; x < SIZE; x++) {
			if (a[y * SIZE + x] !== true) continue;
			const [u, v] = [x - right, y - down];
			if (u < 0 || v < 0 || u >= SIZE || v >= SIZE || b[v * SIZE + u] !== true) count++;
		}
	}
	return count;
}

/** From 0, the same, to 1, nothing in common. */
export function apart(a: Mask, b: Mask): number {
	const middle = (mask: Mask): readonly [number, number] => {
		const on = mask.flatMap((is, i) => (is ? [i] : []));
		const mean = (of: (i: number) => number) => on.reduce((sum, i) => sum + of(i), 0) / on.length;
		return [mean((i) => i % SIZE), mean((i) => Math.floor(i / SIZE))];
	};
	const all = [...a, ...b].filter(Boolean).length;
	const wideA = grown(a);
	let least = 1;
	for (const other of [b, mirrored(b)]) {
		const wide = grown(other);
		const [[ax, ay], [bx, by]] = [middle(a), middle(other)];
		for (let right = -2; right <= 2; right++) {
			for (let down = -2; down <= 2; down++) {
				const [x, y] = [Math.round(ax - bx) + right, Math.round(ay - by) + down];
				const off = only(a, wide, x, y) + only(other, wideA, -x, -y);
				least = Math.min(least, off / all);
			}
		}
	}
	return least;
}
