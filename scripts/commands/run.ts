/** What every command is given: folders, where lines go, how progress is shown. */

import type { Output } from "./report.ts";

export interface Run {
	readonly clubDir: string;
	readonly outDir: string;
	/** When the command was started; `SOURCE_DATE_EPOCH`, where it is set. */
	readonly now: Date;
	readonly out: Output;
	readonly progress: ProgressTarget;
}

export interface ProgressTarget {
	readonly stream: { write(text: string): unknown };
	/** Whether the stream is a terminal, on which a line can be written over. */
	readonly live: boolean;
}

/** Shows how far a long step is: one line written over on a terminal, and a line every tenth elsewhere. */
export class Progress {
	readonly #target: ProgressTarget;
	readonly #now: () => number;
	/** When the step was shown first, and how far it was: the steps before say nothing of how long it takes. */
	#first = { at: 0, share: 0 };
	#label = "";
	#tenth = 0;

	constructor(target: ProgressTarget, now: () => number = performance.now.bind(performance)) {
		this.#target = target;
		this.#now = now;
	}

	/** @param detail what is being done right now */
	show(label: string, done: number, total: number, detail = ""): void {
		const share = total === 0 ? 1 : done / total;
		const tenth = Math.floor(share * 10);
		const isNew = label !== this.#label;
		if (isNew) this.#first = { at: this.#now(), share };
		this.#label = label;
		if (this.#target.live) {
			this.#target.stream.write(
				`\r\u001b[K${label} ${done}/${total}${this.#left(share)} ${detail}`.trimEnd(),
			);
			return;
		}
		if (!isNew && tenth <= this.#tenth) return;
		this.#tenth = tenth;
		this.#target.stream.write(`${label} ${done}/${total}${this.#left(share)}\n`);
	}

	/** Clears the line that was written over. */
	end(): void {
		if (this.#target.live) this.#target.stream.write("\r\u001b[K");
	}

	#left(share: number): string {
		const passed = this.#now() - this.#first.at;
		const done = share - this.#first.share;
		if (done <= 0.05 || share >= 1 || passed < 3000) return "";
		return `, about ${Math.ceil(((passed / done) * (1 - share)) / 1000)} s left`;
	}
}

/**
 * Does work that can be interrupted: at the first signal to end it is told to stop, and cleans up.
 *
 * @returns undefined where it was interrupted
 */
export async function untilInterrupted<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T | undefined> {
	const stop = new AbortController();
	const onSignal = () => stop.abort();
	for (const name of SIGNALS) process.once(name, onSignal);
	try {
		return await work(stop.signal);
	} catch (error) {
		if (stop.signal.aborted) return undefined;
		throw error;
	} finally {
		for (const name of SIGNALS) process.off(name, onSignal);
	}
}

const SIGNALS = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
