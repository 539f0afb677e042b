/** Another format is refused with the one command that mends it, and the command mends it. */

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Run } from "../../scripts/commands/run.ts";
import { upgrade } from "../../scripts/commands/upgrade.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { FORMAT } from "../../scripts/validate/check-format.ts";
import { clubCopy } from "../open-fixture.ts";

const CLUB = "_data/club.yaml";

function clubWith(text: string): string {
	const dir = clubCopy();
	writeFileSync(join(dir, CLUB), text);
	return dir;
}

async function upgraded(
	dir: string,
): Promise<{ readonly code: number; readonly said: string; readonly text: string }> {
	const said: string[] = [];
	const run: Run = {
		clubDir: dir,
		outDir: join(dir, "_site"),
		now: new Date("2026-11-30T12:00:00Z"),
		out: { line: (text) => said.push(text), colour: false },
		progress: { stream: { write: () => undefined }, live: false },
	};
	const code = await upgrade(run);
	return { code, said: said.join("\n"), text: readFileSync(join(dir, CLUB), "utf8") };
}

describe("a folder of an older format", () => {
	const older = "# Ours\nname: Marrowby # the club\nformat: 0\ntimezone: Europe/London\n";

	it("is refused with one message, whatever else is in it", () => {
		const dir = clubWith(older);
		writeFileSync(join(dir, "content/drills/floor/rock.md"), "no front matter");
		const { problems, handbook } = openHandbook(dir);
		expect(problems.map(({ code }) => code)).toEqual(["H117"]);
		expect(problems[0]?.fix).toContain("npm run upgrade");
		expect(handbook).toBeUndefined();
	});

	it("is mended by the command, with every other line as it was", async () => {
		const dir = clubWith(older);
		const { code, said, text } = await upgraded(dir);
		expect(code).toBe(0);
		expect(said).toContain("format 0 to 1");
		expect(text).toBe(older.replace("format: 0", `format: ${FORMAT}`));
		expect(openHandbook(dir).problems).toEqual([]);
	});
});

describe("a folder that does not say its format", () => {
	it("is read, and says it after the command, below its first comments", async () => {
		const dir = clubWith("# Ours\r\n\r\nname: Marrowby\r\n");
		expect(openHandbook(dir).problems).toEqual([]);
		expect((await upgraded(dir)).text).toBe(`# Ours\r\n\r\nformat: ${FORMAT}\r\nname: Marrowby\r\n`);
		expect(openHandbook(dir).problems).toEqual([]);
	});
});

describe("a folder of the present format", () => {
	it("stays as it is, byte by byte", async () => {
		const present = `format: ${FORMAT}\nname: Marrowby\n`;
		const { code, said, text } = await upgraded(clubWith(present));
		expect([code, text]).toEqual([0, present]);
		expect(said).toBe(`The folder is in format ${FORMAT}.`);
	});
});

describe("a folder of a newer format", () => {
	it("is refused by both, and says that the program is old", async () => {
		const newer = `name: Marrowby\nformat: ${FORMAT + 1}\n`;
		const dir = clubWith(newer);
		const [found] = openHandbook(dir).problems;
		expect([found?.code, found?.fix]).toEqual([
			"H117",
			expect.stringMatching(/newest version of this program .*download it again, or `git pull`/),
		]);
		const { code, text } = await upgraded(dir);
		expect([code, text]).toEqual([1, newer]);
	});
});
