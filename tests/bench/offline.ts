/**
 * Prints what keeping the handbook on a device costs, and what a page weighs.
 *
 *   node tests/bench/offline.ts [drills]
 *
 * Measured on the demo club, and on generated clubs (large-club.ts) of 1,000 drills with the demo's ten
 * weeks: one with about 125 words a drill, one with as many as the demo has. Each is built as a director
 * builds it, served compressed as a host does, and opened in a real browser. Sizes are what comes over
 * the wire, as the browser's own protocol counts it. Times are of this machine, with no limit on its
 * network; the second is with 1.6 Mb/s and 150 ms.
 */

import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join, relative, sep } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import puppeteer, { type Browser } from "puppeteer-core";
import { openHandbook } from "../../scripts/handbook.ts";
import { findBrowser } from "../../scripts/print/find-browser.ts";
import type { EditionList } from "../../scripts/records/edition-list.ts";
import { recordsPath } from "../../scripts/records/edition-list.ts";
import { writeLargeClub } from "./large-club.ts";

/** What hosts use for files that they compress as they are asked for. */
const QUALITY = 6;
const TYPES: Readonly<Record<string, string>> = {
	html: "text/html; charset=utf-8",
	js: "text/javascript",
	css: "text/css",
	svg: "image/svg+xml",
	woff2: "font/woff2",
	png: "image/png",
	json: "application/json",
	txt: "text/plain; charset=utf-8",
	webmanifest: "application/manifest+json",
};

/** Of the planned drills, so many are passed over before the next is changed. */
const EVERY = 40;

const { handbook: demo } = openHandbook(process.cwd());
if (demo === undefined) throw new Error("Run this from the repository: its demo club does not open here.");
const found = await findBrowser();
if ("missing" in found) throw new Error(found.missing);
const work = mkdtempSync(join(tmpdir(), "offline-"));
const browser = await puppeteer.launch({
	executablePath: found.browser.path,
	headless: found.browser.shell ? "shell" : true,
	env: { ...process.env, ...found.browser.environment },
	args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage"],
});
try {
	const drills = Number(process.argv[2] ?? 1000);
	const planned = [...demo.curriculum.drills.values()]
		.filter((drill) => drill.planned.length > 0)
		.filter((_, i) => i % EVERY === 0)
		.map(({ id }) => id);
	const heads = ["club", "files of records", "ready kB brotli", "kB gzip"];
	const times = [
		"requests",
		"ready s",
		"ready s, weak net",
		"one changed drill, kB each",
		"one added drill kB",
	];
	console.log(`| ${[...heads, ...times].join(" | ")} |\n|${" --- |".repeat(heads.length + times.length)}`);
	const demoSite = built(demo.clubDir, "demo");
	await printRow("the demo", demoSite);
	for (const words of [125, 330]) {
		const club = join(work, `club-${words}`);
		writeLargeClub(demo, club, { drills, words });
		const site = built(club, `site-${words}`);
		const changed = planned.map((id) => {
			const { undo } = changeDrill(club, id);
			const out = built(club, `changed-${words}-${id}`);
			undo();
			return out;
		});
		addDrill(club);
		const added = built(club, `added-${words}`);
		await printRow(`${drills} drills of ${words} words`, site, { changed, added });
	}
	await printPages(demoSite);
} finally {
	await browser.close();
	rmSync(work, { recursive: true, force: true });
}

/** Builds a club, and gives the site's folder. */
function built(club: string, name: string): string {
	const out = join(work, name);
	const command = ["scripts/commands/main.ts", "build", "--no-print", "--club", club, "--out", out];
	execFileSync(process.execPath, command, { stdio: "ignore" });
	return out;
}

/** Another cue, and one paragraph more, in a drill that weeks plan; `undo` gives it back. */
function changeDrill(club: string, id: string): { undo(): void } {
	const drills = join(club, "content/drills");
	const file = readdirSync(drills, { recursive: true })
		.map(String)
		.find((path) => path.endsWith(`${sep}${id}.md`));
	if (file === undefined) throw new Error(`The club has no drill ${id}.`);
	const text = readFileSync(join(drills, file), "utf8");
	writeFileSync(
		join(drills, file),
		`${text.replace(/cues: \["[^"]*"/, 'cues: ["Press the floor and grow"')}\nA quiet end is worth more than a high start.\n`,
	);
	return { undo: () => writeFileSync(join(drills, file), text) };
}

function addDrill(club: string): void {
	const folder = join(club, "content/drills/floor");
	const model = readdirSync(folder)[9] ?? "";
	const text = readFileSync(join(folder, model), "utf8").replace(/title: .*/, 'title: "A drill nobody had"');
	writeFileSync(join(folder, "a-new-drill.md"), text);
}

function listOf(site: string): EditionList {
	const [, list = "{}"] =
		/HANDBOOK_EDITION=(\{.*?\});/s.exec(readFileSync(join(site, "worker.js"), "utf8")) ?? [];
	return JSON.parse(list) as EditionList;
}

/** Everything that a site's edition fetches, with its compressed sizes: fonts are compressed already. */
function partsOf(site: string) {
	const list = listOf(site);
	const sized = (path: string) => {
		const content = readFileSync(join(site, path));
		return path.endsWith(".woff2")
			? { path, brotli: content.length, gzip: content.length }
			: { path, brotli: brotli(content).length, gzip: gzipSync(content).length };
	};
	const programs = ["worker.js", list.program];
	const files = list.files.map(({ path }) => path);
	return {
		ready: [...list.bundles.map(recordsPath), ...files, ...programs].map(sized),
		parts: [...list.records.map(([, hash]) => recordsPath(hash)), ...files, ...programs].map(sized),
		hashes: new Map(list.files.map(({ path, hash }) => [path, hash])),
		counts: String(list.records.length),
	};
}

function brotli(content: Uint8Array): Uint8Array {
	return brotliCompressSync(content, { params: { [constants.BROTLI_PARAM_QUALITY]: QUALITY } });
}

function kilobytes(bytes: number): string {
	return (bytes / 1000).toFixed(0);
}

function sum(numbers: readonly number[]): number {
	return numbers.reduce((a, b) => a + b, 0);
}

async function printRow(
	name: string,
	site: string,
	others?: { readonly changed: readonly string[]; readonly added: string },
): Promise<void> {
	const { ready, parts, hashes, counts } = partsOf(site);
	const before = new Set(parts.map(({ path }) => path));
	const fresh = (other: string) => {
		const now = partsOf(other);
		const news = now.parts.filter(
			// The worker is new in every edition.
			({ path }) => path === "worker.js" || !before.has(path) || hashes.get(path) !== now.hashes.get(path),
		);
		return sum(news.map((part) => part.brotli)) / 1000;
	};
	const changes = (others?.changed ?? []).map(fresh).sort((a, b) => a - b);
	const wire = await install(site, undefined);
	const weak = await install(site, { rate: 1_600_000 / 8, delay: 150 });
	const row = [
		name,
		counts,
		kilobytes(sum(ready.map((part) => part.brotli))),
		kilobytes(sum(ready.map((part) => part.gzip))),
		wire.requests,
		wire.seconds.toFixed(1),
		weak.seconds.toFixed(1),
		changes.map((kilo) => kilo.toFixed(1)).join(", "),
		others === undefined ? "" : fresh(others.added).toFixed(0),
	];
	console.log(`| ${row.join(" | ")} |`);
}

interface Net {
	/** Bytes a second, of the host to all that ask. */
	readonly rate: number;
	/** Milliseconds before an answer begins. */
	readonly delay: number;
}

/** Opens a site in a new profile, and waits until its edition is ready. */
async function install(site: string, net: Net | undefined) {
	const host = await serve(site, net);
	const context = await browser.createBrowserContext();
	const page = await context.newPage();
	page.on("console", (message) => {
		if (message.type() === "error") console.error(message.text());
	});
	const started = performance.now();
	await page.goto(host.root, { waitUntil: "load" });
	// The worker answers from the moment on that it controls the page.
	await page.waitForFunction(() => navigator.serviceWorker.controller !== null, { timeout: 120_000 });
	const seconds = (performance.now() - started) / 1000;
	const requests = host.requests();
	await context.close();
	await host.close();
	return { seconds, requests };
}

/** Serves a folder, compressed, and counts. A slow host sends one piece after the other. */
async function serve(site: string, net: Net | undefined) {
	const files = new Map(
		readdirSync(site, { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile())
			.map((entry) => join(entry.parentPath, entry.name))
			.map((file) => [relative(site, file).split(sep).join("/"), file]),
	);
	const packed = new Map<string, Uint8Array>();
	let requests = 0;
	let bytes = 0;
	let free = 0;
	const server = createServer((request, response) => {
		const path = decodeURIComponent(new URL(request.url ?? "/", "http://here").pathname.slice(1));
		const name = path === "" || path.endsWith("/") ? `${path}index.html` : path;
		const file = files.get(name);
		if (file === undefined) {
			response.writeHead(404).end();
			return;
		}
		const isBinary = /\.(woff2|png)$/.test(name);
		let body = packed.get(name);
		if (body === undefined) {
			const content = readFileSync(file);
			body = isBinary ? content : brotli(content);
			packed.set(name, body);
		}
		requests++;
		bytes += body.length;
		response.setHeader("Content-Type", TYPES[name.split(".").at(-1) ?? ""] ?? "application/octet-stream");
		if (!isBinary) response.setHeader("Content-Encoding", "br");
		if (net === undefined) {
			response.end(body);
			return;
		}
		const now = performance.now();
		free = Math.max(free, now + net.delay) + (body.length / net.rate) * 1000;
		setTimeout(() => response.end(body), free - now);
	});
	// Compressing is the host's business, and done before.
	for (const [name, file] of files)
		if (name.startsWith("offline/")) packed.set(name, brotli(readFileSync(file)));
	await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
	return {
		root: `http://localhost:${(server.address() as AddressInfo).port}/`,
		requests: () => requests,
		bytes: () => bytes,
		close: () =>
			new Promise<void>((resolve) => {
				server.closeAllConnections();
				server.close(() => resolve());
			}),
	};
}

/** What pages of each kind bring over the wire, when nothing is in the browser yet. */
async function printPages(site: string): Promise<void> {
	const host = await serve(site, undefined);
	const largest = new Map<string, { readonly path: string; readonly size: number }>();
	for (const path of readdirSync(site, { recursive: true }).map(String)) {
		if (!path.endsWith("index.html")) continue;
		const text = readFileSync(join(site, path), "utf8");
		const kind = /<body class="kind-([^"]+)"/.exec(text)?.[1] ?? "";
		if (text.length > (largest.get(kind)?.size ?? 0)) largest.set(kind, { path, size: text.length });
	}
	console.log("\n| largest page of each kind | page kB, raw | page kB | with all it loads, kB | requests |");
	console.log("| --- | ---: | ---: | ---: | ---: |");
	for (const [kind, { path, size }] of [...largest].sort(([a], [b]) => (a < b ? -1 : 1))) {
		const { total, requests } = await pageWeight(browser, host.root + path.replace(/index\.html$/, ""));
		const own = brotli(readFileSync(join(site, path))).length;
		const row = [
			`${kind} \`${path}\``,
			kilobytes(size),
			(own / 1000).toFixed(1),
			(total / 1000).toFixed(1),
			requests,
		];
		console.log(`| ${row.join(" | ")} |`);
	}
	await host.close();
}

/** Bytes that a page and what it names bring, without the worker's packs. */
async function pageWeight(opened: Browser, address: string) {
	const context = await opened.createBrowserContext();
	const page = await context.newPage();
	const session = await page.createCDPSession();
	await session.send("Network.enable");
	await session.send("Network.setBypassServiceWorker", { bypass: true });
	// Without a worker nothing is kept beside what the page itself needs.
	await page.evaluateOnNewDocument(() => {
		Object.defineProperty(Navigator.prototype, "serviceWorker", { value: undefined });
		Reflect.deleteProperty(Navigator.prototype, "serviceWorker");
	});
	let total = 0;
	let requests = 0;
	session.on("Network.loadingFinished", ({ encodedDataLength }) => {
		total += encodedDataLength;
		requests++;
	});
	await page.goto(address, { waitUntil: "networkidle0" });
	await context.close();
	return { total, requests };
}
