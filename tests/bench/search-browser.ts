/**
 * Times the search page in a browser made as slow as an old phone on a weak net: the processor slowed
 * four times, 1.6 Mb/s with 150 ms to the first byte, nothing kept from before.
 *
 * A time "to paint" ends with the first task after the frame that shows the change; half a frame of it
 * on average, 8 ms, is waiting for the screen.
 */

import puppeteer, { type Browser, type Page } from "puppeteer-core";
import type { Handbook } from "../../scripts/handbook.ts";
import { findBrowser } from "../../scripts/print/find-browser.ts";
import { filesOf } from "../../scripts/search/build-search.ts";
import type { SearchData } from "../../scripts/search/engine.ts";
import { servePages } from "../search/serve-pages.ts";

const SLOWER = 4;
const BITS_PER_SECOND = 1_600_000;
const LATENCY = 150;
const COLD_RUNS = 5;
const BARE_PAGE = "data:text/html,<!DOCTYPE html><input id=search-words type=search><p>";

/** All in milliseconds, shortest first. */
export interface BrowserTimes {
	/** From asking for the page, with words in its address, to the first result on the screen. */
	readonly cold: readonly number[];
	/** From a key to results on the screen. */
	readonly keys: readonly number[];
	/** The same on a page with nothing but a box that repeats what is typed: what the machine costs. */
	readonly bare: readonly number[];
	/** From a filter's change to the page having taken it in, and to the screen. */
	readonly filterWork: readonly number[];
	readonly filterPaint: readonly number[];
}

export interface BrowserBench {
	measure(files: SearchData, typed: readonly string[]): Promise<BrowserTimes>;
	close(): Promise<void>;
}

/** What the page notes of itself. */
interface Noted {
	first?: number;
	keys: number[];
	filterWork: number[];
	filterPaint: number[];
}
declare global {
	interface Window {
		noted: Noted;
	}
}

export async function startBrowser(handbook: Handbook): Promise<BrowserBench> {
	const found = await findBrowser();
	if ("missing" in found) throw new Error(found.missing);
	const browser = await puppeteer.launch({
		executablePath: found.browser.path,
		headless: found.browser.shell ? "shell" : true,
		env: { ...process.env, ...found.browser.environment },
		args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"],
	});
	return {
		async measure(files, typed) {
			const served = await servePages(handbook, {
				likeHost: true,
				files: filesOf(files),
			});
			try {
				// Once without a clock, so that the server has made and compressed the page.
				await coldRun(browser, served.url);
				const cold: number[] = [];
				for (let run = 0; run < COLD_RUNS; run++) cold.push(await coldRun(browser, served.url));
				const bare = await bareRun(browser, typed);
				return { cold: sorted(cold), bare, ...(await warmRun(browser, served.url, typed)) };
			} finally {
				await served.close();
			}
		},
		close: () => browser.close(),
	};
}

async function newPage(browser: Browser): Promise<Page> {
	const context = await browser.createBrowserContext();
	const page = await context.newPage();
	await page.setViewport({ width: 360, height: 740, hasTouch: true, isMobile: true });
	await page.evaluateOnNewDocument(note);
	return page;
}

/** Runs in the page, before its own programs. */
function note(): void {
	const noted: Noted = { keys: [], filterWork: [], filterPaint: [] };
	window.noted = noted;
	const afterPaint = (then: () => void) => requestAnimationFrame(() => setTimeout(then));
	const watch = new MutationObserver(() => {
		if (document.querySelector(".search-hit a") === null) return;
		watch.disconnect();
		afterPaint(() => {
			noted.first = performance.now();
		});
	});
	watch.observe(document, { childList: true, subtree: true });
	addEventListener(
		"input",
		(event) => {
			if ((event.target as HTMLInputElement).type !== "search") return;
			afterPaint(() => noted.keys.push(performance.now() - event.timeStamp));
		},
		true,
	);
	let begun = 0;
	addEventListener(
		"change",
		(event) => {
			if ((event.target as HTMLInputElement).type !== "checkbox") return;
			begun = performance.now();
			afterPaint(() => noted.filterPaint.push(performance.now() - begun));
		},
		true,
	);
	addEventListener("change", (event) => {
		if ((event.target as HTMLInputElement).type !== "checkbox") return;
		noted.filterWork.push(performance.now() - begun);
	});
}

async function coldRun(browser: Browser, url: string): Promise<number> {
	const page = await newPage(browser);
	try {
		const devtools = await page.createCDPSession();
		await devtools.send("Network.enable");
		await devtools.send("Network.emulateNetworkConditions", {
			offline: false,
			latency: LATENCY,
			downloadThroughput: BITS_PER_SECOND / 8,
			uploadThroughput: BITS_PER_SECOND / 8,
		});
		await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
		await page.goto(`${url}search/?q=hollow+level+2`, { waitUntil: "domcontentloaded" });
		await page.waitForFunction(() => window.noted.first !== undefined, { timeout: 120_000 });
		return await page.evaluate(() => window.noted.first ?? Number.NaN);
	} finally {
		await page.browserContext().close();
	}
}

async function warmRun(
	browser: Browser,
	url: string,
	typed: readonly string[],
): Promise<Omit<BrowserTimes, "cold" | "bare">> {
	const page = await newPage(browser);
	try {
		await page.goto(`${url}search/?level=level-1&level=level-2`, { waitUntil: "networkidle0" });
		const devtools = await page.createCDPSession();
		await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
		const keys = await typeAll(page, typed);
		for (const [facet, value] of [
			["apparatus", "bars"],
			["level", "level-2"],
			["level", "level-3"],
			["apparatus", "floor"],
			["level", "level-1"],
			["apparatus", "bars"],
		] as const) {
			for (const words of ["", "roll"]) {
				await page.focus("#search-words");
				await page.keyboard.type(words);
				await pause(120);
				await page.evaluate(
					(f, v) => document.querySelector<HTMLElement>(`[data-facet="${f}"] [value="${v}"]`)?.click(),
					facet,
					value,
				);
				await pause(150);
				await clearWords(page);
			}
		}
		const noted = await page.evaluate(() => window.noted);
		return {
			keys: sorted(keys),
			filterWork: sorted(noted.filterWork),
			filterPaint: sorted(noted.filterPaint),
		};
	} finally {
		await page.browserContext().close();
	}
}

async function bareRun(browser: Browser, typed: readonly string[]): Promise<readonly number[]> {
	const page = await newPage(browser);
	try {
		await page.goto(BARE_PAGE);
		await page.evaluate(() => {
			document.querySelector("input")?.addEventListener("input", (event) => {
				const shown = document.querySelector("p");
				if (shown !== null) shown.textContent = (event.target as HTMLInputElement).value;
			});
		});
		const devtools = await page.createCDPSession();
		await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
		return sorted(await typeAll(page, typed));
	} finally {
		await page.browserContext().close();
	}
}

/** Types letter by letter and gives back how long each took. */
async function typeAll(page: Page, typed: readonly string[]): Promise<readonly number[]> {
	for (const words of typed) {
		await page.focus("#search-words");
		for (const letter of words) {
			await page.keyboard.type(letter);
			await pause(120);
		}
		await clearWords(page);
	}
	return page.evaluate(() => window.noted.keys.splice(0));
}

/** Empties the box without a key that would be timed. */
async function clearWords(page: Page): Promise<void> {
	await page.$eval("#search-words", (box) => {
		const input = box as HTMLInputElement;
		input.value = "";
		input.dispatchEvent(new Event("input", { bubbles: true }));
	});
	await pause(150);
	await page.evaluate(() => window.noted.keys.pop());
}

function pause(milliseconds: number): Promise<void> {
	return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

function sorted(times: readonly number[]): readonly number[] {
	return times.toSorted((a, b) => a - b);
}
