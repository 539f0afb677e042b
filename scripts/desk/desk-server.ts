/**
 * The desk's page and API, for one browser on this computer.
 *
 * Each start makes a token. The printed address has it; whoever opens that gets it as a cookie that no
 * other site's page can send along (SameSite=Strict) or read, and everything of the desk wants it. What
 * writes is asked from the desk's own page alone: local-server.ts looks at Host and Origin before, and
 * bodies are JSON or a picture, of a limited size. The page runs and loads what this server has, and
 * nothing else.
 */

import { randomBytes, timingSafeEqual } from "node:crypto";
import type { IncomingMessage, ServerResponse } from "node:http";
import type { DeskNews } from "../../layouts/desk/api.ts";
import { deskPage } from "../../layouts/desk/page.ts";
import type { Words } from "../words/words.ts";
import type { Desk } from "./desk.ts";
import { DeskApi, type Reply } from "./desk-api.ts";
import { deskAssets } from "./desk-assets.ts";
import type { DeskDoor } from "./local-server.ts";

/** The desk's address, from the root. */
const DESK = "desk/";

/** Bytes of a request: texts, and pictures. */
const MOST_JSON = 4_000_000;
const MOST_PICTURE = 25_000_000;

export class DeskServer {
	readonly #desk: Desk;
	readonly #api: DeskApi;
	readonly #token = randomBytes(24).toString("base64url");
	readonly #listeners = new Set<ServerResponse>();
	#isBehind = false;

	constructor(desk: Desk, outDir: string) {
		this.#desk = desk;
		this.#api = new DeskApi(desk, outDir, (task) => this.#tell({ news: "task", task }));
	}

	/** The address to open, once for each browser. */
	address(port: number): string {
		return `http://127.0.0.1:${port}/${DESK}?token=${this.#token}`;
	}

	/** What answers for every address below `desk/`. @param failed told of a mistake of this program */
	door(failed: (error: unknown) => void): DeskDoor {
		return {
			isMeant: (url) => /^\/desk(\/|\?|$)/.test(url),
			answer: (request, response) => {
				this.answer(request, response).catch((error: unknown) => {
					failed(error);
					if (!response.headersSent) response.writeHead(500, { "Content-Type": "text/plain" });
					response.end("The desk failed at this; the terminal says why.");
				});
			},
		};
	}

	/** The files of the folder may have changed. While no browser has the desk open, the next request reads them. */
	filesChanged(): void {
		this.#isBehind = this.#listeners.size === 0;
		if (this.#isBehind) return;
		if (this.#desk.reread()) this.#tell({ news: "changed", revision: this.#desk.revision });
	}

	end(): void {
		this.#api.tasks.stopAll();
		for (const response of this.#listeners) response.end();
	}

	async answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
		const url = new URL(request.url ?? "/", "http://localhost");
		const path = url.pathname.slice(1);
		const port = request.socket.localPort ?? 0;
		const given = url.searchParams.get("token");
		if (path === DESK && given !== null && this.#isToken(given)) {
			response.writeHead(303, {
				Location: `/${DESK}`,
				"Set-Cookie": `desk-${port}=${this.#token}; Path=/${DESK}; HttpOnly; SameSite=Strict`,
				"Referrer-Policy": "no-referrer",
				"Cache-Control": "no-store",
			});
			response.end();
			return;
		}
		if (!this.#isToken(cookieOf(request, `desk-${port}`))) {
			return send(response, 403, "text/plain; charset=utf-8", this.#desk.words.desk.noToken);
		}
		if (this.#isBehind) this.#desk.reread();
		this.#isBehind = false;
		const { words } = this.#desk;
		if (path === "desk") return redirect(response, `/${DESK}`);
		if (path.startsWith("desk/api/"))
			return this.#answerApi(request, response, path.slice("desk/api/".length), url.searchParams);
		if (request.method !== "GET" && request.method !== "HEAD")
			return send(response, 405, "text/plain; charset=utf-8", "");
		if (path === DESK) return this.#page(response, words);
		if (path.startsWith("desk/printed/")) {
			const printed = this.#api.printed(path.slice("desk/printed/".length));
			if (printed !== undefined) return send(response, 200, "application/pdf", printed);
		}
		const asset = (await deskAssets(words)).get(path.slice(DESK.length));
		if (asset === undefined) return send(response, 404, "text/plain; charset=utf-8", words.desk.nothingHere);
		return send(response, 200, asset.type, asset.body);
	}

	#page(response: ServerResponse, words: Words): void {
		const nonce = randomBytes(16).toString("base64");
		response.setHeader(
			"Content-Security-Policy",
			[
				"default-src 'none'",
				"script-src 'self'",
				// The editor writes its own style sheet; it knows the nonce.
				`style-src 'self' 'nonce-${nonce}'`,
				"img-src 'self' blob:",
				"font-src 'self'",
				"connect-src 'self'",
				"base-uri 'none'",
				"form-action 'none'",
				"frame-ancestors 'none'",
				"require-trusted-types-for 'script'",
				"trusted-types figures",
			].join("; "),
		);
		response.setHeader("Referrer-Policy", "no-referrer");
		response.setHeader("X-Frame-Options", "DENY");
		send(response, 200, "text/html; charset=utf-8", deskPage(words, nonce));
	}

	async #answerApi(
		request: IncomingMessage,
		response: ServerResponse,
		route: string,
		query: URLSearchParams,
	): Promise<void> {
		if (request.method === "GET" && route === "events") return this.#listen(request, response);
		if (request.method === "GET") return reply(response, this.#api.get(route, query));
		if (request.method !== "POST") return send(response, 405, "text/plain; charset=utf-8", "");
		const type = request.headers["content-type"]?.split(";")[0]?.trim();
		if (route === "picture") {
			const bytes = type === "application/octet-stream" ? await bodyOf(request, MOST_PICTURE) : undefined;
			if (bytes === undefined) return tooLarge(response);
			return reply(response, this.#api.picture(query.get("name") ?? "", bytes));
		}
		if (type !== "application/json") return send(response, 415, "text/plain; charset=utf-8", "");
		const bytes = await bodyOf(request, MOST_JSON);
		if (bytes === undefined) return tooLarge(response);
		let sent: unknown;
		try {
			sent = JSON.parse(bytes.toString("utf8"));
		} catch {
			return reply(response, { status: 400, body: { refused: "wrong", words: "This is no JSON." } });
		}
		reply(response, await this.#api.post(route, sent));
	}

	#listen(request: IncomingMessage, response: ServerResponse): void {
		response.writeHead(200, { "Content-Type": "text/event-stream", "Cache-Control": "no-store" });
		response.write(": \n\n");
		this.#listeners.add(response);
		request.on("close", () => this.#listeners.delete(response));
	}

	#tell(news: DeskNews): void {
		for (const response of this.#listeners) response.write(`data: ${JSON.stringify(news)}\n\n`);
	}

	#isToken(given: string | undefined): boolean {
		const [own, other] = [Buffer.from(this.#token), Buffer.from(given ?? "")];
		return own.length === other.length && timingSafeEqual(own, other);
	}
}

function cookieOf(request: IncomingMessage, name: string): string | undefined {
	for (const part of (request.headers.cookie ?? "").split(";")) {
		const [key, value] = part.trim().split("=");
		if (key === name) return value;
	}
	return undefined;
}

/** The body of a request; undefined where it is larger than it may be. */
async function bodyOf(request: IncomingMessage, most: number): Promise<Buffer | undefined> {
	const parts: Buffer[] = [];
	let size = 0;
	for await (const part of request as AsyncIterable<Buffer>) {
		size += part.length;
		if (size > most) return undefined;
		parts.push(part);
	}
	return Buffer.concat(parts);
}

function reply(response: ServerResponse, answer: Reply | undefined): void {
	const { status, body } = answer ?? { status: 404, body: { refused: "wrong", words: "" } };
	send(response, status, "application/json; charset=utf-8", JSON.stringify(body));
}

function tooLarge(response: ServerResponse): void {
	response.setHeader("Connection", "close");
	send(response, 413, "text/plain; charset=utf-8", "");
}

function redirect(response: ServerResponse, to: string): void {
	response.writeHead(302, { Location: to });
	response.end();
}

function send(response: ServerResponse, status: number, type: string, body: string | Uint8Array): void {
	response.writeHead(status, {
		"Content-Type": type,
		"Cache-Control": "no-store",
		"X-Content-Type-Options": "nosniff",
		"Cross-Origin-Resource-Policy": "same-origin",
	});
	response.end(body);
}
