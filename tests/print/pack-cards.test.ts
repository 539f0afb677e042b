/** Cards on pages: all of them once, no page too full, few pages, and none moved by one that is added. */

import fc from "fast-check";
import { expect, it } from "vitest";
import { packCards } from "../../scripts/print/pack-cards.ts";

const ROOM = 1000;
const cards = fc
	.array(fc.integer({ min: 100, max: ROOM }), { minLength: 1, maxLength: 40 })
	.map((heights) => heights.map((height, i) => ({ id: `c${i}`, height })));

const ids = (pages: readonly (readonly number[])[], of: readonly { readonly id: string }[]) =>
	pages.map((page) => page.map((position) => of[position]?.id ?? ""));

it("puts every card on one page, and no more on a page than it holds", () => {
	fc.assert(
		fc.property(cards, (all) => {
			const pages = packCards(all, ROOM);
			expect(pages.flat().toSorted((a, b) => a - b)).toEqual(all.map((_, i) => i));
			for (const page of pages)
				expect(page.reduce((sum, i) => sum + (all[i]?.height ?? 0), 0)).toBeLessThanOrEqual(ROOM);
		}),
	);
});

/**
 * First-fit and best-fit decreasing need at most 11/9 of the fewest pages and two thirds of one (Dósa 2007,
 * "The tight bound of first fit decreasing bin-packing algorithm is FFD(I) ≤ 11/9 OPT(I) + 6/9", from memory);
 * the sum of the heights says how few there can be.
 */
it("needs few pages: a card of half a page shares it", () => {
	const halves = Array.from({ length: 52 }, (_, i) => ({ id: `c${i}`, height: i % 2 === 0 ? 480 : 510 }));
	expect(packCards(halves, ROOM).length).toBe(26);
	fc.assert(
		fc.property(cards, (all) => {
			const pages = packCards(all, ROOM);
			const fullest = pages.map((page) => page.reduce((sum, i) => sum + (all[i]?.height ?? 0), 0));
			// Two pages that fit on one would have been one.
			const two = fullest.toSorted((a, b) => a - b).slice(0, 2);
			if (two.length === 2) expect((two[0] ?? 0) + (two[1] ?? 0)).toBeGreaterThan(ROOM);
		}),
	);
});

it("moves no card for one that is added, or taken out", () => {
	fc.assert(
		fc.property(cards, fc.integer({ min: 100, max: ROOM }), fc.nat(), (all, height, at) => {
			const before = ids(packCards(all, ROOM), all);
			const place = at % (all.length + 1);
			const more = all.toSpliced(place, 0, { id: "new", height });
			const after = ids(packCards(more, ROOM, before), more);
			expect(after.slice(0, before.length).map((page) => page.filter((id) => id !== "new"))).toEqual(before);
			expect(after.length).toBeLessThanOrEqual(before.length + 1);
			const fewer = all.filter((_, i) => i !== at % all.length);
			const rest = ids(packCards(fewer, ROOM, before), fewer);
			const gone = all[at % all.length]?.id;
			expect(rest).toEqual(
				before.map((page) => page.filter((id) => id !== gone)).filter((page) => page.length > 0),
			);
		}),
	);
});
