/**
 * The worker that keeps the handbook on the device.
 *
 *   install   every part of the edition is fetched and proved, and the search is made; where one part is
 *             missing, the installation fails, and the edition before goes on as it was
 *   wait      the new edition waits until the reader changes to it, or until no page is open
 *   activate  the new edition answers, and all others go
 *   fetch     pages of the one edition are made of its records, whatever the query string, and those of
 *             classes kept; what an edition does not hold is asked of the network
 *   continue  what few look at follows, as long as a page is open: the club's pictures, large pages
 */

import type { DeviceHandbook, DeviceScope } from "../../scripts/records/device.ts";
import {
	bundled,
	type EditionList,
	escapeWide,
	type FromWorker,
	type ListedFile,
	recordsPath,
	type ToWorker,
	unbundled,
} from "../../scripts/records/edition-list.ts";
import { pictureOf } from "../../scripts/records/picture-sizes.ts";
import { keeping } from "../../scripts/words/en.ts";
import type { TrustedTypes, WorkerScope } from "./scope.ts";
import { Shelf } from "./shelf.ts";
import { takeFiles, takeRecords } from "./take.ts";

/** Written in front of this program by the build. */
declare const HANDBOOK_EDITION: EditionList;

/** Where the search's files lie. */
const SEARCH_FOLDER = "search/";

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
const later = new Map(list.later.map((file) => [pictureOf(file.path), file]));
const files = new Map(list.files.map((file) => [file.path, file]));
const records = list.records.map(([, hash]): ListedFile => ({ path: recordsPath(hash), hash }));

/** Pages that are kept as they were made: a coach opens hers again in the hall, when the worker has slept. */
const OFTEN = /^(index\.html|classes\/.*)$/;

/** The edition's records as one text. */
const RECORDS = "records";

importScripts(trusted(scope + list.program));
const { handbookOf } = globalThis as DeviceScope;

const partKey = ({ hash }: ListedFile) => shelf.key(hash);
const laterKey = ({ path, hash }: ListedFile) => `${scope}${encodeURI(path)}?${hash}`;
const address = ({ path }: ListedFile) => scope + encodeURI(path);

worker.addEventListener("install", (event) => event.waitUntil(install()));

worker.addEventListener("activate", (event) =>
	event.waitUntil(
		shelf
			.clear(new Set([...records, ...list.files].map(partKey)), new Set(list.later.map(laterKey)))
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
		const parts = await shelf.parts();
		const of = records.length + list.files.length;
		const progress = (done: number) => void tell({ kind: "taking", edition: list.edition, done, of });
		await takeFiles(parts, list.files, address, partKey);
		await takeRecords(parts, records, list.bundles, address, partKey, (done) =>
			progress(done + list.files.length),
		);
		const texts = await Promise.all(records.map(async (file) => (await parts.match(partKey(file)))?.text()));
		const text = escapeWide(bundled(texts.map((one) => one ?? "")));
		// A coach searches first: the search is made now, and not when it is opened.
		for (const file of openHandbook(text).search()) await shelf.lay(file.path, file.text);
		await shelf.lay(RECORDS, text);
	} catch (error) {
		await tell({
			kind: "failed",
			edition: list.edition,
			why: error instanceof Error ? error.message : String(error),
		});
		throw error;
	}
}

function openHandbook(text: string): DeviceHandbook {
	if (handbookOf === undefined) throw new Error(`${list.program} is not the program of this edition`);
	const texts = unbundled(text);
	const byName = new Map(list.records.map(([name], i) => [name, texts[i]]));
	return handbookOf((name) => byName.get(name), list.issued);
}

let opened: Promise<DeviceHandbook | undefined> | undefined;

/** The handbook of this edition, opened when a page is first asked for; undefined where its records are gone. */
function handbook(): Promise<DeviceHandbook | undefined> {
	opened ??= shelf.read(RECORDS).then((text) => (text === undefined ? undefined : openHandbook(text)));
	return opened;
}

let going: Promise<void> | undefined;

/** Fetches what may come later, once at a time. What fails is tried again by the next page. */
function goOn(): Promise<void> {
	going ??= takeLater().finally(() => {
		going = undefined;
	});
	return going;
}

async function takeLater(): Promise<void> {
	// A browser that is short of room takes caches away, and not the worker.
	if ((await handbook()) === undefined) {
		opened = undefined;
		try {
			await install();
		} catch {
			// Told already.
			return;
		}
	}
	let missing = 0;
	const kept = await shelf.later();
	for (const file of list.later) {
		try {
			await takeFiles(kept, [file], address, laterKey);
		} catch {
			// The others may still be had.
			missing++;
		}
	}
	await tell({ kind: "kept", edition: list.edition, missing });
}

async function answer(request: Request, path: string): Promise<Response> {
	const file = path === "" || path.endsWith("/") ? `${path}index.html` : path;
	const part = files.get(file);
	const kept = part === undefined ? undefined : await shelf.part(partKey(part));
	if (kept !== undefined) return kept;
	const text = await read(file);
	if (text !== undefined) return textResponse(file, text, 200);
	const other = later.get(pictureOf(file));
	if (other?.path === file) return laterOr(request, other);
	if (request.mode === "navigate" && (await handbook())?.has(`${file}/index.html`))
		return Response.redirect(`${request.url.split(/[?#]/)[0]}/`, 301);
	try {
		return await fetch(request);
	} catch (error) {
		// Another size of a picture that is kept.
		if (other !== undefined) return laterOr(request, other);
		if (request.mode !== "navigate") throw error;
		const page = file.endsWith(".html") ? await read("404.html") : undefined;
		return page === undefined
			? new Response(keeping.notHere, {
					status: 503,
					headers: { "Content-Type": "text/plain; charset=utf-8" },
				})
			: textResponse("404.html", page, 404);
	}
}

/** A page of the edition, or a file that was made of it; undefined for what is asked of the network. */
async function read(file: string): Promise<string | undefined> {
	if (file.startsWith(SEARCH_FOLDER) && !file.endsWith(".html")) return shelf.read(file);
	if (!file.endsWith(".html")) return undefined;
	const known = OFTEN.test(file) ? await shelf.read(file) : undefined;
	// Opened meanwhile for the page that is asked for next.
	const opening = handbook();
	if (known !== undefined) {
		opening.catch(() => undefined);
		return known;
	}
	const page = (await opening)?.page(file);
	// Where there is no room it is made again.
	if (page !== undefined && OFTEN.test(file)) shelf.lay(file, page).catch(() => undefined);
	return page;
}

/** The file that is kept; else the network's, which is then kept. */
async function laterOr(request: Request, file: ListedFile): Promise<Response> {
	const known = await shelf.laterFile(laterKey(file));
	if (known !== undefined) return known;
	try {
		await takeFiles(await shelf.later(), [file], address, laterKey);
		const taken = await shelf.laterFile(laterKey(file));
		if (taken !== undefined) return taken;
	} catch {
		// The host has another file by now, or there is no network: the browser's own answer tells.
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
