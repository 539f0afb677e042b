/**
 * Clubs unlike the demo print their binder and every sheet, with nothing that cannot be read. All twenty:
 * `npm run trust`.
 */

import { describe, expect, it } from "vitest";
import { openPrinter, threads } from "./open-printer.ts";
import { printStrangeClub } from "./strange-club.ts";

const browser = await openPrinter();

describe("a club unlike any other", () => {
	// Twelve levels and long names; stations on each other; two directions of writing.
	it.each([5, 12])("prints its binder and every sheet: seed %i", { timeout: 300_000 }, async (seed) => {
		const { lost, errors } = await printStrangeClub(seed, { browser, threads });
		expect(lost).toEqual([]);
		expect(errors).toEqual([]);
	});
});
