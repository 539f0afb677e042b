/**
 * Clubs unlike the demo print their binder and every sheet, with nothing that cannot be read. All twenty:
 * `npm run trust`.
 */

import { describe, expect, it } from "vitest";
import { printStrangeClub } from "./strange-club.ts";

describe("a club unlike any other", () => {
	// Twelve levels and long names; stations on each other; two directions of writing.
	it.each([5, 12])("prints its binder and every sheet: seed %i", { timeout: 300_000 }, async (seed) => {
		const { lost, errors } = await printStrangeClub(seed);
		expect(lost).toEqual([]);
		expect(errors).toEqual([]);
	});
});
