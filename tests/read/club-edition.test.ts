/**
 * Editions: a number that grows by one when the content changes and stays when it does not, with the day
 * on which the content was first issued.
 */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ClubEdition } from "../../scripts/model.ts";
import { dayIn, editionAfter } from "../../scripts/read/club-edition.ts";

const edition = (number: number, date: string, content: string): ClubEdition => ({ number, date, content });

describe("the edition of a content", () => {
	it("is the first where nothing was issued before", () => {
		expect(editionAfter([], "a", "2026-11-30")).toEqual(edition(1, "2026-11-30", "a"));
	});

	it("keeps number and day while the content is the same", () => {
		const last = edition(7, "2026-11-30", "a");
		expect(editionAfter([last], "a", "2027-02-01")).toEqual(last);
		expect(editionAfter([last, edition(3, "2026-10-01", "z")], "a", "2027-02-01")).toEqual(last);
	});

	it("is the next one for another content, also for one that was there long before", () => {
		expect(editionAfter([edition(7, "2026-11-30", "a")], "b", "2026-12-01")).toEqual(
			edition(8, "2026-12-01", "b"),
		);
		const known = [edition(7, "2026-11-30", "a"), edition(5, "2026-10-01", "b")];
		expect(editionAfter(known, "b", "2026-12-01").number).toBe(8);
	});

	it("is the next one where two people issued the same number of different contents", () => {
		const known = [edition(7, "2026-11-30", "a"), edition(7, "2026-11-29", "b")];
		for (const content of ["a", "b", "c"]) expect(editionAfter(known, content, "2026-12-01").number).toBe(8);
	});

	it("has the earlier day where two people issued the same content", () => {
		const known = [edition(7, "2026-11-30", "a"), edition(7, "2026-11-29", "a")];
		expect(editionAfter(known, "a", "2026-12-01")).toEqual(edition(7, "2026-11-29", "a"));
	});

	it("orders any history of contents as it happened", () => {
		fc.assert(
			fc.property(fc.array(fc.constantFrom("a", "b", "c"), { minLength: 1 }), (contents) => {
				const issued: ClubEdition[] = [];
				for (const [day, content] of contents.entries()) {
					issued.push(
						editionAfter(issued.slice(-1), content, `2026-12-${String((day % 28) + 1).padStart(2, "0")}`),
					);
				}
				for (const [i, one] of issued.entries()) {
					const before = issued[i - 1];
					const step = before === undefined || before.content !== one.content ? 1 : 0;
					expect(one.number).toBe((before?.number ?? 0) + step);
					if (step === 0) expect(one.date).toBe(before?.date);
				}
			}),
		);
	});
});

describe("the day of an edition", () => {
	// Time zones of the IANA database: Kiritimati is 14 hours before UTC, Midway 11 hours behind.
	it.each([
		["2026-11-30T10:30:00Z", "Pacific/Kiritimati", "2026-12-01"],
		["2026-11-30T10:30:00Z", "Pacific/Midway", "2026-11-29"],
		["2026-11-30T23:59:59Z", "Europe/London", "2026-11-30"],
		["2026-06-30T23:00:00Z", "Europe/London", "2026-07-01"],
	])("at %s in %s is %s", (moment, timezone, day) => {
		expect(dayIn(timezone, new Date(moment))).toBe(day);
	});
});
