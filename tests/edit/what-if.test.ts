/** `check --what-if`: a change list is counted as if it were written, and nothing is written. */

import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { compare } from "../../scripts/compute/compare.ts";
import { recordOf } from "../../scripts/compute/plan-record.ts";
import { ChangeFault, changePlan } from "../../scripts/edit/change-plan.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { clubCopy } from "../open-fixture.ts";
import { handbook } from "../run-command.ts";

function bytesOf(dir: string): readonly (readonly [string, string])[] {
	return readdirSync(dir, { recursive: true })
		.map(String)
		.sort()
		.filter((f) => statSync(join(dir, f)).isFile())
		.map((f) => [f, readFileSync(join(dir, f), "base64")]);
}

function asked(dir: string, list: string) {
	return openHandbook(dir, { change: (files) => changePlan(files, list) });
}

describe("a change list", () => {
	it.each([
		[
			"add",
			"- add: {week: 1, apparatus: floor, at: 2, block: {drill: rock-back, minutes: 6}}",
			/^( +- \{drill: rock, minutes: 10\}\n)/m,
			"$1      - {drill: rock-back, minutes: 6}\n",
		],
		["remove", "- remove: 1/floor/1", /^ +- \{drill: rock, minutes: 10\}\n/m, ""],
		["set", "- set: {block: 1/beam/1, minutes: 14}", "beam-stand, minutes: 10", "beam-stand, minutes: 14"],
	])("%s counts as the same change written in the file", (_kind, list, from, to) => {
		const [dir, edited] = [clubCopy(), clubCopy()];
		const file = join(edited, "content/weeks/week-1.md");
		const text = readFileSync(file, "utf8");
		writeFileSync(file, text.replace(from, to));
		expect(readFileSync(file, "utf8")).not.toBe(text);
		const [there, would] = [openHandbook(edited).handbook, asked(dir, list).handbook];
		if (there === undefined || would === undefined) throw new Error("a plan with errors");
		expect(would.tables).toEqual(there.tables);
		expect(compare(recordOf(there, "a"), recordOf(would, "b")).findings).toEqual({
			gone: [],
			come: [],
			changed: [],
		});
	});

	it("that moves a block and moves it back changes nothing", () => {
		const dir = clubCopy();
		const would = asked(
			dir,
			"- move: {from: 1/floor/1, to: 1/floor/2}\n- move: {from: 1/floor/2, to: 1/floor/1}",
		);
		expect(would.handbook?.tables).toEqual(openHandbook(dir).handbook?.tables);
		const moved = asked(dir, "- move: {from: 1/floor/1, to: 1/floor/2}").handbook;
		expect(moved?.curriculum.weeks[0]?.apparatus[0]?.blocks.map((b) => b.kind)).toEqual([
			"stations",
			"drill",
		]);
	});

	it.each([
		["- remove: 1/floor/9", /Change 1: there is no block 1\/floor\/9/],
		["- remove: 1/flor/1", /Did you mean `floor`/],
		["- remove: 7/floor/1", /week 7 is not planned/],
		["- remov: 1/floor/1", /Did you mean `remove`/],
		["remove", /not a YAML list/],
	])("%s is refused in words", (list, message) => {
		expect(() => asked(clubCopy(), list)).toThrow(ChangeFault);
		expect(() => asked(clubCopy(), list)).toThrow(message);
	});

	it("that plans an unknown drill gives the problem that the file would", () => {
		const { handbook, problems } = asked(clubCopy(), "- set: {block: 1/beam/1, drill: beam-stant}");
		expect(handbook).toBeUndefined();
		expect(problems.map((p) => `${p.place.file} ${p.fix}`).join()).toMatch(/week-1\.md .*`beam-stand`/);
	});
});

it("prints the change, leaves every file as it is, and ends with 0, or 2 where the list is wrong", async () => {
	const dir = clubCopy();
	const list = join(dir, "list.yaml");
	writeFileSync(list, "- set: {block: 1/beam/1, minutes: 14}\n");
	const before = bytesOf(dir);
	const run = (file: string) => handbook(["check", "--club", dir, "--what-if", file]);
	const { status, stdout } = await run(list);
	expect(stdout).toContain("Beam, block 1, minutes: 10 → 14\n");
	expect(status).toBe(0);
	expect(bytesOf(dir)).toEqual(before);
	expect((await run(join(dir, "none.yaml"))).status).toBe(2);
});
