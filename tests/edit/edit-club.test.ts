/**
 * Renaming and moving: what changes in the files, letter by letter, what stays, and that a change can
 * be taken back.
 */

import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { apply } from "../../scripts/commands/apply.ts";
import { move } from "../../scripts/commands/move.ts";
import { rename } from "../../scripts/commands/rename.ts";
import type { Run } from "../../scripts/commands/run.ts";
import { undo } from "../../scripts/commands/undo.ts";
import { changesIn } from "../../scripts/edit/change-club.ts";
import { changesBetween } from "../../scripts/edit/change-set.ts";
import { type ClubTexts, readTexts } from "../../scripts/edit/club-texts.ts";
import { makeChanges } from "../../scripts/edit/make-changes.ts";
import { moveBlock, readPlace } from "../../scripts/edit/move-block.ts";
import { moveWeek } from "../../scripts/edit/move-week.ts";
import { knownIds } from "../../scripts/edit/references.ts";
import { renameIds } from "../../scripts/edit/rename-ids.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { ID_KINDS } from "../../scripts/link/reference-fields.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";

const DEMO = readTexts(REPOSITORY);

function club(base?: string): { readonly dir: string; readonly run: Run; readonly said: string[] } {
	const dir = clubCopy(undefined, base);
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

/** Lines that are in one and not in the other. */
function changedLines(before: ClubTexts, after: ClubTexts) {
	return changesBetween(before, after).map(({ path, before: old = "", after: now = "" }) => {
		const known = new Set(old.split("\n"));
		return [
			path,
			now
				.split("\n")
				.filter((line) => !known.has(line))
				.map((line) => line.trim()),
		] as const;
	});
}

describe("renaming", () => {
	it("changes the file, every field and every link, and nothing else", () => {
		const after = renameIds(DEMO, [{ kind: "drill", from: "beam-flat-walk-forward", to: "forward-walk" }]);
		expect(after.has("content/drills/beam/beam-flat-walk-forward.md")).toBe(false);
		expect(after.get("content/drills/beam/forward-walk.md")).toBe(
			DEMO.get("content/drills/beam/beam-flat-walk-forward.md"),
		);
		const lines = changedLines(DEMO, after).filter(
			([path]) => path !== "content/drills/beam/forward-walk.md",
		);
		expect(lines.length).toBeGreaterThan(4);
		for (const [path, own] of lines) {
			for (const line of own) expect(line, path).toContain("forward-walk");
		}
		expect([...after.values()].join("\n")).not.toContain("beam-flat-walk-forward");
	});

	it("takes the folder of an apparatus with it, and the keys of its plans", () => {
		const after = renameIds(DEMO, [{ kind: "apparatus", from: "beam", to: "low-beams" }]);
		expect([...after.keys()].some((path) => path.startsWith("content/drills/beam/"))).toBe(false);
		expect(after.has("content/drills/low-beams/beam-flat-walk-forward.md")).toBe(true);
		expect(after.get("content/weeks/week-03.md")).toContain("\n  low-beams:\n");
		// Other things of that name are left alone: the equipment keeps its id.
		expect(knownIds(after).get("equipment")).toEqual(knownIds(DEMO).get("equipment"));
	});

	it("keeps a link leading where it led", () => {
		const texts: ClubTexts = new Map([
			["_data/shapes.yaml", "# shapes\n- id: hollow\n  name: Hollow\n"],
			["_data/skills.yaml", "- {id: dish, name: Dish, needs: []}\r\n"],
			[
				"content/guides/a.md",
				"---\ntitle: A\n---\n[[hollow]], [[dish]], [[shape:hollow|it]] and `[[hollow]]`\n",
			],
		]);
		const after = renameIds(texts, [{ kind: "shape", from: "hollow", to: "dish" }]);
		// Skills are asked before shapes, so the shape has to be named as one.
		expect(after.get("content/guides/a.md")).toBe(
			"---\ntitle: A\n---\n[[shape:dish]], [[dish]], [[shape:dish|it]] and `[[hollow]]`\n",
		);
		expect(after.get("_data/shapes.yaml")).toBe("# shapes\n- id: dish\n  name: Hollow\n");
		expect(after.get("_data/skills.yaml")).toBe(texts.get("_data/skills.yaml"));
	});

	it("keeps quotes, comments, byte order marks and ends of lines", () => {
		const texts: ClubTexts = new Map([
			[
				"content/drills/floor/roll.md",
				"\ufeff---\r\ntitle: Roll\r\napparatus: 'floor' # here\r\nlevels:\r\n  - \"one\"\r\nafter: [ rock ,x ]\r\n---\r\n[[rock]]\r\n",
			],
			["content/drills/floor/rock.md", "---\ntitle: Rock\napparatus: floor\nlevels: [one]\n---\n"],
			["content/drills/floor/x.md", "---\ntitle: X\napparatus: floor\nlevels: [one]\n---\n"],
		]);
		const after = renameIds(texts, [
			{ kind: "drill", from: "rock", to: "rock-to-stand" },
			{ kind: "level", from: "one", to: "level-1" },
		]);
		expect(after.get("content/drills/floor/roll.md")).toBe(
			"\ufeff---\r\ntitle: Roll\r\napparatus: 'floor' # here\r\nlevels:\r\n  - \"level-1\"\r\nafter: [ rock-to-stand ,x ]\r\n---\r\n[[rock-to-stand]]\r\n",
		);
	});

	it("there and back gives the same bytes, for everything of every kind", () => {
		const small = readTexts(join(FIXTURES, "clubs/full-pages"));
		const whole = new Map([...small, ["_data/purposes.yaml", "- {id: strength, name: Strength}\n"]]);
		const known = knownIds(whole);
		for (const kind of ID_KINDS) {
			expect(known.get(kind)?.size, kind).toBeGreaterThan(0);
			for (const from of known.get(kind) ?? []) {
				const there = renameIds(whole, [{ kind, from, to: "quite-another-name" }]);
				expect(there, `${kind} ${from}`).not.toEqual(whole);
				const back = renameIds(there, [{ kind, from: "quite-another-name", to: from }]);
				expect(back, `${kind} ${from}`).toEqual(whole);
			}
		}
	});

	it("finds a drill in gates, complexes, options, what a level arrives with, and accepted findings", () => {
		const files = new Map([
			["content/drills/floor/rock.md", "---\ntitle: Rock\napparatus: floor\nlevels: [one]\n---\n"],
			[
				"content/drills/floor/roll.md",
				"---\ntitle: Roll\napparatus: floor\nlevels: [one]\nready: [{drill: rock, reps: 3}, rock]\nelements: [{drill: rock}, {text: rock}]\n---\n",
			],
			[
				"content/weeks/week-1.md",
				"---\nweek: 1\ntheme: rock\napparatus:\n  floor:\n    blocks:\n      - {options: [{drill: rock}, {drill: roll, note: rock}], minutes: 5}\n---\n",
			],
			["_data/levels.yaml", "- {id: one, name: rock, entry: [rock]}\n"],
			["_data/accepted.yaml", "- {finding: H334, about: {drill: rock, level: one}, reason: rock}\n"],
		]);
		const after = renameIds(files, [{ kind: "drill", from: "rock", to: "sway" }]);
		expect([...after.keys()][0]).toBe("content/drills/floor/sway.md");
		// Words that only sound like the id are left as they are.
		expect(after.get("content/drills/floor/roll.md")).toContain(
			"ready: [{drill: sway, reps: 3}, rock]\nelements: [{drill: sway}, {text: rock}]",
		);
		expect(after.get("content/weeks/week-1.md")).toContain("theme: rock");
		expect(after.get("content/weeks/week-1.md")).toContain("[{drill: sway}, {drill: roll, note: rock}]");
		expect(after.get("_data/levels.yaml")).toBe("- {id: one, name: rock, entry: [sway]}\n");
		expect(after.get("_data/accepted.yaml")).toBe(
			"- {finding: H334, about: {drill: sway, level: one}, reason: rock}\n",
		);
	});

	it("changes no number of the plan, only names", () => {
		const { dir, run } = club(REPOSITORY);
		const before = openHandbook(dir).handbook;
		expect(rename(run, { thing: "plank-clock", to: "clock-plank", write: true })).toBe(0);
		const after = openHandbook(dir).handbook;
		const plain = (rows: unknown) => JSON.stringify(rows).replaceAll("clock-plank", "plank-clock");
		for (const [name, table] of before?.tables ?? []) {
			const now = after?.tables.get(name);
			expect(JSON.parse(plain(now?.rows)).sort(), name).toEqual(JSON.parse(plain(table.rows)).sort());
		}
		expect(after?.findings.length).toBe(before?.findings.length);
	});

	it.each([
		["nothing-here", "x", "Nothing has the id `nothing-here`."],
		["drill:plank-clok", "x", "Did you mean `plank-clock`?"],
		["plank-clock", "Plank Clock", "cannot be an id"],
		["plank-clock", "rock-to-stand", "There is a drill `rock-to-stand` already."],
		["handstand", "hs", "Say which: skill:handstand, shape:handstand."],
		["dril:plank-clock", "x", "did you mean `drill`?"],
	])("refuses %s → %s", (thing, to, why) => {
		const { dir, run, said } = club(REPOSITORY);
		expect(rename(run, { thing, to, write: true })).toBe(2);
		expect(said.join("\n")).toContain(why);
		expect(readTexts(dir)).toEqual(DEMO);
	});
});

describe("moving a block", () => {
	it("takes its comments along and keeps every other line", () => {
		const plan = (number: number, blocks: string) =>
			`---\nweek: ${number}\ntheme: T\napparatus:\n  beam:\n    focus: F\n    blocks:\n${blocks}---\n`;
		const texts: ClubTexts = new Map([
			[
				"content/weeks/a.md",
				plan(
					3,
					"      - drill: walk\n        minutes: 4\n      # Levels 1 and 2\n      - minutes: 17 # long\n        stations:\n          - drill: walk\n",
				),
			],
			["content/weeks/b.md", plan(5, "      - drill: jump\n        minutes: 5\n")],
		]);
		const after = moveBlock(texts, readPlace("3/beam/2"), readPlace("5/beam/1"));
		const lines = (all: ClubTexts) => [...all.values()].join("\n").split("\n").sort();
		expect(lines(after)).toEqual(lines(texts));
		expect(after.get("content/weeks/b.md")).toMatch(
			/ {2}beam:\n {4}focus: .*\n {4}blocks:\n {6}# Levels 1 and 2\n {6}- minutes: 17 # long\n/,
		);
	});

	it.each([
		["3/beam/2", "5/beam/1"],
		["3/floor/1", "3/floor/3"],
		["3/warm-up/4", "3/floor/1"],
		["1/floor/1", "10/floor/2"],
		["7/vault/1", "2/bars/3"],
	])("%s to %s and back gives the same bytes", (from, to) => {
		const there = moveBlock(DEMO, readPlace(from), readPlace(to));
		expect(there).not.toEqual(DEMO);
		expect(moveBlock(there, readPlace(to), readPlace(from))).toEqual(DEMO);
	});

	const week = (lines: string) => `---\nweek: 1\ntheme: T\napparatus:\n${lines}---\n`;

	it("follows the indentation of its new place, and begins an apparatus", () => {
		const texts: ClubTexts = new Map([
			[
				"content/weeks/a.md",
				week(
					"    floor:\n        blocks:\n            -   drill: a # first\n                minutes: 3\n            -   drill: b\n                minutes: 4\n",
				),
			],
			[
				"content/weeks/b.md",
				week("  beam:\n    blocks:\n    - drill: c\n      minutes: 5\n").replace("week: 1", "week: 2"),
			],
		]);
		const moved = moveBlock(texts, readPlace("1/floor/1"), readPlace("2/floor/1"));
		expect(moved.get("content/weeks/b.md")).toBe(
			week(
				"  beam:\n    blocks:\n    - drill: c\n      minutes: 5\n  floor:\n    blocks:\n      -   drill: a # first\n          minutes: 3\n",
			).replace("week: 1", "week: 2"),
		);
		const emptied = moveBlock(moved, readPlace("1/floor/1"), readPlace("2/beam/2"));
		expect(emptied.get("content/weeks/a.md")).toBe(week("    floor:\n        blocks: []\n"));
		expect(emptied.get("content/weeks/b.md")).toContain(
			"    - drill: c\n      minutes: 5\n    -   drill: b\n        minutes: 4\n  floor:",
		);
		const back = moveBlock(emptied, readPlace("2/beam/2"), readPlace("1/floor/1"));
		expect(back.get("content/weeks/a.md")).toBe(
			week("    floor:\n        blocks:\n          -   drill: b\n              minutes: 4\n"),
		);
	});

	it.each([
		["33/beam/1", "3/beam/1", "Week 33 has no plan."],
		["3/beam/9", "3/beam/1", "so no block 9"],
		["3/beem/1", "3/beam/1", "has no blocks on `beem`"],
		["3/beam/1", "4/beam/9", "none could be number 9"],
		["3-beam-1", "4/beam/9", "no place of a block"],
	])("refuses %s to %s", (from, to, why) => {
		const { dir, run, said } = club(REPOSITORY);
		expect(move(run, { what: "block", from, to, swap: false, write: true })).toBe(2);
		expect(said.join("\n")).toContain(why);
		expect(readTexts(dir)).toEqual(DEMO);
	});

	it("is not made where the plan would have an error", () => {
		const { dir, run, said } = club(REPOSITORY);
		// A floor drill is not planned on the beam.
		expect(move(run, { what: "block", from: "3/floor/1", to: "3/beam/1", swap: false, write: true })).toBe(1);
		expect(said.join("\n")).toContain("H204");
		expect(readTexts(dir)).toEqual(DEMO);
	});
});

describe("moving a week", () => {
	const numbers = (texts: ClubTexts) =>
		Object.fromEntries(
			[...texts]
				.filter(([path]) => path.startsWith("content/weeks/"))
				.map(([path, text]) => [path.slice(14, -3), /theme: "?([^"\n]*)/.exec(text)?.[1]]),
		);

	it("closes up the weeks between, numbers and names of files with them", () => {
		const before = numbers(DEMO);
		const after = numbers(moveWeek(DEMO, 4, 7, false));
		expect(after).toEqual({
			...before,
			"week-04": before["week-05"],
			"week-05": before["week-06"],
			"week-06": before["week-07"],
			"week-07": before["week-04"],
		});
	});

	it("lets two weeks trade places", () => {
		const before = numbers(DEMO);
		const after = moveWeek(DEMO, 2, 9, true);
		expect(numbers(after)).toEqual({ ...before, "week-02": before["week-09"], "week-09": before["week-02"] });
		expect(after.get("content/weeks/week-09.md")).toContain("\nweek: 9\n");
		expect(moveWeek(after, 9, 2, true)).toEqual(DEMO);
	});

	it("there and back gives the same bytes, links to weeks included", () => {
		const linked = new Map(DEMO).set(
			"content/guides/extra.md",
			"---\ntitle: Extra\n---\nSee [[week-04]], [[week:week-05|the next]].\n",
		);
		const there = moveWeek(linked, 4, 5, false);
		expect(there.get("content/guides/extra.md")).toContain("[[week-05]], [[week:week-04|the next]]");
		expect(moveWeek(there, 5, 4, false)).toEqual(linked);
	});
});

describe("a change", () => {
	it("is only shown without --write", () => {
		const { dir, run, said } = club(REPOSITORY);
		expect(rename(run, { thing: "plank-clock", to: "clock", write: false })).toBe(0);
		expect(said.join("\n")).toContain("plank-clock.md → content/drills/warm-up/clock.md");
		expect(said.at(-1)).toContain("Nothing was written");
		expect(readTexts(dir)).toEqual(DEMO);
	});

	it("is taken back by undo, one after the other, and not over later work", () => {
		const { dir, run, said } = club(REPOSITORY);
		rename(run, { thing: "apparatus:beam", to: "beams", write: true });
		const between = readTexts(dir);
		move(run, { what: "week", from: "1", to: "3", swap: false, write: true });
		expect(readTexts(dir)).not.toEqual(between);
		expect(undo(run)).toBe(0);
		expect(readTexts(dir)).toEqual(between);
		const file = join(dir, "_data/apparatus.yaml");
		const kept = readFileSync(file, "utf8");
		writeFileSync(file, `${kept}# mine\n`);
		expect(undo(run)).toBe(1);
		expect(said.at(-1)).toContain("_data/apparatus.yaml");
		writeFileSync(file, kept);
		expect(undo(run)).toBe(0);
		expect(readTexts(dir)).toEqual(DEMO);
		expect(existsSync(join(dir, "content/drills/beams"))).toBe(false);
		expect(undo(run)).toBe(0);
		expect(said.at(-1)).toBe("There is no change to take back.");
	});

	it("is refused where a file is no longer what it was worked out from", () => {
		const { dir } = club();
		const [[path, text] = ["", ""]] = readTexts(dir);
		writeFileSync(join(dir, path), `${text}# later\n`);
		expect(() => makeChanges(dir, "x", [{ path, before: text, after: "" }])).toThrow(
			/changed in the meantime/,
		);
		expect(readFileSync(join(dir, path), "utf8")).toBe(`${text}# later\n`);
	});
});

describe("a change list with slips", () => {
	it("has each of its wrong names told, and a slip of YAML by its line", () => {
		const said = (list: string): string => {
			try {
				return JSON.stringify(changesIn(list));
			} catch (error) {
				return error instanceof Error ? error.message : "";
			}
		};
		const names = said(
			"- remov: 1/floor/1\n- close: 2027-02-15\n- renam: {thing: drill:rock, to: roll}\n",
		).split("\n");
		expect(names.map((line) => line.slice(0, 9))).toEqual(["Change 1:", "Change 3:"]);
		expect(names[1]).toContain("Did you mean `rename`?");
		expect(said("- set:\n\tblock: 1/floor/1\n")).toBe(
			"Line 2, column 1: A tab stands where spaces should indent the line. Replace the tab with two spaces, as the lines around it have them.",
		);
	});

	it("has the mistakes inside all changes told in one run, and writes nothing", () => {
		const { dir, run, said } = club(REPOSITORY);
		const before = readTexts(dir);
		const list = join(dir, "list.yaml");
		const changes = [
			"swap: {block: 99/floor/1, drill: log-roll}",
			"replace: {drill: nonesuch, with: nor-this}",
			"set: {block: 3/floor/1, minutes: lots}",
			"add: floor",
			"split: {block: 3/floor/1}",
			"cancel: {class: nobody, when: 2027-01-11, why: snow}",
		];
		writeFileSync(list, changes.map((one) => `- ${one}\n`).join(""));
		expect(apply(run, { list, write: true })).toBe(2);
		const told = said.join("\n");
		expect(told.match(/^Change \d/gm)).toEqual([1, 2, 4, 5, 6].map((n) => `Change ${n}`));
		for (const words of ["Week 99", "`nonesuch`", "`nor-this`", "- add: {week: 3", "`when`, `why`"])
			expect(told).toContain(words);
		// What the third would bring, which can be made but not be read.
		expect(told).toMatch(/week-03\.md: H106 .*`lots` is not a number/);
		expect(readTexts(dir)).toEqual(before);
	});
});
