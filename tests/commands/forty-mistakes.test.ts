/**
 * The mistakes that people make most in a club's files, each alone in a small club: it gives one message, at
 * its line, and the cure that is told, where it says what to write, mends it.
 *
 * The table is of common practice: what volunteers typed when they filled in such files, gathered from
 * planting mistakes by hand; the lines are known from the planting, not from the program.
 */

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";

const CLUB: Readonly<Record<string, string>> = {
	"_data/club.yaml": "name: Harbour Lane\nformat: 1\nlanguage: en\n",
	"_data/levels.yaml": "- {id: level-1, name: Level 1}\n- {id: level-2, name: Level 2}\n",
	"_data/apparatus.yaml": "- {id: floor, name: Floor}\n- {id: bars, name: Bars}\n",
	"_data/equipment.yaml": "- {id: mat, name: Mat}\n- {id: wedge, name: Wedge}\n",
	"_data/term.yaml":
		"name: Spring\nstarts: 2027-01-04\nweeks: 1\nclosed: []\nclasses:\n  - id: mon\n    name: Monday\n    day: monday\n    start: 16:30\n    minutes: 60\n    ages: [5, 7]\n    gymnasts: 10\n    rotation: [floor, bars]\n",
	"content/drills/floor/kick.md":
		"---\ntitle: Kick\napparatus: floor\nlevels: [level-1, level-2]\nsummary: Kick up and hold.\nequipment: {mat: 1}\nreps: 5\nhold: 10\ncues: [Push tall]\nwatch: true\ndirection: none\nreviewed: 2026-09-14\n---\nText.\n",
	"content/drills/floor/roll.md":
		"---\ntitle: Roll\napparatus: floor\nlevels: [level-1]\nafter: [kick]\n---\n",
	"content/drills/bars/hang.md": "---\ntitle: Hang\napparatus: bars\nlevels: [level-1]\n---\n",
	"content/weeks/week-01.md":
		"---\nweek: 1\ntheme: Rolling\napparatus:\n  floor:\n    blocks:\n      - drill: kick\n        minutes: 10\n      - drill: roll\n        minutes: 10\n  bars:\n    blocks:\n      - drill: hang\n        minutes: 20\n---\n",
};
const KICK = "content/drills/floor/kick.md";
const WEEK = "content/weeks/week-01.md";
const TERM = "_data/term.yaml";

/** What was typed for what, in which file; the code, the line, and a part of the cure. */
type Mistake = readonly [
	what: string,
	file: string,
	from: string,
	to: string,
	code: string,
	line: number,
	cure: string,
];

const MISTAKES: readonly Mistake[] = [
	["a unit behind a number", WEEK, "minutes: 10", "minutes: 10 min", "H106", 8, "minutes: 10"],
	["a decimal comma", WEEK, "minutes: 10", "minutes: 7,5", "H106", 8, "minutes: 7.5"],
	["an hour", TERM, "minutes: 60", "minutes: 1h", "H106", 10, "minutes: 60"],
	["minutes under seconds", KICK, "hold: 10", "hold: 2 min", "H106", 8, "hold: 120"],
	["times behind repetitions", KICK, "reps: 5", "reps: 5x", "H106", 7, "reps: 5"],
	["a range of ages", TERM, "ages: [5, 7]", "ages: 5-7", "H106", 11, "ages: [5, 7]"],
	[
		"ids without brackets",
		KICK,
		"levels: [level-1, level-2]",
		"levels: level-1, level-2",
		"H106",
		4,
		"levels: [level-1, level-2]",
	],
	[
		"one id without brackets",
		KICK,
		"levels: [level-1, level-2]",
		"levels: level-1",
		"H106",
		4,
		"levels: [level-1]",
	],
	[
		"equipment as a list",
		KICK,
		"equipment: {mat: 1}",
		"equipment: [mat, wedge]",
		"H106",
		6,
		"equipment: {mat: 1, wedge: 1}",
	],
	[
		"a cue without brackets",
		KICK,
		"cues: [Push tall]",
		"cues: Push tall; ribs in",
		"H106",
		9,
		"cues: [Push tall, ribs in]",
	],
	["a short day", TERM, "day: monday", "day: Mon", "H106", 8, "day: monday"],
	["a capital day", TERM, "day: monday", "day: Monday", "H106", 8, "day: monday"],
	["an hour of one figure", TERM, "start: 16:30", "start: 9:00", "H106", 9, 'start: "09:00"'],
	["an hour in the afternoon", TERM, "start: 16:30", "start: 4.30pm", "H106", 9, 'start: "16:30"'],
	[
		"a direction in other words",
		KICK,
		"direction: none",
		"direction: forwards",
		"H106",
		11,
		"direction: forward",
	],
	["yes for true", KICK, "watch: true", "watch: yes", "H106", 10, "watch: true"],
	[
		"a date day first",
		KICK,
		"reviewed: 2026-09-14",
		"reviewed: 14/09/2026",
		"H106",
		12,
		"reviewed: 2026-09-14",
	],
	[
		"a date that may be two",
		KICK,
		"reviewed: 2026-09-14",
		"reviewed: 04/01/2027",
		"H106",
		12,
		"2027-01-04` or `2027-04-01",
	],
	[
		"a date that does not exist",
		KICK,
		"reviewed: 2026-09-14",
		"reviewed: 2026-02-30",
		"H106",
		12,
		"a date that exists",
	],
	[
		"a language by its name",
		"_data/club.yaml",
		"language: en",
		"language: French",
		"H106",
		3,
		"language: fr",
	],
	[
		"a language without words",
		"_data/club.yaml",
		"language: en",
		"language: de",
		"H106",
		3,
		"en (English) or fr (French)",
	],
	["a misspelt field", KICK, "title: Kick", "titel: Kick", "H104", 2, "Did you mean `title`"],
	["a field left out", KICK, "title: Kick\n", "", "H105", 1, "Add `title:`"],
	[
		"a colon in a text",
		KICK,
		"summary: Kick up and hold.",
		"summary: Kick: up and hold.",
		"H102",
		5,
		'summary: "Kick: up and hold."',
	],
	["no blank behind a colon", KICK, "title: Kick", "title:Kick", "H102", 2, "title: Kick"],
	["an equals sign", KICK, "title: Kick", "title = Kick", "H102", 2, "title: Kick"],
	[
		"a tab",
		WEEK,
		"    blocks:\n      - drill: kick",
		"\tblocks:\n      - drill: kick",
		"H102",
		6,
		"Replace the tab",
	],
	[
		"a hard space",
		WEEK,
		"    blocks:\n      - drill: kick",
		"\u00a0\u00a0\u00a0\u00a0blocks:\n      - drill: kick",
		"H102",
		6,
		"space bar",
	],
	["a bracket left open", KICK, "cues: [Push tall]", "cues: [Push tall", "H102", 9, "bracket"],
	["a quote left open", KICK, "title: Kick", 'title: "Kick', "H102", 2, "quote"],
	["a field twice", KICK, "reps: 5", "reps: 5\nreps: 6", "H102", 8, "Keep one"],
	["a text that starts with a sign", KICK, "title: Kick", "title: @Kick", "H102", 2, 'title: "@Kick"'],
	["an id by its title", WEEK, "drill: roll", "drill: Roll", "H107", 9, "Did you mean `roll`"],
	["an id misspelt", WEEK, "drill: kick", "drill: kik", "H201", 7, "Did you mean `kick`"],
	["an apparatus with a capital", WEEK, "  floor:", "  Floor:", "H107", 5, "Did you mean `floor`"],
	[
		"an apparatus left empty",
		WEEK,
		"  bars:\n    blocks:\n      - drill: hang\n        minutes: 20\n",
		"  bars:\n",
		"H106",
		11,
		"take the line out",
	],
	["minutes below nothing", WEEK, "minutes: 20", "minutes: -5", "H106", 14, "0 or more"],
	[
		"a line of fields below the text",
		KICK,
		"---\nText.",
		"Text.\n---",
		"H102",
		13,
		"second line of three hyphens",
	],
	["a link to nothing", KICK, "Text.", "See [[rol]].", "H206", 14, "Did you mean `roll`"],
	["a start on a Tuesday", TERM, "starts: 2027-01-04", "starts: 2027-01-05", "H113", 2, "Monday"],
	[
		"a level that is not in the list",
		"content/drills/floor/roll.md",
		"levels: [level-1]",
		"levels: [level-3]",
		"H201",
		4,
		"Did you mean",
	],
	[
		"a number where the web address starts",
		"_data/club.yaml",
		"language: en",
		"site: www.example.org",
		"H106",
		3,
		"https://www.example.org",
	],
];

function open(files: Readonly<Record<string, string>>) {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	for (const [path, text] of Object.entries(files)) {
		mkdirSync(dirname(join(dir, path)), { recursive: true });
		writeFileSync(join(dir, path), text);
	}
	return openHandbook(dir).problems;
}

/** What a cure says to write, where it says so. */
function toWrite(fix: string): readonly string[] {
	return Array.from(/^Write (`.*`)\.$/.exec(fix)?.[1]?.matchAll(/`([^`]+)`/g) ?? [], ([, text = ""]) => text);
}

describe("a common mistake", () => {
	it("is none in the club without it", () => {
		expect(open(CLUB)).toEqual([]);
	});

	it.each(MISTAKES)("%s", (_what, file, from, to, code, line, cure) => {
		const text = CLUB[file] ?? "";
		expect(text).toContain(from);
		const wrong = { ...CLUB, [file]: text.replace(from, to) };
		const problems = open(wrong);
		expect(problems.map((one) => [one.code, one.place.file, one.place.line])).toEqual([[code, file, line]]);
		const fix = problems[0]?.fix ?? "";
		expect(fix).toContain(cure);
		// Where the cure is a line to write, the club with that line has no mistake.
		const lines = (wrong[file] ?? "").split("\n");
		const [written] = toWrite(fix);
		if (written === undefined) return;
		const own = lines[line - 1] ?? "";
		const name = /^[\w-]+/.exec(written)?.[0] ?? "";
		expect(own).toContain(name);
		lines[line - 1] = written.includes(": ") ? own.replace(new RegExp(`${name}.*$`), () => written) : own;
		expect(open({ ...wrong, [file]: lines.join("\n") })).toEqual([]);
	});

	it("of a level taken out of its list is one message, however many name it", () => {
		const more = Object.fromEntries(
			["a", "b", "c", "d", "e", "f"].map((id) => [
				`content/drills/floor/${id}.md`,
				`---\ntitle: ${id}\napparatus: floor\nlevels: [level-2]\n---\n`,
			]),
		);
		const problems = open({ ...CLUB, ...more, "_data/levels.yaml": "- {id: level-1, name: Level 1}\n" });
		expect(problems.map(({ code, place }) => [code, place.file])).toEqual([["H201", "_data/levels.yaml"]]);
		expect(problems[0]?.what).toBe("There is no level `level-2`, and 7 places in 7 files name it.");
		expect(problems[0]?.fix).toContain("Put `- {id: level-2, name: …}` back");
	});

	it.each([
		"kick - Copy.md",
		"kick (Jo's conflicted copy 2026-11-30).md",
		"kick-LAPTOP-3F2.md",
		"kick (1).md",
		"kick.sync-conflict-20261130-101010-ABCDEFG.md",
		"kick - Copie.md",
	])("of a program that keeps folders in step is named: %s", (name) => {
		const problems = open({ ...CLUB, [`content/drills/floor/${name}`]: CLUB[KICK] ?? "" });
		expect(problems.map(({ code, severity }) => [code, severity])).toEqual([["H110", "warning"]]);
		expect(problems[0]?.what).toContain("is a copy that a program left beside `kick.md`");
		expect(problems[0]?.fix).toContain("delete the copy");
	});

	it("of an ending that is hidden is named, and what systems leave is not", () => {
		const problems = open({
			...CLUB,
			"content/drills/floor/jump.md.txt": "x",
			"content/drills/floor/~$kick.md": "x",
			"content/drills/floor/desktop.ini": "x",
		});
		expect(problems.map(({ code, fix }) => [code, fix.slice(0, 20)])).toEqual([
			["H110", "Rename it to `jump.m"],
		]);
	});
});
