/**
 * Reads a joined binder back piece by piece: what is painted on pages from the segments, which joining
 * moves as they are, and everything that joining makes (pages, links, destinations) from the whole.
 *
 *   1. a segment that was read before comes from the cache, by the hash of its bytes
 *   2. threads read the others side by side, one small document at a time; one reads the whole's links
 *   3. the editions, printed apart, are added to the pages that carry them
 *
 * So memory does not grow with the binder, and an unchanged section is not read again.
 */

import { createHash } from "node:crypto";
import { Worker } from "node:worker_threads";
import type { Leaf } from "./assemble.ts";
import type { Segment } from "./print-segments.ts";
import type { ReadPage, ReadPdf } from "./read-back.ts";
import type { SheetCache } from "./sheet-cache.ts";

/** What a thread is asked to read. */
export interface ReadOrder {
	readonly pdf: Uint8Array;
	/** All that is painted, or links and destinations alone. */
	readonly what: "pages" | "links";
}

export interface JoinedBinder {
	readonly pdf: Uint8Array;
	readonly segments: readonly Segment[];
	readonly leaves: readonly Pick<Leaf, "issue" | "side">[];
	/** As they were stamped on: for each of the words a right page and a left one. */
	readonly issues: { readonly words: readonly string[]; readonly pdf: Uint8Array };
}

/**
 * Reads a binder. Throws where one of its pieces is not a PDF.
 *
 * @param threads that read side by side
 */
export async function readJoined(binder: JoinedBinder, cache: SheetCache, threads: number): Promise<ReadPdf> {
	const pool = new Readers(threads);
	try {
		const painted = async (pdf: Uint8Array): Promise<readonly ReadPage[]> => {
			const name = createHash("sha256").update(pdf).digest("hex");
			const bytes = await cache.keep(["read back", "2", name], async () => {
				const { pages } = await pool.read({ pdf, what: "pages" });
				return new TextEncoder().encode(JSON.stringify(pages, rounded));
			});
			return JSON.parse(new TextDecoder().decode(bytes));
		};
		const whole = pool.read({ pdf: binder.pdf, what: "links" });
		const [{ pages, destinations }, issues, ...segments] = await Promise.all([
			whole,
			painted(binder.issues.pdf),
			...binder.segments.map(({ pdf }) => painted(pdf)),
		]);
		const contents = segments.flat();
		return {
			destinations,
			// A page too many or too few is found by whoever compares them with the leaves.
			pages: pages.map((page, position): ReadPage => {
				const content = contents[position];
				const { issue = "", side = "right" } = binder.leaves[position] ?? {};
				const stamp = issues[2 * binder.issues.words.indexOf(issue) + (side === "right" ? 0 : 1)];
				return {
					...page,
					words: [...(content?.words ?? []), ...(issue === "" ? [] : (stamp?.words ?? []))],
					painted: content?.painted,
				};
			}),
		};
	} finally {
		pool.close();
	}
}

/** Hundredths of a pixel are enough, and half as long. */
function rounded(_key: string, value: unknown): unknown {
	return typeof value === "number" ? Math.round(value * 100) / 100 : value;
}

/** Threads that take one order after the other. */
class Readers {
	readonly #idle: Worker[] = [];
	readonly #all: Worker[] = [];
	readonly #waiting: ((worker: Worker) => void)[] = [];
	readonly #most: number;

	constructor(most: number) {
		this.#most = most;
	}

	async read(order: ReadOrder): Promise<ReadPdf> {
		const worker = await this.#free();
		try {
			return await answered(worker, order);
		} finally {
			const next = this.#waiting.shift();
			if (next === undefined) this.#idle.push(worker);
			else next(worker);
		}
	}

	close(): void {
		for (const worker of this.#all) void worker.terminate();
	}

	#free(): Promise<Worker> {
		const idle = this.#idle.pop();
		if (idle !== undefined) return Promise.resolve(idle);
		if (this.#all.length < this.#most) {
			const worker = new Worker(new URL("./read-segments-thread.ts", import.meta.url));
			this.#all.push(worker);
			return Promise.resolve(worker);
		}
		return new Promise((resolve) => this.#waiting.push(resolve));
	}
}

function answered(worker: Worker, order: ReadOrder): Promise<ReadPdf> {
	return new Promise((resolve, reject) => {
		const onMessage = (read: ReadPdf) => {
			worker.off("error", onError);
			resolve(read);
		};
		const onError = (error: unknown) => {
			worker.off("message", onMessage);
			reject(error);
		};
		worker.once("message", onMessage);
		worker.once("error", onError);
		worker.postMessage(order);
	});
}
