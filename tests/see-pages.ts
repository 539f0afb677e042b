/** A browser for tests that look at pages, what axe objects to on one, and a host for a built site. */

import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import type { AddressInfo } from "node:net";
import { extname, join } from "node:path";
import type { AxeResults, RunOptions } from "axe-core";
import puppeteer, { type Browser, type Page } from "puppeteer-core";
import { findBrowser } from "../scripts/print/find-browser.ts";
import type { BuiltSite } from "./site/build-site.ts";

/** To be run before anything of a page (`evaluateOnNewDocument`) on which `objectionsTo` is asked. */
export const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const TYPES: Readonly<Record<string, string>> = {
	".html": "text/html; charset=utf-8",
	".js": "text/javascript",
	".css": "text/css",
	".svg": "image/svg+xml",
	".woff2": "font/woff2",
	".png": "image/png",
	".webp": "image/webp",
	".json": "application/json",
	".webmanifest": "application/manifest+json",
};

/** What a careful host sends. */
export const CAREFUL = {
	"Content-Security-Policy": "default-src 'self'; frame-ancestors 'none'; require-trusted-types-for 'script'",
};

/**
 * The packaged browser where there is one: it takes half the processor of an installed one, which has
 * windows. Whoever opens it closes it.
 */
export async function openBrowser(): Promise<Browser> {
	const packaged = await findBrowser({ installed: false });
	const found = "missing" in packaged ? await findBrowser() : packaged;
	if ("missing" in found) throw new Error(found.missing);
	return puppeteer.launch({
		executablePath: found.browser.path,
		headless: found.browser.shell ? "shell" : true,
		env: { ...process.env, ...found.browser.environment },
		args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage"],
	});
}

export interface Host {
	/** The address of the site's home, with its slash. */
	readonly root: string;
	close(): void;
}

/** What somebody on the way answers in place of the host. */
export type Meddled = { readonly status: number; readonly text: string } | "cut";

/**
 * @param site asked for with each answer: what is published may change
 * @param meddle asked first, for each file
 */
export async function hostSite(
	site: () => BuiltSite,
	{
		folder = "/",
		headers = CAREFUL,
		meddle = () => undefined,
	}: {
		readonly folder?: string;
		readonly headers?: Readonly<Record<string, string>>;
		readonly meddle?: (file: string) => Meddled | undefined;
	} = {},
): Promise<Host> {
	const server = createServer((request, response) => {
		const path = decodeURIComponent(new URL(request.url ?? "/", "http://here").pathname);
		const within = path.startsWith(folder) ? path.slice(folder.length) : "outside";
		const file = within === "" || within.endsWith("/") ? `${within}index.html` : within;
		const meddled = meddle(file);
		if (meddled === "cut") {
			request.socket.destroy();
			return;
		}
		const { dir, files } = site();
		const known = files.has(file);
		response.writeHead(meddled?.status ?? (known ? 200 : 404), {
			"Content-Type": TYPES[known ? extname(file) : ".html"] ?? "text/plain",
			...headers,
		});
		response.end(meddled?.text ?? readFileSync(join(dir, known ? file : "404.html")));
	});
	await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
	const root = `http://127.0.0.1:${(server.address() as AddressInfo).port}${folder}`;
	return { root, close: () => server.close() };
}

/** The fullest page of every kind, which has the most that can go wrong: its file by the kind. */
export function fullestOfKinds({ pages }: BuiltSite): ReadonlyMap<string, string> {
	const kinds = new Map<string, string>();
	for (const [file, text] of pages) {
		const kind = /<body class="kind-([^"]+)"/.exec(text)?.[1];
		if (kind === undefined) continue;
		if ((pages.get(kinds.get(kind) ?? "")?.length ?? 0) < text.length) kinds.set(kind, file);
	}
	return kinds;
}

/**
 * What a look at all elements of a selector sees. `page.$$eval` hands them over one by one, and asks the browser
 * four times for each.
 */
export function lookAtAll<T, E extends Element = HTMLElement>(
	page: Page,
	selector: string,
	look: (all: E[]) => T,
): Promise<T> {
	return page.evaluate(
		`(${look})([...document.querySelectorAll(${JSON.stringify(selector)})])`,
	) as Promise<T>;
}

/** What axe finds wrong. It tells of nothing else: listing what passes takes it half of its time. */
export async function objectionsTo(page: Page, options: RunOptions = {}): Promise<readonly string[]> {
	const { violations } = await page.evaluate(
		(options) =>
			(window as unknown as { axe: { run(o: RunOptions): Promise<AxeResults> } }).axe.run({
				...options,
				resultTypes: ["violations"],
			}),
		options,
	);
	return violations.flatMap(({ id, nodes }) =>
		nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 120)} ${failureSummary}`),
	);
}
