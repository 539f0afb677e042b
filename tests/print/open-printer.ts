/** One browser for all prints of a test file: it starts once, and not for each. */

import { afterAll } from "vitest";
import { type BrowserPages, startBrowser } from "../../scripts/print/browser-pages.ts";

/** The packaged one, where there is one, as for pages that tests look at: it takes less of the processor. */
export async function openPrinter(): Promise<BrowserPages> {
	const packaged = await startBrowser({ installed: false });
	const pages = "open" in packaged ? packaged : await startBrowser();
	if (!("open" in pages)) throw new Error(pages.what);
	afterAll(() => pages.close());
	return pages;
}
