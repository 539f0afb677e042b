/**
 * What is proved to be the best is the best: in small clubs every plan is tried, and judged by the
 * measures alone. The full number runs with `HANDBOOK_MANY=1`.
 */

import { afterAll, describe, expect, it } from "vitest";
import { Solver } from "../../scripts/solve/solver.ts";
import { bestOfAll, mendSwaps, smallClub } from "./small-club.ts";

const CLUBS = process.env.HANDBOOK_MANY === undefined ? 20 : 1000;
/** In some clubs a coming week builds on what was missed, as in these. */
const SEEDS = new Set([...Array.from({ length: CLUBS }, (_, i) => i + 1), 30, 84, 87]);

const solver = new Solver();
afterAll(() => solver.end());

describe("a small club", () => {
	it(`is mended as well as by trying every plan, ${CLUBS} times`, { timeout: 3_600_000 }, async () => {
		let mended = 0;
		let missed = 0;
		for (const seed of SEEDS) {
			const club = smallClub(seed);
			const best = bestOfAll(club);
			// Every second one part by part, as a term with many faults is.
			const from = seed % 2 === 0 ? 0 : 12;
			const found = await mendSwaps(club, (program, wish) => solver.solve(program, wish), from);
			const weight = Math.round(found.after.reduce((sum, one) => sum + one.weight, 0));
			const changes = Math.floor(found.price - weight);
			expect({ seed, weight, changes, proof: found.proof }).toEqual({
				seed,
				weight: best.weight,
				changes: best.changes,
				proof: "all",
			});
			if (changes > 0) mended++;
			if (found.before.some(({ code }) => code === "H350")) missed++;
		}
		// Clubs in which there is nothing to mend would prove nothing.
		expect(mended).toBeGreaterThan(CLUBS / 3);
		expect(missed).toBeGreaterThan(0);
	});
});
