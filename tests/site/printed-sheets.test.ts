/** The site and the single sheets: whatever is linked is there, and nothing is linked that is not. */

import { execFile } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, posix } from "node:path";
import { promisify } from "node:util";
import { afterAll, describe, expect, it } from "vitest";
import { SHEET_FILES } from "../../scripts/render/addresses.ts";
import { clubCopy, FIXTURES, REPOSITORY } from "../open-fixture.ts";

const out = mkdtempSync(join(tmpdir(), "printed-"));
afterAll(() => rmSync(out, { recursive: true, force: true }));

const run = promisify(execFile);
const command = join(REPOSITORY, "scripts/commands/main.ts");

async function build(dir: string, name: string, ...args: readonly string[]) {
	const site = join(out, name);
	const { stdout } = await run(process.execPath, [command, "build", "--club", dir, "--out", site, ...args], {
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
	it("prints every sheet and links it where it is wanted", async () => {
		const { site, stdout, links } = await build(
			clubCopy(undefined, join(FIXTURES, "clubs", "full-pages")),
			"whole",
		);
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
		const listed: unknown = JSON.parse(readFileSync(join(site, ".handbook-files.json"), "utf8"));
		expect(listed).toContain(SHEET_FILES.weekPacket("week-1"));
		// What is kept for reading offline leaves the PDF files out.
		const packed = readdirSync(site, { recursive: true })
			.map(String)
			.filter((name) => /edition|packs\//.test(name) && /\.(js|json)$/.test(name));
		for (const name of packed) expect(readFileSync(join(site, name), "utf8")).not.toContain("packet.pdf");
	});

	it("links nothing without print", async () => {
		const { site, links } = await build(
			clubCopy(undefined, join(FIXTURES, "clubs", "full-pages")),
			"plain",
			"--no-print",
		);
		expect(links).toEqual([]);
		expect(existsSync(join(site, "print"))).toBe(false);
	});
});
