/** Terminal manners: when lines are coloured, and how little is said when all is well. */

import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { stripVTControlCharacters } from "node:util";
import { describe, expect, it } from "vitest";
import { wantsColour } from "../../scripts/commands/report.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";
import { handbook } from "../run-command.ts";

const TERMINAL = { isTTY: true };
const PIPE = {};

describe("colour", () => {
	it.each([
		["a terminal", TERMINAL, {}, true],
		["a pipe", PIPE, {}, false],
		["a terminal that has none", TERMINAL, { TERM: "dumb" }, false],
		["NO_COLOR on a terminal", TERMINAL, { NO_COLOR: "1" }, false],
		["NO_COLOR with any value", TERMINAL, { NO_COLOR: "0" }, false],
		// no-color.org: "when present and not an empty string".
		["an empty NO_COLOR", TERMINAL, { NO_COLOR: "" }, true],
		["FORCE_COLOR in a pipe", PIPE, { FORCE_COLOR: "1" }, true],
		["FORCE_COLOR=0 on a terminal", TERMINAL, { FORCE_COLOR: "0" }, false],
		["both", TERMINAL, { NO_COLOR: "1", FORCE_COLOR: "1" }, false],
	])("%s", (_what, stream, env, wanted) => {
		expect(wantsColour(stream, env)).toBe(wanted);
	});

	const broken = () => clubCopy(join(FIXTURES, "problems/H201"));
	const commands: readonly (readonly [name: string, args: () => readonly string[]])[] = [
		["check", () => ["check", "--club", broken()]],
		["build", () => ["build", "--no-print", "--club", broken()]],
		["compare", () => ["compare", clubCopy(), broken()]],
		[
			"import",
			() => {
				const club = clubCopy();
				const csv = join(club, "list.csv");
				writeFileSync(csv, "title,apparatus,levels,what\nNew one,floor,beginners,x\n");
				return ["import", csv, "--club", club];
			},
		],
	];

	it.each(commands)("%s has it where it is asked for, and nowhere else", async (_name, args) => {
		const given = args();
		const plain = await said(given, {});
		expect(plain).not.toContain("\u001b[");
		expect(plain.length).toBeGreaterThan(20);
		const coloured = await said(given, { FORCE_COLOR: "1" });
		expect(coloured).toContain("\u001b[");
		// Colour adds signs and changes no word.
		expect(stripVTControlCharacters(coloured)).toBe(plain);
		expect(await said(given, { FORCE_COLOR: "1", NO_COLOR: "1" })).toBe(plain);
	});
});

describe("when all is well", () => {
	it("check says one line", async () => {
		const text = await said(["check", "--club", clubCopy()], {});
		expect(text).toMatch(/^4 drills, 1 week: no errors, 0 findings\. Marrowby Gym Club, in \S+\n$/);
	});

	it("the help says that it does", async () => {
		expect((await said(["check", "--help"], {})).replaceAll(/\s+/g, " ")).toContain(
			"one line when all is well",
		);
	});
});

/** What a command writes to its standard output, in an environment that says nothing else about colour. */
async function said(args: readonly string[], env: Readonly<Record<string, string>>): Promise<string> {
	const { NO_COLOR: _none, FORCE_COLOR: _forced, ...rest } = process.env;
	return (await handbook(args, { env: { ...rest, ...env } })).stdout;
}
