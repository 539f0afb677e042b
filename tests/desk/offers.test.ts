/** The solver at the desk: a week that is too full is mended by one press, shown first, left, and taken. */

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { openHandbook } from "../../scripts/handbook.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";
import { MouseHands, openBrowser, serveDesk, settled } from "./open-desk.ts";

it("shows what the solver offers on the plan, leaves it, and takes it", async () => {
	const dir = clubCopy(undefined, REPOSITORY);
	const path = join(dir, "content/weeks/week-02.md");
	// Five minutes more than the class of Tuesday has.
	const sound = readFileSync(path, "utf8");
	const full = sound.replace(
		"minutes: 21\n        show: 1\n        levels: level-2",
		"minutes: 26\n        show: 1\n        levels: level-2",
	);
	expect(full).not.toBe(sound);
	writeFileSync(path, full);
	const tooFull = () =>
		(openHandbook(dir).handbook?.findings ?? []).filter(
			({ code, about }) => code === "H308" && about.week === 2,
		);
	expect(tooFull()).not.toEqual([]);
	const served = await serveDesk(dir);
	const browser = await openBrowser();
	const page = await browser.newPage();
	await page.setViewport({ width: 1280, height: 900 });
	await page.goto(served.address);
	await page.waitForSelector(".board");
	await settled(page);
	const hands = new MouseHands(page);
	const offered = async (): Promise<number> => {
		await hands.press("Mend this week");
		await page.waitForSelector(".notice.offer", { timeout: 90_000 });
		return page.$$eval(".card.is-new, .card.is-gone", (cards) => cards.length);
	};
	await page.select(".whose select", "all:");
	await hands.pressAt("#week-2 .week-open");
	expect(await offered()).toBeGreaterThan(1);
	expect(await page.$eval(".notice.offer", (bar) => (bar as HTMLElement).textContent)).toMatch(
		/Proved|in the time/,
	);
	await hands.press("Leave it");
	expect(await page.$$(".card.is-new, .card.is-gone")).toHaveLength(0);
	expect(readFileSync(path, "utf8")).toBe(full);
	await offered();
	await hands.press("Take it");
	await page.waitForFunction(() => document.querySelector(".notice.offer") === null);
	await settled(page);
	expect(tooFull()).toEqual([]);
	await hands.press("Undo");
	expect(readFileSync(path, "utf8")).toBe(full);
});
