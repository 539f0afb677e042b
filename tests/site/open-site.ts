/**
 * A built site behind a server that sends the policy of a careful host, and a browser to look at it.
 */

import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import puppeteer, { type Browser, type Page } from "puppeteer-core";
import { afterAll } from "vitest";
import { findBrowser } from "../../scripts/print/find-browser.ts";
import { type BuiltSite, sharedSite } from "./build-site.ts";

const TYPES: Readonly<Record<string, string>> = {
	html: "text/html; charset=utf-8",
	js: "text/javascript",
	css: "text/css",
	svg: "image/svg+xml",
	woff2: "font/woff2",
	png: "image/png",
	json: "application/json",
};

export interface OpenSite {
	readonly site: BuiltSite;
	readonly browser: Browser;
	/** The address of the site's home, with its slash. */
	readonly root: string;
}

/** Serves a club that no test changes and starts a browser; all of it ends with the file's tests. */
export async function openSite(clubDir: string): Promise<OpenSite> {
	const site = await sharedSite(clubDir);
	const found = await findBrowser();
	if ("missing" in found) throw new Error(found.missing);
	const server = createServer((request, response) => {
		const path = decodeURIComponent(new URL(request.url ?? "/", "http://here").pathname.slice(1));
		const file = path === "" || path.endsWith("/") ? `${path}index.html` : path;
		const known = site.files.has(file);
		response.writeHead(known ? 200 : 404, {
			"Content-Type": TYPES[known ? (file.split(".").at(-1) ?? "") : "html"] ?? "text/plain",
			"Content-Security-Policy":
				"default-src 'self'; frame-ancestors 'none'; require-trusted-types-for 'script'",
		});
		response.end(readFileSync(join(site.dir, known ? file : "404.html")));
	});
	await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
	const browser = await puppeteer.launch({
		executablePath: found.browser.path,
		headless: found.browser.shell ? "shell" : true,
		env: { ...process.env, ...found.browser.environment },
		args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage"],
	});
	afterAll(async () => {
		await browser.close();
		server.close();
	});
	return { site, browser, root: `http://127.0.0.1:${(server.address() as AddressInfo).port}/` };
}

/** Has everything of a page laid out, also what waits until it is come to: it can be measured, and does not move. */
export async function layOutAll(page: Page): Promise<void> {
	await page.evaluate(() => {
		for (const element of document.querySelectorAll<HTMLElement>("main *")) {
			if (getComputedStyle(element).contentVisibility === "auto") element.style.contentVisibility = "visible";
		}
	});
}
