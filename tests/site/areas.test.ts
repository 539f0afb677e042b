/** An area of the hall that is no apparatus, on the pages that list where work is done. */

import { expect, test } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { demoHandbook } from "../demo.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";

/** Titles and crumbs of the pages about places, and which place is said to be an area. */
function places(club: string) {
	const { handbook } = openHandbook(club);
	if (handbook === undefined) throw new Error("The club is sound.");
	return sitePages(handbook).filter(({ address }) => address.startsWith("apparatus/"));
}

test("the demo's areas stand under areas, its apparatus in the federation's order", () => {
	const handbook = demoHandbook();
	const all = Array.from(handbook?.curriculum.apparatus ?? [], ([id, { kind }]) => ({ id, kind }));
	expect(all.filter(({ kind }) => kind === "area").map(({ id }) => id)).toEqual(["warm-up", "cool-down"]);
	// FIG, Code of Points, women's artistic gymnastics: vault, uneven bars, beam, floor (the Olympic order).
	expect(all.filter(({ kind }) => kind !== "area").map(({ id }) => id)).toEqual([
		"vault",
		"bars",
		"beam",
		"floor",
	]);
	expect(places(REPOSITORY).find(({ address }) => address === "apparatus/")?.title).toMatch(
		/^Areas and apparatus/,
	);
});

test("a club that names no area has apparatus alone", () => {
	expect(places(clubCopy()).find(({ address }) => address === "apparatus/")?.title).toMatch(/^Apparatus/);
});
