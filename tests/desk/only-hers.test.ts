/**
 * The desk is the director's alone: a token for each start, no other site's page, no other name of this
 * computer, nothing larger than it should be, and nothing written where it is only to be looked at. Held
 * against the rules that browsers keep for other sites' requests (Fetch standard, "Origin" header; RFC 6265
 * and its successor draft, SameSite).
 */

import { readFileSync } from "node:fs";
import { type RequestOptions, request } from "node:http";
import { join } from "node:path";
import { expect, it, onTestFinished } from "vitest";
import { Desk } from "../../scripts/desk/desk.ts";
import { DeskServer } from "../../scripts/desk/desk-server.ts";
import { startServer } from "../../scripts/desk/local-server.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { clubCopy } from "../open-fixture.ts";
import { serveUntil } from "./open-desk.ts";

interface Served {
	readonly root: string;
	readonly token: string;
}

/** The desk behind the server of `serve`, without the preview. */
async function serveHere(clubDir: string, readOnly = false): Promise<Served> {
	const outDir = join(clubDir, "_site");
	const desk = new Desk({
		clubDir,
		outDir,
		readOnly,
		now: () => new Date(),
		words: wordsFor("en"),
		open: openHandbook,
	});
	const own = new DeskServer(desk, outDir);
	const failures: unknown[] = [];
	const silent = () => undefined;
	const server = await startServer(clubDir, {
		host: "127.0.0.1",
		port: 0,
		desk: own.door((error) => failures.push(error)),
		domDiff: false,
		logger: { info: silent, log: silent, error: silent },
	});
	onTestFinished(async () => {
		own.end();
		await server.close();
		expect(failures).toEqual([]);
	});
	const address = server.server.address();
	const port = typeof address === "object" && address !== null ? address.port : 0;
	return {
		root: `http://127.0.0.1:${port}`,
		token: new URL(own.address(port)).searchParams.get("token") ?? "",
	};
}

interface Answer {
	readonly status: number;
	readonly headers: Readonly<Record<string, string | string[] | undefined>>;
	readonly body: string;
}

function ask(served: Served, path: string, options: RequestOptions = {}, body?: string): Promise<Answer> {
	const { hostname, port } = new URL(served.root);
	return new Promise((resolve, reject) => {
		const asked = request({ hostname, port, path, ...options }, (response) => {
			let text = "";
			response.setEncoding("utf8").on("data", (part: string) => {
				text += part;
			});
			response.on("end", () =>
				resolve({ status: response.statusCode ?? 0, headers: response.headers, body: text }),
			);
		});
		asked.on("error", reject);
		asked.end(body);
	});
}

const cookieOf = (served: Served) => `desk-${new URL(served.root).port}=${served.token}`;

function post(served: Served, route: string, body: unknown, headers: Record<string, string> = {}) {
	return ask(
		served,
		`/desk/api/${route}`,
		{
			method: "POST",
			headers: {
				Cookie: cookieOf(served),
				Origin: served.root,
				"Content-Type": "application/json",
				...headers,
			},
		},
		typeof body === "string" ? body : JSON.stringify(body),
	);
}

it("gives its token once, as a cookie that no other site sends along, and nothing without it", async () => {
	const served = await serveHere(clubCopy());
	for (const path of [
		"/desk/",
		"/desk/desk.js",
		"/desk/api/state",
		"/desk/api/events",
		"/desk/printed/print/a.pdf",
		"/desk/?token=wrong",
	])
		expect((await ask(served, path)).status, path).toBe(403);
	const first = await ask(served, `/desk/?token=${served.token}`);
	expect(first.status).toBe(303);
	expect(first.headers.location).toBe("/desk/");
	expect(first.headers["set-cookie"]?.[0]).toMatch(
		/^desk-\d+=[\w-]{32}; Path=\/desk\/; HttpOnly; SameSite=Strict$/,
	);
	const page = await ask(served, "/desk/", { headers: { Cookie: cookieOf(served) } });
	expect(page.status).toBe(200);
	const policy = String(page.headers["content-security-policy"]);
	expect(policy).toMatch(
		/default-src 'none'.*script-src 'self';.*frame-ancestors 'none'.*require-trusted-types-for 'script'/,
	);
	expect(policy).not.toMatch(/unsafe|\*|https?:|data:/);
	expect(page.body).not.toMatch(/<script(?![^>]* src="desk\.js")|<style| on\w+=|11ty/);
	const other = await ask(served, "/desk/api/state", { headers: { Cookie: `desk-1=${served.token}` } });
	expect(other.status).toBe(403);
	// What stands beside it is only read.
	expect((await ask(served, "/", { method: "POST", headers: { Origin: served.root } })).status).toBe(405);
	const again = await serveHere(clubCopy());
	expect(again.token).not.toBe(served.token);
});

it("is written to by its own page alone", async () => {
	const dir = clubCopy();
	const served = await serveHere(dir);
	const before = readFileSync(join(dir, "content/weeks/week-1.md"), "utf8");
	const state = JSON.parse(
		(await ask(served, "/desk/api/state", { headers: { Cookie: cookieOf(served) } })).body,
	);
	const at = state.board.weeks[0].areas[0].blocks[0].at as string;
	const wish = { revision: state.revision, what: "test", changes: [{ set: { block: at, minutes: 3 } }] };
	const foreign: readonly (readonly [string, Record<string, string>, number])[] = [
		["another site", { Origin: "https://elsewhere.example" }, 403],
		["another port", { Origin: "http://127.0.0.1:1" }, 403],
		["a page without an origin", { Origin: "null" }, 403],
		["another name that leads here", { Host: "elsewhere.example" }, 403],
		["no cookie", { Cookie: "" }, 403],
		["a form of another page", { "Content-Type": "text/plain" }, 415],
		["a form of another page, sent as one", { "Content-Type": "application/x-www-form-urlencoded" }, 415],
	];
	for (const [who, headers, status] of foreign)
		expect((await post(served, "plan", wish, headers)).status, who).toBe(status);
	const bare = await ask(
		served,
		"/desk/api/plan",
		{ method: "POST", headers: { Cookie: cookieOf(served), "Content-Type": "application/json" } },
		JSON.stringify(wish),
	);
	expect(bare.status).toBe(403);
	for (const method of ["PUT", "DELETE", "PATCH", "OPTIONS"])
		expect(
			(
				await ask(served, "/desk/api/plan", {
					method,
					headers: { Cookie: cookieOf(served), Origin: served.root },
				})
			).status,
		).toBe(405);
	expect(readFileSync(join(dir, "content/weeks/week-1.md"), "utf8")).toBe(before);
	const own = await post(served, "plan", wish);
	expect(own.status, own.body).toBe(200);
	expect(readFileSync(join(dir, "content/weeks/week-1.md"), "utf8")).toBe(
		before.replace(/minutes: [\d.]+/, "minutes: 3"),
	);
});

it("judges what it is sent, and names no file outside the club", async () => {
	const served = await serveHere(clubCopy());
	const wrong: readonly (readonly [string, unknown])[] = [
		["plan", {}],
		["plan", "{not json"],
		["plan", { revision: "x", what: "y", changes: [] }],
		["plan", { revision: "0".repeat(64), what: "y", changes: [{ remove: "../../etc/1" }] }],
		["plan", { revision: "0".repeat(64), what: "y", changes: [{ run: "1/floor/1" }] }],
		["save", { path: "../outside.md", base: null, text: "", what: "y" }],
		["save", { path: "content/drills/../../x.md", base: null, text: "", what: "y" }],
		["save", { path: ".handbook/changes/000001.json", base: null, text: "", what: "y" }],
		["save", { path: "_data/club.yaml", base: null, text: "", what: "y", more: 1 }],
		["draft", { path: "/etc/passwd", base: null, text: "" }],
		["retire", { path: "content/drills/floor/..", what: "y" }],
		["run", { task: "rm" }],
		["run", { task: "packet" }],
		["run", { task: "packet", since: "../../binder.edition.json" }],
		["run", { task: "sheets", sheets: "class-sheets", class: "--out" }],
		["merge", { revision: "0".repeat(64), drill: "a", into: "../b", what: "y" }],
		["try-taught", { texts: "one" }],
		["rename", { kind: "drill", from: "a", to: "../b", what: "y" }],
	];
	for (const [route, body] of wrong)
		expect((await post(served, route, body)).status, `${route} ${JSON.stringify(body)}`).toBe(400);
	expect((await post(served, "constructor", {})).status).toBe(404);
	expect((await post(served, "nothing", {})).status).toBe(404);
	expect(
		(await post(served, "draft", { path: "_data/club.yaml", base: null, text: "x".repeat(5_000_000) }))
			.status,
	).toBe(413);
	const asked = await ask(served, "/desk/api/file?path=..%2F..%2Fetc%2Fpasswd", {
		headers: { Cookie: cookieOf(served) },
	});
	expect(asked.status).toBe(400);
	for (const path of ["print/../data/a.pdf", "..%2F..%2Fa.pdf", "data/findings.json", "print/sheets.json"])
		expect(
			(await ask(served, `/desk/printed/${path}`, { headers: { Cookie: cookieOf(served) } })).status,
			path,
		).toBe(404);
	const picture = (name: string) =>
		post(served, `picture?name=${name}`, "bytes", { "Content-Type": "application/octet-stream" });
	for (const name of ["..%2Fx.png", "x.svg", "x.html", "a/b.png", ".png"])
		expect((await picture(name)).status, name).toBe(400);
	expect((await picture("beam.png")).status).toBe(200);
});

it("shows, and writes nothing, with --read-only", async () => {
	const dir = clubCopy();
	const served = await serveHere(dir, true);
	const state = JSON.parse(
		(await ask(served, "/desk/api/state", { headers: { Cookie: cookieOf(served) } })).body,
	);
	expect(state.readOnly).toBe(true);
	const at = state.board.weeks[0].areas[0].blocks[0].at as string;
	const { revision } = state;
	const changes = [{ set: { block: at, minutes: 3 } }];
	for (const [route, body] of [
		["plan", { revision, what: "y", changes }],
		["undo", {}],
		["redo", {}],
		["save", { path: "content/guides/new.md", base: null, text: "---\ntitle: New\n---\n", what: "y" }],
		["draft", { path: "_data/club.yaml", base: null, text: "x" }],
		["new-week", { revision, what: "y", week: 9, theme: "z" }],
		["retire", { path: "content/weeks/week-1.md", what: "y" }],
		["merge", { revision, what: "y", drill: "rock", into: "rock-back" }],
		["taught", { revision, what: "y", texts: ["nothing"] }],
		["run", { task: "build" }],
		["run", { task: "sheets", sheets: "class-sheets" }],
	] as const) {
		const answer = await post(served, route, body);
		expect(answer.status, route).toBe(409);
		expect(JSON.parse(answer.body).refused, route).toBe("read-only");
	}
	// To look at what would be is no change.
	expect((await post(served, "try", { changes })).status).toBe(200);
	expect((await post(served, "try-merge", { drill: "rock", into: "rock-back" })).status).toBe(200);
});

it("is not offered where others in the network can ask", async () => {
	const { found, said } = await serveUntil(/Server at (http:\S+)/, clubCopy(), "--host", "0.0.0.0");
	const { port } = new URL(found);
	const answer = await fetch(`http://127.0.0.1:${port}/desk/`, { headers: { Accept: "text/html" } });
	expect(answer.status).toBe(404);
	expect(said()).not.toContain("token");
});
