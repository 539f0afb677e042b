/**
 * Every jump lands where it says: the links within pages and the addresses with a place in them, on the
 * demo club's longest page of every kind, in a real browser, by tap and by opening the address.
 *
 * What was laid out before makes the next jump easier, so a page with parts that wait until they are come
 * to is opened anew for links spread over it. Its other links are tapped where the last one led, as all of a
 * page that is laid out whole.
 */

import type { Page } from "puppeteer-core";
import { beforeAll, describe, expect, it } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";
import { fullestOfKinds, lookAtAll } from "../see-pages.ts";
import { type OpenSite, openSite } from "./open-site.ts";

const HEIGHT = 740;

let open: OpenSite;
/** The longest page of every kind, by the kind: its address from the root. */
let longest: ReadonlyMap<string, string>;
/** Places that links of other pages lead to, by the page's address. */
let places: ReadonlyMap<string, readonly string[]>;

beforeAll(async () => {
	open = await openSite(REPOSITORY);
	const byPage = new Map<string, Set<string>>();
	for (const [file, text] of open.site.pages) {
		for (const [, href = ""] of text.matchAll(/ href="([^"#:]+#[^"]+)"/g)) {
			const { pathname, hash } = new URL(href, `http://here/${addressOf(file)}`);
			const known = byPage.get(pathname.slice(1)) ?? new Set();
			byPage.set(pathname.slice(1), known.add(hash));
		}
	}
	longest = new Map(Array.from(fullestOfKinds(open.site), ([kind, file]) => [kind, addressOf(file)]));
	places = new Map(Array.from(byPage, ([page, hashes]) => [page, [...hashes].sort()]));
	return open.close;
}, 300_000);

const addressOf = (file: string) => file.replace(/index\.html$/, "");

interface Look {
	readonly width: number;
	readonly motion: "no-preference" | "reduce";
	/** Many links of every kind of page, or few of the kinds that differ in their bars and lists. */
	readonly links: "many" | "few";
}

/** As many of a list, spread evenly over it. */
function spread<T>(list: readonly T[], most: number): readonly T[] {
	const step = Math.max(1, list.length / most);
	return Array.from({ length: Math.min(most, list.length) }, (_, i) => list[Math.floor(i * step)] as T);
}

async function newPage({ width, motion }: Look, scripts = true): Promise<Page> {
	const page = await open.browser.newPage();
	await page.setViewport({ width, height: HEIGHT, hasTouch: width < 1024 });
	await page.emulateMediaFeatures([{ name: "prefers-reduced-motion", value: motion }]);
	await page.setJavaScriptEnabled(scripts);
	return page;
}

let visits = 0;

/** Opens an address as if for the first time: one that differs in its place alone would only jump. */
async function visit(page: Page, address: string): Promise<void> {
	const [path = "", hash] = address.split("#");
	const place = hash === undefined ? "" : `#${hash}`;
	await page.goto(`${open.root}${path}?${visits++}${place}`, { waitUntil: "load" });
}

/** Whether parts of the page wait until they are come to: a place is then found among heights that are guessed. */
const laysOutLate = (page: Page): Promise<boolean> =>
	page.evaluate(() => {
		// Asked of the style sheets: asking the parts would lay them out.
		const isAuto = (rule: CSSRule): boolean =>
			rule instanceof CSSStyleRule
				? rule.style.getPropertyValue("content-visibility") === "auto" &&
					document.querySelector(rule.selectorText) !== null
				: rule instanceof CSSMediaRule && [...rule.cssRules].some(isAuto);
		return [...document.styleSheets].some((sheet) => [...sheet.cssRules].some(isAuto));
	});

/** In the page: waits until nothing has moved for a tenth of a second. */
function settle(): Promise<void> {
	return new Promise((done) => {
		let before = Number.NaN;
		let since = performance.now();
		const look = (now: number) => {
			if (scrollY !== before) {
				before = scrollY;
				since = now;
			}
			if (now - since > 100) done();
			else requestAnimationFrame(look);
		};
		requestAnimationFrame(look);
	});
}

/**
 * In the page: what is wrong with where the target of the address stands; "" where nothing is.
 *
 * It has to begin in the upper half of the window, or as high as the page's end allows, and be what is
 * seen there: not under something that stays in sight.
 */
function wrongPlace(): string {
	const id = decodeURIComponent(location.hash.slice(1));
	const target = document.getElementById(id);
	if (target === null) return `#${id} is nowhere`;
	const { top, left, width, height } = target.getBoundingClientRect();
	const atEnd = scrollY + innerHeight >= document.documentElement.scrollHeight - 2;
	if (top < -1) return `#${id} begins ${Math.round(-top)} px above the window`;
	if (top > innerHeight / 2 && !(atEnd && top < innerHeight - 80))
		return `#${id} is ${Math.round(top)} px down`;
	// In the middle of its first line, where that is wide enough.
	for (const part of [0.5, 0.1, 0.9]) {
		const x = Math.min(Math.max(left + width * part, 2), innerWidth - 2);
		const seen = document.elementFromPoint(x, top + Math.min(12, height / 2));
		if (seen !== null && (target.contains(seen) || seen.contains(target))) return "";
	}
	return `#${id} is covered`;
}

/** In the page: makes a link of the page visible and says where to tap it; undefined where it cannot be seen. */
async function spotOf(at: number): Promise<{ readonly x: number; readonly y: number } | undefined> {
	const link = document.querySelectorAll<HTMLElement | SVGAElement>('a[href^="#"]')[at];
	if (link === undefined) return undefined;
	for (
		let fold = link.closest("details");
		fold !== null;
		fold = fold.parentElement?.closest("details") ?? null
	)
		fold.open = true;
	const ways = link.closest(".block-ways");
	if (ways !== null) location.hash = ways.previousElementSibling?.id ?? "";
	const frame = () => new Promise((done) => requestAnimationFrame(done));
	if (!link.checkVisibility()) return undefined;
	// What comes into sight is laid out, and moves what is below it: until the link is what would be tapped.
	for (let i = 0; i < 10; i++) {
		link.scrollIntoView({ block: "center", behavior: "instant" });
		await frame();
		await frame();
		const { left, top, width, height } = link.getClientRects()[0] ?? link.getBoundingClientRect();
		const spot = { x: left + width / 2, y: top + height / 2 };
		const there = document.elementFromPoint(spot.x, spot.y);
		if (i > 0 && there !== null && link.contains(there)) return spot;
	}
	return undefined;
}

/** What is wrong with the way past the frame, the first that the keyboard comes to on every page; "" where nothing is. */
async function pastTheFrame(page: Page): Promise<string> {
	await page.keyboard.press("Tab");
	await page.keyboard.press("Enter");
	await page.evaluate(settle);
	const found = await page.evaluate(() => [location.hash, document.activeElement?.id].join());
	return found === "#main,main" ? page.evaluate(wrongPlace) : `leads past the frame to ${found}`;
}

async function tap(
	page: Page,
	look: Look,
	{ x, y }: { readonly x: number; readonly y: number },
): Promise<void> {
	if (look.width < 1024) await page.touchscreen.tap(x, y);
	else await page.mouse.click(x, y);
}

/**
 * The links of the page that jump within it, by their number, for each place that they stand in: the
 * classes and elements around them. Not the way past the frame, nor cells that open over it.
 */
const linksIn = (page: Page): Promise<readonly (readonly number[])[]> =>
	lookAtAll(page, 'a[href^="#"]', (links) => {
		const byPlace = new Map<string, number[]>();
		for (const [at, link] of links.entries()) {
			if (link.matches(".skip, table.coverage td > a")) continue;
			let place = "";
			for (let part: Element | null = link; part !== null && part.id !== "main"; part = part.parentElement)
				place += `${part.localName}.${part.classList[0] ?? ""} `;
			byPlace.set(place, [...(byPlace.get(place) ?? []), at]);
		}
		return [...byPlace.values()];
	});

/** One link of each place they stand in, then others spread over the page. */
function linksToTap(places: readonly (readonly number[])[], most: number): readonly number[] {
	const one = places.map((links) => links[Math.floor(links.length / 2)] as number);
	return [...new Set([...spread(one, most), ...spread(places.flat(), most)])]
		.slice(0, most)
		.sort((a, b) => a - b);
}

/** What differs between the looks is how far above a target the bars reach: two links of few kinds show it. */
const LOOKS: readonly Look[] = [
	{ width: 360, motion: "no-preference", links: "many" },
	{ width: 320, motion: "no-preference", links: "few" },
	{ width: 820, motion: "no-preference", links: "few" },
	{ width: 1280, motion: "no-preference", links: "few" },
	{ width: 360, motion: "reduce", links: "few" },
];

const FEW_KINDS: readonly string[] = ["class-sheet", "week-apparatus", "coverage", "author-guide", "term"];

/** Links of a page that are tapped, and addresses with a place in it that are opened. */
const MOST = {
	many: { taps: 8, own: 3, others: 2 },
	few: { taps: 2, own: 1, others: 1 },
} as const;

/** So many taps of a page come right after it was opened; the others go on from where the last one led. */
const OPENED_ANEW = 3;

const pagesFor = ({ links }: Look): readonly string[] =>
	[...longest].filter(([kind]) => links === "many" || FEW_KINDS.includes(kind)).map(([, address]) => address);

describe.each(LOOKS)("on $width pixels, motion: $motion, $links links", (look) => {
	const most = MOST[look.links];

	it("lands past the frame, and where a tap on a link of the page says", { timeout: 600_000 }, async () => {
		const page = await newPage(look);
		const wrong: string[] = [];
		let tapped = 0;
		for (const address of pagesFor(look)) {
			await visit(page, address);
			const past = look.links === "many" ? await pastTheFrame(page) : "";
			if (past !== "") wrong.push(`${address}: ${past}`);
			const links = linksToTap(await linksIn(page), most.taps);
			const anew = new Set((await laysOutLate(page)) ? spread(links, OPENED_ANEW) : []);
			for (const at of links) {
				if (anew.has(at) && (at !== links[0] || look.links === "many")) await visit(page, address);
				tapped++;
				let spot = await page.evaluate(spotOf, at);
				// The last link may have opened the menu over the page.
				if (spot === undefined) {
					await visit(page, address);
					spot = await page.evaluate(spotOf, at);
				}
				if (spot === undefined) {
					wrong.push(`${address}: link ${at} cannot be seen`);
					continue;
				}
				await tap(page, look, spot);
				await page.evaluate(settle);
				const found = await page.evaluate(wrongPlace);
				if (found !== "") wrong.push(`${address}: ${found}`);
				if (page.url().split(/[?#]/)[0] === open.root + address) continue;
				wrong.push(`${address}: link ${at} leads to ${page.url()}`);
				await visit(page, address);
			}
		}
		await page.close();
		expect(wrong).toEqual([]);
		expect(tapped).toBeGreaterThan(look.links === "many" ? 40 : 4);
	});

	it("lands where an address with a place says", { timeout: 600_000 }, async () => {
		const page = await newPage(look);
		const wrong: string[] = [];
		let opened = 0;
		for (const address of pagesFor(look)) {
			const file = address === "" || address.endsWith("/") ? `${address}index.html` : address;
			const own = [...(open.site.pages.get(file) ?? "").matchAll(/<a [^>]*href="(#[^"]+)"/g)]
				.map(([, hash = ""]) => hash)
				.filter((hash) => hash !== "#main");
			const hashes = new Set([
				...spread([...new Set(own)], most.own),
				...spread(places.get(address) ?? [], most.others),
			]);
			let late: boolean | undefined;
			for (const hash of hashes) {
				if (late !== false) await visit(page, address + hash);
				else await page.evaluate(`location.hash = ${JSON.stringify(hash)}`);
				late ??= await laysOutLate(page);
				opened++;
				await page.evaluate(settle);
				const found = await page.evaluate(wrongPlace);
				if (found !== "") wrong.push(`${address}: ${found}`);
			}
		}
		await page.close();
		expect(wrong).toEqual([]);
		expect(opened).toBeGreaterThan(look.links === "many" ? 30 : 4);
	});
});

it("opens coverage cells to their own drills, over the table", { timeout: 300_000 }, async () => {
	const page = await newPage({ width: 360, motion: "no-preference", links: "many" });
	await visit(page, longest.get("coverage") ?? "");
	const wrong = await page.evaluate(() => {
		const cells = [...document.querySelectorAll<HTMLAnchorElement>("table.coverage td > a")];
		if (cells.length < 100) return [`only ${cells.length} cells`];
		const step = Math.ceil(cells.length / 20);
		return cells.flatMap((cell, at) => {
			if (at % step !== 0) return [];
			const before = scrollY;
			cell.click();
			const dialog = document.querySelector<HTMLDialogElement>("dialog[open]");
			const list = document.getElementById(decodeURIComponent(cell.hash.slice(1)));
			const isOwn =
				list !== null &&
				dialog?.firstElementChild?.firstElementChild?.textContent === list.firstElementChild?.textContent;
			dialog?.close();
			return isOwn && scrollY === before ? [] : [cell.hash];
		});
	});
	await page.close();
	expect(wrong).toEqual([]);
});

it("leads from a coverage table to its lists without JavaScript", { timeout: 120_000 }, async () => {
	const look: Look = { width: 360, motion: "no-preference", links: "few" };
	const address = longest.get("coverage") ?? "";
	const page = await newPage(look);
	await visit(page, address);
	const own = await lookAtAll(page, "table.coverage td > a", (links) =>
		links.map((link) => link.getAttribute("href") ?? ""),
	);
	// The tests look with JavaScript: the program that opens cells is kept from coming.
	await page.setRequestInterception(true);
	page.on("request", (request) =>
		request.url().includes("coverage-cells") ? request.abort() : request.continue(),
	);
	const wrong: string[] = [];
	for (const hash of spread(own, 8)) {
		await visit(page, address);
		await page.evaluate((hash) => {
			location.hash = hash;
		}, hash);
		await page.evaluate(settle);
		const found = await page.evaluate(wrongPlace);
		if (found !== "") wrong.push(found);
	}
	await page.close();
	expect(wrong).toEqual([]);
});
