/** `check` by kind, week and class; `accept` and its undo, as a director uses them. */

import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { acceptCommand } from "../../scripts/commands/accept.ts";
import { type CheckOptions, check } from "../../scripts/commands/check.ts";
import type { Run } from "../../scripts/commands/run.ts";
import { undo } from "../../scripts/commands/undo.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

function desk() {
	const clubDir = clubCopy(undefined, join(FIXTURES, "clubs/hall-lines"));
	const lines: string[] = [];
	const run: Run = {
		clubDir,
		outDir: join(clubDir, "_site"),
		now: new Date(0),
		out: { line: (text) => void lines.push(text), colour: false },
		progress: { stream: process.stderr, live: false },
	};
	const said = () => lines.splice(0).join("\n");
	const checked = async (options: Partial<CheckOptions> = {}) => {
		const status = await check(run, { json: false, ...options });
		return { status, said: said() };
	};
	return { run, said, checked, file: join(clubDir, "_data/accepted.yaml") };
}

const CARRIED = {
	finding: "H333",
	about: { week: 1, class: "mon" },
	reason: "Two parents help to carry.",
	until: undefined,
};

describe("check", () => {
	it("counts by kind, what harms most first, and then says the worst", async () => {
		const { said } = await desk().checked();
		expect(said).toMatch(
			/^\s*safety +4\n +set-out +4\n +time +1\n +dose +\d+\n(?: +coverage +\d+\n)?\n {2}content\/weeks\/week-1\.md:7:9 {2}serious {2}H331/,
		);
	});

	it("says only what a week, a class or a kind has, and says of how many", async () => {
		const { checked } = desk();
		const kind = await checked({ kind: "safety" });
		expect(kind.said.match(/ {2}H3\d\d {2}/g)).toEqual(["  H331  ", "  H331  ", "  H332  ", "  H332  "]);
		expect(kind.said).toContain("4 of 14 findings.");
		const week = await checked({ week: 3, class: "mon" });
		expect(week.said.match(/H3\d\d/g)).toEqual(["H333", "H334"].slice(0, week.said.match(/H3\d\d/g)?.length));
		expect(week.said).not.toContain("Week 1,");
		expect((await checked({ kind: "H332" })).said).toContain("2 of 14 findings.");
	});

	it("refuses a week or a class that the plan has not, and names those it has", async () => {
		const { checked } = desk();
		expect(await checked({ week: 2 })).toEqual({
			status: 2,
			said: "There is no plan of week 2. Planned: 1, 3.",
		});
		expect(await checked({ class: "thu" })).toEqual({
			status: 2,
			said: "There is no class `thu`. Classes: mon, tue, wed.",
		});
	});
});

describe("accept", () => {
	it("takes a finding out of the list, with its reason, and undo brings it back", async () => {
		const { run, said, checked, file } = desk();
		expect(acceptCommand(run, CARRIED)).toBe(0);
		expect(said()).toContain("Accepts 1 finding:");
		expect(readFileSync(file, "utf8")).toBe(
			'- {finding: H333, about: {week: 1, class: mon}, reason: "Two parents help to carry."}\n',
		);
		expect((await checked()).said).toContain("13 findings, 1 accepted.");
		expect(acceptCommand(run, CARRIED)).toBe(2);
		expect(said()).toBe("H333 is accepted already: Two parents help to carry.");
		expect(undo(run)).toBe(0);
		expect(existsSync(file)).toBe(false);
		expect((await checked()).said).toContain("14 findings.");
	});

	it("writes nothing where the plan has no such finding, and shows those of the code", () => {
		const { run, said, file } = desk();
		expect(acceptCommand(run, { ...CARRIED, about: { week: 2, class: "mon" } })).toBe(2);
		expect(said()).toMatch(/^The plan has no such finding of H333; it has these:\n {2}content\/weeks/);
		expect(existsSync(file)).toBe(false);
	});

	it("writes nothing that the folder could not be read with", () => {
		const { run, said, file } = desk();
		expect(acceptCommand(run, { ...CARRIED, until: "next spring" })).toBe(1);
		expect(said()).toContain("Nothing was written.");
		expect(existsSync(file)).toBe(false);
	});
});
