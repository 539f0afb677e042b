import axe from "axe-core";
import type { Browser, HTTPRequest, Page } from "puppeteer-core";
import { afterAll, beforeAll, beforeEach, expect, onTestFinished, test } from "vitest";
import { searchDocuments, searchOptions } from "../../scripts/search/build-search.ts";
import { FACETS, type Filters } from "../../scripts/search/choice.ts";
import { createIndex } from "../../scripts/search/engine.ts";
import { demoHandbook } from "../demo.ts";
import { lookAtAll, openBrowser } from "../see-pages.ts";
import { type ServedPages, servePages } from "./serve-pages.ts";
import { idsFor } from "./small-club.ts";

const handbook = demoHandbook();
const index = createIndex(searchDocuments(handbook), searchOptions(handbook));

/** Results that the page shows at first. */
const PAGE = 20;

const LESS_MOTION = { name: "prefers-reduced-motion", value: "reduce" };

let served: ServedPages;
let browser: Browser;
let page: Page;
/** What went wrong in the page: errors, and everything the policy refused. */
let complaints: string[];

beforeAll(async () => {
	served = await servePages(handbook);
	browser = await openBrowser();
	// One page for all tests: a new one costs as much as what is done in it.
	page = await browser.newPage();
	page.on("pageerror", (error) => complaints.push(String(error)));
	page.on("console", (message) => {
		// Fonts and icons are not served here; the policy's complaints are what counts.
		if (message.type() === "error" && !/404/.test(message.text())) complaints.push(message.text());
	});
});

afterAll(async () => {
	await browser?.close();
	await served?.close();
});

beforeEach(async () => {
	complaints = [];
	await page.setViewport({ width: 360, height: 740, hasTouch: true });
	// Scrolling at once: a click must not miss what still moves.
	await page.emulateMediaFeatures([LESS_MOTION]);
	return async () => {
		await page.goto("about:blank");
		expect(complaints).toEqual([]);
	};
});

async function open(query = ""): Promise<void> {
	await page.goto(`${served.url}search/${query}`, { waitUntil: "networkidle0" });
	await page.waitForSelector(".search-hit, .search-facet");
}

const hits = () =>
	lookAtAll(page, ".search-hit a", (links) =>
		links.map((link) => link.getAttribute("href")?.split("/").at(-2) ?? ""),
	);
const count = () => page.$eval(".search-count", (element) => element.textContent);
const chips = () =>
	lookAtAll(page, ".search-chip:not(.all)", (all) =>
		all.map((chip) => chip.getAttribute("aria-label") ?? ""),
	);
const options = () =>
	lookAtAll(page, '[role="option"]', (all) =>
		all.map((option) => option.firstElementChild?.textContent ?? ""),
	);

/** What the engine says, as far as the page shows it. */
function expected(words: string, filters: Filters = {}): readonly string[] {
	return idsFor(index, words, filters).slice(0, PAGE);
}

async function tick(facet: string, value: string): Promise<void> {
	await page.evaluate(
		(f, v) => {
			const fold = document.querySelector<HTMLDetailsElement>(`[data-facet="${f}"]`);
			const all = document.querySelector<HTMLDetailsElement>(".search-filters");
			if (fold === null || all === null) throw new Error(f);
			all.open = true;
			fold.open = true;
			fold.querySelector(`input[value="${v}"]`)?.scrollIntoView({ block: "center" });
		},
		facet,
		value,
	);
	await page.click(`[data-facet="${facet}"] input[value="${value}"]`);
}

test("where the search cannot be loaded, the lists take its place on the first screen", async () => {
	const withoutHeads = (request: HTTPRequest) =>
		request.url().endsWith("/heads.txt") ? request.respond({ status: 404 }) : request.continue();
	await page.setRequestInterception(true);
	page.on("request", withoutHeads);
	onTestFinished(async () => {
		page.off("request", withoutHeads);
		await page.setRequestInterception(false);
	});
	await page.goto(`${served.url}search/?q=hollow`, { waitUntil: "networkidle0" });
	expect(await count()).toContain("could not be loaded");
	const top = await page.$eval(".search-lists li a", (link) => link.getBoundingClientRect().top);
	expect(top).toBeLessThan(740);
	expect(await page.$eval(".search-filters", (filters) => filters.checkVisibility())).toBe(false);
	await Promise.all([page.waitForNavigation(), page.click(".search-lists li a")]);
	expect(new URL(page.url()).pathname).toMatch(/^\/levels\/.+/);
});

test("typing shows drills at once, and the address follows", async () => {
	await open();
	expect(await hits()).toEqual(expected(""));
	await page.type("#search-words", "dish");
	expect(await hits()).toEqual(expected("dish"));
	await page.waitForFunction(() => location.search === "?q=dish");
	expect(await page.$eval(".search-live", (element) => element.textContent)).toBe(await count());
});

test("a misspelt word is corrected and the page says how it was read", async () => {
	await open();
	await page.type("#search-words", "handstnad wall");
	expect((await hits())[0]).toMatch(/^wall-handstand-(hold|shrug)$/);
	expect(await page.$eval(".search-note", (element) => element.textContent)).toContain("“handstand”");
});

test("filters narrow, count, become chips and come off again", async () => {
	await open("?q=hollow");
	await tick("level", "level-2");
	expect(await hits()).toEqual(expected("hollow", { level: ["level-2"] }));
	await tick("apparatus", "bars");
	const filters = { level: ["level-2"], apparatus: ["bars"] };
	expect(await hits()).toEqual(expected("hollow", filters));
	expect(await chips()).toEqual(["Remove Level: Level 2", "Remove Area or apparatus: Bars"]);
	const counts = index.search("hollow", filters).counts;
	// What a closed fold would show is written when it is opened.
	await page.evaluate(async () => {
		for (const fold of document.querySelectorAll<HTMLDetailsElement>(".search-facet")) fold.open = true;
		await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
	});
	const shown = await lookAtAll(page, "[data-facet] .search-value", (rows) =>
		rows.map((row) => ({
			facet: row.closest<HTMLElement>("[data-facet]")?.dataset.facet ?? "",
			value: row.querySelector("input")?.value ?? "",
			number: row.querySelector(".search-number")?.textContent,
			hidden: (row as HTMLElement).hidden,
		})),
	);
	expect(shown.length).toBeGreaterThan(50);
	for (const { facet, value, number, hidden } of shown) {
		const drills = counts[facet as keyof typeof counts].get(value) ?? 0;
		expect(number, `${facet} ${value}`).toBe(String(drills));
		expect(hidden, `${facet} ${value}`).toBe(drills === 0);
	}
	await page.click(".search-chip");
	expect(await hits()).toEqual(expected("hollow", { apparatus: ["bars"] }));
	await page.goBack();
	await page.waitForFunction(() => document.querySelectorAll(".search-chip:not(.all)").length === 2);
	expect(await hits()).toEqual(expected("hollow", filters));
});

test("a word that is a filter is shown as one, and taken off is a word again", async () => {
	await open();
	await page.type("#search-words", "hollow bars");
	const held = "Area or apparatus: Bars, read from your words. Look for “bars” as a word instead";
	expect(await chips()).toEqual([held]);
	expect(await hits()).toEqual(expected("hollow bars"));
	const onBars = await hits();
	expect(onBars.every((id) => handbook.curriculum.drills.get(id)?.apparatus.includes("bars"))).toBe(true);
	await page.click(".search-chip");
	expect(await chips()).toEqual([]);
	const asText = index.search("hollow bars", {}, { asText: ["bars"] }).hits.slice(0, PAGE);
	expect(await hits()).toEqual(asText.map(({ drill }) => index.entries[drill]?.id));
	await page.waitForFunction(() => location.search === "?q=hollow+bars&word=bars");
	// The same from the link, and whoever starts again means what she writes then.
	await page.reload({ waitUntil: "networkidle0" });
	expect(await chips()).toEqual([]);
	await page.$eval("#search-words", (input) => (input as HTMLInputElement).select());
	await page.keyboard.press("Backspace");
	await page.type("#search-words", "bars");
	expect(await chips()).toEqual([held]);
});

test("what drills must not have is shown as a filter, and a word that was not found is not", async () => {
	await open("?q=handstand+no+wall");
	expect((await chips())[0]).toContain("Without Wall space");
	await open("?q=hollow+trousers+zebra");
	const lacks = await lookAtAll(page, ".search-lacks", (all) => all.map((one) => one.textContent));
	expect(lacks.some((text) => text === "“zebra” not found")).toBe(true);
	expect(lacks.filter((text) => /without/i.test(text))).toEqual([]);
	await open("?q=no+equipment");
	expect(await hits()).toEqual(["quiet-stretch"]);
	await open("?q=no+equipment&apparatus=vault");
	expect(await count()).toBe("No drill");
	expect(await page.$eval(".search-note", (element) => element.textContent)).toContain(
		"needs some equipment",
	);
});

test("the line of a fault that answers is shown", async () => {
	await open("?q=knees+fall+in");
	await page.waitForFunction(() => document.querySelector(".search-fault:not(:empty)") !== null);
	const [fault] = await lookAtAll(page, ".search-hit .search-fault", (all) =>
		all.map((one) => one.textContent),
	);
	expect(fault).toMatch(/^See: .*knees.* Say: /i);
});

test("pages that are no drill stand above the drills, as links that lead there", async () => {
	await open("?q=stall+bars");
	const links = () =>
		lookAtAll(page, ".search-pages a", (all) => all.map((link) => link.getAttribute("href")));
	expect(await links()).toEqual(["../equipment/wall-bars/"]);
	// Nothing is said of a word that is a page's name.
	expect(await page.$eval(".search-note", (note) => (note as HTMLElement).hidden)).toBe(true);
	await open("?q=monday");
	expect(await links()).toContain("../classes/mon-level-1/");
	await Promise.all([page.waitForNavigation(), page.click(".search-pages a")]);
	expect(await page.$eval("h1", (title) => title.textContent)).toContain("Monday");
});

test("filters that filter nothing are not offered, and a key leads from the others to the drills", async () => {
	const offeredNow = async () =>
		lookAtAll(page, ".search-facet", (all) =>
			all
				.filter((fold) => !(fold as HTMLElement).hidden)
				.map((fold) => (fold as HTMLElement).dataset.facet ?? ""),
		);
	// Every cartwheel on the beam goes sideways.
	await open("?q=cartwheel&level=level-3&apparatus=beam");
	expect(await offeredNow()).not.toContain("direction");
	await open("?q=hollow&level=level-2&apparatus=bars");
	await page.click(".search-filters > summary");
	const { counts, found } = index.search("hollow", { level: ["level-2"], apparatus: ["bars"] });
	const offered = await offeredNow();
	for (const facet of FACETS) {
		const narrows = [...counts[facet].values()].some((drills) => drills > 0 && drills < found);
		expect(offered.includes(facet), facet).toBe(narrows || facet === "level" || facet === "apparatus");
	}
	const key = await page.$eval(".search-show", (button) => ({
		text: button.textContent,
		bottom: button.getBoundingClientRect().bottom,
		bar: document.querySelector(".bar")?.getBoundingClientRect().top ?? 0,
	}));
	expect(key.text).toBe(`Show ${found} drills`);
	expect(key.bottom).toBeLessThanOrEqual(key.bar);
	await page.click(".search-show");
	expect(await page.$eval(".search-filters", (all) => (all as HTMLDetailsElement).open)).toBe(false);
	const top = await page.$eval(".search-hit a", (link) => link.getBoundingClientRect().top);
	expect(top).toBeGreaterThanOrEqual(0);
	expect(top).toBeLessThan(370);
});

test("more like a drill opens from a link, says what it is like, and comes off again", async () => {
	await open("?like=bear-walk-reverse&level=level-1");
	const filters = { level: ["level-1"] };
	const alike = index.search("", filters, { like: "bear-walk-reverse" }).hits;
	expect(alike.length).toBeGreaterThan(3);
	expect(await hits()).toEqual(alike.slice(0, PAGE).map(({ drill }) => index.entries[drill]?.id));
	expect((await chips())[0]).toBe("Remove Like: Bear walk backward");
	await page.type("#search-words", "plank");
	expect(await hits()).toEqual(
		index
			.search("plank", filters, { like: "bear-walk-reverse" })
			.hits.slice(0, PAGE)
			.map(({ drill }) => index.entries[drill]?.id),
	);
	await page.keyboard.press("Escape");
	await page.click(".search-chip");
	expect(await hits()).toEqual(expected("plank", filters));
});

test("a drill's page leads to more like it", async () => {
	await page.goto(`${served.url}drills/bear-walk-reverse/`, { waitUntil: "networkidle0" });
	await Promise.all([page.waitForNavigation(), page.click('a[href="../../search/?like=bear-walk-reverse"]')]);
	await page.waitForSelector(".search-hit");
	expect((await hits())[0]).toBe(
		index.entries[index.search("", {}, { like: "bear-walk-reverse" }).hits[0]?.drill ?? -1]?.id,
	);
});

test("summaries come after the first results, into room kept for them", async () => {
	await open("?q=hollow");
	const [first] = index.search("hollow").hits;
	expect(await page.$eval(".search-summary", (element) => element.textContent)).toBe(
		index.summaryOf(first?.drill ?? -1),
	);
	expect(await page.$(".search-hits.waiting")).toBeNull();
});

test("reloading, or opening the link elsewhere, keeps the choice", async () => {
	await open();
	await page.type("#search-words", "roll");
	await page.keyboard.press("Escape");
	await tick("level", "level-1");
	await tick("apparatus", "floor");
	await page.waitForFunction(() => location.search.includes("q=roll") && location.search.includes("floor"));
	const before = await hits();
	const address = page.url();
	await page.reload({ waitUntil: "networkidle0" });
	expect(await hits()).toEqual(before);
	expect(await page.$eval("#search-words", (input) => (input as HTMLInputElement).value)).toBe("roll");
	const other = await browser.createBrowserContext();
	const elsewhere = await other.newPage();
	await elsewhere.goto(address, { waitUntil: "networkidle0" });
	expect(
		await lookAtAll(elsewhere, ".search-hit a", (links) =>
			links.map((a) => a.getAttribute("href")?.split("/").at(-2)),
		),
	).toEqual(before);
	await other.close();
});

test("works by keyboard alone: suggestion, filter, chip, result", async () => {
	await open();
	await page.focus("#search-words");
	await page.keyboard.type("holl");
	expect((await options())[0]).toBe("Hollow");
	expect(await page.$eval("#search-words", (input) => input.getAttribute("aria-expanded"))).toBe("true");
	await page.keyboard.press("ArrowDown");
	const active = await page.$eval("#search-words", (input) => input.getAttribute("aria-activedescendant"));
	expect(await page.$eval(`#${active}`, (option) => option.getAttribute("aria-selected"))).toBe("true");
	await page.keyboard.press("ArrowUp");
	expect(await page.$eval("#search-words", (input) => input.hasAttribute("aria-activedescendant"))).toBe(
		false,
	);
	await page.keyboard.press("ArrowDown");
	await page.keyboard.press("Enter");
	expect(await chips()).toEqual(["Remove Shape: Hollow"]);
	expect(await page.$eval("#search-words", (input) => (input as HTMLInputElement).value)).toBe("");
	expect(await hits()).toEqual(expected("", { shape: ["hollow"] }));

	await page.keyboard.type("roll");
	expect(await options()).not.toEqual([]);
	await page.keyboard.press("Escape");
	expect(await options()).toEqual([]);
	expect(await page.$eval("#search-words", (input) => (input as HTMLInputElement).value)).toBe("roll");

	// On through share button, chip and filters, and a value with the space bar.
	await tabTo(".search-filters > summary");
	await page.keyboard.press("Enter");
	await tabTo('[data-facet="skill"] > summary');
	await page.keyboard.press("Enter");
	expect(await page.$eval('[data-facet="skill"]', (fold) => (fold as HTMLDetailsElement).open)).toBe(true);
	await page.focus(".search-filters > summary");
	await tabTo('[data-facet="level"] input[value="level-3"]');
	await page.keyboard.press("Space");
	expect(await chips()).toEqual(["Remove Shape: Hollow", "Remove Level: Level 3"]);
	expect(await hits()).toEqual(expected("roll", { shape: ["hollow"], level: ["level-3"] }));
	await tabTo(".search-hit a");
	await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
	expect(new URL(page.url()).pathname).toMatch(/^\/drills\/[a-z0-9-]+\/$/);
});

/** Presses Tab until the element has the focus. */
async function tabTo(selector: string): Promise<void> {
	for (let i = 0; i < 60; i++) {
		await page.keyboard.press("Tab");
		if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
	}
	throw new Error(`Tab never reaches ${selector}.`);
}

test("what a thumb presses is big enough, and nothing scrolls sideways on a small phone", async () => {
	await page.setViewport({ width: 320, height: 640, hasTouch: true });
	await open("?q=roll&level=level-2&apparatus=floor");
	await page.evaluate(() => {
		for (const fold of document.querySelectorAll<HTMLDetailsElement>(".search-tool details"))
			fold.open = true;
	});
	const small = await lookAtAll(
		page,
		".search-tool button, .search-tool summary, .search-value, #search-words",
		(all) =>
			all
				.filter((element) => element.checkVisibility())
				.map((element) => ({ text: element.textContent, height: element.getBoundingClientRect().height }))
				.filter(({ height }) => height < 43.5),
	);
	expect(small).toEqual([]);
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
});

test("axe finds nothing to object to, with suggestions and filters open, in light and dark", async () => {
	for (const theme of ["light", "dark"]) {
		await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: theme }, LESS_MOTION]);
		await open("?q=roll&level=level-2");
		await page.evaluate(axe.source);
		await page.evaluate(() => {
			for (const fold of document.querySelectorAll<HTMLDetailsElement>(".search-tool details"))
				fold.open = true;
		});
		await page.focus("#search-words");
		await page.keyboard.press("End");
		await page.keyboard.type(" hol");
		await page.keyboard.press("ArrowDown");
		const violations = await page.evaluate(async () => {
			const { axe: checker } = window as unknown as { axe: typeof axe };
			const found = await checker.run("#search");
			return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`);
		});
		expect(violations, theme).toEqual([]);
	}
});

test("nothing found is said plainly, and no empty filter is offered", async () => {
	await open("?q=brontosaurus");
	expect(await count()).toBe("No drill");
	expect(await hits()).toEqual([]);
	expect(
		await lookAtAll(
			page,
			".search-facet",
			(all) => all.filter((fold) => !(fold as HTMLElement).hidden).length,
		),
	).toBe(0);
});

test("names and words from the club are text, never markup", async () => {
	await open(
		`?q=${encodeURIComponent("<img src=x onerror=alert(1)>")}&shape=${encodeURIComponent("<b>x</b>")}`,
	);
	expect(await page.$$(".search-tool img, .search-tool b")).toEqual([]);
	expect(await chips()).toEqual(["Remove Shape: <b>x</b>"]);
});

test("without JavaScript every list is there as links to pages", async () => {
	await page.setJavaScriptEnabled(false);
	onTestFinished(() => page.setJavaScriptEnabled(true));
	await page.goto(`${served.url}search/`);
	const { curriculum } = handbook;
	const links = await lookAtAll(page, ".search-lists a", (all) =>
		all.map((link) => link.getAttribute("href")),
	);
	for (const [folder, things] of [
		["levels", curriculum.levels],
		["apparatus", curriculum.apparatus],
		["shapes", curriculum.shapes],
		["skills", curriculum.skills],
		["equipment", curriculum.equipment],
	] as const) {
		const field = {
			levels: "levels",
			apparatus: "apparatus",
			shapes: "shapes",
			skills: "skills",
			equipment: "equipment",
		}[folder];
		for (const id of things.keys()) {
			const used = [...curriculum.drills.values()].some((drill) =>
				field === "levels"
					? drill.levels.has(id)
					: field === "equipment"
						? drill.equipment.some((need) => need.item === id)
						: (drill[field as "shapes"] ?? []).includes(id),
			);
			expect(links.includes(`../${folder}/${id}/`), `${folder} ${id}`).toBe(used);
		}
	}
	expect(await page.$eval(".search-tool", (tool) => getComputedStyle(tool).display)).toBe("none");
	await Promise.all([page.waitForNavigation(), page.click('.search-lists a[href="../shapes/hollow/"]')]);
	const tagged = curriculum.shapes.get("hollow")?.drills ?? [];
	const listed = await lookAtAll(page, "main a", (all) => all.map((link) => link.getAttribute("href")));
	expect(tagged.filter((id) => !listed.includes(`../../drills/${id}/`))).toEqual([]);
});
