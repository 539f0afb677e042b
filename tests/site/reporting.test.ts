/**
 * A coach reports a class on a phone of 360 pixels: one thumb, no network, under a careful host's policy.
 * What is sent is what was tapped; what was not sent is told at home; a newer edition of the sheet keeps it.
 */

import type { ElementHandle, Page } from "puppeteer-core";
import { afterAll, describe, expect, it, onTestFinished } from "vitest";
import { MOST_BYTES, type Report, readReports } from "../../scripts/records/report.ts";
import { takeReports } from "../../scripts/records/take-reports.ts";
import { demoHandbook } from "../demo.ts";
import { REPOSITORY } from "../open-fixture.ts";
import { lookAtAll } from "../see-pages.ts";
import { openSite } from "./open-site.ts";

const open = await openSite(REPOSITORY);
afterAll(open.close);
const SHEET = "classes/mon-level-1/week-03/";

/** A phone of its own, with what its pages complain of and what they copy. */
async function phone() {
	const context = await open.browser.createBrowserContext();
	onTestFinished(() => context.close());
	const page = await context.newPage();
	const complaints: string[] = [];
	page.on("pageerror", (error) => complaints.push(String(error)));
	page.on("console", (line) => {
		if (line.type() === "error") complaints.push(line.text());
	});
	await page.setViewport({ width: 360, height: 740, hasTouch: true, isMobile: true });
	await page.evaluateOnNewDocument(() => {
		const copied: string[] = [];
		Object.assign(globalThis, { copied });
		Object.defineProperty(navigator, "clipboard", {
			value: { writeText: async (text: string) => void copied.push(text) },
		});
	});
	let taps = 0;
	/** Taps a key by its words, inside a place. */
	const tap = async (place: string, words: string) => {
		const handle = await page.evaluateHandle(
			(at, name) =>
				[...document.querySelectorAll<HTMLElement>(`${at} button, ${at} a`)].find(
					(one) =>
						[one.textContent?.trim(), one.querySelector("b")?.textContent].includes(name) &&
						one.checkVisibility(),
				),
			place,
			words,
		);
		const key = handle.asElement() as ElementHandle<HTMLElement> | null;
		if (key === null) throw new Error(`no key “${words}” in ${place}`);
		await key.scrollIntoView();
		await key.tap();
		taps++;
	};
	const sent = async (): Promise<Report> => {
		await tap("#taught", "Copy");
		const text = await page.evaluate(
			() => (globalThis as unknown as { copied: string[] }).copied.at(-1) ?? "",
		);
		expect(new TextEncoder().encode(text).length).toBeLessThanOrEqual(MOST_BYTES);
		const { reports, faults } = readReports(text);
		expect(faults).toEqual([]);
		return reports[0] as Report;
	};
	return { page, complaints, tap, sent, taps: () => taps };
}

const says = (page: Page, place: string) => page.$eval(place, (one) => one.textContent?.trim() ?? "");

describe("a coach's report", () => {
	it("of a class that went as planned takes 3 taps, and 1 for each skill", async () => {
		const { page, tap, sent, complaints, taps } = await phone();
		await page.goto(`${open.root}${SHEET}`);
		await tap(".hall-keys", "How it went");
		await tap("#taught", "All the rest as planned");
		const report = await sent();
		const blocks = await lookAtAll(page, ".report[data-block]", (all) => all.length);
		expect(report.blocks).toHaveLength(blocks);
		expect(report.blocks.every(({ done }) => done === "done")).toBe(true);
		const plain = taps();
		const skills = await lookAtAll(page, "#taught [data-skill]", (all) => all.length);
		console.log(
			`a class of ${blocks} blocks and ${skills} skills as planned: ${plain} taps, ${plain + skills} with every skill`,
		);
		expect(plain).toBe(3);
		expect(complaints).toEqual([]);
	});

	it("of a class that went as planned but for one block takes 8 taps, from the sheet to the message", async () => {
		const { page, tap, sent, taps } = await phone();
		await page.goto(`${open.root}${SHEET}`);
		await tap(".hall-keys", "Block by block");
		const block = `#${await page.evaluate(() => location.hash.slice(1))}`;
		await tap(block, "Shortened");
		await tap(block, "2 min");
		await tap(block, "Late start");
		await tap(".block-ways", "Whole sheet");
		await tap(".hall-keys", "How it went");
		await tap("#taught", "All the rest as planned");
		const { blocks } = await sent();
		console.log(`a class as planned but for one block, with minutes and cause: ${taps()} taps`);
		expect(taps()).toBe(8);
		expect(blocks.filter(({ done }) => done === "done")).toHaveLength(blocks.length - 1);
		expect(blocks.find(({ done }) => done === "shortened")).toMatchObject({ lost: 2, cause: "late" });
	});

	it("asks how many were there once, and with help only where somebody was counted", async () => {
		const { page, tap, sent } = await phone();
		await page.goto(`${open.root}${SHEET}#taught`);
		const asked = () =>
			lookAtAll(page, "#taught .report-row", (all) => all.filter((one) => one.checkVisibility()).length);
		const skills = await lookAtAll(page, "#taught [data-skill]", (all) => all.length);
		expect(await asked()).toBe(skills);
		await tap("#taught [data-skill]:nth-of-type(1)", "7");
		expect(await asked()).toBe(skills + 2);
		await tap("#taught [data-skill]:nth-of-type(1)", "−");
		await tap("#taught [data-skill]:nth-of-type(2)", "4");
		expect((await sent()).skills).toMatchObject([
			{ of: 11, alone: 7, helped: 0 },
			{ of: 11, alone: 4, helped: 0 },
		]);
		await tap("#taught [data-skill]:nth-of-type(1)", "Not counted");
		expect(await asked()).toBe(skills + 2);
	});

	it("says at each skill what must be seen of it, in the club's words", async () => {
		const { page } = await phone();
		await page.goto(`${open.root}${SHEET}#taught`);
		const said = await page.$$eval("#taught [data-skill]", (all) =>
			all.map((one) => [
				(one as HTMLElement).dataset.skill,
				[...one.querySelectorAll("ul li")].map((line) => line.textContent),
			]),
		);
		const { skills } = demoHandbook().curriculum;
		expect(said.length).toBeGreaterThan(3);
		expect(said).toEqual(said.map(([skill]) => [skill, skills.get(String(skill))?.criteria ?? []]));
	});

	it("is what was tapped in the view of one block, kept without a network and after a reload", async () => {
		const { page, tap, sent, complaints, taps } = await phone();
		await page.goto(`${open.root}${SHEET}`);
		await tap(".hall-keys", "Block by block");
		const block = `#${await page.evaluate(() => location.hash.slice(1))}`;
		await page.setOfflineMode(true);
		await tap(block, "Shortened");
		await tap(block, "2 min");
		await tap(block, "Late start");
		await tap(block, "Too hard");
		await tap(block, "Equipment");
		await page.type(`${block} .report-note input`, "  One mat has\u200b a torn edge. ");
		await page.evaluate((at) => document.querySelector<HTMLElement>(`${at} input`)?.blur(), block);
		await page.setOfflineMode(false);
		await page.reload();
		expect(
			await lookAtAll(page, `${block} [aria-pressed="true"]`, (all) => all.map((one) => one.textContent)),
		).toEqual(["Shortened", "2 min", "Late start", "Too hard", "Equipment"]);
		await page.goto(`${open.root}${SHEET}#taught`);
		const skill = "#taught [data-skill]:first-of-type";
		await tap(`${skill} .report-row:nth-of-type(1)`, "7");
		await tap(`${skill} .report-row:nth-of-type(2)`, "3");
		await tap(skill, "−");
		const report = await sent();
		console.log(`one block in all its words and one skill: ${taps()} taps`);
		expect(report.blocks).toMatchObject([
			{
				done: "shortened",
				lost: 2,
				cause: "late",
				felt: "too-hard",
				look: "equipment",
				note: "One mat has a torn edge.",
			},
		]);
		expect(report.skills).toMatchObject([{ of: 11, alone: 7, helped: 3 }]);
		// It fits the plan that it is of.
		const { curriculum } = demoHandbook();
		const taken = takeReports(curriculum, new Map(), [report]);
		expect(taken.counts.new).toBe(1);
		expect([...taken.texts.values()][0]).toMatch(/drills: \[.*done: shortened, lost: 2/);
		expect(complaints.filter((one) => !one.includes("ERR_INTERNET_DISCONNECTED"))).toEqual([]);
	});

	it("that was not sent is told at home, and no more once it was; a change is sent again as the next revision", async () => {
		const { page, tap, sent } = await phone();
		await page.goto(`${open.root}${SHEET}#taught`);
		await tap("#taught", "All the rest as planned");
		await page.goto(open.root);
		expect(await says(page, ".unsent h2")).toBe("A class report was not sent yet");
		await tap(".unsent", "Monday Level 1 week 3");
		await page.waitForSelector("#taught .report-send button");
		const first = await sent();
		expect(await says(page, ".report-send p")).toBe("Sent as it is here.");
		await page.goto(open.root);
		expect(await page.$(".unsent")).toBeNull();
		await page.goto(`${open.root}${SHEET}#taught`);
		await page.type("#taught .report-all input", "Hall was shared.");
		await page.evaluate(() => (document.activeElement as HTMLElement).blur());
		expect(await says(page, ".report-send p")).toBe("Not sent yet.");
		const second = await sent();
		expect(second).toMatchObject({
			from: first.from,
			revision: first.revision + 1,
			note: "Hall was shared.",
		});
		await tap("#taught", "Delete");
		expect(
			await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("handbook-taught"))),
		).toEqual([]);
	});

	it("goes on in a newer edition: blocks that moved are found by their drills, others are sent as they were", async () => {
		const { page, tap, sent } = await phone();
		await page.goto(`${open.root}${SHEET}#taught`);
		await tap("#taught", "All the rest as planned");
		const before = await page.evaluate(() => {
			const key = Object.keys(localStorage).find((one) => one.startsWith("handbook-taught/")) ?? "";
			const kept = JSON.parse(localStorage.getItem(key) ?? "{}") as {
				report: { b: { n: number; h: string }[] };
			};
			const [first, second] = kept.report.b;
			if (first === undefined || second === undefined) throw new Error("no blocks");
			// As if the plan had since moved the first block, and taken the second away.
			first.n += 1;
			second.h = "gone1";
			second.n = 9;
			localStorage.setItem(key, JSON.stringify(kept));
			return kept.report.b.length;
		});
		await page.reload();
		expect(await says(page, ".report-all p")).toBe(`${before - 1} of ${before} blocks reported.`);
		expect(await page.$eval(".report-all", (one) => one.textContent)).toContain(
			"One block of an earlier edition",
		);
		const report = await sent();
		expect(report.blocks).toHaveLength(before);
		expect(report.blocks.some(({ mark }) => mark === "gone1")).toBe(true);
	});

	it("can be tapped with a thumb, and nothing is wider than the screen", async () => {
		const { page, tap } = await phone();
		const looked = async () => {
			const sizes = await lookAtAll(page, ".report button, #taught button, .report-way", (all) =>
				all
					.filter((one) => one.checkVisibility())
					.map((one) => one.getBoundingClientRect())
					.map(({ width, height }) => Math.min(width, height)),
			);
			expect(sizes.length).toBeGreaterThan(7);
			expect(Math.min(...sizes)).toBeGreaterThanOrEqual(44);
			expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
			return page.evaluate(() => document.documentElement.scrollHeight);
		};
		await page.goto(`${open.root}${SHEET}#taught`);
		console.log(`the end of the class: ${await looked()} px`);
		await page.goto(`${open.root}${SHEET}`);
		await tap(".hall-keys", "Block by block");
		const block = `#${await page.evaluate(() => location.hash.slice(1))}`;
		const plain = await looked();
		await tap(block, "Shortened");
		const long = await looked();
		const without = await page.evaluate((at) => {
			document.querySelector(`${at} .report`)?.remove();
			return document.documentElement.scrollHeight;
		}, block);
		console.log(`a block: ${without} px, with the taps ${plain} px, ${long} px where it was shortened`);
	});

	it("asks for nothing where there is no JavaScript", async () => {
		const { page } = await phone();
		await page.setJavaScriptEnabled(false);
		await page.goto(`${open.root}${SHEET}`);
		const seen = await lookAtAll(
			page,
			".class-end, .report, .report-way",
			(all) => all.filter((one) => one.checkVisibility()).length,
		);
		expect(seen).toBe(0);
	});
});
