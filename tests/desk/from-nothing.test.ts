/**
 * From an empty folder to a published handbook, with nothing but the desk after `serve` was started: a club
 * of levels, areas and drills by form, weeks on the board, a class that is too full mended by one press,
 * and the site published. Once with a mouse, once with the keyboard alone, once with a finger at 820 px.
 */

import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import axe from "axe-core";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Page } from "puppeteer-core";
import { expect, it, onTestFinished } from "vitest";
import { ownOutput } from "../../scripts/commands/note-edition.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import {
	FingerHands,
	type Hands,
	KeyHands,
	MouseHands,
	openBrowser,
	serveDesk,
	settled,
} from "./open-desk.ts";

function emptyFolder(): string {
	const dir = mkdtempSync(join(tmpdir(), "desk-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	return dir;
}

/** What axe finds wrong: nothing, in any state that is shown. */
async function accessible(page: Page, where: string): Promise<void> {
	if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe.source);
	const { violations } = await page.evaluate(() =>
		(globalThis as unknown as { axe: typeof axe }).axe.run(document, {
			runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
			resultTypes: ["violations"],
		}),
	);
	const said = violations.map(
		({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`,
	);
	expect(said, where).toEqual([]);
	// What came of a change is told whole, up to a third of the screen.
	const hidden = await page.evaluate(() => {
		const told = document.querySelector(".notices");
		return told === null || told.clientHeight > innerHeight * 0.3 ? 0 : told.scrollHeight - told.clientHeight;
	});
	expect(hidden, where).toBeLessThanOrEqual(1);
}

async function newThing(hands: Hands, kind: string, field: string, name: string): Promise<void> {
	await hands.press(kind);
	await hands.type(field, name);
	await hands.press("Begin");
	await hands.page.waitForSelector("#file-title");
	await save(hands);
}

async function save(hands: Hands): Promise<void> {
	await hands.press("Save");
	await hands.page.waitForFunction(
		() =>
			document.querySelector(".saved")?.getAttribute("data-busy") === "false" &&
			document.querySelector(".file .mark") === null,
	);
}

/** The whole way; with how many drills and weeks, and whether a sheet is printed at its end. */
async function journey(
	hands: Hands,
	dir: string,
	drills: number,
	weeks: number,
	prints = false,
): Promise<void> {
	const { page } = hands;
	await accessible(page, "the empty desk");
	await hands.press("Drills and files");
	for (const level of ["Level 1", "Level 2"]) await newThing(hands, "Levels", "Name of a new level", level);
	for (const area of ["Floor", "Beam"])
		await newThing(hands, "Apparatus and areas", "Name of a new area", area);

	await hands.press("Term, classes and closed days");
	await page.waitForSelector("#file-title");
	await hands.type("Name", "Winter term");
	await hands.type("Weeks", String(weeks));
	await page.waitForSelector('[data-field="starts"] input');
	// A date is typed in parts that differ by country.
	await page.$eval('[data-field="starts"] input', (input) => {
		(input as HTMLInputElement).value = "2027-01-04";
		input.dispatchEvent(new Event("input", { bubbles: true }));
	});
	await hands.press("Add: Classes");
	const inClass = async (field: string, text: string) => hands.type(field, text);
	await page.waitForSelector('[data-field="classes"] [data-field="id"] input');
	await inClass("Id", "mon");
	await inClass("Minutes", "20");
	await inClass("Gymnasts", "8");
	await hands.pick("Level", "Level 1");
	await hands.pick("Order of apparatus", "Floor");
	await hands.pick("Order of apparatus", "Beam");
	await accessible(page, "the form of the term");
	await save(hands);

	const names = Array.from({ length: drills }, (_, i) => `Drill number ${i + 1}`);
	for (const [i, name] of names.entries()) {
		await hands.press("Drills");
		await hands.type("Name of a new drill", name);
		await hands.choose("Area", i % 2 === 0 ? "Floor" : "Beam");
		await hands.press("Begin");
		await page.waitForSelector("#file-title");
		if (i === 0) {
			await hands.type("Summary", "Stand tall, then stop.");
			await accessible(page, "the form of a drill");
		}
		await save(hands);
	}

	await hands.press("Plan");
	for (let week = 1; week <= weeks; week++) {
		await page.waitForSelector(`#week-${week} .week-open`);
		await openWeek(hands, week);
		await hands.type("Theme", `Theme of week ${week}`);
		await hands.press("Plan this week");
		await page.waitForSelector(`[data-cell="${week}/floor"]`);
		await hands.press("Close");
	}
	await hands.press("Drills");
	for (let week = 1; week <= weeks; week++) {
		await hands.plan(names[(week - 1) * 2] ?? "", week, "floor");
		await hands.plan(names[(week - 1) * 2 + 1] ?? "", week, "beam");
	}
	await hands.plan(names[2] ?? "", 1, "floor");
	await accessible(page, "the plan");
	await hands.press("Drills");

	// Three blocks of eight minutes and the way between do not fit into twenty.
	expect(openHandbook(dir).handbook?.findings.map(({ code }) => code)).toContain("H308");
	await hands.press(`Findings (${openHandbook(dir).handbook?.findings.length ?? 0})`);
	const title = openHandbook(dir).handbook?.words.catalogue.H308.title ?? "";
	await hands.press(`What would mend it: ${title}`);
	await page.waitForSelector(".mend");
	await accessible(page, "the findings");
	await hands.press("Do it");
	await page.waitForFunction(() => document.querySelector(".mend") === null);
	expect(openHandbook(dir).handbook?.findings.map(({ code }) => code)).not.toContain("H308");

	await hands.press("Publish and print");
	await hands.press("Publish the site");
	await page.waitForFunction(() => document.querySelector(".task [role=status]")?.textContent === "Done.", {
		timeout: 90_000,
	});
	await accessible(page, "publishing");
	expect(readFileSync(join(ownOutput(dir), "index.html"), "utf8")).toContain("Winter term");
	const drillFiles = readdirSync(join(dir, "content/drills"), { recursive: true }).filter((file) =>
		String(file).endsWith(".md"),
	);
	expect(drillFiles).toHaveLength(drills);
	expect(openHandbook(dir).problems).toEqual([]);
	// Nothing of the desk is in what is published.
	const site = readdirSync(`${ownOutput(dir)}/`, { recursive: true }).map(String);
	expect(site.filter((file) => /desk|codemirror|preact/i.test(file))).toEqual([]);
	for (const file of site.filter((one) => one.endsWith(".js")))
		expect(readFileSync(join(ownOutput(dir), file), "utf8"), file).not.toMatch(/cm-editor|\/desk\//);
	if (prints) await printSheet(hands, ownOutput(dir));
	expect(existsSync(join(dir, ".handbook/drafts")) ? readdirSync(join(dir, ".handbook/drafts")) : []).toEqual(
		[],
	);
}

/** The sheet of one class in one week, with what is planned in it. */
async function printSheet(hands: Hands, outDir: string): Promise<void> {
	await hands.choose("Of week", "1: Theme of week 1");
	await hands.press("Print");
	await hands.page.waitForFunction(
		() => document.querySelector('[aria-label="Print single sheets"] [role=status]')?.textContent === "Done.",
		{ timeout: 90_000 },
	);
	await accessible(hands.page, "printed");
	const folder = join(outDir, "print/weeks/week-01/class-sheets");
	expect(readdirSync(folder)).toEqual(["mon.pdf"]);
	// She opens it where she printed it: the link's file is the one in the output.
	const printed = readFileSync(join(folder, "mon.pdf"));
	const opened = await hands.page.$eval('.task a[href$=".pdf"]', async (link) => {
		const answer = await fetch((link as HTMLAnchorElement).href);
		return [answer.headers.get("content-type"), (await answer.bytes()).length] as const;
	});
	expect(opened).toEqual(["application/pdf", printed.length]);
	const pdf = await getDocument({ data: new Uint8Array(printed), verbosity: 0 }).promise;
	const { items } = await (await pdf.getPage(1)).getTextContent();
	expect(items.map((item) => ("str" in item ? item.str : "")).join(" ")).toContain("Drill number 1");
	expect(await hands.page.$eval(".view-publish", (view) => view.textContent)).toContain(
		join(outDir, "print"),
	);
}

/** With a picture of what was shown where it stops, if somebody wants one. */
async function watched(hands: Hands, way: Promise<void>): Promise<void> {
	try {
		await way;
	} catch (error) {
		const folder = process.env.PICTURES;
		if (folder !== undefined) await hands.page.screenshot({ path: `${folder}/stopped.png` });
		throw error;
	}
}

async function openWeek(hands: Hands, week: number): Promise<void> {
	await hands.pressAt(`#week-${week} .week-open`);
	await hands.page.waitForSelector("#week-title");
}

async function openPage(dir: string, width: number, touch = false): Promise<Page> {
	const served = await serveDesk(dir);
	const browser = await openBrowser();
	const page = await browser.newPage();
	await page.setViewport({ width, height: 900, hasTouch: touch });
	page.on("pageerror", (error) => {
		throw error;
	});
	await page.goto(served.address, { waitUntil: "domcontentloaded" });
	await page.waitForSelector("h1");
	await settled(page);
	return page;
}

it("with a mouse: two levels, six drills, three weeks, mended, published", async () => {
	const dir = emptyFolder();
	const hands = new MouseHands(await openPage(dir, 1280));
	await watched(hands, journey(hands, dir, Number(process.env.DESK_DRILLS ?? 6), 3, true));
});

it("with the keyboard alone", async () => {
	const dir = emptyFolder();
	const hands = new KeyHands(await openPage(dir, 1280));
	await watched(hands, journey(hands, dir, 4, 2, true));
});

it("with a finger, at 820 px", async () => {
	const dir = emptyFolder();
	const page = await openPage(dir, 820, true);
	const hands = new FingerHands(page);
	await watched(hands, journey(hands, dir, 4, 2));
	expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
});
