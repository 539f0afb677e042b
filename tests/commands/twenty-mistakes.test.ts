/**
 * Twenty mistakes planted at once in a copy of the demo club give twenty problems, each on its line.
 *
 * Each mistake is a change of one line, found by its text, so the expected line is known from the
 * planting and not from the program.
 */

import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";

/** A file, the line to change (the first that matches), what to make of it, and the code it gives. */
type Mistake = readonly [file: string, line: RegExp, change: (line: string) => string, code: string];

const MISTAKES: readonly Mistake[] = [
	["content/drills/floor/forward-roll-jump-turn.md", /^title:/, (l) => l.replace("title", "titel"), "H104"],
	["content/drills/floor/rock-to-stand.md", /^direction:/, () => "direction: forwards", "H106"],
	["content/drills/floor/tripod-headstand.md", /^sides:/, () => "sides: two", "H106"],
	["content/drills/floor/headstand-wall-line.md", /^cues:/, () => "cues: Stay tall", "H106"],
	[
		"content/drills/floor/pivot-turn-line.md",
		/^summary:/,
		(l) => `${l.replace(/: .*/, ": One: two")}`,
		"H102",
	],
	["content/drills/floor/block-jump-and-stick.md", /^skills:/, () => "skills: [safe-landng]", "H201"],
	["content/drills/floor/wall-bar-scale.md", /^equipment:/, () => "equipment: {wall-barz: 1}", "H201"],
	["content/drills/floor/straddle-roll-wedge.md", /^reviewed:/, () => "reviewed: 2026-02-30", "H106"],
	["content/drills/vault/vault-marker-strides.md", /^turn:/, () => "turn: {seconds: 0}", "H106"],
	[
		"content/drills/vault/vault-hoop-hurdle.md",
		/^contacts:/,
		() => "contacts: {landings: 1, feet: 2}",
		"H104",
	],
	["content/drills/bars/bar-chin-hold.md", /^heights:/, () => "heights: {bar: sholder}", "H106"],
	["content/drills/bars/bar-quiet-hang.md", /^shapes:/, () => "shapes: [straight-hangg]", "H201"],
	["content/drills/beam/beam-side-steps.md", /^---$/, () => "---js", "H103"],
	["content/drills/warm-up/bear-walk-ahead.md", /^partner:/, () => "partner: bear-walk-ahead", "H210"],
	["content/guides/house-rules.md", /^order:/, () => "order: first", "H106"],
	["content/guides/how-we-cue.md", /\[\[[a-z-]+/, (l) => l.replace(/\[\[[a-z-]+/, "[[no-such-thing"), "H206"],
	["_data/term.yaml", /^starts:/, () => "starts: 2027-01-05", "H113"],
	["_data/club.yaml", /^paper:/, () => "paper: A5", "H106"],
	[
		"_data/skills.yaml",
		/id: headstand,/,
		(l) => l.replace("needs: [plank-hold]", "needs: [plank-holt]"),
		"H201",
	],
	["_data/equipment.yaml", /id: hoop,/, (l) => l.replace("id: hoop", "id: Hoop"), "H107"],
];

it("twenty mistakes in the demo club give twenty problems, each with its code and line", () => {
	const dir = clubCopy(undefined, REPOSITORY);
	expect(openHandbook(dir).problems).toEqual([]);
	const planted = MISTAKES.map(([file, pattern, change, code]) => {
		const lines = readFileSync(join(dir, file), "utf8").split("\n");
		const index = lines.findIndex((line) => pattern.test(line));
		expect(index, `${file} has a line like ${pattern}`).toBeGreaterThanOrEqual(0);
		const before = lines[index] ?? "";
		lines[index] = change(before);
		expect(lines[index], `${file} is changed`).not.toBe(before);
		writeFileSync(join(dir, file), lines.join("\n"));
		return `${file}:${index + 1} ${code}`;
	});
	const { problems, handbook } = openHandbook(dir);
	expect(problems.map((p) => `${p.place.file}:${p.place.line} ${p.code}`).sort()).toEqual(planted.sort());
	expect(problems).toHaveLength(20);
	expect(handbook).toBeUndefined();
	for (const { what, why, fix } of problems) {
		for (const words of [what, why, fix]) expect(words.length).toBeGreaterThan(10);
	}
	expect(readdirSync(dir).sort()).toEqual(["_data", "content"]);
});
