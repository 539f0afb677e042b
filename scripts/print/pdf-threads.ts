/**
 * Threads for what is done with PDFs apart from each other: placing a segment, reading a piece back,
 * reading what a whole file says of itself. Each takes one order after the other.
 */

import { once } from "node:events";
import { Worker } from "node:worker_threads";
import type { Paper } from "../../layouts/sheets/paper.ts";
import type { Leaf } from "./assemble.ts";
import type { PageDigest } from "./page-digest.ts";
import type { PlacedSegment, SegmentPlace } from "./place-segment.ts";
import type { ReadFile } from "./read-back.ts";

/** What a thread is asked to do. */
export type PdfOrder =
	| { readonly what: "place"; readonly pdf: Uint8Array; readonly place: SegmentPlace }
	/** Pages of these sides. */
	| {
			readonly what: "pages";
			readonly pdf: Uint8Array;
			readonly sides: readonly Leaf["side"][];
			readonly paper: Paper;
	  }
	| { readonly what: "file"; readonly pdf: Uint8Array };

export interface PdfAnswers {
	readonly place: PlacedSegment;
	readonly pages: readonly PageDigest[];
	readonly file: ReadFile;
}

export type PdfAnswer = { readonly done: PdfAnswers[keyof PdfAnswers] } | { readonly fault: string };

/** A thread's heap, megabytes: a piece needs a tenth of it, a file of ten thousand pages a half. */
const HEAP = 1024;

export class PdfThreads {
	readonly #idle: Worker[] = [];
	readonly #all: Worker[] = [];
	readonly #waiting: ((worker: Worker) => void)[] = [];
	readonly #most: number;

	constructor(most: number) {
		this.#most = most;
	}

	/** Starts one, which is ready to read when it is asked to. */
	start(): void {
		if (this.#all.length === 0) this.#idle.push(this.#started());
	}

	/**
	 * Rejects where the order fails.
	 *
	 * @param pdf is asked for when a thread is free, so that few are in memory
	 */
	place(pdf: () => Promise<Uint8Array>, place: SegmentPlace): Promise<PlacedSegment> {
		return this.#done(async () => ({ what: "place", pdf: await pdf(), place }));
	}

	pages(pdf: () => Uint8Array, sides: readonly Leaf["side"][], paper: Paper): Promise<readonly PageDigest[]> {
		return this.#done(async () => ({ what: "pages", pdf: pdf(), sides, paper }));
	}

	file(pdf: Uint8Array): Promise<ReadFile> {
		return this.#done(async () => ({ what: "file", pdf }));
	}

	close(): void {
		for (const worker of this.#all) void worker.terminate();
		this.#all.length = 0;
		this.#idle.length = 0;
	}

	async #done<T extends PdfAnswers[keyof PdfAnswers]>(order: () => Promise<PdfOrder>): Promise<T> {
		const worker = await this.#free();
		let isLiving = false;
		try {
			const asked = await order().catch((fault: unknown) => ({ fault }));
			if ("fault" in asked) {
				isLiving = true;
				throw asked.fault;
			}
			const answer = await answered(worker, asked);
			isLiving = true;
			if ("fault" in answer) throw new Error(answer.fault);
			return answer.done as T;
		} finally {
			const next = this.#waiting.shift();
			if (isLiving && next !== undefined) next(worker);
			else if (isLiving) this.#idle.push(worker);
			else {
				this.#all.splice(this.#all.indexOf(worker), 1);
				if (next !== undefined) next(this.#started());
			}
		}
	}

	#free(): Promise<Worker> {
		const idle = this.#idle.pop();
		if (idle !== undefined) return Promise.resolve(idle);
		if (this.#all.length < this.#most) return Promise.resolve(this.#started());
		return new Promise((resolve) => this.#waiting.push(resolve));
	}

	#started(): Worker {
		const worker = new Worker(new URL("./pdf-thread.ts", import.meta.url), {
			resourceLimits: { maxOldGenerationSizeMb: HEAP },
		});
		this.#all.push(worker);
		return worker;
	}
}

/** What a thread answers; rejects where it fails or ends instead. */
async function answered(worker: Worker, order: PdfOrder): Promise<PdfAnswer> {
	const done = new AbortController();
	const next = (event: string) => once(worker, event, { signal: done.signal });
	const ended = next("exit").then(() => Promise.reject(new Error("A thread that works on PDFs ended.")));
	worker.postMessage(order);
	try {
		const [answer] = await Promise.race([next("message"), ended]);
		return answer;
	} finally {
		done.abort();
	}
}
