/** Faults that are planted in a term are found with no more changes than were planted. */

import { afterAll, describe, expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { asWritten } from "../../scripts/solve/apply.ts";
import { Choices } from "../../scripts/solve/choices.ts";
import { inComponents } from "../../scripts/solve/components.ts";
import { mend } from "../../scripts/solve/mend.ts";
import { Solver } from "../../scripts/solve/solver.ts";
import { damaged } from "../bench/solve.ts";
import { REPOSITORY } from "../open-fixture.ts";
import { SWAPS_ONLY } from "./small-club.ts";

const solver = new Solver();
afterAll(() => solver.end());
const now = () => performance.now();

describe("the demo's term", () => {
	it("with three wrong swaps is mended with three changes at most", { timeout: 240_000 }, async () => {
		const { handbook } = openHandbook(REPOSITORY);
		if (handbook === undefined) throw new Error("the demo has errors");
		const wish = {
			solve: inComponents((program, options) => solver.solve(program, options), now),
			seconds: 120,
			now,
		};
		// What is broken in the demo as it stands is let alone.
		const before = await mend(new Choices(handbook.curriculum), { ...wish, isAsked: () => true, seconds: 0 });
		const known = new Set(before.before.map(({ key }) => key));
		const choices = new Choices(damaged(handbook.curriculum, 3, 11), SWAPS_ONLY);
		const mended = await mend(choices, { ...wish, isAsked: ({ key }) => !known.has(key) });
		expect(mended.before.length).toBeGreaterThan(0);
		expect(mended.after).toEqual([]);
		expect(mended.proof).not.toBe("none");
		expect(Math.floor(mended.price)).toBeLessThanOrEqual(3);
		const unchanged = asWritten(choices).columns.difference(mended.chosen.columns);
		expect(unchanged.size).toBeLessThanOrEqual(3);
	});
});
