/**
 * A director's Sunday night, from the commands: the hall is shut one day, one class is cancelled, a drill is
 * replaced, a week is put in. She asks first, then makes it; coaches read it on one page; `undo` takes it back.
 */

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { contextOf } from "../../layouts/parts/page.ts";
import { apply } from "../../scripts/commands/apply.ts";
import { whatIf } from "../../scripts/commands/compare.ts";
import { readPlan } from "../../scripts/commands/read-plan.ts";
import { undo } from "../../scripts/commands/undo.ts";
import { calendarIcs } from "../../scripts/compute/calendar.ts";
import { changeClub } from "../../scripts/edit/change-club.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { html } from "../../scripts/views/html.ts";
import { wordsOnPage } from "../words/read-words.ts";
import { quietRun } from "./quiet-run.ts";
import { textsIn } from "./texts-in.ts";

const week = (number: number, drill: string) =>
	`---\nweek: ${number}\ntheme: Theme ${number}\napparatus:\n  floor:\n    blocks:\n      - {drill: ${drill}, minutes: 20} # as always\n---\n`;
const drill = (title: string, more = "") =>
	`---\ntitle: ${title}\napparatus: floor\nlevels: [level-1]\n${more}---\n`;
const CLUB: Readonly<Record<string, string>> = {
	"_data/club.yaml": "name: Harbour Lane Gymnastics\nformat: 1\nemergency: Call 999.\n",
	"_data/levels.yaml": "- {id: level-1, name: Level 1}\n",
	"_data/apparatus.yaml": "- {id: floor, name: Floor}\n",
	"_data/term.yaml": `name: Spring
starts: 2027-01-04
weeks: 3
classes:
  # the small ones
  - id: mon
    name: Monday Minis
    day: monday
    start: "16:30"
    minutes: 20
    gymnasts: 8
    rotation: [floor]
  - {id: wed, name: Wednesday, day: wednesday, start: "17:00", minutes: 20, gymnasts: 8, rotation: [floor]}
`,
	"content/drills/floor/kick.md": drill("Kick"),
	"content/drills/floor/kick-wall.md": drill("Kick at the wall"),
	"content/drills/floor/roll.md": drill("Roll", "after: [kick]\n"),
	"content/weeks/week-01.md": week(1, "roll"),
	"content/weeks/week-02.md": week(2, "kick"),
	"content/weeks/week-03.md": week(3, "kick"),
};
const LIST = `
- close: 2027-01-13
- cancel: {class: mon, on: 2027-01-18}
- replace: {drill: kick, with: kick-wall, weeks: 2-3}
- insert-week: {at: 2, theme: Landings, like: 1}
- change: {thing: club, emergency: "Call 999. The code of the gate is on the door."}
`;

function folderOf(files: Readonly<Record<string, string>>): string {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	for (const [path, text] of Object.entries(files)) {
		mkdirSync(dirname(join(dir, path)), { recursive: true });
		writeFileSync(join(dir, path), text);
	}
	return dir;
}

function coachesPage(club: string, since: string): string {
	const { handbook } = openHandbook(club);
	const { record } = readPlan(since);
	if (handbook === undefined || record === undefined) throw new Error("two plans");
	const page = sitePages(handbook, { since: record }).find(({ kind }) => kind === "what-changed");
	if (page === undefined) throw new Error("no page");
	return wordsOnPage(page.main(contextOf(page, () => html``)).text).join(" ");
}

it("a Sunday night: asked first, made, told to coaches on one page, and taken back", () => {
	const [club, since, desk] = [folderOf(CLUB), folderOf(CLUB), folderOf({ "changes.yaml": LIST })];
	const list = join(desk, "changes.yaml");
	const before = textsIn(club);

	const asked = quietRun(club);
	expect(whatIf(club, list, asked.run.out, { json: false })).toBe(0);
	const told = asked.lines.join("\n");
	expect(textsIn(club)).toEqual(before);
	// When there is a class, and what to do in an emergency, come first.
	expect(asked.lines.slice(0, 5)).toEqual([
		"term: Weeks: 3 → 4",
		"term: Closed: none → Wednesday, 13 January 2027 (Wednesday)",
		"class mon (Monday Minis) changed",
		"    Cancelled: none → Monday, 18 January 2027",
		"club: In an emergency: Call 999. → Call 999. The code of the gate is on the door.",
	]);
	expect(told).not.toMatch(/\bapparatus\.|\[\[|\{"/);

	const made = quietRun(club);
	expect(apply(made.run, { list, write: false })).toBe(0);
	expect(textsIn(club)).toEqual(before);
	expect(apply(made.run, { list, write: true })).toBe(0);
	const after = textsIn(club);
	expect(after.get("content/weeks/week-02.md")).toBe(
		week(1, "roll").replace("week: 1", "week: 2").replace("Theme 1", "Landings"),
	);
	expect(after.get("content/weeks/week-04.md")).toBe(week(4, "kick-wall").replace("Theme 4", "Theme 3"));
	expect(after.get("_data/term.yaml")).toContain("  # the small ones\n");
	expect(after.get("content/drills/floor/roll.md")).toContain("after: [kick]");

	const page = coachesPage(club, since);
	for (const words of [
		"Wednesday, 13 January 2027 (Wednesday)",
		"Monday Minis",
		"Monday, 18 January 2027",
		"The code of the gate is on the door",
		"Landings",
		"Kick at the wall",
	])
		expect(page).toContain(words);
	expect(page).not.toMatch(/kick-wall|\[\[|apparatus\./);

	const { handbook } = openHandbook(club);
	if (handbook === undefined) throw new Error("no handbook");
	const cancelled = calendarIcs(handbook.curriculum, handbook.words)
		.split("BEGIN:VEVENT")
		.filter((event) => event.includes("STATUS:CANCELLED"))
		.map((event) => /DTSTART:(\d{8})/.exec(event)?.[1]);
	expect(cancelled).toEqual(["20270113", "20270118"]);

	expect(undo(quietRun(club).run)).toBe(0);
	expect(textsIn(club)).toEqual(before);
});

describe("a change list of the club", () => {
	const texts = new Map(Object.entries(CLUB));
	const changed = (list: string) => changeClub(texts, list);

	it("merges two drills, and whatever named the first names the second", () => {
		const after = changed("- merge: {drill: kick, into: kick-wall}");
		expect(after.has("content/drills/floor/kick.md")).toBe(false);
		expect(after.get("content/drills/floor/roll.md")).toContain("after: [kick-wall]");
		expect(after.get("content/weeks/week-03.md")).toBe(week(3, "kick-wall"));
	});

	it("changes levels, classes, doses and notes where they stand", () => {
		const after = changed(
			`- change: {thing: "level:level-1", name: Ducklings}
- change: {thing: "class:wed", start: "18:00", coaches: 2}
- change: {thing: "drill:kick", reps: 6, levels: {level-1: {sets: 2}}}
- set: {block: 1/floor/1, note: Slowly, dose: {reps: 3}}
- rename: {thing: "drill:roll", to: egg-roll}`,
		);
		expect(after.get("_data/levels.yaml")).toBe('- {id: level-1, name: "Ducklings"}\n');
		expect(after.get("_data/term.yaml")).toContain('start: "18:00"');
		expect(after.get("content/drills/floor/kick.md")).toContain("levels:\n  level-1: {sets: 2}\nreps: 6\n");
		expect(after.get("content/weeks/week-01.md")).toContain(
			'{drill: egg-roll, minutes: 20, note: "Slowly", dose: {reps: 3}} # as always',
		);
		expect(after.has("content/drills/floor/egg-roll.md")).toBe(true);
	});

	it.each([
		["- replace: {drill: kik, with: roll}", "Change 1: There is no drill `kik`. Did you mean `kick`?"],
		["- replace: {drill: kick, with: roll, weeks: 1}", "Change 1: `kick` is planned nowhere in these weeks."],
		["- close: 13/01/2027", "Change 1: `13/01/2027` is no day: write 2027-02-15, or 2027-02-15/2027-02-19."],
		["- cancel: {class: fri, on: 2027-01-11}", "Change 1: There is no class `fri`."],
		["- insert-week: {at: 2}", "Change 1: `insert-week` needs the number it will have, and a theme"],
		["- clsoe: 2027-01-13", "Change 1: `clsoe` is none of add, remove, move,"],
		["- close: 2027-01-13\n- close: 2027-01-13", "Change 2: 2027-01-13 is closed already."],
	])("says what cannot be followed: %j", (list, words) => {
		expect(() => changed(list)).toThrow(words);
	});

	it("leaves the texts that it was given", () => {
		changed(LIST);
		expect(Object.fromEntries(texts)).toEqual(CLUB);
	});
});
