/**
 * With one coach fewer than planned: what a class sheet says is left out (`site/hall-pages.test.ts`: where).
 * Which stations close is counted again by a SQL engine in `compute/recount.test.ts`.
 */

import { join } from "node:path";
import { expect, it } from "vitest";
import { fewerCoaches } from "../../layouts/parts/hall.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { indexSite } from "../../scripts/views/site-index.ts";
import { classSheetView } from "../../scripts/views/week.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";

function sheetsOf(base: string) {
	const { handbook } = openHandbook(clubCopy(undefined, base));
	if (handbook === undefined) throw new Error("the club has errors");
	const site = indexSite(handbook);
	return {
		handbook,
		sheets: site.curriculum.weeks.flatMap((week) =>
			site.curriculum.term.classes.map((one) => classSheetView(site, week, one)),
		),
	};
}

const inWords = (html: unknown): string => String(html).replace(/<[^>]*>/g, "");

it("says what is left out of each class, and nothing where nothing is", () => {
	const { sheets } = sheetsOf(join(FIXTURES, "clubs/a-coach-is-missing"));
	expect(Object.fromEntries(sheets.map(({ classId, fewer }) => [classId, fewer]))).toEqual({
		// Of two stations with a hand each the later closes; two coaches are enough for the rest.
		three: [
			{
				part: undefined,
				coaches: 2,
				gymnasts: undefined,
				closed: [{ clock: "16:00", apparatus: "Floor", stations: [3] }],
			},
		],
		// One coach watches in the first block, and has two hands nowhere.
		two: [
			{
				part: undefined,
				coaches: 1,
				gymnasts: 5,
				closed: [
					{ clock: "16:00", apparatus: "Floor", stations: [1, 3] },
					{ clock: "16:10", apparatus: "Floor", stations: [] },
					{ clock: "16:20", apparatus: "Floor", stations: [0] },
				],
			},
		],
		four: [],
		unsaid: [],
		parts: [
			{ part: "red", coaches: 0, gymnasts: undefined, closed: [] },
			{
				part: "blue",
				coaches: 1,
				gymnasts: undefined,
				closed: [
					{ clock: "16:00", apparatus: "Floor", stations: [1, 3] },
					{ clock: "16:10", apparatus: "Floor", stations: [] },
					{ clock: "16:20", apparatus: "Floor", stations: [0] },
				],
			},
		],
	});
});

it("says it in the words of either language", () => {
	const { sheets } = sheetsOf(join(FIXTURES, "clubs/a-coach-is-missing"));
	const [three, two, four, , parts] = sheets;
	if (!three || !two || !four || !parts) throw new Error("five classes");
	const en = wordsFor("en");
	expect(inWords(fewerCoaches(en, two))).toBe(
		"If a coach is missing: the club&#39;s rules and qualified coaches decide; no station without the hands or eyes it asks for. 1 coach to at most 5 gymnasts, or ask the director. Leave out only 16:00 Floor, stations 2 and 4; 16:10 Floor, the whole block; 16:20 Floor, station 1.",
	);
	expect(inWords(fewerCoaches(en, parts))).toContain(
		"Red: Nobody is left: no class without another qualified coach. Blue: Leave out only 16:00 Floor",
	);
	expect(inWords(fewerCoaches(wordsFor("fr"), three))).toBe(
		"S&#39;il manque un entraîneur : les règles du club et les entraîneurs qualifiés décident ; aucun atelier sans la parade ou la surveillance qu&#39;il demande. Laissez de côté seulement 16:00 Floor, atelier 4.",
	);
	expect(fewerCoaches(en, four)).toBeUndefined();
});

it("names every block of the demo whose need in coaches.csv is more than one coach fewer can give", () => {
	const { handbook, sheets } = sheetsOf(REPOSITORY);
	const table = handbook.tables.get("coaches");
	if (table === undefined) throw new Error("no table");
	const at = (name: string) => table.columns.findIndex((column) => column.name === name);
	const short = table.rows.filter((row) => Number(row[at("needed")]) > Number(row[at("present")]) - 1);
	const named = sheets.flatMap(({ fewer }) => fewer.flatMap(({ closed }) => closed));
	expect(named).toHaveLength(short.length);
	expect(named.length).toBeGreaterThan(100);
});
