/**
 * One run says everything: a field at fault hides no other mistake of its file, and makes none up.
 *
 * Each case changes files of the small club by their text; the lines are counted by hand.
 */

import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { clubCopy } from "../open-fixture.ts";

type Change = readonly [file: string, from: string, to: string];

function problemsAfter(changes: readonly Change[], without: readonly string[] = []): readonly string[] {
	const dir = clubCopy();
	for (const file of without) rmSync(join(dir, file));
	for (const [file, from, to] of changes) {
		const text = readFileSync(join(dir, file), "utf8");
		expect(text).toContain(from);
		writeFileSync(join(dir, file), text.replace(from, to));
	}
	return openHandbook(dir).problems.map(({ place, code }) => `${place.file}:${place.line} ${code}`);
}

const ROCK = "content/drills/floor/rock.md";
const WEEK = "content/weeks/week-1.md";
const SKILLS = "_data/skills.yaml";

describe("a file with a field at fault", () => {
	it("still has every id and every link of it checked", () => {
		const problems = problemsAfter([
			[ROCK, "direction: forward", "direction: onwards"],
			[ROCK, "senior: {do", "seniors: {do"],
			[ROCK, "skills: [roll]", "skills: [rol]"],
			[ROCK, "{mat: 1}", "{matt: 1}"],
			[ROCK, "[[tuck]]", "[[tucked]]"],
			[ROCK, "Round back,", "'See [[nowhere]]',"],
		]);
		expect(problems).toEqual([
			`${ROCK}:6 H201`,
			`${ROCK}:8 H201`,
			`${ROCK}:9 H106`,
			`${ROCK}:10 H201`,
			`${ROCK}:12 H206`,
			`${ROCK}:14 H206`,
		]);
	});

	it("says nothing of the term's length where the term itself is at fault", () => {
		const term = "_data/term.yaml";
		expect(
			problemsAfter([
				[WEEK, "week: 1", "week: 3"],
				[term, "weeks: ", "weeks: many #"],
			]),
		).toEqual([`${term}:3 H106`]);
	});

	it("is held against the plans as far as it is sound", () => {
		const week = problemsAfter([
			[WEEK, "week: 1", "week: 4"],
			[WEEK, "focus: Rocking", "fokus: Rocking"],
			[WEEK, "{drill: rock, minutes: 10}", "{drill: rock, minuts: 10}"],
			[WEEK, "{drill: wedge-roll, at: [2, 2]}", "{drill: wedge-rol, at: [2, 2]}"],
			[WEEK, "{drill: beam-stand, minutes: 10}", "{drill: rock, minutes: 10}"],
		]);
		expect(week).toEqual([
			`${WEEK}:2 H208`,
			`${WEEK}:6 H104`,
			`${WEEK}:8 H104`,
			`${WEEK}:10 H201`,
			`${WEEK}:15 H204`,
		]);
		const drill = problemsAfter([
			[ROCK, "apparatus: floor", "apparatus: beam"],
			[ROCK, "direction: forward", "direction: onwards"],
		]);
		expect(drill).toEqual([`${ROCK}:3 H108`, `${ROCK}:9 H106`, `${WEEK}:8 H204`]);
	});

	it("is missed by nobody who names it, and misses nothing that only another such file names", () => {
		expect(problemsAfter([[ROCK, "title: Rock on the back", "titel: Rock on the back"]])).toEqual([
			`${ROCK}:2 H104`,
		]);
		const lists = ["levels", "shapes", "skills", "equipment"].map((name) => `_data/${name}.yaml`);
		expect(problemsAfter([[ROCK, "direction: forward", "direction: onwards"]], lists)).toEqual([
			`${ROCK}:9 H106`,
		]);
	});

	it("in a list has its other entries checked", () => {
		const problems = problemsAfter([
			[SKILLS, "direction: forward}", "direction: onwards}"],
			[SKILLS, "needs: [roll]", "needs: [rol], levels: [seniors]"],
			[SKILLS, "levels: [senior], ", ""],
		]);
		expect(problems).toEqual([`${SKILLS}:1 H106`, `${SKILLS}:2 H201`, `${SKILLS}:2 H201`]);
	});

	it("has a value that cannot be an id said once", () => {
		expect(problemsAfter([[ROCK, "skills: [roll]", "skills: [Forward Roll]"]])).toEqual([`${ROCK}:8 H107`]);
	});
});
