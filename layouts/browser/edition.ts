/**
 * Keeps the handbook on the device, and says which edition is there.
 *
 *   name      the edition's name is written at the end of the page, and into letters about it
 *   register  the worker is registered, in whatever folder of a host the handbook stands; where no
 *             worker is named, as in a preview, one that was registered before is taken away
 *   watch     a new edition that is whole is announced in a calm bar; nothing changes until the reader
 *             says so
 *   tell      how things stand, on the page about the handbook; what fails is told there and logged
 */

import type { FromWorker, ToWorker } from "../../scripts/records/edition-list.ts";
import { keeping } from "../../scripts/words/en.ts";
import type { TrustedTypes } from "../worker/scope.ts";

/** Written in front of this program by the build; a preview has none. */
declare const HANDBOOK_NAME: string | undefined;

/** Milliseconds between two looks for a new edition while a page stays open. */
const PAUSE = 10 * 60 * 1000;

/** Milliseconds that a page may go on being busy before the handbook is fetched all the same. */
const BUSY = 2000;

const said = { kept: "", news: "" };
if (typeof HANDBOOK_NAME !== "undefined") nameEdition(HANDBOOK_NAME);

const named = document.querySelector<HTMLMetaElement>('meta[name="handbook-worker"]')?.content;

if (!("serviceWorker" in navigator)) say({ news: isSecureContext ? keeping.unable : keeping.insecure });
else if (named === undefined) void forget();
else if (location.protocol.startsWith("http")) void keep(new URL(named, location.href).href);

function nameEdition(name: string): void {
	for (const place of document.querySelectorAll<HTMLElement>(".colophon .edition")) {
		for (const words of place.getElementsByTagName("b")) words.textContent = name;
		place.hidden = false;
	}
	for (const letter of document.querySelectorAll<HTMLAnchorElement>('.colophon a[href^="mailto:"]')) {
		letter.href += encodeURIComponent(` ${keeping.inEdition(name)}`);
	}
}

async function keep(worker: string): Promise<void> {
	const { serviceWorker } = navigator;
	let wanted = false;
	let before = serviceWorker.controller;
	serviceWorker.addEventListener("controllerchange", () => {
		const first = before === null;
		before = serviceWorker.controller;
		if (wanted) location.reload();
		// The first worker answers with the edition that this page is from.
		else if (!first) announce(keeping.other, keeping.again, () => location.reload());
		else {
			say({ news: "" });
			goOn();
		}
	});
	serviceWorker.addEventListener("message", (event: MessageEvent<FromWorker>) => hear(event.data));
	serviceWorker.startMessages();
	// The page that is being read comes first; the whole handbook can wait for it.
	if (serviceWorker.controller === null) await atLeisure();
	let registration: ServiceWorkerRegistration;
	try {
		registration = await serviceWorker.register(trusted(worker));
	} catch (error) {
		fail(error instanceof Error ? error.message : String(error));
		return;
	}
	const offer = (waiting: ServiceWorker) => {
		// Without a controller this is the first edition, and takes over by itself.
		if (serviceWorker.controller === null) return;
		say({ news: keeping.waiting });
		announce(keeping.ready, keeping.change, () => {
			wanted = true;
			send(waiting, { kind: "change" });
		});
	};
	if (registration.waiting !== null) offer(registration.waiting);
	const watch = (installing: ServiceWorker) =>
		installing.addEventListener("statechange", () => {
			if (installing.state === "installed") offer(installing);
		});
	if (registration.installing !== null) watch(registration.installing);
	registration.addEventListener("updatefound", () => {
		if (registration.installing !== null) watch(registration.installing);
	});
	goOn();

	let looked = Date.now();
	const look = () => {
		if (document.visibilityState !== "visible" || Date.now() - looked < PAUSE) return;
		looked = Date.now();
		// Without a network the look fails, and the next one comes.
		registration.update().catch(() => undefined);
	};
	document.addEventListener("visibilitychange", look);
	addEventListener("online", look);
}

/** When the page is there and has nothing to do. */
async function atLeisure(): Promise<void> {
	if (document.readyState !== "complete") {
		await new Promise((resolve) => addEventListener("load", resolve, { once: true }));
	}
	await new Promise<void>((resolve) => {
		if ("requestIdleCallback" in globalThis) requestIdleCallback(() => resolve(), { timeout: BUSY });
		else setTimeout(resolve, BUSY);
	});
}

function goOn(): void {
	const { controller } = navigator.serviceWorker;
	if (controller !== null) send(controller, { kind: "continue" });
}

function send(worker: ServiceWorker, message: ToWorker): void {
	worker.postMessage(message);
}

function hear(message: FromWorker): void {
	if (message.kind === "taking") say({ news: keeping.taking(message.done, message.of) });
	else if (message.kind === "failed") fail(message.why);
	else {
		const more = [...(message.missing === 0 ? [] : [keeping.pictures(message.missing)])];
		say({ kept: [keeping.kept(message.edition), ...more].join(" ") });
		document.documentElement.dataset.kept = message.edition;
	}
}

function fail(why: string): void {
	console.error(`${keeping.notKept} ${why}`);
	say({ news: keeping.failed(why.replace(/[.\s]+$/, "")) });
}

/** What is kept, and what goes on beside it: neither takes the other's place. */
function say(words: { readonly kept?: string; readonly news?: string }): void {
	Object.assign(said, words);
	const place = document.querySelector<HTMLElement>("#kept-status");
	if (place !== null) place.textContent = [said.kept, said.news].filter((part) => part !== "").join(" ");
}

/** Takes away a worker of this very place, and what it kept, and no other's of the same host. */
async function forget(): Promise<void> {
	say({ news: keeping.preview });
	try {
		for (const registration of await navigator.serviceWorker.getRegistrations()) {
			if (!location.href.startsWith(registration.scope)) continue;
			await registration.unregister();
			for (const name of await caches.keys())
				if (name.startsWith(`handbook ${registration.scope} `)) await caches.delete(name);
		}
	} catch (error) {
		console.error(error);
	}
}

/** Where scripts' addresses have to be trusted, ours is, and no other. */
function trusted(worker: string): string {
	const { trustedTypes } = globalThis as { trustedTypes?: TrustedTypes };
	if (trustedTypes === undefined) return worker;
	const policy = trustedTypes.createPolicy("handbook-worker", {
		createScriptURL(address) {
			if (address !== worker) throw new TypeError("not the handbook's worker");
			return address;
		},
	});
	return policy.createScriptURL(worker);
}

/** A bar at the head of the page: read out, and there until it is answered. */
function announce(words: string, action: string, act: () => void): void {
	document.querySelector(".edition-bar")?.remove();
	const bar = document.createElement("div");
	bar.className = "edition-bar";
	const text = document.createElement("p");
	text.role = "status";
	bar.append(
		text,
		button(action, act),
		button(keeping.later, () => bar.remove()),
	);
	document.querySelector("header.top")?.after(bar);
	// Only what changes while it is there is read out.
	setTimeout(() => {
		text.textContent = words;
	});
}

function button(words: string, act: () => void): HTMLButtonElement {
	const made = document.createElement("button");
	made.type = "button";
	made.textContent = words;
	made.addEventListener("click", act);
	return made;
}
