/** Forms in a browser: drafts that survive a kill, a file that two have changed, links completed, a shape that moves. */

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import axe from "axe-core";
import type { Page } from "puppeteer-core";
import { expect, it, vi } from "vitest";
import { readTexts } from "../../scripts/edit/club-texts.ts";
import { markOf, reportText } from "../../scripts/records/report.ts";
import { textsIn } from "../commands/texts-in.ts";
import { clubCopy } from "../open-fixture.ts";
import { MouseHands, openBrowser, serveDesk, settled, startDesk } from "./open-desk.ts";

const ROCK = "content/drills/floor/rock.md";

async function opened(page: Page, address: string): Promise<MouseHands> {
	await page.setViewport({ width: 1440, height: 900 });
	await page.goto(address);
	await page.waitForSelector("h1");
	await settled(page);
	return new MouseHands(page);
}

it("keeps what is typed, shows both texts where two have written, and writes only what she chose", async () => {
	const dir = clubCopy();
	const read = () => readFileSync(join(dir, ROCK), "utf8");
	const sound = read();
	const browser = await openBrowser();
	const page = await browser.newPage();
	const first = await startDesk(dir);
	let hands = await opened(page, first.address);
	await hands.press("Drills and files");
	await hands.press("Rock on the back");
	await page.waitForSelector('[data-field="summary"]');
	await hands.type("Summary", "Rock without a sound.");
	// It is kept beside the file, which stays.
	const drafts = join(dir, ".handbook/drafts");
	await vi.waitFor(
		() => expect([...textsIn(drafts).values()].join()).toContain("Rock without a sound."),
		20_000,
	);
	expect(read()).toBe(sound);

	// The power goes; somebody else writes in the file meanwhile.
	await first.end();
	const theirs = sound.replace("---\n", "---\n# Read by the head coach.\n");
	writeFileSync(join(dir, ROCK), theirs);
	const second = await serveDesk(dir);
	hands = await opened(page, second.address);
	await hands.press(ROCK);
	await page.waitForSelector('[data-field="summary"]');
	expect(
		await page.$eval('[data-field="summary"] textarea', (field) => (field as HTMLTextAreaElement).value),
	).toBe("Rock without a sound.");
	await hands.press("Save");
	await page.waitForSelector(".conflict");
	expect(read()).toBe(theirs);
	await page.evaluate(axe.source);
	const { violations } = await page.evaluate(() =>
		(globalThis as unknown as { axe: typeof axe }).axe.run(document),
	);
	expect(violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`)).toEqual([]);
	await hands.press("Save mine in its place");
	await page.waitForFunction(() => document.querySelector(".conflict") === null);
	await settled(page);
	expect(read()).toContain("summary: Rock without a sound.");
	// The other one comes back with undo.
	await hands.press("Undo");
	expect(read()).toBe(theirs);
});

it("completes links, marks mistakes where they stand, and draws a shape as it moves", async () => {
	const dir = clubCopy();
	const served = await serveDesk(dir);
	const browser = await openBrowser();
	const page = await browser.newPage();
	const hands = await opened(page, served.address);
	await hands.press("Drills and files");
	await hands.press("Rock on the back");
	await page.waitForSelector(".cm-content");
	await page.focus(".cm-content");
	await page.keyboard.down("Control");
	await page.keyboard.press("End");
	await page.keyboard.up("Control");
	await page.keyboard.type(" See [[wedge");
	await page.waitForSelector(".cm-tooltip-autocomplete li");
	await new Promise((resolve) => setTimeout(resolve, 150));
	await page.keyboard.press("Enter");
	await hands.press("Save");
	await page.waitForFunction(() => document.querySelector(".file .mark") === null);
	expect(readFileSync(join(dir, ROCK), "utf8")).toContain("See [[wedge-roll]]");

	await hands.press("As text");
	await page.waitForSelector(".is-numbered .cm-content");
	await page.focus(".is-numbered .cm-content");
	await page.keyboard.down("Control");
	await page.keyboard.press("Home");
	await page.keyboard.up("Control");
	await page.keyboard.press("ArrowDown");
	await page.keyboard.type("titel: Twice");
	await page.keyboard.press("Enter");
	await page.waitForSelector(".problems .wrong");
	expect(await page.$eval(".problems", (list) => list.textContent)).toMatch(/Line 2:.*titel/);
	await page.waitForSelector(".is-numbered .cm-lint-marker-error");
	await hands.press("Save");
	await page.waitForSelector(".notice.is-wrong");
	expect(readFileSync(join(dir, ROCK), "utf8")).not.toContain("titel");
	await hands.press("Drop what is not saved");

	await hands.press("Body shapes");
	await hands.press("Hollow");
	await page.waitForSelector(".shape svg");
	const drawn = () => page.$eval(".shape .figure", (figure) => figure.innerHTML);
	const before = await drawn();
	await page.focus(".joint:nth-of-type(3) input");
	for (let i = 0; i < 6; i++) await page.keyboard.press("ArrowLeft");
	expect(await drawn()).not.toBe(before);
	await hands.press("Save");
	await page.waitForFunction(() => document.querySelector(".file .mark") === null);
	expect(readFileSync(join(dir, "_data/shapes.yaml"), "utf8")).toMatch(/hip: \d+/);
});

/** Degrees between two arms of an angle, as a protractor on the screen measures them. */
function protractor(corner: readonly number[], one: readonly number[], other: readonly number[]): number {
	const [cx = 0, cy = 0] = corner;
	const way = ([x = 0, y = 0]: readonly number[]) => Math.atan2(y - cy, x - cx);
	const turn = Math.abs(((way(one) - way(other)) * 180) / Math.PI);
	return Math.min(turn, 360 - turn);
}

it("moves a joint on the figure itself, with a mouse, a finger and keys", async () => {
	const dir = clubCopy();
	writeFileSync(
		join(dir, "_data/shapes.yaml"),
		"- id: hollow\n  name: Hollow\n  # Our own.\n  angles: {shoulder: 120, hip: 170, trunk: 20}\n  base: air\n",
	);
	const served = await serveDesk(dir);
	const browser = await openBrowser();
	const page = await browser.newPage();
	const hands = await opened(page, served.address);
	await page.setViewport({ width: 820, height: 900, hasTouch: true });
	await settled(page);
	await hands.press("Drills and files");
	await hands.press("Body shapes");
	await hands.press("Hollow");
	const handle = (name: string) => `.joint-handle[aria-label="${name}"]`;
	const middle = async (name: string): Promise<readonly [number, number]> => {
		const box = await (await page.waitForSelector(handle(name)))?.boundingBox();
		if (!box) throw new Error(`${name} is not on the figure`);
		expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44);
		return [box.x + box.width / 2, box.y + box.height / 2];
	};
	const angle = async (name: string): Promise<number> =>
		Number.parseInt(await page.$eval(handle(name), (one) => one.getAttribute("aria-valuetext") ?? ""), 10);
	const drawn = () => page.$eval(".figure-box svg", (svg) => svg.outerHTML);
	// The wrist is taken, a little beside its middle, and brought up and back: it bends the elbow.
	await page.waitForSelector(handle("Elbow"));
	await page.$eval(handle("Elbow"), (one) => one.scrollIntoView({ block: "center" }));
	const [x, y] = await middle("Elbow");
	const before = await drawn();
	await page.mouse.move(x + 3, y - 3);
	await page.mouse.down();
	await page.mouse.move(x - 20, y - 40, { steps: 3 });
	await page.mouse.move(x - 60, y - 70, { steps: 3 });
	await page.mouse.up();
	const elbow = await angle("Elbow");
	expect(elbow).toBeLessThan(170);
	expect(await page.$eval("#spoken", (one) => one.textContent)).toBe(`Elbow: ${elbow} degrees`);
	expect(await drawn()).not.toBe(before);
	// What is written is what a protractor reads off the drawing; the chest is taken to lean the body.
	const bent = protractor(await middle("Shoulder"), await middle("Lean"), await middle("Elbow"));
	expect(Math.abs(bent - elbow)).toBeLessThanOrEqual(2);

	await page.$eval(handle("Knee"), (one) => one.scrollIntoView({ block: "center" }));
	const [left, top] = await middle("Knee");
	const touch = await page.touchscreen.touchStart(left, top);
	await touch.move(left - 20, top + 30);
	await touch.move(left - 50, top + 60);
	await touch.end();
	const knee = await angle("Knee");
	expect(knee).toBeLessThan(170);

	await page.focus(handle("Hip"));
	for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowLeft");
	expect(await angle("Hip")).toBe(150);
	await page.evaluate(axe.source);
	const { violations } = await page.evaluate(() =>
		(globalThis as unknown as { axe: typeof axe }).axe.run(document, {
			runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
		}),
	);
	expect(violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`)).toEqual([]);
	await hands.press("Save");
	await page.waitForFunction(() => document.querySelector(".file .mark") === null);
	const written = readFileSync(join(dir, "_data/shapes.yaml"), "utf8");
	for (const one of ["hip: 150", `elbow: ${elbow}`, `knee: ${knee}`, "# Our own."])
		expect(written).toContain(one);
});

it("takes a dose by level, a merge and coaches' reports by their forms, each undone", async () => {
	const dir = clubCopy();
	const texts = () => Object.fromEntries(readTexts(dir));
	const before = texts();
	const served = await serveDesk(dir);
	const browser = await openBrowser();
	const page = await browser.newPage();
	const hands = await opened(page, served.address);
	await page.evaluate(axe.source);
	const accessible = async (): Promise<void> => {
		const { violations } = await page.evaluate(() =>
			(globalThis as unknown as { axe: typeof axe }).axe.run(document),
		);
		expect(violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`)).toEqual([]);
	};
	const plan = () => readFileSync(join(dir, "content/weeks/week-1.md"), "utf8");
	await hands.pressAt('[data-card="1/floor/1"] .card-open');
	await hands.press("Each level has its own");
	await hands.press("Sets: Senior: more");
	await hands.press("Repetitions: Junior: more");
	expect(plan()).toContain("dose: {senior: {sets: 1}, junior: {reps: 1}}");
	await accessible();
	await hands.press("Each level has its own");
	expect(plan()).not.toContain("dose");
	for (let i = 0; i < 3; i++) await hands.press("Undo");
	expect(texts()).toEqual(before);

	await hands.press("Drills and files");
	await hands.press("Rock on the back");
	await page.waitForSelector(".elsewhere");
	await hands.pressAt(".elsewhere summary");
	await hands.choose("Merge it into", "Rock backward");
	await hands.press("See what it would do");
	await page.waitForSelector(".tried");
	expect(await page.$eval(".tried textarea", (one) => (one as HTMLTextAreaElement).value)).toContain(
		`- ${ROCK}`,
	);
	expect(texts()).toEqual(before);
	await accessible();
	await hands.press("Merge “Rock on the back” into “Rock backward”");
	expect(plan()).toContain("{drill: rock-back, minutes: 10}");
	await hands.press("Undo");
	expect(texts()).toEqual(before);

	await hands.press("What coaches reported");
	const report = reportText({
		week: "week-1",
		class: "mon",
		from: "coachone1",
		revision: 1,
		edition: 1,
		blocks: [{ apparatus: "beam", block: 1, mark: markOf(["beam-stand"]), done: "done" }],
		skills: [],
	});
	await page.$eval(
		".drop",
		(drop, text) => {
			const data = new DataTransfer();
			for (const [name, own] of [
				["monday.txt", `From the hall:\n${text}`],
				["holiday.txt", "No report."],
			])
				data.items.add(new File([own ?? ""], name ?? ""));
			drop.dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
		},
		report,
	);
	await page.waitForSelector(".tried");
	expect(await page.$eval(".file", (one) => one.textContent)).toContain(
		"holiday.txt: There is no report in it.",
	);
	await accessible();
	await hands.press("Take them in");
	await page.waitForFunction(() => document.querySelector(".tried") === null);
	expect(texts()["_data/taught/week-1.yaml"]).toContain("beam-stand");
	await hands.press("Undo");
	expect(texts()).toEqual(before);
});
