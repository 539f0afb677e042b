/**
 * The worker that keeps the handbook on the device.
 *
 *   install   every pack of the edition is fetched and proved, then its pages are laid out; where one
 *             is missing, the installation fails, and the edition before goes on as it was
 *   wait      the new edition waits until the reader changes to it, or until no page is open
 *   activate  the new edition answers, and all others go
 *   fetch     pages of the one edition are made of their texts, whatever the query string; what an
 *             edition does not hold is asked of the network
 *   continue  tables for the desk and the club's pictures follow, as long as a page is open
 */

import {
	type EditionList,
	type FromWorker,
	type ListedFile,
	packPath,
	type ToWorker,
} from "../../../scripts/render/offline/edition-list.ts";
import type { MakersScope } from "../../../scripts/render/offline/makers.ts";
import { SHARED_FILE } from "../../../scripts/render/offline/page-makers.ts";
import { pictureOf } from "../../../scripts/render/offline/picture-sizes.ts";
import { isPageText } from "../../../scripts/render/page-text.ts";
import { keeping } from "../../../scripts/words/en.ts";
import type { TrustedTypes, WorkerScope } from "./scope.ts";
import { Shelf } from "./shelf.ts";
import { takeFiles, takePacks } from "./take.ts";

/** Written in front of this program by the build. */
declare const HANDBOOK_EDITION: EditionList;

const TYPES: Readonly<Record<string, string>> = {
	html: "text/html; charset=utf-8",
	js: "text/javascript; charset=utf-8",
	css: "text/css; charset=utf-8",
	json: "application/json",
	svg: "image/svg+xml",
	webmanifest: "application/manifest+json",
};

declare function importScripts(address: string): void;

const worker = self as unknown as WorkerScope;
const list = HANDBOOK_EDITION;
const { scope } = worker.registration;
const shelf = new Shelf(scope, list.release);
const pictures = new Map(list.pictures.map((file) => [pictureOf(file.path), file]));
const binaries = new Map(list.files.map((file) => [file.path, file]));

if (list.program !== undefined) importScripts(trusted(scope + list.program));
const programs = globalThis as MakersScope;
const makers = () => (programs.handbookMakers?.() ?? []).filter(({ name }) => list.makers.includes(name));

const partKey = ({ hash }: ListedFile) => shelf.key(hash);
const pictureKey = ({ path, hash }: ListedFile) => `${scope}${encodeURI(path)}?${hash}`;
const address = ({ path }: ListedFile) => scope + encodeURI(path);
const asFile = (hash: string): ListedFile => ({ path: packPath(hash), hash });

worker.addEventListener("install", (event) => event.waitUntil(install()));

worker.addEventListener("activate", (event) =>
	event.waitUntil(
		shelf
			.clear(
				new Set([...[...list.packs, ...list.later].map(asFile), ...list.files].map(partKey)),
				new Set(list.pictures.map(pictureKey)),
			)
			.then(() => worker.clients.claim()),
	),
);

worker.addEventListener("message", (event) => {
	const { kind } = event.data as ToWorker;
	if (kind === "change") event.waitUntil(worker.skipWaiting());
	else if (kind === "continue") event.waitUntil(goOn());
});

worker.addEventListener("fetch", (event) => {
	const { request } = event;
	const { origin, pathname } = new URL(request.url);
	if (request.method !== "GET" || !(origin + pathname).startsWith(scope)) return;
	const path = decoded((origin + pathname).slice(scope.length));
	event.respondWith(answer(request, path));
});

async function install(): Promise<void> {
	try {
		const packs = list.packs.map(asFile);
		const parts = await shelf.parts();
		const of = packs.length + list.files.length;
		const progress = (done: number) => void tell({ kind: "taking", edition: list.edition, done, of });
		await takeFiles(parts, list.files, address, partKey);
		await takePacks(parts, packs, list.bundles.packs, address, partKey, (done) =>
			progress(done + list.files.length),
		);
		const early = makers().filter(({ isEarly }) => isEarly);
		await shelf.lay(await packTexts(list.packs), undefined, list.edition, early);
	} catch (error) {
		await tell({
			kind: "failed",
			edition: list.edition,
			why: error instanceof Error ? error.message : String(error),
		});
		throw error;
	}
}

let going: Promise<void> | undefined;

/** Fetches what may come later, once at a time. What fails is tried again by the next page. */
function goOn(): Promise<void> {
	going ??= later().finally(() => {
		going = undefined;
	});
	return going;
}

async function later(): Promise<void> {
	let missing = 0;
	try {
		// A browser that is short of room takes caches away, and not the worker.
		if ((await shelf.read("index.html")) === undefined) await install();
		if ((await shelf.note("whole")) === undefined) {
			await takePacks(await shelf.parts(), list.later.map(asFile), list.bundles.later, address, partKey);
			await shelf.lay(await packTexts(list.packs), await packTexts(list.later), list.edition, makers());
			await shelf.writeNote("whole", "yes");
		}
	} catch {
		await tell({ kind: "kept", edition: list.edition, whole: false, missing: list.pictures.length });
		return;
	}
	const kept = await shelf.pictures();
	for (const picture of list.pictures) {
		try {
			await takeFiles(kept, [picture], address, pictureKey);
		} catch {
			// The other pictures may still be had.
			missing++;
		}
	}
	await tell({ kind: "kept", edition: list.edition, whole: true, missing });
}

async function packTexts(hashes: readonly string[]): Promise<readonly string[]> {
	const cache = await shelf.parts();
	return Promise.all(
		hashes.map(async (hash) => {
			const kept = await cache.match(partKey(asFile(hash)));
			if (kept === undefined) throw new Error(`pack ${hash} is gone`);
			return kept.text();
		}),
	);
}

async function answer(request: Request, path: string): Promise<Response> {
	const file = path === "" || path.endsWith("/") ? `${path}index.html` : path;
	const binary = binaries.get(file);
	const kept = binary === undefined ? undefined : await (await shelf.parts()).match(partKey(binary));
	if (kept !== undefined) return kept;
	const text = await read(file);
	if (text !== undefined) return textResponse(file, text, 200);
	const picture = pictures.get(pictureOf(file));
	if (picture?.path === file) return pictureOr(request, picture);
	if (request.mode === "navigate" && (await shelf.read(`${file}/index.html`)) !== undefined)
		return Response.redirect(`${request.url.split(/[?#]/)[0]}/`, 301);
	try {
		return await fetch(request);
	} catch (error) {
		// Another size of a picture that is kept.
		if (picture !== undefined) return pictureOr(request, picture);
		if (request.mode !== "navigate") throw error;
		const isPage = file.endsWith(".html");
		const page = isPage && (await shelf.note("whole")) !== undefined ? await read("404.html") : undefined;
		return page === undefined
			? new Response(keeping.notHere, {
					status: 503,
					headers: { "Content-Type": "text/plain; charset=utf-8" },
				})
			: textResponse("404.html", page, 404);
	}
}

/** A text file of the edition. Pages are made of their texts now. */
async function read(file: string): Promise<string | undefined> {
	const text = await shelf.read(file);
	if (text === undefined || !isPageText(text)) return text;
	return programs.handbookPage?.(text, (await shelf.read(SHARED_FILE)) ?? "");
}

/** A picture that is kept; else the network's, which is then kept. */
async function pictureOr(request: Request, picture: ListedFile): Promise<Response> {
	const kept = await shelf.pictures();
	const known = await kept.match(pictureKey(picture));
	if (known !== undefined) return known;
	try {
		await takeFiles(kept, [picture], address, pictureKey);
		const taken = await kept.match(pictureKey(picture));
		if (taken !== undefined) return taken;
	} catch {
		// The host has another picture by now, or there is no network: the browser's own answer tells.
	}
	return fetch(request);
}

function textResponse(file: string, text: string, status: number): Response {
	const type = TYPES[file.split(".").at(-1) ?? ""] ?? "text/plain; charset=utf-8";
	return new Response(text, { status, headers: { "Content-Type": type } });
}

async function tell(message: FromWorker): Promise<void> {
	for (const client of await worker.clients.matchAll({ includeUncontrolled: true }))
		client.postMessage(message);
}

/** Where scripts' addresses have to be trusted, the edition's own is, and no other. */
function trusted(program: string): string {
	const { trustedTypes } = globalThis as { trustedTypes?: TrustedTypes };
	if (trustedTypes === undefined) return program;
	const rules = {
		createScriptURL(address: string) {
			if (address !== program) throw new TypeError("not a program of this edition");
			return address;
		},
	};
	return trustedTypes.createPolicy("handbook-worker", rules).createScriptURL(program);
}

function decoded(path: string): string {
	try {
		return decodeURI(path);
	} catch {
		return path;
	}
}
