/** A built site behind a server that sends the policy of a careful host, and a browser to look at it. */

import type { Browser, ConsoleMessage, Page } from "puppeteer-core";
import { CAREFUL, hostSite, openBrowser } from "../see-pages.ts";
import { type BuiltSite, sharedSite } from "./build-site.ts";

export interface OpenSite {
	readonly site: BuiltSite;
	readonly browser: Browser;
	/** The address of the site's home, with its slash. */
	readonly root: string;
	/** To be given back by the hook that opened it: a hook that is made inside of another never runs. */
	readonly close: () => Promise<void>;
}

/** A worker that keeps nothing: taking the handbook in costs more than a page does. */
const IDLE_WORKER = { status: 200, text: "" };

/** What does not change is fetched once. */
const HEADERS = { ...CAREFUL, "Cache-Control": "max-age=3600" };

/** Serves a club that no test changes and starts a browser. */
export async function openSite(clubDir: string): Promise<OpenSite> {
	const site = await sharedSite(clubDir);
	const host = await hostSite(() => site, {
		headers: HEADERS,
		meddle: (file) => (file === "worker.js" ? IDLE_WORKER : undefined),
	});
	const browser = await openBrowser();
	const close = async () => {
		await browser.close();
		host.close();
	};
	return { site, browser, root: host.root, close };
}

/** Has everything of a page laid out, also what waits until it is come to: it can be measured, and does not move. */
export async function layOutAll(page: Page): Promise<void> {
	await page.evaluate(() => {
		for (const element of document.querySelectorAll<HTMLElement>("main *")) {
			if (getComputedStyle(element).contentVisibility === "auto") element.style.contentVisibility = "visible";
		}
	});
}

/** What went wrong in a page from now on. */
export function complaintsOf(page: Page): { readonly heard: readonly string[]; readonly end: () => void } {
	const heard: string[] = [];
	const onError = (error: unknown) => heard.push(String(error));
	const onConsole = (message: ConsoleMessage) => {
		if (message.type() === "error") heard.push(`${message.text()} ${message.location().url ?? ""}`);
	};
	page.on("pageerror", onError).on("console", onConsole);
	return { heard, end: () => page.off("pageerror", onError).off("console", onConsole) };
}
