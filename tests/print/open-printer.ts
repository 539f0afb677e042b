/** What prints of tests share: a browser and threads that read PDFs start once in a process, and end with it. */

import { afterAll } from "vitest";
import { type BrowserPages, startBrowser } from "../../scripts/print/browser-pages.ts";
import { PdfThreads } from "../../scripts/print/pdf-threads.ts";

let running: Promise<BrowserPages> | undefined;

export function openPrinter(): Promise<BrowserPages> {
	running ??= start();
	return running;
}

/** One for a file alone, which is closed after it. */
export async function openAnotherPrinter(): Promise<BrowserPages> {
	const pages = await start();
	afterAll(() => pages.close());
	return pages;
}

/** The packaged one, where there is one, as for pages that tests look at: it takes less of the processor. */
async function start(): Promise<BrowserPages> {
	const packaged = await startBrowser({ installed: false });
	const pages = "open" in packaged ? packaged : await startBrowser();
	if (!("open" in pages)) throw new Error(pages.what);
	return pages;
}

/** They have loaded what reads PDFs, and run it compiled. */
export const threads = new PdfThreads(2);
