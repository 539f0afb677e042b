/** Printing under hostile content, and killed outright. The long version of the kills is `npm run trust`. */

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { clubCopy, FIXTURES } from "../open-fixture.ts";
import { openPrinter, threads } from "../print/open-printer.ts";
import { printHostileClub } from "./hostile-print.ts";
import { canListProcesses, killPrint } from "./print-kills.ts";

const browser = await openPrinter();
const folder = mkdtempSync(join(tmpdir(), "print-trust-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.runIf(canListProcesses)("a print that is killed outright", () => {
	it.each([0, 700, 2500])("leaves no browser behind, %i ms after it started one", async (after) => {
		const dir = clubCopy(join(FIXTURES, "clubs", "printed-binder"));
		expect(await killPrint(dir, join(folder, "killed"), after)).toEqual([]);
	});
});

describe("a print of hostile content", () => {
	it("prints its words as words, asks no server and reads no file", async () => {
		const { asked, problems, files, words, canary } = await printHostileClub(folder, 0, { browser, threads });
		expect(asked).toEqual([]);
		expect(files).toBeGreaterThan(5);
		expect(problems).toEqual([]);
		expect(words).toContain("script");
		expect(words).not.toContain(canary);
	});
});
