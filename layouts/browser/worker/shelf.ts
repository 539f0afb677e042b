/**
 * Where editions stand on the device: packs by hash, shared by editions; and for each edition its
 * pages, taken out of the packs and laid together in bundles.
 *
 * A page for itself in the browser's cache would cost a write for each of a thousand; a bundle is one,
 * compressed, and is opened in some milliseconds. Names carry the scope, since caches are shared by
 * everything on a host.
 */

import { type Maker, madeFiles } from "../../../scripts/render/offline/makers.ts";
import { unpack } from "../../../scripts/render/offline/packs.ts";

/** Bundles are opened once; so many stay open. */
const OPEN_BUNDLES = 6;

/** Where a page lies: bundle, and first and last place in it. */
interface Places {
	/** What the names of these bundles begin with: bundles laid before stay for those who read them. */
	readonly stamp: string;
	readonly of: Readonly<Record<string, readonly [bundle: number, from: number, to: number]>>;
}

export class Shelf {
	readonly #scope: string;
	readonly #release: string;
	#places: Promise<Places> | undefined;
	readonly #open = new Map<string, Promise<string>>();

	constructor(scope: string, release: string) {
		this.#scope = scope;
		this.#release = release;
	}

	/** Packs and binary files, under their hash. */
	parts(): Promise<Cache> {
		return caches.open(`${this.#prefix}parts`);
	}

	/** The club's pictures, under their name and hash. */
	pictures(): Promise<Cache> {
		return caches.open(`${this.#prefix}pictures`);
	}

	/** An address inside the scope for something kept; it is never asked of the network. */
	key(name: string): string {
		return `${this.#scope}offline/kept/${name}`;
	}

	/**
	 * Lays the pages of packs in bundles; those laid before are replaced when all is done.
	 *
	 * @param makers make files of those that go by
	 */
	async lay(
		first: readonly string[],
		later: readonly string[] | undefined,
		edition: string,
		makers: readonly Maker[] = [],
	): Promise<void> {
		const cache = await caches.open(this.#name);
		const stamp = later === undefined ? "first-" : "whole-";
		const of: Record<string, readonly [number, number, number]> = {};
		let bundle = 0;
		const put = async (files: readonly (readonly [path: string, text: string])[]) => {
			let at = 0;
			for (const [path, text] of files) {
				of[path] = [bundle, at, at + text.length];
				at += text.length;
			}
			await cache.put(this.key(`${stamp}${bundle++}`), zipped(files.map(([, text]) => text).join("")));
		};
		for (const files of unpack(first, later ?? [], edition)) {
			for (const maker of makers) for (const [path, text] of files) maker.read(path, text);
			await put(files);
		}
		for (const { files } of madeFiles(makers)) await put(files);
		await cache.put(this.key("places"), new Response(JSON.stringify({ stamp, of } satisfies Places)));
		this.#places = undefined;
	}

	/** A page or text file, by its path from the root; undefined where the edition has none there. */
	async read(path: string): Promise<string | undefined> {
		this.#places ??= this.#readPlaces();
		const { stamp, of } = await this.#places;
		const place = of[path];
		if (place === undefined) return undefined;
		const [number, from, to] = place;
		const bundle = `${stamp}${number}`;
		let text = this.#open.get(bundle);
		if (text === undefined) {
			text = this.#readBundle(bundle);
			this.#open.set(bundle, text);
			for (const oldest of this.#open.keys()) {
				if (this.#open.size <= OPEN_BUNDLES) break;
				this.#open.delete(oldest);
			}
		}
		return (await text).slice(from, to);
	}

	/** A note of this edition, such as how far it is. */
	async note(name: string): Promise<string | undefined> {
		const cache = await caches.open(this.#name);
		return (await cache.match(this.key(`note-${name}`)))?.text();
	}

	async writeNote(name: string, words: string): Promise<void> {
		const cache = await caches.open(this.#name);
		await cache.put(this.key(`note-${name}`), new Response(words));
	}

	/** Takes away all other editions, and parts and pictures that this one does not list. */
	async clear(parts: ReadonlySet<string>, pictures: ReadonlySet<string>): Promise<void> {
		for (const name of await caches.keys()) {
			if (name.startsWith(this.#prefix) && name !== this.#name && !/ (parts|pictures)$/.test(name)) {
				await caches.delete(name);
			}
		}
		await keepOnly(await this.parts(), parts);
		await keepOnly(await this.pictures(), pictures);
	}

	get #prefix(): string {
		return `handbook ${this.#scope} `;
	}

	get #name(): string {
		return `${this.#prefix}${this.#release}`;
	}

	async #readPlaces(): Promise<Places> {
		const cache = await caches.open(this.#name);
		const kept = await cache.match(this.key("places"));
		return kept === undefined ? { stamp: "", of: {} } : ((await kept.json()) as Places);
	}

	async #readBundle(bundle: string): Promise<string> {
		const cache = await caches.open(this.#name);
		const kept = await cache.match(this.key(bundle));
		if (kept?.body == null) throw new Error(`bundle ${bundle} of ${this.#release} is gone`);
		return new Response(kept.body.pipeThrough(new DecompressionStream("gzip"))).text();
	}
}

function zipped(text: string): Response {
	return new Response(new Blob([text]).stream().pipeThrough(new CompressionStream("gzip")));
}

async function keepOnly(cache: Cache, keys: ReadonlySet<string>): Promise<void> {
	for (const request of await cache.keys()) if (!keys.has(request.url)) await cache.delete(request);
}
