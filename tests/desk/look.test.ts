/** How the desk looks: the site's own colours, each said once, and readable in the dark and in French. */

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import axe from "axe-core";
import { expect, it } from "vitest";
import { deskAssets } from "../../scripts/desk/desk-assets.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";
import { openBrowser, serveDesk, settled } from "./open-desk.ts";

it("has the site's colours and typeface from the one place where they are said", async () => {
	const textOf = (file: string) => readFileSync(join(REPOSITORY, "layouts", file), "utf8");
	const said = (text: string) => Array.from(text.matchAll(/^\s*(--[\w-]+):/gm), ([, name]) => name);
	const tokens = said(textOf("styles/tokens.css"));
	expect(tokens).toContain("--signal");
	for (const file of ["styles/site.css", "desk/desk.css"]) {
		const text = textOf(file);
		// What is printed, or has forced colours, may say them otherwise, further down.
		const root = /^:root \{[^}]*\}/m.exec(text)?.[0] ?? "";
		expect(root, file).toContain("--radius");
		expect(
			said(root).filter((name) => tokens.includes(name)),
			file,
		).toEqual([]);
		expect(text, file).not.toContain("@font-face");
	}
	const assets = await deskAssets(wordsFor("en"));
	const styles = String(assets.get("desk.css")?.body);
	const fonts = Array.from(styles.matchAll(/url\("?([^")]+\.woff2)"?\)/g), ([, name]) => name ?? "");
	expect(fonts).toHaveLength(2);
	for (const font of fonts) expect(assets.has(font), font).toBe(true);
});

it("is readable in the dark, in French, at 360, 820 and 1280 pixels, whatever is shown", async () => {
	const dir = clubCopy();
	const club = join(dir, "_data/club.yaml");
	writeFileSync(club, `${readFileSync(club, "utf8").replace(/^language:.*\n/m, "")}language: fr\n`);
	const served = await serveDesk(dir);
	const page = await (await openBrowser()).newPage();
	await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "dark" }]);
	await page.setViewport({ width: 1280, height: 900 });
	await page.goto(served.address);
	await settled(page);
	expect(await page.$eval("html", (root) => root.lang)).toBe("fr");
	await page.evaluate(axe.source);
	for (const width of [1280, 820, 360]) {
		await page.setViewport({ width, height: 900 });
		for (const [hash, part] of [
			["board", ".board"],
			["findings", ".view-findings h2"],
			["files", ".things li"],
			["publish", ".view-publish form"],
		] as const) {
			await page.evaluate((to) => {
				location.hash = to;
			}, hash);
			await page.waitForSelector(part);
			const { violations } = await page.evaluate(() =>
				(globalThis as unknown as { axe: typeof axe }).axe.run(document, {
					runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
				}),
			);
			expect(
				violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`),
				`${hash} ${width}`,
			).toEqual([]);
			const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
			expect(wide, `${hash} ${width}`).toBeLessThanOrEqual(0);
		}
	}
});
