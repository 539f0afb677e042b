/**
 * Teaching from the screen, in a real browser with a clock that the test turns: today's class sheet
 * from home, one block at a time, the station timer, ticks, large type; by keyboard, and without
 * JavaScript.
 */

import type { CDPSession, Page } from "puppeteer-core";
import { beforeAll, describe, expect, it } from "vitest";
import { FIXTURES } from "../open-fixture.ts";
import { AXE, lookAtAll, objectionsTo } from "../see-pages.ts";
import { complaintsOf, layOutAll, type OpenSite, openSite } from "./open-site.ts";

/** A class of two levels in a block of two stations: 10 minutes, half of one lost at the change. */
const SHEET = "classes/mon/week-1/";
const STATIONS = "#block-floor-2";
const TIMER = `${STATIONS}-timer`;

let open: OpenSite;
let page: Page;
let storage: CDPSession;

beforeAll(async () => {
	open = await openSite(`${FIXTURES}clubs/class-to-teach`);
	page = await open.browser.newPage();
	storage = await page.createCDPSession();
	return open.close;
});

const LESS_MOTION = { name: "prefers-reduced-motion", value: "reduce" };

interface Device {
	/** The moment at which its clock stands. */
	readonly now?: string;
	readonly timezone?: string;
	readonly width?: number;
	readonly theme?: "light" | "dark";
	readonly scripts?: boolean;
	/** Runs before anything of every page. */
	readonly first?: string;
}

/**
 * A device that remembers nothing; fails on anything that the browser complains about. It is one page that is
 * emptied: a new one costs as much as all that is looked at in it.
 */
async function onDevice(device: Device, use: (page: Page) => Promise<void>): Promise<void> {
	const complaints = complaintsOf(page);
	await page.setViewport({ width: device.width ?? 360, height: 740 });
	await page.emulateMediaType();
	await page.emulateMediaFeatures([
		{ name: "prefers-color-scheme", value: device.theme ?? "light" },
		LESS_MOTION,
	]);
	await page.emulateTimezone(device.timezone);
	await page.setJavaScriptEnabled(device.scripts !== false);
	const firsts = [await page.evaluateOnNewDocument(setClock, device.now ?? "2027-01-04T16:00:00Z")];
	if (device.first !== undefined) firsts.push(await page.evaluateOnNewDocument(device.first));
	try {
		await use(page);
	} finally {
		for (const { identifier } of firsts) await page.removeScriptToEvaluateOnNewDocument(identifier);
		await page.evaluate(() => sessionStorage.clear());
		await page.goto("about:blank");
		await storage.send("Storage.clearDataForOrigin", {
			origin: new URL(open.root).origin,
			// The worker, which keeps nothing, stays: to start one costs as much as a page.
			storageTypes: "cookies,local_storage,indexeddb,cache_storage",
		});
		complaints.end();
	}
	expect(complaints.heard).toEqual([]);
}

async function visit(page: Page, path: string): Promise<void> {
	await page.goto(open.root + path, { waitUntil: "load" });
	await layOutAll(page);
}

/** In the page: a clock that stands until `turn` moves it, and keeps its place from page to page. */
function setClock(iso: string): void {
	const Real = Date;
	const moved = () => Number(sessionStorage.getItem("moved"));
	const now = () => Real.parse(iso) + moved();
	globalThis.Date = class extends Real {
		constructor(...parts: readonly unknown[]) {
			if (parts.length === 0) super(now());
			else super(...(parts as readonly [number]));
		}
		static override now() {
			return now();
		}
	} as DateConstructor;
	Object.assign(globalThis, {
		turn: (ms: number) => sessionStorage.setItem("moved", String(moved() + ms)),
	});
}

/** Turns the device's clock on while nobody looks; the page is looked at again. */
const turn = (page: Page, seconds: number) =>
	page.evaluate((ms) => {
		(globalThis as unknown as { turn(ms: number): void }).turn(ms);
		document.dispatchEvent(new Event("visibilitychange"));
	}, seconds * 1000);

const offered = (page: Page) =>
	lookAtAll(page, ".sheet-key", (keys) =>
		keys.map((key) => Array.from(key.children, (part) => part.textContent).join(" | ")),
	);
const todayTitle = (page: Page) =>
	page.$eval(".today-sheets", (region) =>
		region.checkVisibility()
			? `${region.querySelector("h2")?.textContent}. ${region.querySelector(".today-note")?.textContent}`
			: "nothing",
	);

describe("home", () => {
	it("opens today's class sheet in one tap", async () => {
		await onDevice({ now: "2027-01-04T16:10:00Z" }, async (page) => {
			await visit(page, "");
			expect(await todayTitle(page)).toBe("Today. Monday, 4 January 2027");
			expect(await offered(page)).toEqual(["Monday group | 16:00–17:00 · week 1 | on now", "Open | week 1"]);
			const box = await (await page.$(".sheet-key"))?.boundingBox();
			expect(box?.height).toBeGreaterThanOrEqual(44);
			// On the first screen, above the bar.
			expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThan(740 - 60);
			await Promise.all([page.waitForNavigation(), page.click(".sheet-key")]);
			expect(page.url()).toBe(open.root + SHEET);
		});
	});

	it("goes by the club's day, not the device's", async () => {
		// Half past midnight at the club, the evening before on the device.
		const device = { now: "2027-01-04T00:30:00Z", timezone: "America/Los_Angeles" };
		await onDevice(device, async (page) => {
			await visit(page, "");
			expect(await todayTitle(page)).toBe("Today. Monday, 4 January 2027");
		});
	});

	it("remembers the class opened last, on the device alone", async () => {
		await onDevice({ now: "2027-01-03T10:00:00Z" }, async (page) => {
			await visit(page, "");
			expect((await offered(page))[0]).toBe("Monday group | 4 Jan · 16:00–17:00 · week 1");
			await visit(page, "classes/tue/week-3/");
			await visit(page, "");
			expect(await offered(page)).toEqual([
				"Tuesday seniors | 5 Jan · 18:30–19:00 · week 1 | opened last",
				"Monday group | 4 Jan · 16:00–17:00 · week 1",
			]);
			expect(await page.evaluate(() => ({ ...localStorage }))).toEqual({ "handbook-class": "tue" });
			expect(await page.evaluate(() => document.cookie)).toBe("");
		});
	});

	it.each([
		["2027-01-03T12:00:00Z", "The term has not begun. First class day: Monday, 4 January 2027."],
		["2027-01-06T12:00:00Z", "No class sheet for today. Next class day: Monday, 18 January 2027."],
		["2027-01-11T12:00:00Z", "The club is closed today. Next class day: Monday, 18 January 2027."],
		["2027-01-19T12:00:00Z", "The club is closed today. Closed until Wednesday, 20 January 2027."],
		["2027-06-01T12:00:00Z", "nothing"],
	])("on %s says: %s", async (now, words) => {
		await onDevice({ now }, async (page) => {
			await visit(page, "");
			expect(await todayTitle(page)).toBe(words);
		});
	});

	it("offers the class opened last after the term", async () => {
		await onDevice({ now: "2027-06-01T12:00:00Z" }, async (page) => {
			await visit(page, SHEET);
			await visit(page, "");
			expect(await todayTitle(page)).toBe("The term is over. ");
			expect(await offered(page)).toEqual(["Monday group | 18 Jan · 16:00–17:00 · week 3"]);
		});
	});

	it("follows the day while the page stays open", async () => {
		await onDevice({ now: "2027-01-03T22:00:00Z" }, async (page) => {
			await visit(page, "");
			expect(await todayTitle(page)).toContain("The term has not begun");
			await turn(page, 12 * 3600);
			expect(await todayTitle(page)).toBe("Today. Monday, 4 January 2027");
		});
	});

	it("still opens today's sheet where the browser keeps nothing", async () => {
		const first = `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });`;
		await onDevice({ first }, async (page) => {
			await visit(page, SHEET);
			await page.click(`${TIMER} .timer-sound`);
			expect(await page.$eval(`${TIMER} .timer-sound`, (b) => b.ariaPressed)).toBe("true");
			await page.click("[data-ticks] input");
			await visit(page, "");
			expect((await offered(page))[0]).toContain("Monday group");
		});
	});

	it("offers its next sheet on the page of a class", async () => {
		await onDevice({ now: "2027-01-06T12:00:00Z" }, async (page) => {
			await visit(page, "classes/mon/");
			expect(await offered(page)).toEqual(["Monday group | 18 Jan · 16:00–17:00 · week 3"]);
		});
	});
});

/** Ids of the blocks that can be seen. */
const blocks = (page: Page) =>
	lookAtAll(page, ".block", (all) => all.filter((block) => block.checkVisibility()).map((block) => block.id));

describe("one block at a time", () => {
	it.each([true, false])("goes from block to block by anchors alone (scripts: %s)", async (scripts) => {
		await onDevice({ scripts, now: "2027-01-10T12:00:00Z" }, async (page) => {
			await visit(page, SHEET);
			const all = await blocks(page);
			const plan = all.filter((id) => id !== "taught");
			expect(plan).toEqual(["block-floor-1", "block-floor-2", "block-beam-1"]);
			// How it went is asked after them, by a program.
			expect(all).toEqual(scripts ? [...plan, "taught"] : plan);
			await page.click(".one-block");
			for (const id of plan) {
				expect(await blocks(page)).toEqual([id]);
				const ways = await lookAtAll(page, ".block-ways a", (links) =>
					links
						.filter((a) => a.checkVisibility())
						.map((a) => {
							const { width, height, bottom } = a.getBoundingClientRect();
							return { name: a.className, width, height, bottom };
						}),
				);
				// Within reach of the thumb, and large enough for it.
				for (const way of ways) {
					expect(Math.min(way.width, way.height), way.name).toBeGreaterThanOrEqual(44);
					expect(way.bottom, way.name).toBeGreaterThan(740 - 10);
				}
				const last = id === plan.at(-1);
				expect(ways.some(({ name }) => name === "next")).toBe(!last);
				if (!last) await page.click(`#${id} + .block-ways .next`);
			}
			await page.click("#block-beam-1 + .block-ways .prev");
			expect(await blocks(page)).toEqual(["block-floor-2"]);
			await page.click(`${STATIONS} + .block-ways .whole`);
			expect(await blocks(page)).toEqual(all);
			await page.goBack();
			expect(await blocks(page)).toEqual(["block-floor-2"]);
		});
	});

	it("keeps everything a coach needs of the block, in view of a station too", async () => {
		await onDevice({}, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			await page.click(`${STATIONS} .station-ways li:last-child a`);
			expect(await page.evaluate(() => location.hash)).toBe(`${STATIONS}-station-2`);
			expect(await blocks(page)).toEqual(["block-floor-2"]);
			for (const part of [".strip", ".ways", ".safety", ".setup"])
				expect(
					await lookAtAll(page, `${STATIONS} ${part}`, (all) => all.some((e) => e.checkVisibility())),
					part,
				).toBe(true);
		});
	});

	it("leads to the block that the clock has reached", async () => {
		await onDevice({ now: "2027-01-04T16:16:00Z" }, async (page) => {
			await visit(page, SHEET);
			expect(await page.$eval(".one-block", (a) => [a.textContent, a.getAttribute("href")])).toEqual([
				"What's on now",
				STATIONS,
			]);
		});
	});

	it("prints the whole sheet", async () => {
		await onDevice({}, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			await page.emulateMediaType("print");
			expect(await blocks(page)).toHaveLength(3);
			expect(
				await lookAtAll(
					page,
					".block-ways, .station-timer, .hall-keys",
					(all) => all.filter((e) => e.checkVisibility()).length,
				),
			).toBe(0);
		});
	});
});

/** One page of every kind that a coach teaches from, and the block view. */
const TAUGHT_FROM = [
	SHEET,
	`${SHEET}${STATIONS}`,
	"drills/wedge-roll/",
	"weeks/week-1/",
	"weeks/week-1/floor/",
	"",
	"classes/mon/",
	"about/",
];

/** Presses the key that can be seen: of the bar, or of the view of one block. */
async function pressEmergency(page: Page): Promise<void> {
	const seen = [];
	for (const key of await page.$$(".emergency-key"))
		if (await key.evaluate((e) => e.checkVisibility())) seen.push(key);
	const [key, ...more] = seen;
	if (key === undefined || more.length > 0) throw new Error(`${seen.length} keys in sight`);
	const { words, bottom, least } = await key.evaluate((e) => {
		const { height, width, bottom } = e.getBoundingClientRect();
		return { words: e.textContent?.trim(), bottom, least: Math.min(height, width) };
	});
	expect(words).toBe("Emergency");
	expect(least).toBeGreaterThanOrEqual(44);
	expect(bottom).toBeLessThanOrEqual(740);
	await key.click();
}

const panels = (page: Page) =>
	lookAtAll(page, ".panel:popover-open", (all) =>
		all.map((e) => (e.checkVisibility() ? (e.textContent ?? "") : "")),
	);

describe("what to do in an emergency", () => {
	it.each([
		{ scripts: true, width: 360 },
		{ scripts: false, width: 320 },
		{ scripts: false, width: 1280 },
	])("is one tap away wherever a coach is, $width pixels (scripts: $scripts)", async ({ scripts, width }) => {
		await onDevice({ scripts, width }, async (page) => {
			for (const path of TAUGHT_FROM) {
				await visit(page, path);
				expect(await panels(page), path).toEqual([]);
				const before = await page.evaluate(() => scrollY);
				await pressEmergency(page);
				const [panel = "", ...more] = await panels(page);
				expect(more).toEqual([]);
				expect(panel).toContain("Stop all apparatus, send one adult to the desk");
				expect(await page.$eval(".emergency-panel .button", (a) => a.getAttribute("href"))).toMatch(
					/guides\/when-hurt\/$/,
				);
				// Over the page, which stays where it was, with all of the words in sight.
				expect(await page.evaluate(() => scrollY)).toBe(before);
				const box = await page.$eval(".emergency-words", (e) => {
					const { top, bottom, left, right } = e.getBoundingClientRect();
					return { top, bottom, left, right };
				});
				expect(Math.min(box.top, box.left)).toBeGreaterThanOrEqual(0);
				expect(box.bottom).toBeLessThanOrEqual(740);
				expect(box.right).toBeLessThanOrEqual(width);
				await page.keyboard.press("Escape");
				expect(await panels(page), path).toEqual([]);
			}
		});
	});

	it("is opened, read and closed by keyboard, which goes on where it was", async () => {
		await onDevice({}, async (page) => {
			const here = () => page.evaluate(() => document.activeElement?.textContent?.trim());
			await visit(page, SHEET);
			await tabTo(page, "Emergency");
			await page.keyboard.press("Enter");
			expect(await panels(page)).toHaveLength(1);
			await tabTo(page, "When somebody is hurt");
			await tabTo(page, "Close");
			await page.keyboard.press("Enter");
			expect(await panels(page)).toEqual([]);
			expect(await here()).toBe("Emergency");
			await page.keyboard.press("Enter");
			await tabTo(page, "When somebody is hurt");
			await page.keyboard.press("Escape");
			expect(await here()).toBe("Emergency");
		});
	});
});

describe("the menu", () => {
	it.each([true, false])("opens where the thumb is, far down a page (scripts: %s)", async (scripts) => {
		await onDevice({ scripts }, async (page) => {
			await visit(page, SHEET);
			await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
			const before = await page.evaluate(() => scrollY);
			await page.click(".bar [popovertarget=all]");
			const links = await lookAtAll(page, ".all a", (all) =>
				all
					.filter((a) => a.checkVisibility())
					.map((a) => ({ href: a.getAttribute("href") ?? "", bottom: a.getBoundingClientRect().bottom })),
			);
			expect(links.length).toBeGreaterThan(15);
			expect(links.some(({ href }) => href.endsWith("about/"))).toBe(true);
			for (const { href, bottom } of links) expect(bottom, href).toBeLessThanOrEqual(740);
			expect(await page.evaluate(() => scrollY)).toBe(before);
			await page.keyboard.press("Escape");
			expect(await panels(page)).toEqual([]);
			await page.click(".bar [popovertarget=all]");
			await page.mouse.click(180, 40);
			expect(await panels(page), "after a tap beside it").toEqual([]);
			await page.click(".bar [popovertarget=all]");
			await Promise.all([page.waitForNavigation(), page.click('.all a[href$="guides/"]')]);
			expect(page.url()).toBe(`${open.root}guides/`);
		});
	});
});

it("shows a level's sheet its own heights and no other's; the drill's page shows all", () => {
	/** The lines of what stands how high, without the centimetres after it. */
	const heights = (file: string) => {
		const text = open.site.pages.get(file) ?? "";
		const lines = [...text.matchAll(/<li>((?:(?!<li>).)*<strong>Block<\/strong>.*?)(?: <span.*?)?<\/li>/gs)];
		return [...new Set(lines.map(([, line = ""]) => line.replaceAll(/<[^>]+>/g, "").trim()))];
	};
	const both = ["Junior: Block at knee height", "Senior: Block at hip height"];
	expect(heights("classes/tue/week-3/index.html")).toEqual(["Block at hip height"]);
	expect(heights("classes/mon/week-1/index.html")).toEqual(both);
	expect(heights("weeks/week-1/floor/index.html")).toEqual(both);
	expect(heights("drills/wedge-roll/index.html")).toEqual(both);
});

/** Counts what the device is asked for. */
const COUNTERS = `
	window.asked = { lock: 0, release: 0, tones: 0, pulses: [] };
	Object.defineProperty(navigator, "wakeLock", { value: { request: async () => {
		asked.lock++;
		const sentinel = new EventTarget();
		sentinel.release = async () => { asked.release++; sentinel.dispatchEvent(new Event("release")); };
		return sentinel;
	} } });
	navigator.vibrate = (pattern) => { asked.pulses.push(pattern.length); return true; };
	const make = AudioContext.prototype.createOscillator;
	AudioContext.prototype.createOscillator = function () { asked.tones++; return make.call(this); };
	window.said = [];
	addEventListener("DOMContentLoaded", () => {
		for (const status of document.querySelectorAll(".timer-status"))
			new MutationObserver(() => said.push(status.textContent)).observe(status, { childList: true, characterData: true, subtree: true });
	});`;

interface Asked {
	readonly lock: number;
	readonly release: number;
	readonly tones: number;
	readonly pulses: readonly number[];
}
const asked = (page: Page) => page.evaluate(() => (globalThis as unknown as { asked: Asked }).asked);
const said = (page: Page) => page.evaluate(() => (globalThis as unknown as { said: readonly string[] }).said);
const face = (page: Page) =>
	page.$eval(`${TIMER} .timer-face`, (e) => (e.textContent ?? "").replaceAll(/\s+/g, " ").trim());
const press = (page: Page, key: string) => page.click(`${TIMER} .timer-${key}`);
const keyWords = (page: Page) => page.$eval(`${TIMER} .timer-go`, (e) => e.textContent);

describe("the station timer", () => {
	it("counts the stations and the changes of the plan", async () => {
		await onDevice({ first: COUNTERS }, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			expect(await face(page)).toBe("Station 1 of 2, change in 4:45");
			await press(page, "go");
			expect(await keyWords(page)).toBe("Pause");
			await turn(page, 95);
			expect(await face(page)).toBe("Station 1 of 2, change in 3:10");
			await turn(page, 190);
			expect(await face(page)).toBe("Change to station 2 of 2, work in 0:30");
			await turn(page, 30);
			expect(await face(page)).toBe("Station 2 of 2, end in 4:45");
			await turn(page, 285);
			expect(await face(page)).toBe("All 2 stations done");
			expect(await keyWords(page)).toBe("Start again");
			// Said at changes only, not every second.
			expect(await said(page)).toEqual([
				"Station 1 of 2.",
				"Change to station 2 of 2.",
				"Station 2 of 2.",
				"All 2 stations done.",
			]);
			await press(page, "go");
			expect(await face(page)).toBe("Station 1 of 2, change in 4:45");
		});
	});

	it("stands while it is paused, and goes on from there", async () => {
		await onDevice({}, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			await press(page, "go");
			await turn(page, 60);
			await press(page, "go");
			expect(await keyWords(page)).toBe("Go on");
			await turn(page, 1000);
			expect(await face(page)).toBe("Station 1 of 2, change in 3:45");
			await press(page, "go");
			await turn(page, 5);
			expect(await face(page)).toBe("Station 1 of 2, change in 3:40");
			await press(page, "reset");
			expect(await face(page)).toBe("Station 1 of 2, change in 4:45");
			expect(await keyWords(page)).toBe("Start");
			expect(await page.evaluate(() => localStorage.getItem("handbook-timer"))).toBeNull();
		});
	});

	it("skips to the change, to the next station, and to the end", async () => {
		await onDevice({}, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			await press(page, "go");
			await turn(page, 10);
			const faces: string[] = [];
			for (let i = 0; i < 4; i++) {
				await press(page, "skip");
				faces.push(await face(page));
			}
			expect(faces).toEqual([
				"Change to station 2 of 2, work in 0:30",
				"Station 2 of 2, end in 4:45",
				"All 2 stations done",
				"All 2 stations done",
			]);
			expect(await page.$eval(`${TIMER} .timer-skip`, (b) => b.ariaDisabled)).toBe("true");
		});
	});

	it("keeps right time while the page is hidden, left, or thrown out of memory", async () => {
		await onDevice({ first: COUNTERS }, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			await press(page, "go");
			await visit(page, "drills/rock/");
			await turn(page, 200);
			await visit(page, SHEET);
			expect(await face(page)).toBe("Station 1 of 2, change in 1:25");
			await turn(page, 300);
			expect(await face(page)).toBe("Station 2 of 2, end in 1:40");
			// However much was missed, it is said once.
			expect(await said(page)).toEqual(["Station 2 of 2."]);
			// The next day it is a new timer.
			await turn(page, 86_400);
			await visit(page, SHEET);
			expect(await face(page)).toBe("Station 1 of 2, change in 4:45");
		});
	});

	it("counts by itself, second by second", async () => {
		await onDevice({}, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			await press(page, "go");
			// The clock is turned, and nothing tells the page.
			await page.evaluate(() => (globalThis as unknown as { turn(ms: number): void }).turn(2_000));
			await page.waitForFunction(
				(timer) => document.querySelector(`${timer} .timer-clock`)?.textContent === "4:43",
				{ timeout: 10_000 },
				TIMER,
			);
		});
	});

	it("keeps the screen on while it runs, and signals changes as the coach chose", async () => {
		await onDevice({ first: COUNTERS }, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			await press(page, "go");
			await turn(page, 285);
			expect(await asked(page)).toEqual({ lock: 1, release: 0, tones: 0, pulses: [] });
			await press(page, "sound");
			await press(page, "vibration");
			const { tones, pulses } = await asked(page);
			expect(pulses).toEqual([1]);
			await turn(page, 30);
			await turn(page, 285);
			// One tone for work, three at the end; two tones are two pulses and the pause between.
			const after = await asked(page);
			expect(after.tones - tones).toBe(4);
			expect(after.pulses).toEqual([1, 1, 5]);
			expect(after).toMatchObject({ lock: 1, release: 1 });
			await visit(page, SHEET);
			for (const key of ["sound", "vibration"])
				expect(await page.$eval(`${TIMER} .timer-${key}`, (b) => b.ariaPressed)).toBe("true");
		});
	});

	it("runs where the screen cannot be kept on", async () => {
		const first = `Object.defineProperty(navigator, "wakeLock", { value: { request: async () => { throw new DOMException("no", "NotAllowedError"); } } });`;
		await onDevice({ first }, async (page) => {
			await visit(page, `${SHEET}${STATIONS}`);
			await press(page, "go");
			await turn(page, 5);
			expect(await face(page)).toBe("Station 1 of 2, change in 4:40");
		});
	});
});

describe("what to set out", () => {
	it("can be ticked off, is remembered for this class in this week, and cleared", async () => {
		await onDevice({}, async (page) => {
			const ticked = () =>
				lookAtAll(page, "[data-ticks] input", (all) => all.map((box) => (box as HTMLInputElement).checked));
			const count = () => page.$eval(".tick-count", (e) => e.textContent);
			await visit(page, SHEET);
			const none = await ticked();
			expect(none.length).toBeGreaterThanOrEqual(2);
			expect(none).not.toContain(true);
			await page.click("[data-ticks] li:first-child label");
			expect(await count()).toBe(`1 of ${none.length} ready`);
			await page.reload({ waitUntil: "load" });
			expect(await ticked()).toEqual([true, ...none.slice(1)]);
			await visit(page, "classes/mon/week-3/");
			expect(await ticked()).not.toContain(true);
			await visit(page, SHEET);
			await page.click(".tick-clear");
			expect(await ticked()).toEqual(none);
			expect(await page.evaluate(() => localStorage.getItem("handbook-ticks"))).toBeNull();
			await page.reload({ waitUntil: "load" });
			expect(await ticked()).toEqual(none);
		});
	});

	it("starts anew where something else was kept under its name", async () => {
		const first = `localStorage.setItem("handbook-ticks", "{"); localStorage.setItem("handbook-timer", "[]");`;
		await onDevice({ first }, async (page) => {
			await visit(page, SHEET);
			await page.click("[data-ticks] label");
			expect(await page.$eval(".tick-count", (e) => e.textContent)).toMatch(/^1 of /);
		});
	});
});

it("is a plain list, whole and without keys that do nothing, where there is no JavaScript", async () => {
	await onDevice({ scripts: false }, async (page) => {
		await visit(page, SHEET);
		const seen = (selector: string) =>
			lookAtAll(page, selector, (all) =>
				all.filter((e) => e.checkVisibility()).map((e) => (e.textContent ?? "").trim()),
			);
		expect(await seen("[data-ticks] li")).toEqual(["2 Mat Store", "1 Block"]);
		expect(await seen("main button, main input, .station-timer, .tick-foot")).toEqual([]);
		expect(await blocks(page)).toHaveLength(3);
		await visit(page, "");
		expect(await seen(".today-sheets")).toEqual([]);
		expect(await seen(".week-card .sheets a")).not.toEqual([]);
	});
});

describe("large type", () => {
	it("is remembered, and grows everything", async () => {
		await onDevice({}, async (page) => {
			const size = () =>
				page.$eval(".cues li, .ways li > span", (e) => Number.parseFloat(getComputedStyle(e).fontSize));
			await visit(page, SHEET);
			const before = await size();
			await page.click(".hall-keys .type-switch");
			expect(await lookAtAll(page, ".type-switch", (all) => all.map((b) => b.ariaPressed))).toEqual([
				"true",
				"true",
			]);
			const after = await size();
			expect(after / before).toBeGreaterThan(1.25);
			await page.reload({ waitUntil: "load" });
			expect(await size()).toBe(after);
			await page.click(".top .type-switch");
			expect(await size()).toBe(before);
		});
	});

	it.each(["", "classes/mon/", SHEET, `${SHEET}${STATIONS}`, "drills/wedge-roll/", "weeks/week-1/floor/"])(
		"fits a screen of 320 pixels: /%s",
		async (path) => {
			const first = `localStorage.setItem("handbook-type", "large");`;
			await onDevice({ width: 320, first }, async (page) => {
				await visit(page, path);
				await page.evaluate(() => document.querySelector<HTMLElement>(".timer-go")?.click());
				expect(
					await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
				).toBeLessThanOrEqual(0);
			});
		},
	);
});

/** Presses Tab until the link with these words has the keyboard; fails where it cannot be seen. */
async function tabTo(page: Page, words: string): Promise<void> {
	for (let i = 0; i < 120; i++) {
		await page.keyboard.press("Tab");
		const here = await page.evaluate(() => {
			const at = document.activeElement as HTMLElement | null;
			if (at === null || at === document.body) return { words: "", shown: true, hidden: false };
			const style = getComputedStyle(at);
			const { left, top, width, height } = at.getBoundingClientRect();
			const over = document.elementFromPoint(left + width / 2, top + height / 2);
			return {
				words: at.textContent?.trim() ?? "",
				shown: style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) >= 2,
				hidden: over !== null && !at.contains(over) && !over.contains(at),
			};
		});
		expect(here, "the keyboard's place").toMatchObject({ shown: true, hidden: false });
		if (here.words.startsWith(words)) return;
	}
	throw new Error(`The keyboard does not reach “${words}”.`);
}

it("leads by keyboard alone from home to a drill's spotting text", async () => {
	await onDevice({ now: "2027-01-04T16:16:00Z" }, async (page) => {
		await visit(page, "");
		await tabTo(page, "Monday group");
		await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
		await tabTo(page, "Skip to the page");
		await page.keyboard.press("Enter");
		await tabTo(page, "What's on now");
		await page.keyboard.press("Enter");
		expect(await blocks(page)).toEqual(["block-floor-2"]);
		// The keyboard goes on in the block, not at the top of the page.
		await tabTo(page, "Start");
		await page.keyboard.press("Enter");
		expect(await keyWords(page)).toBe("Pause");
		await tabTo(page, "Wedge roll");
		await Promise.all([page.waitForNavigation(), page.keyboard.press("Enter")]);
		expect(page.url()).toBe(`${open.root}drills/wedge-roll/`);
		expect(await page.$eval("main .safety", (e) => e.checkVisibility() && e.textContent)).toContain(
			"Spotting.",
		);
	});
});

/** The states in which a coach meets the pages. */
const STATES: readonly { readonly name: string; readonly path: string; readonly act?: string }[] = [
	{ name: "home", path: "" },
	{ name: "class", path: "classes/mon/" },
	{ name: "sheet", path: SHEET, act: `document.querySelector("[data-ticks] input").click()` },
	{
		name: "timer running",
		path: SHEET + STATIONS,
		act: `document.querySelector("${TIMER} .timer-go").click()`,
	},
	{
		name: "change",
		path: SHEET + STATIONS,
		act: `for (const key of ["go", "skip", "sound"]) document.querySelector("${TIMER} .timer-" + key).click()`,
	},
];

describe.each(["usual", "large"])("in %s type", (type) => {
	it.each(STATES)(
		"has nothing that axe objects to, and contrast by the formula, light and dark: $name",
		async ({ path, act }) => {
			const first = `localStorage.setItem("handbook-type", "${type}"); localStorage.setItem("handbook-class", "mon"); ${AXE}`;
			await onDevice({ first }, async (page) => {
				await visit(page, path);
				if (act !== undefined) await page.evaluate(act);
				expect(await objectionsTo(page)).toEqual([]);
				expect(await page.evaluate(pale)).toEqual([]);
				// What the theme changes is contrast.
				await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "dark" }, LESS_MOTION]);
				expect(await objectionsTo(page, { runOnly: ["color-contrast"] })).toEqual([]);
				expect(await page.evaluate(pale)).toEqual([]);
			});
		},
	);
});

/**
 * In the page: visible text below the contrast of WCAG 2.2, 1.4.3 (4.5, or 3 for large text), by its
 * formula for relative luminance, on the nearest background that is painted.
 */
function pale(): readonly string[] {
	const context = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
	if (context === null) throw new Error("No canvas.");
	const paint = (colour: string) => {
		context.clearRect(0, 0, 1, 1);
		context.fillStyle = colour;
		context.fillRect(0, 0, 1, 1);
		return [...context.getImageData(0, 0, 1, 1).data];
	};
	const luminance = (colour: string) => {
		const [r = 0, g = 0, b = 0] = paint(colour).map((byte) => {
			const part = byte / 255;
			return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
		});
		return 0.2126 * r + 0.7152 * g + 0.0722 * b;
	};
	const behind = (element: Element | null): string => {
		if (element === null) return "white";
		const colour = getComputedStyle(element).backgroundColor;
		return (paint(colour)[3] ?? 0) === 255 ? colour : behind(element.parentElement);
	};
	const found: string[] = [];
	let looked = 0;
	for (const element of document.querySelectorAll<HTMLElement>("body *:not(svg *)")) {
		const own = [...element.childNodes].some(
			(n) => n.nodeType === Node.TEXT_NODE && n.textContent?.trim() !== "",
		);
		if (!own || !element.checkVisibility() || element.ariaDisabled === "true" || element.matches(":disabled"))
			continue;
		const style = getComputedStyle(element);
		const [dark = 0, bright = 0] = [luminance(style.color), luminance(behind(element))].sort((a, b) => a - b);
		const size = Number.parseFloat(style.fontSize);
		const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
		const contrast = (bright + 0.05) / (dark + 0.05);
		looked++;
		if (contrast < (large ? 3 : 4.5))
			found.push(`${element.textContent?.trim().slice(0, 40)}: ${contrast.toFixed(2)}`);
	}
	return looked < 20 ? [`only ${looked} texts looked at`] : found;
}

it("has keys of 44 pixels in the hall, and nothing to tap below 24", async () => {
	await onDevice({}, async (page) => {
		const small = (least: number, selector: string) =>
			lookAtAll(page, selector, (all) =>
				all
					.filter((e) => e.checkVisibility())
					.map((e) => ({
						words: e.textContent?.trim() ?? "",
						box: e.getBoundingClientRect().toJSON() as DOMRect,
					})),
			).then((all) =>
				all
					.filter(({ box }) => Math.min(box.width, box.height) < least)
					.map(({ words, box }) => `${words}: ${box.width} × ${box.height}`),
			);
		const hall =
			".sheet-key, .hall-keys > *, .top button, .timer-keys button, .block-ways :is(a, button), .emergency-key, .station-ways a, .tick, .tick-clear";
		await visit(page, "");
		expect(await small(44, hall)).toEqual([]);
		await visit(page, SHEET);
		expect(await small(44, hall)).toEqual([]);
		// A box is pressed by its whole row; a link inside a sentence is as high as its line.
		expect(await small(24, "main button, main summary, main :is(li, h3, h4, nav) > a")).toEqual([]);
		await visit(page, SHEET + STATIONS);
		expect(await small(44, hall)).toEqual([]);
	});
});

it("does not move while it is painted", async () => {
	const first = `window.shift = 0; new PerformanceObserver((list) => { for (const entry of list.getEntries()) shift += entry.value; }).observe({ type: "layout-shift", buffered: true });`;
	await onDevice({ now: "2027-01-04T16:10:00Z", first }, async (page) => {
		await visit(page, "");
		await page.evaluate(
			() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
		);
		expect(await page.evaluate(() => (globalThis as unknown as { shift: number }).shift)).toBeLessThan(0.02);
	});
});
