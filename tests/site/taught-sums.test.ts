/**
 * What coaches report and the published site: without the club's word the site is the same, byte for byte,
 * as if nobody had reported; with it, as for any other reports of the same sums.
 */

import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { raw } from "../../scripts/views/html.ts";
import { clubCopy } from "../open-fixture.ts";
import { wordsOnPage } from "../words/read-words.ts";
import { buildSite } from "./build-site.ts";

const WEEKS = [1, 2, 3, 4, 5, 6];
const NOTE = "Zephyrlike words of one coach";

interface Said {
	/** How many do the roll alone, in the last week. */
	readonly alone: number;
	readonly felt: "too-hard" | "right";
	readonly note: string;
	/** Minutes lost in each week. */
	readonly lost: readonly number[];
}

const SAID: Said = { alone: 12, felt: "too-hard", note: NOTE, lost: [4, 4, 4, 4, 4, 4] };
/** Every report is another one, and each sum is the same in fives: 30 minutes and 33 are 30. */
const OTHERWISE: Said = { alone: 14, felt: "right", note: "Other words", lost: [6, 5, 6, 5, 4, 1] };

function club(said: Said | undefined, publishes: boolean): string {
	const dir = clubCopy();
	const change = (file: string, from: string, to: string): void => {
		const text = readFileSync(join(dir, file), "utf8");
		expect(text).toContain(from);
		writeFileSync(join(dir, file), text.replace(from, to));
	};
	change("_data/term.yaml", "weeks: 1", "weeks: 6");
	change("_data/term.yaml", "gymnasts: 8", "gymnasts: 20");
	if (publishes) change("_data/club.yaml", "timezone", "taught-sums: true\ntimezone");
	const plan = readFileSync(join(dir, "content/weeks/week-1.md"), "utf8");
	for (const week of WEEKS) {
		writeFileSync(join(dir, `content/weeks/week-${week}.md`), plan.replace("week: 1", `week: ${week}`));
		if (said === undefined) continue;
		mkdirSync(join(dir, "_data/taught"), { recursive: true });
		writeFileSync(
			join(dir, `_data/taught/week-${week}.yaml`),
			`- class: mon
  from: zq7x4w0vj${week}
  note: "${said.note}"
  blocks:
    - {apparatus: floor, block: 1, drills: [rock], done: shortened, lost: ${said.lost[week - 1]}, cause: late, felt: ${said.felt}, note: "${said.note}"}
    - {apparatus: beam, block: 1, drills: [beam-stand], done: shortened, lost: 3, cause: ${week < 5 ? "set-up" : "late"}}
  skills:
    - {skill: roll, of: 20, alone: ${week === 6 ? said.alone : week}, helped: 1}
    - {skill: dive, of: 20, alone: 17, helped: 0}
`,
		);
	}
	return dir;
}

async function published(said: Said | undefined, publishes: boolean): Promise<ReadonlyMap<string, string>> {
	const { dir, files } = await buildSite(club(said, publishes));
	return new Map([...files].sort().map((file) => [file, readFileSync(join(dir, file), "latin1")]));
}

/** Files that differ, or are in one of them alone. */
function differing(one: ReadonlyMap<string, string>, other: ReadonlyMap<string, string>): readonly string[] {
	return [...new Set([...one.keys(), ...other.keys()])].filter((file) => one.get(file) !== other.get(file));
}

describe("the published site", () => {
	it("is the same, byte for byte, as if nobody had reported anything", async () => {
		const [reported, silent] = [await published(SAID, false), await published(undefined, false)];
		expect(reported.size).toBeGreaterThan(100);
		expect(differing(reported, silent)).toEqual([]);
		expect(
			[...reported.keys()].filter((file) => /^(?!schemas).*(taught|learned|minutes-lost)/.test(file)),
		).toEqual([]);
		expect(reported.get("about/index.html")).toContain("hold none of it");
		// The reports are there for who may see them.
		expect(openHandbook(club(SAID, false), { taught: true }).handbook?.curriculum.taught).toHaveLength(6);
	}, 60_000);

	it("has the club's sums where she says so, and is the same for all reports of the same sums", async () => {
		const [reported, otherwise] = [await published(SAID, true), await published(OTHERWISE, true)];
		expect(differing(reported, otherwise)).toEqual([]);
		const texts = [...reported.values()].join("\n");
		expect(texts).not.toContain("Zephyrlike");
		expect(texts).not.toContain("zq7x4w0vj");
		expect(
			[...reported.keys()].filter((file) => /^(?!schemas).*(taught|learned|minutes-lost)/.test(file)),
		).toEqual(["taught-sums/index.html"]);
		const page = reported.get("taught-sums/index.html") ?? "";
		const main = page.slice(page.indexOf("<main"), page.indexOf("</main>"));
		const tables = wordsOnPage(main.slice(main.indexOf('id="skills"'))).join(" ");
		// 12 or 14 of 20 do the roll. Of the dive 17 of 20 would tell of three; set-up is of four classes.
		expect(tables).toMatch(/Forward roll 10 20/);
		expect(tables).toMatch(/Late start 30/);
		expect(tables).not.toMatch(/Dive|Setting up/);
		for (const number of tables.match(/\b\d+\b/g) ?? []) expect(Number(number) % 5, tables).toBe(0);
		for (const from of ["about", "measures"])
			expect(reported.get(`${from}/index.html`)).toContain("taught-sums/");
		expect(reported.get("about/index.html")).not.toContain("hold none of it");
	}, 60_000);

	it("says nothing of a drill, which the director's own page does", () => {
		const dir = club({ ...SAID, note: "<b>torn</b> mat" }, true);
		const drill = (taught: boolean) => {
			const { handbook } = openHandbook(dir, { taught });
			if (handbook === undefined) throw new Error("no handbook");
			const page = sitePages(handbook).find(({ address }) => address === "drills/rock/");
			if (page === undefined) throw new Error("no drill");
			return documentOf(page, (_, code) => raw(code));
		};
		expect(drill(true)).toMatch(/too easy 0 times, right 0 times, too hard 6 times/);
		expect(drill(true)).toContain("&lt;b&gt;torn&lt;/b&gt; mat");
		expect(drill(false)).not.toMatch(/too hard|torn/);
	});

	it("is a new edition where a sum has changed, and none where it has not", () => {
		const editionOf = (said: Said | undefined, publishes = true) =>
			openHandbook(club(said, publishes)).handbook?.edition.content;
		expect(editionOf(SAID)).toBe(editionOf(OTHERWISE));
		expect(editionOf({ ...SAID, alone: 15 })).not.toBe(editionOf(SAID));
		expect(editionOf(SAID, false)).toBe(editionOf(undefined, false));
	});
});
