/**
 * Every problem code has a failing fixture: a folder named after the code, laid over the base club,
 * with the lines it must give in expected/problems.txt. Run with UPDATE_EXPECTED=1 to write them anew.
 */

import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { CATALOGUE, type Problem, severityOf } from "../../scripts/problems.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";

const PROBLEMS = join(FIXTURES, "problems");

/** Codes of the print stage need a browser, or the lack of one: their tests are beside the printer's. */
const withFixture = Object.keys(CATALOGUE).filter((code) => !code.startsWith("H4"));

describe("the base club", () => {
	it("has no problem and no finding", () => {
		const { problems, handbook } = openHandbook(clubCopy());
		expect(problems).toEqual([]);
		expect(handbook?.findings).toEqual([]);
	});
});

describe("every problem code", () => {
	it("has a fixture, and no fixture stands for a code that is gone", () => {
		expect(readdirSync(PROBLEMS).sort()).toEqual(withFixture);
	});

	it("of the print stage is named in a test of the printer", () => {
		const tests = readdirSync(join(FIXTURES, "../print"))
			.filter((name) => name.endsWith(".test.ts"))
			.map((name) => readFileSync(join(FIXTURES, "../print", name), "utf8"))
			.join("\n");
		for (const code of Object.keys(CATALOGUE).filter((c) => c.startsWith("H4")))
			expect(tests).toContain(code);
	});

	it.each(withFixture)("%s is reported where it stands, with what to do", (code) => {
		const fixture = join(PROBLEMS, code);
		const { problems, handbook } = openHandbook(clubCopy(fixture), { taught: true });
		const lines = code.startsWith("H3")
			? (handbook?.findings ?? []).map((f) => {
					const place = f.source.place(f.path);
					return `${place.file}:${place.line}:${place.column} ${f.code} ${f.what} [${f.fix}]`;
				})
			: problems.map(line);
		const expected = join(fixture, "expected", "problems.txt");
		const text = `${lines.join("\n")}\n`;
		if (process.env.UPDATE_EXPECTED === "1" && process.env.CI === undefined) {
			mkdirSync(join(fixture, "expected"), { recursive: true });
			writeFileSync(expected, text);
		}
		expect(existsSync(expected)).toBe(true);
		expect(text).toBe(readFileSync(expected, "utf8"));
		expect(lines.some((l) => l.includes(` ${code} `))).toBe(true);
		// A fixture shows its own code and nothing else, so that one mistake gives one message.
		expect(lines.filter((l) => !l.includes(` ${code} `))).toEqual([]);
		if (severityOf(code) === "error") expect(handbook).toBeUndefined();
	});
});

function line({ place, code, what, fix }: Problem): string {
	return `${place.file}:${place.line}:${place.column} ${code} ${what} [${fix}]`;
}
