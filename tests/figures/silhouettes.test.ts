/** Each shape is told from every other at 48 pixels, by its black and white alone. */

import { describe, expect, test } from "vitest";
import { DEMO_SHAPES, demoShape } from "./demo-shapes.ts";
import { apart, type Mask, SIZE, silhouetteOf } from "./silhouettes.ts";

const masks = new Map(DEMO_SHAPES.map((shape): [string, Mask] => [shape.id, silhouetteOf(shape)]));
const maskOf = (id: string): Mask => masks.get(id) ?? silhouetteOf(demoShape(id));

/** Of the pixels of both: what has to be more than a pixel off the other, for any two, and for what coaches mix up. */
const LEAST = 0.04;
const CLEAR = [
	["hollow", "arch", 0.2],
	["front-plank", "back-plank", 0.07],
	["straight", "handstand", 0.05],
	["straight", "straight-hang", 0.05],
	["handstand", "straight-hang", 0.07],
	["handstand", "headstand", 0.07],
	["lunge", "scale", 0.2],
	["tuck", "tuck-sit", 0.15],
	["straddle", "straddle-sit", 0.15],
] as const;

describe("at 48 pixels", () => {
	test("a silhouette is the same as itself and as itself mirrored, and nothing like a square", () => {
		const hollow = maskOf("hollow");
		expect(apart(hollow, hollow)).toBe(0);
		expect(
			apart(
				hollow,
				hollow.map((_, i) => hollow[i - (i % SIZE) + SIZE - 1 - (i % SIZE)] === true),
			),
		).toBe(0);
		const square = hollow.map((_, i) => i % SIZE > 8 && i % SIZE < 40 && i > 8 * SIZE && i < 40 * SIZE);
		expect(apart(hollow, square)).toBeGreaterThan(0.5);
	});

	test.each(CLEAR)("%s and %s are told apart", (a, b, least) => {
		expect(apart(maskOf(a), maskOf(b))).toBeGreaterThan(least);
	});

	test("so are any two shapes", () => {
		const alike: string[] = [];
		const ids = [...masks.keys()];
		for (const [i, a] of ids.entries()) {
			for (const b of ids.slice(i + 1)) {
				if (apart(maskOf(a), maskOf(b)) <= LEAST) alike.push(`${a} ${b}`);
			}
		}
		expect(alike).toEqual([]);
	});

	test("no part that a shape is named by is lost where the lighter tone is", () => {
		for (const id of ["lunge", "scale", "passe"]) {
			const whole = maskOf(id).filter(Boolean).length;
			const near = silhouetteOf(demoShape(id), false).filter(Boolean).length;
			expect(near / whole, id).toBeGreaterThan(0.6);
		}
	});
});
