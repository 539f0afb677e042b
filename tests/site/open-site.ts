/** A built site behind a server that sends the policy of a careful host, and a browser to look at it. */

import type { Browser, Page } from "puppeteer-core";
import { afterAll } from "vitest";
import { hostSite, openBrowser } from "../see-pages.ts";
import { type BuiltSite, sharedSite } from "./build-site.ts";

export interface OpenSite {
	readonly site: BuiltSite;
	readonly browser: Browser;
	/** The address of the site's home, with its slash. */
	readonly root: string;
}

/** Serves a club that no test changes and starts a browser; all of it ends with the file's tests. */
export async function openSite(clubDir: string): Promise<OpenSite> {
	const site = await sharedSite(clubDir);
	const host = await hostSite(() => site);
	const browser = await openBrowser();
	afterAll(async () => {
		await browser.close();
		host.close();
	});
	return { site, browser, root: host.root };
}

/** Has everything of a page laid out, also what waits until it is come to: it can be measured, and does not move. */
export async function layOutAll(page: Page): Promise<void> {
	await page.evaluate(() => {
		for (const element of document.querySelectorAll<HTMLElement>("main *")) {
			if (getComputedStyle(element).contentVisibility === "auto") element.style.contentVisibility = "visible";
		}
	});
}
