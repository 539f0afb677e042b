/**
 * The handbook without a network, in a real browser, served from a folder of a host that sends the
 * policy of a careful one. The host can go down, publish another edition, break off half way, or be
 * hidden behind a network that answers everything with a page of its own.
 */

import { appendFileSync, cpSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, BrowserContext, Page } from "puppeteer-core";
import sharp from "sharp";
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, it } from "vitest";
import { type EditionList, recordsPath } from "../../scripts/records/edition-list.ts";
import { FIXTURES } from "../open-fixture.ts";
import { type Host, hostSite, lookAtAll, type Meddled, openBrowser } from "../see-pages.ts";
import { type BuiltSite, buildSite } from "./build-site.ts";

const FOLDER = "/club/handbook/";
const OLD_CUE = "Eyes on the <wall>";
const NEW_CUE = "Look at your knees";

let old: BuiltSite;
let next: BuiltSite;
let host: Host;
let browser: Browser;
let root: string;

/** What the host does now. */
let published: BuiltSite;
let meddle: (path: string) => Meddled | undefined;
let asked: string[];

let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
	const club = mkdtempSync(join(inject("shared"), "club-"));
	cpSync(`${FIXTURES}clubs/full-pages`, club, { recursive: true });
	// Large enough for every width that is served.
	const large = sharp({ create: { width: 1600, height: 800, channels: 3, background: "#456" } });
	writeFileSync(join(club, "content/media/wedge.png"), await large.png().toBuffer());
	old = await buildSite(club);
	const drill = join(club, "content/drills/floor/everything.md");
	const text = readFileSync(drill, "utf8");
	expect(text).toContain(OLD_CUE);
	writeFileSync(drill, text.replace(OLD_CUE, NEW_CUE));
	for (const other of ["floor/rock.md", "beam/beam-stand.md"])
		appendFileSync(join(club, "content/drills", other), "\nA quiet end is worth more than a high start.\n");
	next = await buildSite(club);

	host = await hostSite(() => published, {
		folder: FOLDER,
		meddle: (file) => {
			asked.push(file);
			return meddle(file);
		},
	});
	root = host.root;
	browser = await openBrowser();
});

afterAll(async () => {
	await browser?.close();
	host?.close();
});

beforeEach(async () => {
	published = old;
	meddle = () => undefined;
	asked = [];
	complaints = [];
	context = await browser.createBrowserContext();
	page = await context.newPage();
	page.on("pageerror", (error) => complaints.push(String(error)));
	page.on("console", (message) => {
		if (message.type() === "error") complaints.push(`${message.text()} ${message.location().url ?? ""}`);
	});
	await page.setViewport({ width: 360, height: 740 });
});

afterEach(() => context.close());

const open = (address: string) => page.goto(root + address, { waitUntil: "load" });
const heading = () => page.$eval("h1", (h1) => h1.textContent?.trim());
const editionOn = () => page.$eval(".colophon .edition b", (name) => name.textContent);
const editionOf = (site: BuiltSite) =>
	/HANDBOOK_NAME="([^"]+)"/.exec(readFileSync(join(site.dir, "assets/edition.js"), "utf8"))?.[1] ?? "";
const cutNetwork = () => {
	meddle = () => "cut";
	asked = [];
};

/** The files of records of a site's edition. */
function recordsOf(site: BuiltSite): readonly string[] {
	const worker = readFileSync(join(site.dir, "worker.js"), "utf8");
	const list = JSON.parse(/HANDBOOK_EDITION=(\{.*?\});/s.exec(worker)?.[1] ?? "") as EditionList;
	return list.records.map(([, hash]) => recordsPath(hash));
}
const isRecords = (file: string) => /^offline\/[0-9a-f]+\.json$/.test(file);

/** Waits until a page says that everything is kept. */
async function untilKept(): Promise<void> {
	await page.waitForFunction(() => document.documentElement.dataset.kept !== undefined, { timeout: 60_000 });
}

/** Caches of the browser for this handbook, without parts and later files. */
const editionsKept = () =>
	page.evaluate(async () =>
		(await caches.keys())
			.filter((name) => !/ (parts|later)$/.test(name))
			.map((name) => name.split(" ").at(-1)),
	);

it("opens everything without a network after the first visit", async () => {
	await open("");
	await untilKept();
	cutNetwork();

	await open("");
	await Promise.all([page.waitForNavigation(), page.click(".week-card:not([hidden]) h2 a")]);
	expect(await page.$eval("body", (body) => body.className)).toContain("kind-week");
	expect(await heading()).toContain("Week 1");
	await page.goto(new URL("floor/", page.url()).href, { waitUntil: "load" });
	expect(await lookAtAll(page, ".strip svg use", (uses) => uses.length)).toBeGreaterThan(0);
	await open("drills/everything/");
	expect(await heading()).toBe(`Everything & <more> "quoted"`);
	expect(
		await page.$eval(".medium img", async (image) => {
			image.loading = "eager";
			await image.decode();
			return image.naturalWidth;
		}),
	).toBeGreaterThan(0);
	// One size of each picture is kept, and stands in for the others.
	const sizes = await page.$eval(".medium img", async ({ srcset }) => {
		const addresses = srcset
			.split(", ")
			.map((part) => new URL(part.split(" ")[0] ?? "", document.baseURI).href);
		const lengths = addresses.map(async (address) => (await (await fetch(address)).blob()).size);
		return { lengths: await Promise.all(lengths), widths: addresses.length };
	});
	expect(sizes.widths).toBe(3);
	expect(new Set(sizes.lengths).size).toBe(1);
	expect(await page.evaluate(async () => (await document.fonts.load("16px 'Hall Text'")).length)).toBe(1);

	await open("search/");
	await page.type("#search-words", "rock");
	await page.keyboard.press("Enter");
	// Results stand still when they are those of the whole word.
	await page.waitForFunction(() => location.search === "?q=rock");
	await Promise.all([page.waitForNavigation(), page.click(".search-hit a")]);
	expect(await page.$eval("body", (body) => body.className)).toContain("kind-drill");

	for (const [file, text] of old.pages) {
		if (file === "404.html") continue;
		const response = await page.evaluate(
			async (address) => {
				const answer = await fetch(address);
				return { status: answer.status, text: await answer.text() };
			},
			root + file.replace(/index\.html$/, ""),
		);
		expect(response.status, file).toBe(200);
		expect(response.text, file).toBe(text);
	}
	expect(complaints).toEqual([]);
});

it("takes no notice of a query string, and finds a page whose last slash was forgotten", async () => {
	await open("");
	await untilKept();
	cutNetwork();
	await open("search/?q=rock");
	expect(await page.$eval("#search-words", (input) => (input as HTMLInputElement).value)).toBe("rock");
	await open("drills/rock/?from=a-letter#cues");
	expect(await heading()).toBe("Rock on the back");
	await open("drills/rock");
	expect(page.url()).toBe(`${root}drills/rock/`);
	const missing = await open("drills/no-such-drill/");
	expect(missing?.status()).toBe(404);
	expect(await heading()).toBe("Nothing stands here");
});

it("keeps a class's page as it was made, for the next time that the worker has slept", async () => {
	const file = "classes/mon/week-1/index.html";
	await open("classes/mon/week-1/");
	await untilKept();
	await open("drills/everything/");
	cutNetwork();
	await open("classes/mon/week-1/");
	const laid = (path: string) =>
		page.evaluate(async (key) => (await caches.match(key))?.text(), `${root}offline/kept/${path}`);
	await page.waitForFunction(
		async (key) => (await caches.match(key)) !== undefined,
		{},
		`${root}offline/kept/${file}`,
	);
	expect(await laid(file)).toBe(old.pages.get(file));
	expect(await laid("drills/everything/index.html")).toBeUndefined();
	// It is what the page is answered with from now on.
	await page.evaluate(async (key) => {
		const [name = ""] = (await caches.keys()).filter((one) => !/ (parts|later)$/.test(one));
		await (await caches.open(name)).put(key, new Response("<h1>As it was laid</h1>"));
	}, `${root}offline/kept/${file}`);
	await page.goto(`${root}classes/mon/week-1/`);
	expect(await heading()).toBe("As it was laid");
});

it("announces a new edition, changes when she says so, and then wholly", async () => {
	await open("drills/everything/");
	await untilKept();
	published = next;
	asked = [];
	await open("drills/everything/");
	await page.waitForSelector(".edition-bar");
	expect(await page.$eval(".edition-bar p", (text) => text.role)).toBe("status");
	// Nothing has changed yet, on this page and on the next.
	await open("drills/everything/");
	await page.waitForSelector(".edition-bar");
	expect(await editionOn()).toBe(editionOf(old));
	expect(await page.$eval(".cues", (cues) => cues.textContent)).toContain(OLD_CUE);
	const records = asked.filter(isRecords);
	expect(records.length).toBeGreaterThan(0);
	// Files that did not change were not fetched again.
	expect(records.every((file) => !old.files.has(file))).toBe(true);
	expect(records.length).toBeLessThan(recordsOf(next).length);

	await Promise.all([page.waitForNavigation({ waitUntil: "load" }), page.click(".edition-bar button")]);
	expect(await editionOn()).toBe(editionOf(next));
	expect(await page.$eval(".cues", (cues) => cues.textContent)).toContain(NEW_CUE);
	await untilKept();
	expect(await page.$(".edition-bar")).toBeNull();
	cutNetwork();
	for (const address of ["", "weeks/", "classes/mon/week-1/", "coverage/", "drills/rock/"]) {
		await open(address);
		expect(await editionOn(), address).toBe(editionOf(next));
	}
	expect((await editionsKept()).map((name) => name?.split("-")[0])).toEqual([editionOf(next).split(",")[0]]);
});

it("keeps the old edition when the taking of a new one breaks off, and goes on later", async () => {
	await open("");
	await untilKept();
	published = next;
	// Every part that changed comes through but the first one asked for.
	let lost: string | undefined;
	const came = new Set<string>();
	meddle = (file) => {
		if (!isRecords(file) || old.files.has(file)) return undefined;
		lost ??= file;
		if (file !== lost) came.add(file);
		return file === lost ? "cut" : undefined;
	};
	await open("about/");
	await page.waitForFunction(() =>
		document.querySelector("#kept-status")?.textContent?.includes("could not be kept"),
	);
	expect(complaints.some((words) => words.includes("is not kept on this device"))).toBe(true);
	expect(await page.$(".edition-bar")).toBeNull();
	cutNetwork();
	for (const address of ["", "drills/everything/", "classes/mon/week-1/", "search/"]) {
		await open(address);
		expect(await editionOn(), address).toBe(editionOf(old));
	}
	expect(await page.evaluate(async () => (await fetch("../search/heads.txt")).status)).toBe(200);

	meddle = () => undefined;
	asked = [];
	await open("drills/everything/");
	await page.waitForSelector(".edition-bar");
	// What had come is not fetched again.
	const again = asked.filter(isRecords);
	expect(again).toContain(lost);
	expect(again.filter((file) => came.has(file))).toEqual([]);
	await Promise.all([page.waitForNavigation({ waitUntil: "load" }), page.click(".edition-bar button")]);
	expect(await editionOn()).toBe(editionOf(next));
});

it("does not take a hall's sign-in page for a part of the handbook", async () => {
	await open("");
	await untilKept();
	published = next;
	meddle = (file) =>
		isRecords(file) ? { status: 200, text: "<h1>Welcome to the hall's network</h1>" } : undefined;
	await open("about/");
	await page.waitForFunction(() =>
		document.querySelector("#kept-status")?.textContent?.includes("is not the file of this edition"),
	);
	cutNetwork();
	await open("drills/everything/");
	expect(await editionOn()).toBe(editionOf(old));
});

it("says so where the worker cannot be had, and still shows pages", async () => {
	meddle = (file) => (file === "worker.js" ? { status: 500, text: "" } : undefined);
	await open("about/");
	await page.waitForFunction(() =>
		document.querySelector("#kept-status")?.textContent?.includes("could not be kept"),
	);
	expect(complaints.some((words) => words.includes("is not kept on this device"))).toBe(true);
	expect(await heading()).toContain("Safety");
});

it("takes its worker and what it kept away in a preview", async () => {
	await open("");
	await untilKept();
	expect((await editionsKept()).length).toBe(1);
	// The worker answers this address from the network, which by now shows a preview.
	meddle = (file) =>
		file === "preview.html"
			? {
					status: 200,
					text: (old.pages.get("about/index.html") ?? "")
						.replace(/<meta name="handbook-worker"[^>]*>/, "")
						.replaceAll('"../', '"'),
				}
			: undefined;
	await open("preview.html");
	await page.waitForFunction(() => document.querySelector("#kept-status")?.textContent?.includes("preview"));
	await page.waitForFunction(async () => (await navigator.serviceWorker.getRegistrations()).length === 0);
	await page.waitForFunction(async () => (await caches.keys()).length === 0);
	// The worker still answers this page: what is asked for late brings no cache back.
	await page.evaluate(async () => {
		for (const link of document.querySelectorAll<HTMLLinkElement>('link[rel="stylesheet"]'))
			await fetch(link.href);
	});
	expect(await page.evaluate(() => caches.keys())).toEqual([]);
});
