/**
 * Times what a device does for its first page after the worker slept, in a real browser whose processor is
 * slowed: read the records from the cache, open them, make one page.
 *
 *   node tests/bench/first-page.ts SITE [runs] [slowed]
 *
 * SITE is a built site; `slowed` is how many times, 4 for an old phone. Browsers refuse to slow a worker's
 * thread, so the device's program runs in the thread of a page; each run is a page of its own, with nothing
 * compiled or kept. Times are of that thread's processor, the slowing counted, which neighbours on the
 * machine change less than the clock's: for a drill, then for a class sheet, each made first. Browsers keep
 * the program compiled, so its line is not in the sum.
 */

import { readdirSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join, sep } from "node:path";
import type { Page } from "puppeteer-core";
import type { DeviceHandbook, DeviceScope } from "../../scripts/records/device.ts";
import { bundled, type EditionList, escapeWide, recordsPath } from "../../scripts/records/edition-list.ts";
import { openBrowser } from "../see-pages.ts";

const [site = "", count = "20", slowed = "4"] = process.argv.slice(2);
const RUNS = Number(count);
const KEPT = "/records";

interface World extends DeviceScope {
	text: string;
	handbook: DeviceHandbook;
}

const read = (file: string) => readFileSync(join(site, file), "utf8");
const [, listText = "{}"] = /HANDBOOK_EDITION=(\{.*?\});/s.exec(read("worker.js")) ?? [];
const list = JSON.parse(listText) as EditionList;
const server = createServer(({ url }, response) => {
	const isProgram = url === `/${list.program}`;
	response.setHeader("Content-Type", isProgram ? "text/javascript" : "text/html");
	response.end(isProgram ? read(list.program) : "<!doctype html><title>bare</title>");
});
await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
const root = `http://localhost:${(server.address() as AddressInfo).port}/`;
const browser = await openBrowser();
try {
	await inPage(async (page) => {
		const text = escapeWide(bundled(list.records.map(([, hash]) => read(recordsPath(hash)))));
		await page.evaluate(
			async (key, kept) => (await caches.open("kept")).put(key, new Response(kept)),
			KEPT,
			text,
		);
	});
	const pages = readdirSync(site, { recursive: true })
		.map((path) => String(path).split(sep).join("/"))
		.sort();
	for (const [kind, form] of [
		["drill", /^drills\/[^/]+\/index\.html$/],
		["class sheet", /^classes\/[^/]+\/[^/]+\/index\.html$/],
	] as const) {
		const own = pages.filter((path) => form.test(path));
		const times: Readonly<Record<string, number>>[] = [];
		for (let i = 0; i < RUNS; i++)
			times.push(await inPage((page) => once(page, own[Math.floor((i * own.length) / RUNS)] ?? "")));
		const at = (share: number) =>
			Object.keys(times[0] ?? {}).map((part) => {
				const sorted = times.map((one) => one[part] ?? 0).sort((a, b) => a - b);
				return `${part} ${sorted[Math.min(RUNS - 1, Math.floor(share * RUNS))]?.toFixed(0)}`;
			});
		console.log(`${kind}, ${RUNS} runs: median ${at(0.5).join(", ")}; 95 of 100 ${at(0.95).join(", ")}`);
	}
} finally {
	await browser.close();
	server.close();
}

async function inPage<T>(run: (page: Page) => Promise<T>): Promise<T> {
	const page = await browser.newPage();
	await page.goto(root);
	const result = await run(page);
	await page.close();
	return result;
}

/** Milliseconds of each part. */
async function once(page: Page, path: string): Promise<Readonly<Record<string, number>>> {
	await page.emulateCPUThrottling(Number(slowed));
	const session = await page.createCDPSession();
	await session.send("Performance.enable");
	const used = async () => {
		const { metrics } = await session.send("Performance.getMetrics");
		return (metrics.find(({ name }) => name === "ThreadTime")?.value ?? 0) * 1000;
	};
	const timed = async (run: () => Promise<unknown>): Promise<number> => {
		const before = await used();
		await run();
		return (await used()) - before;
	};
	const program = await timed(() => page.addScriptTag({ url: root + list.program }));
	const fetched = await timed(() =>
		page.evaluate(async (key) => {
			(globalThis as unknown as World).text = (await (await caches.match(key))?.text()) ?? "";
		}, KEPT),
	);
	const open = await timed(() =>
		page.evaluate(({ records, issued }) => {
			const world = globalThis as unknown as World;
			const texts = world.text.split("\n");
			const byName = new Map(records.map(([name], i) => [name, texts[i]]));
			if (world.handbookOf === undefined) throw new Error("the program hands nothing over");
			world.handbook = world.handbookOf((name) => byName.get(name), issued);
		}, list),
	);
	const make = await timed(() =>
		page.evaluate((file) => {
			if ((globalThis as unknown as World).handbook.page(file) === undefined)
				throw new Error(`${file} is made by the build`);
		}, path),
	);
	return { program, read: fetched, open, page: make, "all but the program": fetched + open + make };
}
