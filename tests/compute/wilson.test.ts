/**
 * Wilson's interval against published examples: R. G. Newcombe, "Two-sided confidence intervals for the
 * single proportion: comparison of seven methods", Statistics in Medicine 17 (1998) 857–872, table I, the
 * score method without continuity correction. The figures are from memory of that table, and agree with
 * the root of the score equation, which is solved here by halving.
 */

import { describe, expect, it } from "vitest";
import { wilson } from "../../scripts/compute/wilson.ts";

const PUBLISHED = [
	[81, 263, 0.2553, 0.3662],
	[15, 148, 0.0624, 0.1605],
	[0, 20, 0, 0.1611],
	[1, 29, 0.0061, 0.1718],
] as const;

/** Where |share − p| = z · √(p(1 − p)/n), between two bounds. */
function root(count: number, of: number, from: number, to: number): number {
	const off = (p: number) => Math.abs(count / of - p) - 1.959963984540054 * Math.sqrt((p * (1 - p)) / of);
	let [inside, outside] = [from, to];
	for (let i = 0; i < 80; i++) {
		const middle = (inside + outside) / 2;
		if (off(middle) <= 0) inside = middle;
		else outside = middle;
	}
	return inside;
}

describe("Wilson's interval", () => {
	it.each(PUBLISHED)("of %i in %i is the published one", (count, of, low, high) => {
		const found = wilson(count, of);
		expect(found.low).toBeCloseTo(low, 4);
		expect(found.high).toBeCloseTo(high, 4);
	});

	it("solves the score equation, for every count of up to 40", () => {
		for (let of = 1; of <= 40; of++) {
			for (let count = 0; count <= of; count++) {
				const { share, low, high } = wilson(count, of);
				expect(low).toBeCloseTo(root(count, of, share, 0), 9);
				expect(high).toBeCloseTo(root(count, of, share, 1), 9);
			}
		}
	});
});
