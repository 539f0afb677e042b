/** A binder printed again, with work of earlier runs at hand: the same bytes as one printed anew. */

import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { makeFolder } from "../../scripts/files/folder.ts";
import { sealOf } from "../../scripts/files/machine-key.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { type PrintOptions, printBinder } from "../../scripts/print/binder.ts";
import { FIXTURES } from "../open-fixture.ts";
import { openAnotherPrinter, openPrinter, threads } from "./open-printer.ts";

const [browser, another] = [await openPrinter(), await openAnotherPrinter()];

describe("a binder printed again", () => {
	const folder = mkdtempSync(join(tmpdir(), "again-"));
	afterAll(() => rmSync(folder, { recursive: true, force: true }));
	const club = join(folder, "club");
	const cacheDir = join(folder, "cache");
	const weekFile = join(club, "content/weeks/week-1.md");
	let week: string;
	/** With nothing at hand. */
	let anew: Buffer;

	async function print(options: Partial<PrintOptions> = { cacheDir: makeFolder(cacheDir) }): Promise<Buffer> {
		const { handbook, problems } = openHandbook(club);
		if (handbook === undefined) throw new Error(JSON.stringify(problems.map(({ what }) => what)));
		const outFile = join(folder, "binder.pdf");
		const printed = await printBinder(handbook, { outFile, browser, threads, ...options });
		expect(printed.problems).toEqual([]);
		return readFileSync(outFile);
	}

	beforeAll(async () => {
		mkdirSync(club);
		for (const name of ["content", "_data"])
			cpSync(join(FIXTURES, "base-club", name), join(club, name), { recursive: true });
		week = readFileSync(weekFile, "utf8");
		anew = await print();
	});

	it("has the same bytes after a change in one week as one printed anew, by one worker in another browser", async () => {
		writeFileSync(weekFile, `${week.trimEnd()}\n\nKeep the groups small today.\n`);
		const changed = await print();
		expect(changed.equals(anew)).toBe(false);
		expect(changed.equals(await print({ cacheDir: false, workers: 1, browser: another }))).toBe(true);
	});

	it("has its first bytes when the change is undone", async () => {
		writeFileSync(weekFile, week);
		expect((await print()).equals(anew)).toBe(true);
	});

	it("makes anew what was damaged in the cache", async () => {
		const names = readdirSync(cacheDir);
		expect(names.length).toBeGreaterThan(60);
		const before = new Map(names.map((name) => [name, readFileSync(join(cacheDir, name))]));
		for (const [i, [name, entry]] of [...before].entries()) {
			const damaged = Buffer.from(entry);
			const at = Math.floor(damaged.length / 2);
			damaged[at] = (damaged[at] ?? 0) ^ 0xff;
			// Of every third the end is missing instead.
			writeFileSync(join(cacheDir, name), i % 3 === 0 ? entry.subarray(0, at) : damaged);
		}
		expect((await print()).equals(anew)).toBe(true);
		expect(readdirSync(cacheDir).length).toBe(names.length);
		for (const name of readdirSync(cacheDir)) {
			const entry = readFileSync(join(cacheDir, name));
			expect(entry.subarray(0, 32).toString("hex"), name).toBe(sealOf([name, entry.subarray(32)]));
		}
	});
});
