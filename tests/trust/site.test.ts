/**
 * The published site in a real browser, behind the headers that the build writes for hosts: nothing is
 * asked of anybody else, nothing breaks the policy, and no published script injection runs, whatever
 * field it is written into, even with the policy switched off.
 */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "puppeteer-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { nginxServer } from "../../scripts/views/host-headers.ts";
import { FIXTURES } from "../open-fixture.ts";
import { fullestOfKinds, type Host, hostSite, openBrowser } from "../see-pages.ts";
import { type BuiltSite, buildSite, sharedSite } from "../site/build-site.ts";
import { fullOf } from "./hostile-club.ts";
import injections from "./script-injections.json" with { type: "json" };

const STRINGS = [...injections.strings, ...injections.ours];

let browser: Browser;
const hosts: Host[] = [];

beforeAll(async () => {
	browser = await openBrowser();
});

afterAll(async () => {
	await browser?.close();
	for (const host of hosts) host.close();
});

/** The headers as a static host reads them from `_headers`. */
function headersOf(site: BuiltSite): Record<string, string> {
	return Object.fromEntries(
		readFileSync(join(site.dir, "_headers"), "utf8")
			.split("\n")
			.filter((line) => line.startsWith("  "))
			.map((line) => [line.slice(2, line.indexOf(": ")), line.slice(line.indexOf(": ") + 2)]),
	);
}

async function serve(site: BuiltSite): Promise<string> {
	const host = await hostSite(() => site, { headers: headersOf(site) });
	hosts.push(host);
	return host.root;
}

/** A page of the browser that goes from file to file, and what is heard in it. */
interface Visitor {
	readonly page: Page;
	/** The file that it is at. */
	file: string;
}

/**
 * Six pages go through the files: most of it is waiting whether something is still to come, and a page that
 * is opened anew takes a process of its own.
 */
async function sideBySide(
	files: readonly string[],
	prepare: (visitor: Visitor) => Promise<void>,
	visit: (page: Page, file: string) => Promise<void>,
): Promise<void> {
	const queue = files.values();
	const go = async () => {
		const visitor = { page: await browser.newPage(), file: "" };
		await prepare(visitor);
		for (const file of queue) {
			visitor.file = file;
			await visit(visitor.page, file);
		}
		await visitor.page.close();
	};
	await Promise.all(Array.from({ length: 6 }, go));
}

describe("the site as it is", () => {
	let site: BuiltSite;
	beforeAll(async () => {
		site = await sharedSite(join(FIXTURES, "clubs/full-pages"));
	});

	it("asks nothing of anybody else and breaks no rule of its policy, on every kind of page", async () => {
		const root = await serve(site);
		const strangers: string[] = [];
		const objections: string[] = [];
		const files = [...fullestOfKinds(site).values()];
		expect(files.length).toBeGreaterThan(30);
		const listen = async (visitor: Visitor) => {
			const { page } = visitor;
			page.on("request", (request) => {
				if (!request.url().startsWith(root)) strangers.push(`${visitor.file}: ${request.url()}`);
			});
			page.on("console", (message) => {
				if (message.type() === "error") objections.push(`${visitor.file}: ${message.text()}`);
			});
			page.on("pageerror", (error) => objections.push(`${visitor.file}: ${String(error)}`));
		};
		await sideBySide(files, listen, async (page, file) => {
			await page.goto(root + file.replace(/index\.html$/, ""), { waitUntil: "networkidle0" });
		});
		expect(strangers).toEqual([]);
		expect(objections).toEqual([]);
	});

	it("tells a static host once of every file how long it may be kept", async () => {
		const rules = readFileSync(join(site.dir, "_headers"), "utf8")
			.split("\n\n")
			.flatMap((rule) => {
				const [path = "", ...lines] = rule.split("\n");
				const time = lines.find((line) => line.startsWith("  Cache-Control: "))?.slice(17);
				return time === undefined ? [] : [{ path, time }];
			});
		const timesOf = (file: string) =>
			rules
				.filter(({ path }) => (path.endsWith("*") ? file.startsWith(path.slice(0, -1)) : file === path))
				.map(({ time }) => time);
		for (const file of site.files) {
			if (file === "_headers" || file === ".htaccess") continue;
			const isHashed = /^(offline|media)\//.test(file);
			expect(timesOf(`/${file}`), file).toEqual([
				isHashed ? "public, max-age=31536000, immutable" : "no-cache",
			]);
			if (isHashed) expect(file, "a name with its hash").toMatch(/[\da-f-]{8,}\./);
		}
		expect(timesOf("/")).toEqual(["no-cache"]);
	});

	it("says in every page what it can of the policy, and holds no script or style of its own", async () => {
		const policy = headersOf(site)["Content-Security-Policy"] ?? "";
		expect(policy).not.toMatch(/unsafe|\*|data:|https?:/);
		for (const [file, text] of site.pages) {
			const inPage = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(text)?.[1] ?? "none";
			expect(policy.startsWith(inPage), file).toBe(true);
			expect(text, file).toContain('<meta name="robots" content="noindex">');
			expect(text, file).not.toMatch(/\sstyle="|<style|\son[a-z]+="|<script(?![^>]*\bsrc=)(?![^>]*ld\+json)/);
			expect(text, file).not.toMatch(/(?:src|srcset|poster|data)="(?:https?:)?\/\//);
		}
		for (const text of [readFileSync(join(site.dir, ".htaccess"), "utf8"), nginxServer()]) {
			for (const [name, value] of Object.entries(headersOf(site)))
				expect(text).toContain(`${name} "${value}"`);
		}
	});
});

/** What ran on the pages of a site, with the policy out of the way. */
async function ranOn(root: string, files: readonly string[]): Promise<readonly string[]> {
	const ran: string[] = [];
	const listen = async (visitor: Visitor): Promise<void> => {
		const { page } = visitor;
		await page.setBypassCSP(true);
		await page.exposeFunction("ranHere", (what: string) => ran.push(`${visitor.file}: ${what}`));
		await page.evaluateOnNewDocument(
			`for (const name of ["alert", "confirm", "prompt"]) window[name] = (what) => window.ranHere(name + " " + what);`,
		);
		page.on("dialog", (dialog) => void dialog.dismiss().catch(() => undefined));
	};
	const visit = async (page: Page, file: string): Promise<void> => {
		await page.goto(root + file.replace(/index\.html$/, ""), { waitUntil: "load" });
		// What waits for a hand: every link that would run, and every pointer that passes over.
		const waiting = await page.evaluate(() => {
			const links = [
				...document.querySelectorAll("a[href], area[href], form[action], [srcdoc], iframe, object, embed"),
			];
			const handled = [...document.querySelectorAll("*")].filter((node) =>
				node.getAttributeNames().some((name) => /^on/i.test(name)),
			);
			return [
				...links.filter((node) => {
					const to = node.getAttribute("href") ?? node.getAttribute("action");
					return to === null || !/^(https?|mailto):$/.test(new URL(to, document.baseURI).protocol);
				}),
				...handled,
			].map((node) => node.outerHTML.slice(0, 120));
		});
		ran.push(...waiting.map((what) => `${file}: ${what}`));
	};
	await sideBySide(files, listen, visit);
	return ran;
}

describe("published script injections", () => {
	it("run where nothing is escaped: the check can fail", async () => {
		const page = await browser.newPage();
		const ran: string[] = [];
		page.on("dialog", (dialog) => {
			ran.push(dialog.message());
			dialog.dismiss().catch(() => undefined); // The page may be closed by then.
		});
		// Some of them keep the page from ever being loaded: what counts is that one has run.
		void page.setContent(injections.ours.slice(0, 8).join("\n")).catch(() => undefined);
		await vi.waitFor(() => expect(ran.length).toBeGreaterThan(0), { timeout: 30_000, interval: 100 });
		await page.close();
	});

	it.each([
		[
			"sixty of them in every text field",
			() => {
				// Numbered, as some lists want no two texts alike.
				let at = 0;
				return () => {
					const from = (at++ * 60) % STRINGS.length;
					return `${at} ${STRINGS.slice(from, from + 60).join(" ")}`;
				};
			},
		],
		[
			"one after the other through all text fields",
			() => {
				let at = 0;
				return () => STRINGS[at++ % STRINGS.length] ?? "";
			},
		],
	] as const)("%s: none runs", { timeout: 400_000 }, async (_how, next) => {
		const { dir, fields } = fullOf(next());
		expect(fields.size).toBeGreaterThan(25);
		const site = await buildSite(dir);
		const root = await serve(site);
		// Every body has a page of its own, and every string stands in one of them.
		const bodies = [...site.pages.keys()].filter((file) =>
			/^(drills|guides|weeks)\/[^/]+\/index\.html$/.test(file),
		);
		expect(await ranOn(root, [...new Set([...fullestOfKinds(site).values(), ...bodies])])).toEqual([]);
		expect(
			await ranOn(
				root,
				["search/index.html?q=alert", "search/index.html?q=%3Cscript%3Ealert(1)%3C/script%3E"].map((f) =>
					f.replace("index.html", ""),
				),
			),
		).toEqual([]);
	});
});
