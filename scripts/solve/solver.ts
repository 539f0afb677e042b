/**
 * Solves programs in a thread of its own, so that progress is shown and a wish to stop is heard while the
 * solver works. HiGHS (package `highs`, MIT, WebAssembly) does the work; it runs on one core.
 */

import { setFlagsFromString } from "node:v8";
import { Worker } from "node:worker_threads";
import type { ProgramData } from "./program.ts";

/** How far a search is: the price of the best found, and the price that nothing can be under. */
export interface Progress {
	readonly best: number | undefined;
	readonly bound: number;
}

export interface Solved {
	readonly status: "optimal" | "infeasible" | "stopped";
	/** The value of each variable; undefined where none was found. */
	readonly values: Float64Array | undefined;
	readonly price: number;
	/** What no choice can be under. */
	readonly bound: number;
	/** Bytes that the solver has taken of memory. */
	readonly memory: number;
}

export interface Wish {
	/** A choice that is known: the numbers of all variables that have a price, and their values. */
	readonly start?: Start | undefined;
	/** Prices closer together than this are equal. */
	readonly gap: number;
	readonly seconds: number;
	readonly signal?: AbortSignal | undefined;
	readonly onProgress?: ((progress: Progress) => void) | undefined;
}

export interface Start {
	readonly indices: readonly number[];
	readonly values: readonly number[];
}

/** What the thread is told. */
export interface Task {
	readonly program: ProgramData;
	readonly gap: number;
	readonly seconds: number;
	/** Not 0 once it is to stop. */
	readonly stop: Int32Array;
}

export type Answer =
	| ({ readonly kind: "solved" } & Solved)
	| ({ readonly kind: "progress" } & Progress)
	| { readonly kind: "failed"; readonly message: string };

/**
 * How much larger than what is in use the heap may grow before it is cleared. A search makes plans and throws
 * them away: left to itself it held 1.5 GB of them at 300 MB in use.
 */
const HEAP_GROWS_BY = 40;

export class Solver {
	readonly #thread = new Worker(new URL("./solver-thread.ts", import.meta.url));

	constructor() {
		setFlagsFromString(`--heap-growing-percent=${HEAP_GROWS_BY}`);
	}

	/** One program after the other. */
	solve(program: ProgramData, { gap, seconds, signal, onProgress }: Wish): Promise<Solved> {
		const stop = new Int32Array(new SharedArrayBuffer(4));
		const onAbort = () => void Atomics.store(stop, 0, 1);
		signal?.addEventListener("abort", onAbort);
		if (signal?.aborted === true) onAbort();
		const thread = this.#thread;
		return new Promise<Solved>((resolve, reject) => {
			const onError = (error: Error) => settle(() => reject(error));
			const onMessage = (answer: Answer) => {
				if (answer.kind === "progress") onProgress?.(answer);
				else if (answer.kind === "failed") settle(() => reject(new Error(answer.message)));
				else settle(() => resolve(answer));
			};
			const settle = (then: () => void): void => {
				thread.off("message", onMessage);
				thread.off("error", onError);
				signal?.removeEventListener("abort", onAbort);
				then();
			};
			thread.on("message", onMessage);
			thread.on("error", onError);
			thread.postMessage({ program, gap, seconds, stop } satisfies Task);
		});
	}

	async end(): Promise<void> {
		await this.#thread.terminate();
	}
}
