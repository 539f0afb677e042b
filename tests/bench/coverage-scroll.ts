/**
 * Scrolls the heaviest pages, the coverage tables of weeks, on a phone four times slower than this machine.
 *
 *   node tests/bench/coverage-scroll.ts [weeks shapes levels]     (40 60 6 if left out)
 *
 * Builds a club of that size and prints for each table its bytes and elements, the time until the page has
 * been painted, and the time from one frame to the next while the page is moved down and
 * the table to its end, as far as 600 frames lead. A screen wants a frame every 17 ms. Nothing here is asserted.
 */

import { execFileSync } from "node:child_process";
import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import puppeteer, { type Page } from "puppeteer-core";
import { openHandbook } from "../../scripts/handbook.ts";
import { findBrowser } from "../../scripts/print/find-browser.ts";
import { writeSizedClub } from "./sized-club.ts";

const REPOSITORY = fileURLToPath(new URL("../../", import.meta.url));
const SLOWER = 4;
/** Pixels in a frame's time: a strong flick, 3,000 in a second. */
const STEP = 50;
/** So many frames at the most: the lists below a table are as long as half a kilometre of paper. */
const FRAMES = 600;

const asked = process.argv.slice(2).map(Number);
const [weeks = 40, shapes = 60, levels = 6] = asked;
const { handbook: demo } = openHandbook(REPOSITORY);
if (demo === undefined) throw new Error("The demo has errors.");
const found = await findBrowser();
if ("missing" in found) throw new Error(found.missing);
const dir = mkdtempSync(join(tmpdir(), "scroll-"));
try {
	const club = join(dir, "club");
	writeSizedClub(demo, club, { weeks, drills: 450 });
	addShapes(club, demo.curriculum.shapes.size);
	addLevels(club, demo.curriculum.levels.size);
	const out = join(dir, "site");
	execFileSync(
		process.execPath,
		["scripts/commands/main.ts", "build", "--no-print", "--club", club, "--out", out],
		{ cwd: REPOSITORY, stdio: "ignore" },
	);
	console.log(`${weeks} weeks, ${shapes} shapes, ${levels} levels; a processor slowed ${SLOWER} times`);
	console.log(
		"| table | kB | elements | painted ms | down: median, 95 %, longest ms | sideways | places kept |",
	);
	console.log(`|${" --- |".repeat(7)}`);
	const browser = await puppeteer.launch({
		executablePath: found.browser.path,
		headless: found.browser.shell ? "shell" : true,
		env: { ...process.env, ...found.browser.environment },
		args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--allow-file-access-from-files"],
	});
	try {
		for (const table of ["week-shape", "week-skill", "week-direction"]) {
			const file = join(out, "coverage", table, "index.html");
			const page = await browser.newPage();
			await page.setViewport({ width: 360, height: 740, hasTouch: true, isMobile: true });
			await (await page.createCDPSession()).send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
			await page.goto(pathToFileURL(file).href, { waitUntil: "load" });
			const { painted, elements } = await page.evaluate(() => ({
				painted: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN,
				elements: document.querySelectorAll("*").length,
			}));
			const down = await framesOf(page, "down");
			const sideways = await framesOf(page, "sideways");
			const bytes = readFileSync(file).length;
			const cells = [
				table,
				(bytes / 1000).toFixed(0),
				elements,
				painted.toFixed(0),
				spread(down.frames),
				spread(sideways.frames),
				down.moved === down.wanted ? "yes" : `${down.moved} of ${down.wanted} px`,
			];
			console.log(`| ${cells.join(" | ")} |`);
			await page.close();
		}
	} finally {
		await browser.close();
	}
} finally {
	rmSync(dir, { recursive: true, force: true });
}

/** Shapes up to the number asked, each like one that is there; drills get them in turn. */
function addShapes(club: string, there: number): void {
	const ids = Array.from({ length: Math.max(0, shapes - there) }, (_, i) => `shape-${i + 1}`);
	const entries = ids.map(
		(id, i) =>
			`- id: ${id}\n  name: Shape ${i + 1}\n  description: Another line to hold.\n` +
			`  angles: { shoulder: ${90 + i}, hip: ${180 - i}, knee: 180, ankle: 170 }\n  base: back\n  tilt: -84\n`,
	);
	appendFileSync(join(club, "_data/shapes.yaml"), entries.join(""));
	drillFiles(club).forEach((file, i) => {
		const more = [ids[(2 * i) % ids.length], ids[(2 * i + 1) % ids.length]].filter((id) => id !== undefined);
		change(
			file,
			/^shapes: \[(.*)\]$/m,
			(_, old) => `shapes: ${JSON.stringify([...JSON.parse(`[${old}]`), ...more])}`,
		);
	});
}

/** Levels up to the number asked: each drill and each block that the highest has is theirs as well. */
function addLevels(club: string, there: number): void {
	const ids = Array.from({ length: Math.max(0, levels - there) }, (_, i) => `level-${there + i}`);
	const entries = ids.map((id, i) => `- id: ${id}\n  name: Level ${there + i}\n  entry: []\n`);
	appendFileSync(join(club, "_data/levels.yaml"), entries.join(""));
	for (const file of drillFiles(club)) {
		change(file, /^levels: (\{.*\})$/m, (_, old) => {
			const known: Readonly<Record<string, unknown>> = JSON.parse(old);
			const dose = known["level-3"] ?? {};
			return `levels: ${JSON.stringify({ ...known, ...Object.fromEntries(ids.map((id) => [id, dose])) })}`;
		});
	}
	const folder = join(club, "content/weeks");
	for (const name of readdirSync(folder)) {
		change(join(folder, name), /^(\s+levels: )(\[.*level-3\]|level-3)$/gm, (_, start, old) => {
			const known = old.replace(/[[\]]/g, "").split(/, */);
			return `${start}[${[...known, ...ids].join(", ")}]`;
		});
	}
}

function drillFiles(club: string): readonly string[] {
	const folder = join(club, "content/drills");
	return readdirSync(folder, { recursive: true, encoding: "utf8" })
		.filter((name) => name.endsWith(".md"))
		.sort()
		.map((name) => join(folder, name));
}

function change(file: string, what: RegExp, to: (...found: readonly string[]) => string): void {
	writeFileSync(
		file,
		readFileSync(file, "utf8").replace(what, (...found) => to(...found.map(String))),
	);
}

interface Moved {
	/** Milliseconds from each frame to the next. */
	readonly frames: readonly number[];
	/** Pixels. */
	readonly moved: number;
	readonly wanted: number;
}

/** Moves the page, or its table, a step each frame, until its end. */
function framesOf(page: Page, way: "down" | "sideways"): Promise<Moved> {
	return page.evaluate(
		async (sideways: boolean, step: number, most: number) => {
			document.documentElement.style.scrollBehavior = "auto";
			const table = document.querySelector("table");
			let box: Element = document.documentElement;
			for (
				let one = table?.parentElement;
				sideways && one !== null && one !== undefined;
				one = one.parentElement
			) {
				if (one.scrollWidth > one.clientWidth) {
					box = one;
					break;
				}
			}
			const frame = () => new Promise<number>((resolve) => requestAnimationFrame(resolve));
			const frames: number[] = [];
			let before = await frame();
			let wanted = 0;
			// What is laid out on the way may make the page longer or shorter: its end is asked for each time.
			while (frames.length < most) {
				const end = sideways ? box.scrollWidth - box.clientWidth : box.scrollHeight - innerHeight;
				if (wanted >= end) break;
				wanted = Math.min(end, wanted + step);
				if (sideways) box.scrollLeft = wanted;
				else scrollTo(0, wanted);
				const now = await frame();
				frames.push(now - before);
				before = now;
			}
			return { frames, moved: Math.round(sideways ? box.scrollLeft : scrollY), wanted: Math.round(wanted) };
		},
		way === "sideways",
		STEP,
		FRAMES,
	);
}

/** "17, 34, 120": the median, what 95 of 100 stay below, and the longest. */
function spread(frames: readonly number[]): string {
	const sorted = frames.toSorted((a, b) => a - b);
	const at = (share: number) => (sorted[Math.floor((sorted.length - 1) * share)] ?? Number.NaN).toFixed(0);
	return `${at(0.5)}, ${at(0.95)}, ${at(1)} (${frames.length} frames)`;
}
