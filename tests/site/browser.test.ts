/**
 * Built pages in a real browser: one page of every kind, narrow and wide, light and dark, and what
 * the browser programs add. The server sends the policy that a careful host sends.
 */

import type { Browser, Page } from "puppeteer-core";
import { beforeAll, expect, it } from "vitest";
import { FIXTURES } from "../open-fixture.ts";
import { AXE, fullestOfKinds, lookAtAll, objectionsTo } from "../see-pages.ts";
import type { BuiltSite } from "./build-site.ts";
import { complaintsOf, layOutAll, openSite } from "./open-site.ts";

let site: BuiltSite;
let browser: Browser;
let root: string;
/** One page for all looks: a new one costs as much as a look. */
let page: Page;
/** One page of every kind, by the kind. */
let kinds: ReadonlyMap<string, string>;

beforeAll(async () => {
	const open = await openSite(`${FIXTURES}clubs/full-pages`);
	({ site, browser, root } = open);
	page = await browser.newPage();
	kinds = fullestOfKinds(site);
	return open.close;
});

const LESS_MOTION = { name: "prefers-reduced-motion", value: "reduce" };

interface Look {
	readonly width: number;
	readonly theme?: "light" | "dark";
	/** Runs before anything of the page. */
	readonly first?: string;
}

/** Opens a page, looks at it, and fails on anything that the browser complains about. */
async function look<T>(
	file: string,
	{ width, theme = "light", first }: Look,
	see: (page: Page) => Promise<T>,
): Promise<T> {
	const complaints = complaintsOf(page);
	await page.emulateMediaType();
	await page.setViewport({ width, height: 740 });
	await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: theme }, LESS_MOTION]);
	const own = first === undefined ? undefined : await page.evaluateOnNewDocument(first);
	await page.goto(root + file.replace(/index\.html$/, ""), { waitUntil: "load" });
	await layOutAll(page);
	const seen = await see(page);
	if (own !== undefined) await page.removeScriptToEvaluateOnNewDocument(own.identifier);
	await page.goto("about:blank");
	complaints.end();
	expect(complaints.heard, file).toEqual([]);
	return seen;
}

it("has a page of every kind to look at", () => {
	expect(kinds.size).toBe(38);
});

/** What is wrong with the pages, by what they are held against. */
const wrong = new Map<string, string[]>();

/** In the page: what can be tapped and is lower or narrower than it may be; in sentences only the height counts. */
function tooSmall(): readonly string[] {
	const LEAST = [
		// WCAG 2.2, 2.5.8; links within a sentence are its exception, ours are as high all the same.
		[
			"button, summary, select, input:not([type=radio], [type=checkbox]), main :is(h2, h3, h4, th, nav, label) > a",
			24,
			24,
		],
		["main :is(p, li, td, dd, span, strong) > a", 0, 24],
		// What a coach taps in the hall: WCAG 2.2, 2.5.5.
		[
			".bar :is(a, button), .panel :is(a, button), .top a, .top button, .chip, .tile, .button, summary, .beside a, .run a, .sheets a, .week-rows a, .all a",
			44,
			44,
		],
	] as const;
	return LEAST.flatMap(([selector, width, height]) =>
		[...document.querySelectorAll<HTMLElement>(selector)].flatMap((target) => {
			if (!target.checkVisibility()) return [];
			const box = target.getBoundingClientRect();
			return box.width < width || box.height < height
				? [`${target.outerHTML.slice(0, 90)}: ${box.width} × ${box.height}, not ${width} × ${height}`]
				: [];
		}),
	);
}

/**
 * In the page: of elements beside each other that are alike, ten stay. All were looked at before; the theme and the
 * width do the same to each. Of the author guide's 5,610 elements 1,192 stay, and axe takes a sixth of the time.
 */
function thinOut(): void {
	for (const parent of document.querySelectorAll("main, main *")) {
		const alike = Map.groupBy(parent.children, (child) => `${child.localName} ${child.className}`);
		for (const children of alike.values()) for (const child of children.slice(10)) child.remove();
	}
}

const PHONE = { width: 360, height: 740 };

/** In the page: how far it goes past the screen, and the words of the keys below that stand outside their key. */
function cutOff(): readonly string[] {
	const over = document.documentElement.scrollWidth - window.innerWidth;
	const keys = [...document.querySelectorAll<HTMLElement>(".bar :is(a, button)")].filter((key) => {
		const box = key.getBoundingClientRect();
		const words = document.createRange();
		words.selectNodeContents(key);
		const { left, right, bottom } = words.getBoundingClientRect();
		return left < box.left || right > box.right || bottom > innerHeight;
	});
	return [...(over > 0 ? [`${over} px`] : []), ...keys.map(({ textContent }) => textContent)];
}

/** All of it in one visit of each: opening a page costs more than most looks at it. */
beforeAll(async () => {
	const session = await page.createCDPSession();
	const letters = (standard: number) => session.send("Page.setFontSizes", { fontSizes: { standard } });
	for (const [kind, file] of kinds) {
		await look(file, { width: 320, first: AXE }, async (page) => {
			const note = (what: string, found: readonly string[]) =>
				wrong.set(what, [...(wrong.get(what) ?? []), ...found.map((one) => `${file} ${one}`)]);
			const dark = { name: "prefers-color-scheme", value: "dark" };
			const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
			note("over", over > 0 ? [`${over} px`] : []);
			await page.setViewport(PHONE);
			note("small", await page.evaluate(tooSmall));
			for (const size of [24, 32]) {
				await letters(size);
				note("large", await page.evaluate(cutOff));
			}
			await letters(16);
			note("narrow, light", await objectionsTo(page));
			await page.evaluate(thinOut);
			await page.emulateMediaFeatures([dark, LESS_MOTION]);
			note("narrow, dark", await objectionsTo(page, { runOnly: ["color-contrast"] }));
			await page.setViewport({ width: 1280, height: 740 });
			// With room for them its filters are open from the start.
			if (kind === "search") await page.reload({ waitUntil: "load" });
			note("wide, dark", await objectionsTo(page));
		});
	}
}, 300_000);

it.each([
	["fits a screen of 320 pixels without scrolling sideways", "over"],
	// WCAG 2.2, 1.4.4: text to 200 %, by the browser's own setting, on a phone.
	["is whole, and so are its keys, with letters half as large again and twice as large", "large"],
	["has nothing too small to tap: 24 pixels, 44 in the hall", "small"],
	["has nothing that axe objects to, at 360 pixels, light", "narrow, light"],
	// What the theme changes is contrast; what the width changes is anything.
	["has a contrast that axe does not object to, at 360 pixels, dark", "narrow, dark"],
	["has nothing that axe objects to, at 1280 pixels, dark", "wide, dark"],
])("%s", (_, what) => {
	expect(wrong.get(what)?.slice(0, 10)).toEqual([]);
});

it("has no key for an emergency where the club says nothing of one", () => {
	for (const [file, text] of site.pages)
		expect(text, file).not.toMatch(/emergency-key|emergency-panel|In an emergency/);
});

it("shows where the keyboard is", async () => {
	await look("index.html", { width: 1280 }, async (page) => {
		for (let i = 0; i < 12; i++) {
			await page.keyboard.press("Tab");
			const shown = await page.evaluate(() => {
				const here = document.activeElement;
				if (here === null || here === document.body) return "nothing is focused";
				const style = getComputedStyle(here);
				return style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) >= 2
					? ""
					: here.outerHTML.slice(0, 80);
			});
			expect(shown).toBe("");
		}
	});
});

it("remembers light or dark", async () => {
	await look("index.html", { width: 360 }, async (page) => {
		const colour = () =>
			page.evaluate(
				() => getComputedStyle(document.querySelector(".sheet") ?? document.body).backgroundColor,
			);
		const before = await colour();
		await page.click(".theme-switch");
		const after = await colour();
		expect(after).not.toBe(before);
		await page.goto(`${root}drills/`, { waitUntil: "load" });
		expect(await colour()).toBe(after);
		await page.evaluate(() => localStorage.clear());
	});
});

/** Sets the clock of a page. */
const at = (iso: string) =>
	`{ const Real = Date; globalThis.Date = class extends Real { constructor(...a) { if (a.length === 0) super(${JSON.stringify(iso)}); else super(...a); } }; }`;

it.each([
	["2026-12-01T10:00:00Z", "Week 1", "Next up"],
	["2027-01-05T10:00:00Z", "Week 1", "This week"],
	["2027-01-20T10:00:00Z", "Week 3", "This week"],
	["2027-06-01T10:00:00Z", "Week 3", "Last week of term"],
])("on %s shows %s as “%s”", async (now, week, tense) => {
	await look("index.html", { width: 360, first: at(now) }, async (page) => {
		const cards = await page.evaluate(() =>
			[...document.querySelectorAll<HTMLElement>(".week-card")]
				.filter((card) => card.checkVisibility())
				.map(
					(card) =>
						`${card.querySelector("h2 a")?.textContent}, ${card.querySelector(".tense")?.textContent}`,
				),
		);
		expect(cards).toEqual([`${week}, ${tense}`]);
	});
});

it("shows all weeks without JavaScript", async () => {
	const page = await browser.newPage();
	await page.setJavaScriptEnabled(false);
	await page.goto(root, { waitUntil: "load" });
	expect(
		await lookAtAll(page, ".week-card", (cards) => cards.filter((card) => card.checkVisibility()).length),
	).toBe(2);
	expect(await lookAtAll(page, ".theme-switch", (all) => all.filter((b) => b.checkVisibility()).length)).toBe(
		0,
	);
	await page.close();
});

it("marks the block that the clock has reached, on the day of the class", async () => {
	const during = at("2027-01-04T16:07:00Z");
	await look("classes/mon/week-1/index.html", { width: 360, first: during }, async (page) => {
		expect(await lookAtAll(page, ".block.now-here", (blocks) => blocks.map((block) => block.id))).toEqual([
			"block-floor-1",
		]);
		expect(
			await lookAtAll(page, ".run .now-here time", (times) => times.map((time) => time.textContent)),
		).toEqual(["16:05"]);
	});
	const dayAfter = at("2027-01-05T16:07:00Z");
	await look("classes/mon/week-1/index.html", { width: 360, first: dayAfter }, async (page) => {
		expect(await page.$$(".now-here")).toHaveLength(0);
	});
});

it.each(["light", "dark"] as const)("keeps the numbers readable on every shade, %s", async (theme) => {
	const contrasts = await look("coverage/week-shape/index.html", { width: 360, theme }, (page) =>
		page.evaluate(() => {
			const context = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
			const luminance = (colour: string) => {
				if (context === null) return 0;
				context.fillStyle = colour;
				context.fillRect(0, 0, 1, 1);
				const [r = 0, g = 0, b = 0] = [...context.getImageData(0, 0, 1, 1).data].map((byte) => {
					const part = byte / 255;
					return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
				});
				return 0.2126 * r + 0.7152 * g + 0.0722 * b;
			};
			const cell = document.querySelector("#cell-week-1--tuck > .v-minutes");
			return [1, 2, 3, 4, 5, 6, 7, 8, 9].map((heat) => {
				if (cell === null) return 0;
				cell.className = `v-minutes heat-${heat}`;
				const style = getComputedStyle(cell);
				const [dark = 0, bright = 0] = [luminance(style.color), luminance(style.backgroundColor)].sort(
					(a, b) => a - b,
				);
				return (bright + 0.05) / (dark + 0.05);
			});
		}),
	);
	expect(Math.min(...contrasts)).toBeGreaterThanOrEqual(4.5);
});

it("opens a cell of coverage to its drills", async () => {
	await look("coverage/week-shape/index.html", { width: 360 }, async (page) => {
		// Out from under the bar at the foot of the screen, as a thumb would scroll it.
		await page.$eval("#cell-week-1--tuck", (cell) => cell.scrollIntoView({ block: "center" }));
		await page.click("#cell-week-1--tuck");
		const words = await page.$eval("dialog[open]", (dialog) => dialog.textContent ?? "");
		expect(words).toContain("Week 1, Tuck");
		expect(words).toContain("Rock on the back");
		await page.click("dialog[open] button");
		expect(await page.$("dialog[open]")).toBeNull();
	});
});

it("counts what is chosen in a coverage table", async () => {
	await look("coverage/week-shape/index.html", { width: 360 }, async (page) => {
		const shown = () =>
			lookAtAll(page, "#cell-week-1--tuck > span", (spans) =>
				spans
					.filter((s) => s.checkVisibility() && !s.classList.contains("sr"))
					.map((s) => s.className.split(" ")[0]),
			);
		expect(await shown()).toEqual(["v-minutes"]);
		await page.click('input[value="drills"]');
		expect(await shown()).toEqual(["v-drills"]);
	});
});

it("moves a drill's figure when asked, and stops; nothing moves before", async () => {
	await look("drills/everything/index.html", { width: 360, first: AXE }, async (page) => {
		const leg = () =>
			page.$eval(".figure-moving > g:last-child > path:nth-of-type(2)", (p) => p.getAttribute("d"));
		const shown = () => page.$eval(".stage", (stage) => stage.checkVisibility());
		const label = () => page.$eval(".motion button", (button) => button.textContent);
		const later = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
		expect([await shown(), await label()]).toEqual([false, "Move"]);
		const still = await leg();
		await later(300);
		expect(await leg()).toBe(still);

		// With less motion wanted there is nothing between the phases: the first is held.
		await page.click(".motion button");
		expect([await shown(), await label()]).toEqual([true, "Stop"]);
		await later(1100);
		expect(await leg()).toBe(still);
		await page.click(".motion button");
		expect([await shown(), await label()]).toEqual([false, "Move"]);

		await page.emulateMediaFeatures([{ name: "prefers-reduced-motion", value: "no-preference" }]);
		await page.click(".motion button");
		await page.waitForFunction(
			(before) =>
				document.querySelector(".figure-moving > g:last-child > path:nth-of-type(2)")?.getAttribute("d") !==
				before,
			{ timeout: 5000 },
			still,
		);
		expect(await objectionsTo(page)).toEqual([]);
		await page.click(".motion button");
		const stopped = await leg();
		await later(200);
		expect(await leg()).toBe(stopped);
	});
});

it("prints a class sheet without the frame", async () => {
	await look("classes/mon/week-1/index.html", { width: 800 }, async (page) => {
		await page.emulateMediaType("print");
		const shown = await lookAtAll(page, ".bar, .top, .crumbs, .block, .safety", (all) =>
			all.filter((e) => e.checkVisibility()).map((e) => e.classList[0]),
		);
		expect(new Set(shown)).toEqual(new Set(["block", "safety"]));
	});
});
