/**
 * Prints what printing the binder costs, beside Paged.js in one piece and the browser's bare print.
 *
 *   node tests/bench/print.ts [pages …] [--one-piece]
 *
 * Clubs of four sizes (sized-club.ts; the table says how many pages each came to, the smallest about a
 * hundred) are printed cold, again with all kept from the run before, and after one week's text has
 * changed. The bare print is the browser's own, of the pages as they were laid out, in one document. `--one-piece` adds the stock command, pagedjs-cli, over
 * the same pages, with a limit of its own; a larger size is left out once one has reached it.
 *
 * Memory is the most that all processes held together, each counted by its share of what it shares
 * (Linux only). The exponent is of cold time over pages, between the smallest and the largest size.
 * Other work on the machine shows in every time: trust the ratios, and look at the load.
 */

import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { PDFDocument } from "pdf-lib";
import { launch } from "puppeteer-core";
import { openHandbook } from "../../scripts/handbook.ts";
import { findBrowser } from "../../scripts/print/find-browser.ts";
import { SIZES, writeSizedClub } from "./sized-club.ts";

/** Seconds that the stock command may take. */
const ONE_PIECE_LIMIT = 300;

interface Run {
	readonly seconds: number;
	/** Of all processes, MB. */
	readonly peak: number;
	/** Whether it ended by itself, and well. */
	readonly finished: boolean;
}

const { handbook: demo } = openHandbook(process.cwd());
if (demo === undefined) throw new Error("Run this from the repository: its demo club does not open here.");
const found = await findBrowser();
if ("missing" in found) throw new Error(found.missing);
const { browser } = found;
const work = mkdtempSync(join(tmpdir(), "print-"));
const onePiece = process.argv.includes("--one-piece");
const asked = process.argv.slice(2).filter((word) => /^\d+$/.test(word));
try {
	const heads =
		"pages | cold s | MB | warm s | one week s | share of cold | bare s | MB | cold ÷ bare | one piece s | ÷ cold | load";
	console.log(`| ${heads} |\n|${" --- |".repeat(heads.split("|").length)}`);
	const points: (readonly [number, number])[] = [];
	let isTooLong = !onePiece;
	for (const [size, club] of SIZES) {
		if (asked.length > 0 && !asked.includes(String(size))) continue;
		const dir = join(work, `club-${size}`);
		writeSizedClub(demo, dir, club);
		const out = join(dir, "_site");
		const print = () =>
			measured(process.execPath, ["scripts/commands/main.ts", "print", "--club", dir, "--out", out]);
		const cold = await print();
		const warm = await print();
		const pdf = await PDFDocument.load(readFileSync(join(out, "print/binder.pdf")), {
			updateMetadata: false,
		});
		const pages = pdf.getPageCount();
		changeOneWeek(dir);
		const changed = await print();
		const html = await leavesOf(dir);
		const bare = await measured(process.execPath, [
			"tests/bench/print-bare.ts",
			html,
			join(work, "bare.pdf"),
		]);
		let stock = "–";
		let times = "–";
		if (!isTooLong) {
			const run = await stockPrint(html);
			isTooLong = !run.finished;
			stock = run.finished ? run.seconds.toFixed(1) : `no end in ${run.seconds.toFixed(0)}`;
			times = `${run.finished ? "" : "> "}${(run.seconds / cold.seconds).toFixed(1)}`;
		}
		points.push([pages, cold.seconds]);
		const cells = [
			pages,
			cold.finished ? cold.seconds.toFixed(1) : "failed",
			cold.peak.toFixed(0),
			warm.seconds.toFixed(1),
			changed.seconds.toFixed(1),
			`${((100 * changed.seconds) / cold.seconds).toFixed(0)} %`,
			bare.finished ? bare.seconds.toFixed(1) : "failed",
			bare.peak.toFixed(0),
			(cold.seconds / bare.seconds).toFixed(1),
			stock,
			times,
			loadavg()[0]?.toFixed(1),
		];
		console.log(`| ${cells.join(" | ")} |`);
	}
	const [first, last] = [points[0], points.at(-1)];
	if (first !== undefined && last !== undefined && first !== last) {
		const exponent = Math.log(last[1] / first[1]) / Math.log(last[0] / first[0]);
		console.log(`\nexponent ${exponent.toFixed(2)} from ${first[0]} to ${last[0]} pages`);
	}
} finally {
	rmSync(work, { recursive: true, force: true });
}

/** A week's own words, longer by a few. */
function changeOneWeek(dir: string): void {
	const folder = join(dir, "content/weeks");
	const file = join(folder, readdirSync(folder).sort()[0] ?? "");
	writeFileSync(file, `${readFileSync(file, "utf8").trimEnd()}\n\nKeep the groups small today.\n`);
}

/** The finished pages of a club as one document: what the bare print and the stock command are given. */
async function leavesOf(dir: string): Promise<string> {
	const file = join(work, "leaves.html");
	const run = await measured(process.execPath, ["tests/bench/write-leaves.ts", dir, file]);
	if (!run.finished) throw new Error("The pages could not be written.");
	return file;
}

/** The command of the library as it comes, in a browser of its own that runs already. */
async function stockPrint(html: string): Promise<Run> {
	const own = await launch({
		executablePath: browser.path,
		args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage"],
		env: { ...process.env, ...browser.environment },
	});
	try {
		const output = ["-o", join(work, "stock.pdf"), "-t", String(ONE_PIECE_LIMIT * 1000)];
		const args = ["pagedjs-cli", html, ...output, "--browserEndpoint", own.wsEndpoint()];
		return await measured("npx", args, ONE_PIECE_LIMIT);
	} finally {
		await own.close();
	}
}

/** Runs a program, and watches what it and all it starts hold in memory. */
async function measured(command: string, args: readonly string[], limit = 1200): Promise<Run> {
	const started = performance.now();
	const child = spawn(command, args, { stdio: "ignore", env: { ...process.env, ...browser.environment } });
	let code: number | null | undefined;
	child.once("exit", (status) => {
		code = status;
	});
	child.once("error", () => {
		code = null;
	});
	let peak = 0;
	while (code === undefined) {
		peak = Math.max(peak, memoryOf(child));
		if (performance.now() - started > limit * 1000) {
			for (const id of familyOf(child.pid ?? -1).reverse()) stop(id);
			return { seconds: limit, peak, finished: false };
		}
		await sleep(200);
	}
	return { seconds: (performance.now() - started) / 1000, peak, finished: code === 0 };
}

function stop(id: number): void {
	try {
		process.kill(id, "SIGKILL");
	} catch {
		// It has ended meanwhile.
	}
}

/** A process and all that it started, and they. */
function familyOf(id: number): number[] {
	const parents = new Map<number, number[]>();
	for (const name of readdirSync("/proc")) {
		if (!/^\d+$/.test(name)) continue;
		const parent = Number(/^PPid:\s*(\d+)/m.exec(textOf(`/proc/${name}/status`))?.[1]);
		const children = parents.get(parent) ?? [];
		children.push(Number(name));
		parents.set(parent, children);
	}
	const family = [id];
	for (const one of family) family.push(...(parents.get(one) ?? []));
	return family;
}

/** Megabytes; what several share is counted in parts. */
function memoryOf({ pid = -1 }: ChildProcess): number {
	const kilobytes = familyOf(pid).map((id) =>
		Number(/^Pss:\s*(\d+)/m.exec(textOf(`/proc/${id}/smaps_rollup`))?.[1] ?? 0),
	);
	return kilobytes.reduce((sum, one) => sum + one, 0) / 1024;
}

/** Nothing where the process has ended. */
function textOf(file: string): string {
	try {
		return readFileSync(file, "utf8");
	} catch {
		return "";
	}
}
