/** The site and the single sheets: whatever is linked is there, and nothing is linked that is not. */

import { execFile } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, posix } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { FIXTURES, REPOSITORY } from "../open-fixture.ts";
import { sharedSite } from "./build-site.ts";

const out = mkdtempSync(join(tmpdir(), "printed-"));
afterAll(() => rmSync(out, { recursive: true, force: true }));

const run = promisify(execFile);
const command = join(REPOSITORY, "scripts/commands/main.ts");

async function build(dir: string, site: string) {
	const { stdout } = await run(process.execPath, [command, "build", "--club", dir, "--out", site], {
		cwd: REPOSITORY,
		env: { ...process.env },
	});
	return { site, stdout, links: linksIn(site) };
}

/** Page and printed file of every link to one. */
function linksIn(site: string): readonly { readonly page: string; readonly file: string }[] {
	return readdirSync(site, { recursive: true })
		.map(String)
		.filter((name) => name.endsWith(".html"))
		.flatMap((page) =>
			Array.from(
				readFileSync(join(site, page), "utf8").matchAll(/href="([^"]*print\/[^"]*\.pdf)"/g),
				([, href = ""]) => ({ page, file: posix.join(dirname(page), href) }),
			),
		);
}

describe("a build", () => {
	/** Printed once; the last test of it changes the club and builds over it. */
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	let whole: Awaited<ReturnType<typeof build>>;
	beforeAll(async () => {
		cpSync(join(FIXTURES, "clubs", "full-pages"), dir, { recursive: true });
		whole = await build(dir, join(out, "whole"));
	});
	afterAll(() => rmSync(dir, { recursive: true, force: true }));

	it("prints every sheet and links it where it is wanted", () => {
		const { site, stdout, links } = whole;
		expect(stdout).toMatch(/wrote \d+ sheet files to .*print, \d+ sides/);
		for (const { page, file } of links) expect(existsSync(join(site, file)), `${page} → ${file}`).toBe(true);
		for (const [page, file] of [
			["classes/mon/week-1/index.html", SHEET_FILES.classSheet("week-1", "mon")],
			["weeks/week-1/index.html", SHEET_FILES.weekPacket("week-1")],
			["weeks/week-1/index.html", SHEET_FILES.storeRoom("week-1")],
			["weeks/week-1/index.html", SHEET_FILES.labels("week-1")],
			["weeks/week-1/floor/index.html", SHEET_FILES.stationCards("week-1", "floor", 2)],
			["weeks/week-1/floor/index.html", SHEET_FILES.stationCards("week-1", "floor", 4)],
			["weeks/week-1/floor/index.html", SHEET_FILES.floorPlans("week-1", "floor")],
			["levels/senior/index.html", SHEET_FILES.checkSheet("senior")],
			["term/index.html", SHEET_FILES.termOverview()],
			["weeks/index.html", SHEET_FILES.termOverview()],
			["equipment/index.html", SHEET_FILES.storeRoom("week-1")],
		] as const) {
			expect(links, page).toContainEqual({ page, file });
		}
		// The beam has no stations: no cards were made, and none are offered.
		expect(existsSync(join(site, SHEET_FILES.stationCards("week-1", "beam", 2)))).toBe(false);
		expect(existsSync(join(site, SHEET_FILES.weekPacket("week-1")))).toBe(true);
		// What is kept for reading offline leaves the PDF files out.
		const worker = readFileSync(join(site, "worker.js"), "utf8");
		expect(worker).toContain('"path":"assets/site.css"');
		expect(worker).not.toMatch(/"path":"[^"]*\.pdf"/);
	});

	it("keeps what still says the same where it cannot print, and says so first, of no file (H401)", async () => {
		const { site, links } = whole;
		const week = join(dir, "content/weeks/week-3.md");
		writeFileSync(week, readFileSync(week, "utf8").replace(/theme: .*/, "theme: Another theme"));
		const failed = await run(process.execPath, [command, "build", "--club", dir, "--out", site], {
			cwd: REPOSITORY,
			env: { ...process.env, HANDBOOK_BROWSER: "/no/such/program" },
		}).then(
			() => undefined,
			(error: { code: number; stdout: string }) => error,
		);
		expect(failed?.code).toBe(1);
		const said = failed?.stdout.split("\n") ?? [];
		const first = said.findIndex((line) => line.startsWith("Nothing can be printed in this run"));
		expect(first).toBeGreaterThanOrEqual(0);
		expect(said.findIndex((line) => line.startsWith("wrote "))).toBeGreaterThan(first);
		expect(failed?.stdout).toMatch(/error H401/);
		expect(failed?.stdout).not.toContain("club.yaml");
		expect(failed?.stdout).toMatch(/kept \d+ sheet files/);
		const now = linksIn(site);
		for (const { page, file } of now) expect(existsSync(join(site, file)), `${page} → ${file}`).toBe(true);
		const files = new Set(now.map(({ file }) => file));
		expect(files).toContain(SHEET_FILES.classSheet("week-1", "mon"));
		expect(files).toContain(SHEET_FILES.checkSheet("senior"));
		// What the change touches would mislead.
		expect(files).not.toContain(SHEET_FILES.classSheet("week-3", "mon"));
		expect(existsSync(join(site, SHEET_FILES.weekPacket("week-3")))).toBe(false);
		expect(now.length).toBeLessThan(links.length);
		expect(existsSync(join(site, "print/binder.pdf"))).toBe(true);
		// A second such build keeps them as well.
		await run(process.execPath, [command, "build", "--club", dir, "--out", site], {
			cwd: REPOSITORY,
			env: { ...process.env, HANDBOOK_BROWSER: "/no/such/program" },
		}).catch(() => undefined);
		expect(linksIn(site)).toEqual(now);
	});

	it("links nothing without print", async () => {
		const { dir: site } = await sharedSite(`${FIXTURES}clubs/full-pages`);
		expect(linksIn(site)).toEqual([]);
		expect(existsSync(join(site, "print"))).toBe(false);
	});
});
