/**
 * Prints a document with the browser alone, for the benchmark of printing.
 *
 *   node tests/bench/print-bare.ts <html> <pdf>
 *
 * The browser's own command line would do, but that of the small program without windows never ends
 * with `--print-to-pdf`.
 */

import { pathToFileURL } from "node:url";
import { launch } from "puppeteer-core";
import { findBrowser } from "../../scripts/print/find-browser.ts";

const [html = "", pdf = ""] = process.argv.slice(2);
const found = await findBrowser();
if ("missing" in found) throw new Error(found.missing);
const { browser } = found;
const driven = await launch({
	executablePath: browser.path,
	headless: browser.shell ? "shell" : true,
	env: { ...process.env, ...browser.environment },
	protocolTimeout: 0,
	args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage"],
});
try {
	const page = await driven.newPage();
	await page.goto(pathToFileURL(html).href, { timeout: 0 });
	await page.pdf({ path: pdf, timeout: 0, preferCSSPageSize: true, printBackground: true });
} finally {
	await driven.close();
}
