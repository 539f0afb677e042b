/**
 * Ways to the lists below a coverage table, of the demo club, since a small one's lists fit a screen.
 * The lists are laid out when they are come to, so a link to one of them leads to a place that is not
 * known before.
 */

import type { Page } from "puppeteer-core";
import { beforeAll, expect, it } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";
import { type OpenSite, openSite } from "./open-site.ts";

const ADDRESS = "coverage/week-shape/";
const HEIGHT = 740;
/** Milliseconds between two looks, and how often the page has to stand where it stood. */
const PAUSE = 60;
const LOOKS = 6;
/** Looks until it is given up. */
const MOST_LOOKS = 150;

let opened: OpenSite;
/** Of the lists on the page, by their order, one near each end and one between. */
let lists: readonly string[];

beforeAll(async () => {
	opened = await openSite(REPOSITORY);
	const page = opened.site.pages.get(`${ADDRESS}index.html`) ?? "";
	const all = Array.from(page.matchAll(/<div class="cell-list" id="([^"]+)"/g), ([, id = ""]) => id);
	expect(all.length).toBeGreaterThan(60);
	lists = [0.05, 0.5, 0.9].map((share) => all[Math.floor(all.length * share)] ?? "");
	return opened.close;
});

/** Where a list's upper edge stands on the screen, once scrolling, which is smooth, has come to rest. */
async function restingPlace(page: Page, id: string): Promise<number> {
	// Asked from without: where programs are off, none of the page's own waiting works.
	const look = () =>
		page.evaluate((name) => {
			const list = document.getElementById(name);
			return [scrollY, list?.getBoundingClientRect().top ?? Number.NaN] as const;
		}, id);
	let before = await look();
	let same = 0;
	for (let i = 0; i < MOST_LOOKS; i++) {
		await new Promise((resolve) => setTimeout(resolve, PAUSE));
		const now = await look();
		same = now[0] === before[0] && now[1] === before[1] ? same + 1 : 0;
		// A page that has not begun to scroll stands still as well.
		if (same >= LOOKS && now[0] > 0) return now[1];
		before = now;
	}
	throw new Error(`The page does not come to rest at ${id}: ${before}`);
}

it.each([
	["with JavaScript", true],
	["without JavaScript", false],
])("an address with a list's fragment opens at that list, %s", async (_, javaScript) => {
	for (const id of lists) {
		const page = await opened.browser.newPage();
		try {
			await page.setViewport({ width: 360, height: HEIGHT });
			await page.setJavaScriptEnabled(javaScript);
			await page.goto(`${opened.root}${ADDRESS}#${id}`, { waitUntil: "load" });
			const top = await restingPlace(page, id);
			// As far below the edge as the styles ask for everything that is scrolled to.
			const padding = await page.$eval("html", (root) =>
				Number.parseFloat(getComputedStyle(root).scrollPaddingTop),
			);
			expect(Math.abs(top - padding), `${id} stands at ${top} of ${HEIGHT}`).toBeLessThanOrEqual(2);
		} finally {
			await page.close();
		}
	}
});
