/**
 * The browser as the printer drives it: pages in which nothing is left to chance, restarted when it dies.
 *
 * A page has no network, a clock that stands still and the same random numbers every time, so that
 * the same content gives the same bytes. Hidden pages get no animation frames from the browser,
 * which Paged.js waits for; they get them over a message channel instead. A page that is given back is
 * emptied for whoever opens the next: a process of its own takes a third of a second to start.
 */

import { join } from "node:path";
import { build } from "esbuild";
import puppeteer, { type Browser as Driven, type Page } from "puppeteer-core";
import { PROGRAM, packageFolder, readProgramText } from "../files/program.ts";
import { NOWHERE, type Problem, problem } from "../problems.ts";
import { type Browser, type BrowserSearch, findBrowser } from "./find-browser.ts";

export interface BrowserPages {
	/** The browser's name and version: a part of what laid-out pages depend on. */
	readonly version: string;
	/** Opens a page in a process of its own, in a browser that lives; or an emptied one. */
	open(): Promise<OpenPage>;
	close(): Promise<void>;
}

export interface OpenPage {
	/**
	 * Works in the page. Rejects when the work does, when the page or the browser dies, or after the
	 * limit; the page is then of no further use.
	 *
	 * @param limit milliseconds
	 */
	run<T>(limit: number, work: (page: Page) => Promise<T>): Promise<T>;
	/** Gives it back, where all work in it was done. */
	release(): Promise<void>;
	/** Ends its process: nothing of it, and none of its memory, is used again. */
	close(): Promise<void>;
}

/** What all pages run before anything else. */
export interface PageScripts {
	/** Paged.js and the printer's own functions, to be run in a page. */
	readonly layout: string;
	readonly own: string;
}

/** Reads and translates the scripts that run in pages. */
export async function readPageScripts(): Promise<PageScripts> {
	const pagedjs = join(packageFolder("pagedjs-cli"), "dist", "browser.js");
	return {
		layout: `window.PagedConfig = { auto: false };\n${readProgramText(pagedjs)}`,
		own: await scriptOf("in-page.ts"),
	};
}

/** The script that draws the marks of an update. */
export function readMarkScript(): Promise<string> {
	return translated("draw-marks.ts");
}

/** A script for pages, with what all of them share. */
export async function scriptOf(file: string): Promise<string> {
	return (await Promise.all(["enlarge-letters.ts", file].map(translated))).join("\n");
}

async function translated(file: string): Promise<string> {
	const { outputFiles } = await build({
		entryPoints: [join(PROGRAM, "scripts/print", file)],
		bundle: true,
		write: false,
		format: "iife",
		target: "chrome110",
	});
	return outputFiles.map(({ text }) => text).join("");
}

/** Where to look for a browser, or one that the caller has open for several prints, and closes. */
export type BrowserChoice = BrowserSearch | BrowserPages;

/** The browser to print with; else H401. */
export async function startBrowser(choice: BrowserChoice = {}): Promise<BrowserPages | Problem> {
	if ("open" in choice) return { ...choice, close: async () => undefined };
	const found = await findBrowser(choice);
	if ("missing" in found) return problem("H401", NOWHERE, found.missing);
	const { browser } = found;
	try {
		return await openBrowser(browser);
	} catch (error) {
		const why = error instanceof Error ? error.message.split("\n").slice(0, 3).join(" ") : String(error);
		return problem("H401", NOWHERE, `The browser ${browser.path} did not start: ${why}`);
	}
}

/** Starts the browser. Throws where it does not start. */
export async function openBrowser(browser: Browser): Promise<BrowserPages> {
	let driven = await start(browser);
	const version = await driven.version();
	let restarting: Promise<Driven> | undefined;
	/** Emptied pages of the browser that lives. */
	const idle: OpenPage[] = [];

	/** The browser, started again if it died; several pages may find it dead at once. */
	async function living(): Promise<Driven> {
		if (driven.connected) return driven;
		idle.length = 0;
		restarting ??= start(browser).finally(() => {
			restarting = undefined;
		});
		driven = await restarting;
		return driven;
	}

	return {
		version,
		async open() {
			const browser = await living();
			const emptied = idle.pop();
			if (emptied !== undefined) return emptied;
			const context = await browser.createBrowserContext();
			const page = await context.newPage();
			page.setDefaultTimeout(0);
			await page.setOfflineMode(true);
			await page.evaluateOnNewDocument(STEADY);
			await page.goto("about:blank");
			// A page that has died cannot be closed, and need not be.
			const close = () => context.close().catch(() => undefined);
			const open: OpenPage = {
				run: (limit, work) => within(limit, page, () => work(page)),
				release: () => page.goto("about:blank").then(() => void idle.push(open), close),
				close,
			};
			return open;
		},
		close: () => driven.close().catch(() => undefined),
	};
}

async function start(browser: Browser): Promise<Driven> {
	const driven = await launched(browser);
	// Who writes to a browser that has just ended is told so by its answer; here it would end this program.
	for (const pipe of driven.process()?.stdio ?? []) pipe?.on("error", () => undefined);
	return driven;
}

async function launched(browser: Browser): Promise<Driven> {
	const isRoot = process.getuid?.() === 0;
	const launch = (sandbox: boolean) =>
		puppeteer.launch({
			executablePath: browser.path,
			headless: browser.shell ? "shell" : true,
			env: { ...process.env, ...browser.environment },
			// By a pipe, not a port: the browser ends with this program even where that is killed outright, and
			// no other program can reach it.
			pipe: true,
			protocolTimeout: 0,
			timeout: 60_000,
			// The command that prints decides about signals, and closes the browser itself.
			handleSIGINT: false,
			handleSIGTERM: false,
			handleSIGHUP: false,
			args: [
				"--disable-gpu",
				"--disable-quic",
				"--disable-dev-shm-usage",
				"--font-render-hinting=none",
				"--force-color-profile=srgb",
				"--lang=en",
				...(sandbox ? [] : ["--no-sandbox"]),
			],
		});
	if (isRoot) return launch(false);
	try {
		return await launch(true);
	} catch (error) {
		// Containers and some systems forbid the sandbox. The pages are our own, and have no network.
		if (/sandbox/i.test(String(error))) return launch(false);
		throw error;
	}
}

/** Does the work, unless the page dies or the time is over first. */
async function within<T>(limit: number, page: Page, work: () => Promise<T>): Promise<T> {
	return new Promise((resolve, reject) => {
		const browser = page.browser();
		const timer = setTimeout(
			() => fail(new Error(`no result after ${Math.round(limit / 1000)} seconds`)),
			limit,
		);
		const fail = (error: unknown) => {
			stop();
			reject(error);
		};
		const onEnd = () => fail(new Error("the browser ended"));
		const onClose = () => fail(new Error("the page was closed"));
		const stop = () => {
			clearTimeout(timer);
			page.off("error", fail);
			page.off("close", onClose);
			browser.off("disconnected", onEnd);
		};
		page.on("error", fail);
		page.on("close", onClose);
		browser.on("disconnected", onEnd);
		work().then((result) => {
			stop();
			resolve(result);
		}, fail);
	});
}

/** Pixels of an inch: https://www.w3.org/TR/css-values-4/#absolute-lengths */
const CSS_INCH = 96;

/**
 * A page as a PDF on paper of a size in pixels, without margins, outline or heads of the browser's own.
 *
 * @param tagged with the structure that screen readers follow
 */
export async function printedPage(
	page: Page,
	paper: { readonly width: number; readonly height: number },
	tagged: boolean,
): Promise<Uint8Array> {
	// The library's own call takes the file in pieces, and turns each into bytes slowly.
	const session = await page.createCDPSession();
	const { data } = await session.send("Page.printToPDF", {
		paperWidth: paper.width / CSS_INCH,
		paperHeight: paper.height / CSS_INCH,
		marginTop: 0,
		marginBottom: 0,
		marginLeft: 0,
		marginRight: 0,
		printBackground: true,
		generateTaggedPDF: tagged,
		generateDocumentOutline: false,
		transferMode: "ReturnAsBase64",
	});
	await session.detach();
	return Buffer.from(data, "base64");
}

/** Run in every page before its own scripts. The moment is arbitrary: nothing on paper shows it. */
const STEADY = `(() => {
	let seed = 20011;
	Math.random = () => (seed = (seed * 48271) % 2147483647) / 2147483647;
	const moment = 978307200000;
	const RealDate = Date;
	globalThis.Date = class extends RealDate {
		constructor(...parts) {
			if (parts.length === 0) super(moment);
			else super(...parts);
		}
		static now() {
			return moment;
		}
	};
	performance.now = () => 0;
	const waiting = new Map();
	let last = 0;
	const channel = new MessageChannel();
	channel.port1.onmessage = ({ data }) => {
		const call = waiting.get(data);
		waiting.delete(data);
		call?.(0);
	};
	globalThis.requestAnimationFrame = (call) => {
		last += 1;
		waiting.set(last, call);
		channel.port2.postMessage(last);
		return last;
	};
	globalThis.cancelAnimationFrame = (handle) => waiting.delete(handle);
	globalThis.requestIdleCallback = (call) =>
		globalThis.requestAnimationFrame(() => call({ didTimeout: false, timeRemaining: () => 50 }));
	// Paged.js watches finished pages for changes of size; ours do not change.
	globalThis.ResizeObserver = class {
		observe() {}
		unobserve() {}
		disconnect() {}
	};
})()`;
