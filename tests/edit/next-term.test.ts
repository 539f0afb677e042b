/** The next term's folder, what is kept of this one, and the page that says what changed since. */

import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { contextOf } from "../../layouts/parts/page.ts";
import { nextTermCommand } from "../../scripts/commands/next-term.ts";
import { readPlan } from "../../scripts/commands/read-plan.ts";
import type { Run } from "../../scripts/commands/run.ts";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { nextTerm } from "../../scripts/edit/next-term.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { html } from "../../scripts/views/html.ts";
import { demoHandbook } from "../demo.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";
import { wordsOnPage } from "../words/read-words.ts";

function club() {
	const dir = clubCopy(undefined, REPOSITORY);
	const said: string[] = [];
	const run: Run = {
		clubDir: dir,
		outDir: join(dir, "_site"),
		now: new Date("2026-11-30T12:00:00Z"),
		out: { line: (text) => said.push(text), colour: false },
		progress: { stream: { write: () => undefined }, live: false },
	};
	return { dir, run, said };
}

const SUMMER = {
	name: "Summer term",
	starts: "2027-04-19",
	weeks: 8,
	closed: ["2027-05-31/2027-06-04", "2027-05-03"],
	empty: false,
};

describe("the next term", () => {
	it("has new dates, and everything else letter by letter", () => {
		const texts = readTexts(REPOSITORY);
		const { texts: next, left } = nextTerm(texts, SUMMER);
		expect(left).toEqual(["content/weeks/week-09.md", "content/weeks/week-10.md"]);
		for (const [path, text] of next) {
			if (path !== "_data/term.yaml") expect(text, path).toBe(texts.get(path));
		}
		const [before = "", after = ""] = [texts.get("_data/term.yaml"), next.get("_data/term.yaml")];
		expect(after.split("\n").filter((line) => !before.includes(line))).toEqual([
			'name: "Summer term"',
			"starts: 2027-04-19",
			"weeks: 8",
			"closed: [2027-05-31/2027-06-04, 2027-05-03]",
		]);
		expect(after.slice(after.indexOf("classes:"))).toBe(before.slice(before.indexOf("classes:")));
		expect(after.split("\n")[0]).toBe(before.split("\n")[0]);
	});

	it.each([
		[
			"name: A\r\nstarts: 2027-01-04\r\nweeks: 3\r\n",
			'name: "Summer term"\r\nstarts: 2027-04-19\r\nweeks: 8\r\nclosed: [2027-05-03]\r\n',
		],
		[
			"closed: [] # none\nweeks: 3\nname: A\nstarts: '2027-01-04'\n",
			'closed: [2027-05-03] # none\nweeks: 8\nname: "Summer term"\nstarts: 2027-04-19\n',
		],
		[
			"name: A\nstarts: 2027-01-04\nclosed:\n- 2027-01-05\n- 2027-01-06\n\n# classes\nweeks: 3",
			'name: "Summer term"\nstarts: 2027-04-19\nclosed: [2027-05-03]\n\n# classes\nweeks: 8\n',
		],
	])("is written where each field stands: %j", (before, after) => {
		const { texts } = nextTerm(new Map([["_data/term.yaml", before]]), { ...SUMMER, closed: ["2027-05-03"] });
		expect(texts.get("_data/term.yaml")).toBe(after);
	});

	it("is made beside this one, with what was taught, and opens without errors", () => {
		const { dir, run, said } = club();
		const before = readTexts(dir);
		const to = join(dir, "..", `${dir.split("/").at(-1)}-next`);
		expect(nextTermCommand(run, { ...SUMMER, to, write: false })).toBe(0);
		expect(existsSync(to)).toBe(false);
		expect(nextTermCommand(run, { ...SUMMER, to, write: true })).toBe(0);
		expect(readTexts(dir)).toEqual(before);
		const { handbook, problems } = openHandbook(to);
		expect(problems.filter(({ severity }) => severity === "error")).toEqual([]);
		expect(handbook?.curriculum.term.starts).toBe("2027-04-19");
		const now = JSON.parse(JSON.stringify(readPlan(dir).record));
		expect(readPlan(join(to, "earlier/2027-01-04.json")).record).toEqual({
			...now,
			// The day of the command, where this test's own reading has today.
			edition: { ...now.edition, date: run.now.toISOString().slice(0, 10) },
		});
		expect(said.join("\n")).toMatch(/to review before the term: .*plank|to review before the term/);
		expect(nextTermCommand(run, { ...SUMMER, to, write: true })).toBe(2);
		expect(said.at(-1)).toContain("is not empty");
	});

	it("proposes what levels arrive with, names drills of which two reports say the same, and begins with no report", () => {
		const { dir, run, said } = club();
		const to = join(dir, "..", `${dir.split("/").at(-1)}-next`);
		mkdirSync(join(dir, "_data/taught"));
		const skill = { of: 12, helped: 1 };
		for (const [week, alone] of [
			["week-01", 2],
			["week-02", 10],
		] as const) {
			const skills = [
				{ skill: "split-hold", alone, ...skill },
				{ skill: "safe-landing", alone: 11, ...skill },
			];
			const blocks = [
				{ apparatus: "floor", block: 1, drills: ["back-extension-off-wedge"], felt: "too-hard" },
				{
					apparatus: "floor",
					block: 2,
					drills: ["forward-roll-jump-turn"],
					felt: week === "week-01" ? "too-easy" : "right",
				},
			];
			writeFileSync(
				join(dir, `_data/taught/${week}.yaml`),
				JSON.stringify([{ class: "mon-level-1", from: "aaaaaaaa1", blocks, skills }]),
			);
		}
		const told = () => {
			said.length = 0;
			expect(nextTermCommand(run, { ...SUMMER, to, write: false })).toBe(0);
			return said.join("\n");
		};
		expect(told()).not.toContain("may arrive with");
		const targets = join(dir, "_data/targets.yaml");
		writeFileSync(targets, `${readFileSync(targets, "utf8")}arrives-with: 0.75\n`);
		expect(told()).toContain(
			"level-1 may arrive with, by your target `arrives-with`: split-hold (10 of 12).",
		);
		expect(told()).toContain("back-extension-off-wedge: too hard, in 2 reports.");
		expect(told()).not.toContain("forward-roll-jump-turn: too");
		expect(nextTermCommand(run, { ...SUMMER, to, write: true })).toBe(0);
		expect(existsSync(join(to, "_data/taught"))).toBe(false);
		expect(openHandbook(to, { taught: true }).handbook?.curriculum.taught).toEqual([]);
	});

	it("starts with no plans where none are wanted", () => {
		const { texts } = nextTerm(readTexts(REPOSITORY), { ...SUMMER, empty: true });
		expect([...texts.keys()].filter((path) => path.startsWith("content/weeks/"))).toEqual([]);
	});
});

describe("the page of what changed", () => {
	const pageOf = (dir: string, since: string) => {
		const { handbook } = openHandbook(dir);
		const { record } = readPlan(since);
		if (handbook === undefined || record === undefined) throw new Error("two plans");
		const pages = sitePages(handbook, { since: record });
		const text = (kind: string) => {
			const page = pages.find((one) => one.kind === kind);
			if (page === undefined) throw new Error(`no ${kind}`);
			return wordsOnPage(page.main(contextOf(page, () => html``)).text).join(" ");
		};
		return { changed: text("what-changed"), home: text("home") };
	};

	it("tells coaches what is new in a drill and in a week, and what it did", () => {
		const [dir, since] = [clubCopy(undefined, REPOSITORY), clubCopy(undefined, REPOSITORY)];
		const change = (file: string, from: string | RegExp, to: string) => {
			const text = readFileSync(join(dir, file), "utf8");
			expect(text).toMatch(from);
			writeFileSync(join(dir, file), text.replace(from, to));
		};
		change("content/drills/beam/beam-flat-walk-forward.md", "Eyes on the end", "Look at the end");
		// A block of the warm-up area that the beginners do.
		change(
			"content/weeks/week-03.md",
			/(- drill: [a-z-]+\n {8}minutes:) 7\n( {8}levels: beginners)/,
			"$1 10\n$2",
		);
		const { changed, home } = pageOf(dir, since);
		expect(home).toContain("What changed since the last edition");
		expect(changed).toContain("Flat walk forward What to say Before: Eyes on the end Now: Look at the end");
		expect(changed).toMatch(/Week 3: .* Warm-up area, block 2, minutes Before: 7 Now: 10/);
		expect(changed).toMatch(/Time, planned minutes Week 3, Monday beginners 60 63/);
	});

	it("tells first what moves people: the emergency words, the dates, the classes", () => {
		const [dir, since] = [clubCopy(undefined, REPOSITORY), clubCopy(undefined, REPOSITORY)];
		const change = (file: string, from: string | RegExp, to: string) => {
			const text = readFileSync(join(dir, file), "utf8");
			expect(text).toMatch(from);
			writeFileSync(join(dir, file), text.replace(from, to));
		};
		const long = `Ring 112. ${"The defibrillator hangs beside the office. ".repeat(6)}Gate code at the desk`;
		change("_data/club.yaml", /^emergency:.*(\n +.*)*$/m, `emergency: ${long}`);
		change("_data/term.yaml", /^weeks: 10$/m, "weeks: 11");
		change("_data/term.yaml", "  - 2027-02-15/2027-02-20", "  - 2027-02-15/2027-02-20\n  - 2027-01-14");
		change("_data/term.yaml", /id: mon-beginners\b/, "id: mon-new");
		change("_data/term.yaml", /day: wednesday/, "day: friday");
		change(
			"_data/term.yaml",
			/id: sat-beginners, name: Saturday beginners, (.*)day: saturday/,
			"id: sun-morning, name: Sunday beginners, $1day: sunday",
		);
		change("content/drills/beam/beam-flat-walk-forward.md", "Eyes on the end", "Look at the end");
		const { changed } = pageOf(dir, since);
		expect(changed).toContain(long);
		expect(changed).toContain("Weeks Before: 10 Now: 11");
		expect(changed).toMatch(
			/Closed Now: Thursday, 14 January 2027 \(Thursday Levels 1 and 2 and Thursday Level 3\)/,
		);
		expect(changed).toMatch(/Day Before: Wednesday Now: Friday/);
		const order = ["Emergency and the club", "Dates of the term", "Classes", "Drills", "Findings"];
		const places = order.map((title) => changed.indexOf(` ${title} `));
		expect(Math.min(...places)).toBeGreaterThan(0);
		expect(places).toEqual([...places].sort((a, b) => a - b));
		// A class that is new, and one that is no more.
		expect(changed).toMatch(/Classes New Sunday beginners Changed .*No longer there Saturday beginners/s);
		// Under another id it is the same class to those who teach it.
		expect(changed).not.toMatch(/(New|No longer there) Monday beginners/);
	});

	it("is not there without an earlier plan, and says so where nothing changed", () => {
		const handbook = demoHandbook();
		expect(sitePages(handbook).some(({ kind }) => kind === "what-changed")).toBe(false);
		expect(pageOf(REPOSITORY, REPOSITORY).changed).toContain("Drills and plans are the same.");
	});
});
