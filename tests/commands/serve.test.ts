/** `serve` as a director meets it: a mistake appears on the page, and goes when it is mended. */

import { spawn } from "node:child_process";
import { once } from "node:events";
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { request as httpRequest, type RequestOptions } from "node:http";
import { createServer } from "node:net";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { expect, it, onTestFinished } from "vitest";
import { serve } from "../../scripts/commands/serve.ts";
import { clubCopy, REPOSITORY } from "../open-fixture.ts";
import { handbook as command } from "../run-command.ts";
import { openBrowser } from "../see-pages.ts";
import { quietRun } from "./quiet-run.ts";

it("builds again at every change, shows problems on the page, and ends well", async () => {
	const dir = clubCopy();
	const { server, page } = await started(dir);
	const file = join(dir, "content/drills/floor/rock.md");
	const sound = readFileSync(file, "utf8");

	await until(async () => (await page("drills/rock/")).includes("Rock on the back"));

	writeFileSync(file, sound.replace("direction: forward", "direction: forwards"));
	await until(async () => (await page("drills/rock/")).includes("H106"));
	const own = await page("drills/rock/");
	expect(own).toMatch(/rock\.md.*line 9, column 12/s);
	// The page stays as it was, and so do all others, with the same notice.
	expect(own).toContain("Rock on the back");
	expect(own).toContain("This page is written in the file with the mistake");
	const other = await page("drills/wedge-roll/");
	expect(other).toContain("preview-notice");
	expect(other).toContain("The pages are shown as they were before.");
	expect(other).toMatch(/<main id="main"[^>]*>\s*<aside class="preview-notice"/);
	for (const path of ["", "print-preview/", "print-preview/1/", "no/such/page/"])
		expect(await page(path), path).toMatch(/preview-notice.*H106/s);
	expect(await page("problems/")).toMatch(/H106.*line 9, column 12.*cannot be used/s);

	writeFileSync(file, sound.replace("title: Rock on the back", "title: Rock and roll"));
	await until(async () => (await page("drills/rock/")).includes("Rock and roll"));
	for (const path of ["drills/rock/", "drills/wedge-roll/", ""])
		expect(await page(path), path).not.toMatch(/H106|preview-notice/);

	server.kill("SIGTERM");
	const [code] = (await once(server, "exit")) as [number | null];
	expect(code).toBe(0);
});

it("started with a mistake, shows the pages of the sound files, and says what is left out", async () => {
	const dir = clubCopy();
	const file = join(dir, "content/drills/floor/wedge-roll.md");
	const sound = readFileSync(file, "utf8");
	writeFileSync(file, sound.replace("title:", "titel:"));
	const { page } = await serving(dir);
	await until(async () => (await page("drills/rock/")).includes("Rock on the back"));
	const rock = await page("drills/rock/");
	expect(rock).toMatch(/preview-notice.*Left out of the pages until then: .*wedge-roll\.md/s);
	expect(rock).toMatch(/titel/);
	writeFileSync(file, sound);
	await until(async () => !(await page("drills/rock/")).includes("preview-notice"));
	expect(await page("drills/wedge-roll/")).not.toContain("preview-notice");
});

it("with nothing that can be read, shows the problems themselves", async () => {
	const dir = clubCopy();
	rmSync(join(dir, "content/drills"), { recursive: true });
	const { page } = await serving(dir);
	await until(async () => (await page("")).includes("H111"));
	expect(await page("")).toContain("Nothing can be shown until this is mended");
	expect((await page("preview.css")).length).toBeGreaterThan(500);
});

it("the pages of problems can be read at every width", async () => {
	const dir = clubCopy();
	const { page, root } = await serving(dir);
	await until(async () => (await page("drills/rock/")).includes("Rock on the back"));
	const file = join(dir, "content/drills/floor/rock.md");
	writeFileSync(file, readFileSync(file, "utf8").replace("direction: forward", "direction: forwards"));
	await until(async () => (await page("drills/rock/")).includes("H106"));
	const browser = await openBrowser();
	onTestFinished(() => browser.close());
	const tab = await browser.newPage();
	const widths: Record<string, number> = {};
	for (const width of [320, 360, 800, 1024, 1280, 1440]) {
		await tab.setViewport({ width, height: 800 });
		for (const [path, selector] of [
			["problems/", ".finding"],
			["drills/rock/", ".preview-notice"],
			["drills/rock/", ".preview-bar"],
			["print-preview/", "main"],
			["print-preview/1/", ".preview-notice"],
		] as const) {
			await tab.goto(root + path, { waitUntil: "domcontentloaded" });
			const { own, over } = await tab.evaluate((wanted) => {
				const box = document.querySelector(wanted)?.getBoundingClientRect();
				return { own: box?.width ?? 0, over: document.documentElement.scrollWidth - innerWidth };
			}, selector);
			widths[`${path} ${selector} at ${width}`] = Math.round(own);
			// As wide as a phone gives, and never the narrow column of the tabs at the side.
			expect(own, `${path} ${selector} at ${width}`).toBeGreaterThan(Math.min(width * 0.8, 480));
			if (!path.startsWith("print-preview/1")) expect(over, `${path} at ${width}`).toBeLessThanOrEqual(0);
		}
		if (process.env.PICTURES !== undefined) {
			for (const path of ["problems/", "drills/rock/"]) {
				await tab.goto(root + path, { waitUntil: "load" });
				await tab.screenshot({
					path: `${process.env.PICTURES}/${path.replace(/\W/g, "")}-${width}.png` as `${string}.png`,
				});
			}
		}
	}
});

it("names the file of a page, and shows the printed sheets without printing them", async () => {
	const dir = clubCopy();
	const { page, answer } = await serving(dir);
	await until(async () => (await page("drills/rock/")).includes("Rock on the back"));

	const barOf = async (path: string): Promise<string> =>
		/<aside class="preview-bar[^>]*>(.*?)<\/aside>/s.exec(await page(path))?.[1] ?? "";
	expect(await barOf("drills/rock/")).toContain("Written in <code>content/drills/floor/rock.md</code>");
	expect(await barOf("weeks/week-1/")).toContain("<code>content/weeks/week-1.md</code>");
	// An entry of a list is named with its line, and what is counted from everything says so.
	const shape = readFileSync(join(dir, "_data/shapes.yaml"), "utf8").split("\n");
	const line = shape.findIndex((text) => /id: hollow\b/.test(text)) + 1;
	expect(await barOf("shapes/hollow/")).toContain(
		`<code>_data/shapes.yaml${line > 1 ? `:${line}` : ""}</code>`,
	);
	expect(await barOf("")).toContain("Counted from the whole folder.");
	expect(await barOf("drills/rock/")).toContain('<a href="/print-preview/">');

	const list = await page("print-preview/");
	const sections = Array.from(list.matchAll(/<a href="\/(print-preview\/\d+\/)">([^<]+)<\/a>/g));
	expect(sections.length).toBeGreaterThan(4);
	const texts = new Map<string, string>();
	for (const [, path = "", title = ""] of sections) {
		const text = await page(path);
		expect(text, path).toContain('<section class="preview-sheet">');
		texts.set(title, text);
	}
	expect([...texts.values()].some((text) => text.includes("Rock on the back"))).toBe(true);
	const styles = await answer("print-preview/print.css");
	expect(styles.headers.get("content-type")).toContain("text/css");
	expect(await styles.text()).toContain("@page");
	expect((await answer("print-preview/999/")).status).toBe(404);
	// Nothing is printed, and nothing is written beside what the preview keeps for itself.
	expect(readdirSync(dir).sort()).toEqual(["_data", "content"]);

	// The sheets are those of the folder as it is now.
	const file = join(dir, "content/drills/floor/rock.md");
	writeFileSync(file, readFileSync(file, "utf8").replace("title: Rock on the back", "title: Rock and roll"));
	const [, path = ""] =
		sections.find(([, , title = ""]) => texts.get(title)?.includes("Rock on the back")) ?? [];
	await until(async () => (await page(path)).includes("Rock and roll"));

	// A handbook in another language has its preview in that language.
	const club = join(dir, "_data/club.yaml");
	writeFileSync(club, `${readFileSync(club, "utf8")}\nlanguage: fr\n`);
	await until(async () => (await barOf("")).includes("Compté à partir de tout le dossier."));
	expect(await page("print-preview/")).toContain("<h1>Feuilles imprimées</h1>");
	for (const text of [await barOf("drills/rock/"), await page("print-preview/"), await page(path)])
		expect(text).not.toMatch(/Printed|Written|sheet:|Where a page|Before:|After:/);
});

it("answers this computer alone, under its own names, and only gives", async () => {
	const { page, port } = await serving(clubCopy());
	await until(async () => (await page("drills/rock/")).includes("Rock on the back"));

	const ask = (path: string, options: RequestOptions = {}): Promise<number> =>
		new Promise((resolve, reject) => {
			const request = httpRequest({ host: "127.0.0.1", port, path, ...options }, (response) => {
				response.resume();
				resolve(response.statusCode ?? 0);
			});
			request.on("error", reject);
			request.end();
		});
	expect(await ask("/")).toBe(200);
	expect(await ask("/", { headers: { host: `LocalHost:${port}` } })).toBe(200);
	expect(await ask("/", { headers: { host: `[::1]:${port}` } })).toBe(200);
	expect(await ask("/", { method: "HEAD" })).toBe(200);
	for (const host of [
		"evil.example",
		`evil.example:${port}`,
		`127.0.0.1.evil.example:${port}`,
		"127.0.0.1",
		"localhost:1",
	])
		expect([host, await ask("/", { headers: { host } })]).toEqual([host, 403]);
	for (const origin of ["http://evil.example", "null", `https://localhost:${port}`, "http://localhost:1"])
		expect([origin, await ask("/", { headers: { origin } })]).toEqual([origin, 403]);
	for (const method of ["POST", "PUT", "DELETE", "PATCH", "OPTIONS"])
		expect([method, await ask("/", { method })]).toEqual([method, 405]);
	for (const path of ["/%ff", "/%", "/drills/%ff/", "/assets/%ff", "/%00", "/..%2f..%2fpackage.json"])
		expect([path, await ask(path, { headers: { accept: "text/html" } })]).toEqual([path, 404]);

	// What reloads pages is a websocket, which a page of anybody's may open: it says from where it comes.
	const upgrade = (headers: Readonly<Record<string, string>>): Promise<number> =>
		new Promise((resolve, reject) => {
			const request = httpRequest({
				host: "127.0.0.1",
				port,
				headers: {
					connection: "Upgrade",
					upgrade: "websocket",
					"sec-websocket-version": "13",
					"sec-websocket-key": "dGhlIHNhbXBsZSBub25jZQ==",
					...headers,
				},
			});
			request.on("upgrade", (_response, socket) => {
				socket.destroy();
				resolve(101);
			});
			request.on("response", (response) => resolve(response.statusCode ?? 0));
			request.on("error", reject);
			request.end();
		});
	expect(await upgrade({ origin: `http://localhost:${port}` })).toBe(101);
	expect(await upgrade({ origin: "http://evil.example" })).toBe(403);
	expect(await upgrade({ origin: `http://localhost:${port}`, host: `evil.example:${port}` })).toBe(403);

	// No other address of this computer answers.
	const others = Object.values(networkInterfaces())
		.flatMap((one) => one ?? [])
		.filter(({ internal, family }) => !internal && family === "IPv4");
	for (const { address } of others) await expect(ask("/", { host: address })).rejects.toThrow("ECONNREFUSED");
});

it("ends with 2 where it may not listen", async () => {
	const { status, stdout } = await command([
		"serve",
		"--club",
		clubCopy(),
		"--host",
		"192.0.2.1",
		"--port",
		"0",
	]);
	expect(status).toBe(2);
	expect(stdout).toContain("this computer does not allow to listen there");
});

/** `serve` on a club folder, and ways to ask it; it ends with the test. */
async function serving(dir: string) {
	const port = await freePort();
	const end = Promise.withResolvers<void>();
	const ended = serve(quietRun(dir).run, { host: "127.0.0.1", port, until: end.promise });
	onTestFinished(async () => {
		end.resolve();
		expect(await ended).toBe(0);
	});
	return asking(port);
}

/** The same as a process of its own. */
async function started(dir: string) {
	const port = await freePort();
	const server = spawn(
		process.execPath,
		["scripts/commands/main.ts", "serve", "--club", dir, "--port", String(port)],
		{ cwd: REPOSITORY, stdio: ["ignore", "pipe", "inherit"] },
	);
	onTestFinished(() => void server.kill("SIGKILL"));
	return { server, ...asking(port) };
}

function asking(port: number) {
	const answer = (path: string): Promise<Response> =>
		fetch(`http://localhost:${port}/${path}`, { headers: { accept: "text/html" } });
	/** A page's text; empty while nobody answers yet. */
	const page = async (path: string): Promise<string> => {
		try {
			return await (await answer(path)).text();
		} catch {
			return "";
		}
	};
	return { page, answer, port, root: `http://localhost:${port}/` };
}

/** Waits for something to come true; the test's own limit ends it. */
async function until(happened: () => Promise<boolean>): Promise<void> {
	while (!(await happened())) await new Promise((resolve) => setTimeout(resolve, 100));
}

async function freePort(): Promise<number> {
	const probe = createServer().listen(0);
	await once(probe, "listening");
	const address = probe.address();
	probe.close();
	return typeof address === "object" && address !== null ? address.port : 0;
}
