/**
 * Where editions stand on the device: what they are made of by hash, shared by editions; and for each
 * edition its records as one text, which is opened in some milliseconds, and the files that were made of
 * them when it was taken.
 *
 * Names carry the scope, since caches are shared by everything on a host.
 */

export class Shelf {
	readonly #scope: string;
	readonly #release: string;

	constructor(scope: string, release: string) {
		this.#scope = scope;
		this.#release = release;
	}

	/** Records, styles, programs and fonts, under their hash. */
	parts(): Promise<Cache> {
		return caches.open(`${this.#prefix}parts`);
	}

	/** What was taken after the edition was whole, under its name and hash. */
	later(): Promise<Cache> {
		return caches.open(`${this.#prefix}later`);
	}

	/** A part that is kept. Looking makes no cache: one that was just taken away stays away. */
	part(key: string): Promise<Response | undefined> {
		return caches.match(key, { cacheName: `${this.#prefix}parts` });
	}

	/** A later file that is kept. */
	laterFile(key: string): Promise<Response | undefined> {
		return caches.match(key, { cacheName: `${this.#prefix}later` });
	}

	/** An address inside the scope for something kept; it is never asked of the network. */
	key(name: string): string {
		return `${this.#scope}offline/kept/${name}`;
	}

	/** A text of this edition. */
	async read(name: string): Promise<string | undefined> {
		return (await caches.match(this.key(name), { cacheName: this.#name }))?.text();
	}

	async lay(name: string, text: string): Promise<void> {
		const cache = await caches.open(this.#name);
		await cache.put(this.key(name), new Response(text));
	}

	/** Takes away all other editions, and parts and later files that this one does not list. */
	async clear(parts: ReadonlySet<string>, later: ReadonlySet<string>): Promise<void> {
		for (const name of await caches.keys()) {
			if (name.startsWith(this.#prefix) && name !== this.#name && !/ (parts|later)$/.test(name)) {
				await caches.delete(name);
			}
		}
		await keepOnly(await this.parts(), parts);
		await keepOnly(await this.later(), later);
	}

	get #prefix(): string {
		return `handbook ${this.#scope} `;
	}

	get #name(): string {
		return `${this.#prefix}${this.#release}`;
	}
}

async function keepOnly(cache: Cache, keys: ReadonlySet<string>): Promise<void> {
	for (const request of await cache.keys()) if (!keys.has(request.url)) await cache.delete(request);
}
