/** One browser for all prints of a test file: it starts once, and not for each. */

import { afterAll } from "vitest";
import { type BrowserPages, startBrowser } from "../../scripts/print/browser-pages.ts";

export async function openPrinter(): Promise<BrowserPages> {
	const pages = await startBrowser();
	if (!("open" in pages)) throw new Error(pages.what);
	afterAll(() => pages.close());
	return pages;
}
