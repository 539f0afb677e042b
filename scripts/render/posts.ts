/**
 * Posts from one thread to another that takes them itself, in order, instead of being called: it can look
 * whether more lies ready, and who posts waits where it falls behind, since what lies unread takes memory.
 *
 * How many posts were sent and taken is counted in shared memory. Each side sleeps on the other's count.
 */

import { enableCompileCache, flushCompileCache, getCompileCacheDir } from "node:module";
import { dirname } from "node:path";
import { parentPort, receiveMessageOnPort, Worker, workerData } from "node:worker_threads";

const SENT = 0;
const TAKEN = 1;
const FAILED = 2;
const COUNTS = 3;

/** Posts that may lie unread. */
const UNREAD = 16;
/** Milliseconds to wait for one of them to be taken. */
const PATIENCE = 1000;

interface Start {
	readonly counts: Int32Array;
	/** Where compiled programs are kept, if they are: a thread has to be told anew. */
	readonly compiled: string | undefined;
}

type Answer<From> = { readonly answer: From } | { readonly error: SentError };

/** An error as it goes from thread to thread, which would leave out what it was caused by. */
interface SentError {
	readonly message: string;
	readonly stack: string | undefined;
	/** Of an error of the system: code, errno, path and the like. */
	readonly facts: Readonly<Record<string, string | number>>;
	readonly cause: SentError | undefined;
}

/** A thread that is posted `To` and answers some posts with `From`, in their order. */
export class PostedThread<To, From> {
	readonly #thread: Worker;
	readonly #counts = new Int32Array(new SharedArrayBuffer(4 * COUNTS));
	readonly #failed: Promise<never>;
	/** Who waits for an answer, in the order of asking. */
	readonly #asking: ((answer: From) => void)[] = [];

	/** Starts a program, which loads what it needs meanwhile. */
	constructor(program: URL) {
		// The folder of this version of Node lies in the one that is named when the cache is turned on.
		const compiled = getCompileCacheDir();
		const start: Start = {
			counts: this.#counts,
			compiled: compiled === undefined ? undefined : dirname(compiled),
		};
		this.#thread = new Worker(program, {
			workerData: start,
			// What libraries chat is not for the director; what fails comes as an answer.
			stdout: true,
			stderr: true,
			resourceLimits: { maxYoungGenerationSizeMb: 48 },
		});
		this.#failed = new Promise((_, reject) => {
			this.#thread.on("error", (error) => {
				// One that died could not say so itself.
				Atomics.store(this.#counts, FAILED, 1);
				reject(error);
			});
			this.#thread.on("message", (answer: Answer<From>) => {
				if ("error" in answer) reject(arrived(answer.error));
				else this.#asking.shift()?.(answer.answer);
			});
		});
		// Told by whoever asks; before that nobody listens.
		this.#failed.catch(() => undefined);
	}

	/** Posts, after waiting a while where too much lies unread. */
	post(message: To): void {
		const counts = this.#counts;
		for (;;) {
			const taken = Atomics.load(counts, TAKEN);
			if (Atomics.load(counts, SENT) - taken < UNREAD || Atomics.load(counts, FAILED) === 1) break;
			// A thread that died takes nothing any more, and that is told only to who does not wait.
			if (Atomics.wait(counts, TAKEN, taken, PATIENCE) === "timed-out") break;
		}
		this.#thread.postMessage(message);
		Atomics.add(counts, SENT, 1);
		Atomics.notify(counts, SENT);
	}

	/** Posts what the thread answers. Throws what it failed with, at this post or an earlier one. */
	async ask(message: To): Promise<From> {
		const answered = new Promise<From>((resolve) => this.#asking.push(resolve));
		this.post(message);
		return Promise.race([answered, this.#failed]);
	}

	/** Ends the thread, wherever it is. */
	async close(): Promise<void> {
		await this.#thread.terminate();
	}
}

/** What the program of such a thread does with its posts. */
export interface Posted<To, From> {
	/** Takes a post; gives the answer to one that is asked. */
	take(post: To): Promise<From | undefined> | From | undefined;
	/** Called where nothing lies unread; says whether it did something. */
	idle?(): Promise<boolean>;
}

/**
 * Takes posts until the thread is ended; the program of a thread calls it.
 *
 * @param load gives what takes them: its modules are loaded when compiled ones can be found
 */
export async function takePosts<To, From>(load: () => Promise<Posted<To, From>>): Promise<void> {
	if (parentPort === null) throw new Error("This program runs in a thread of another.");
	const port = parentPort;
	const { counts, compiled } = workerData as Start;
	if (compiled !== undefined) enableCompileCache(compiled);
	const tell = (answer: Answer<From>) => port.postMessage(answer);
	try {
		const posted = await load();
		for (;;) {
			const taken = Atomics.load(counts, TAKEN);
			if (Atomics.load(counts, SENT) === taken) {
				if ((await posted.idle?.()) !== true) Atomics.wait(counts, SENT, taken);
				continue;
			}
			// A post lies there by the time that it is counted.
			const post: To = receiveMessageOnPort(port)?.message;
			const answer = await posted.take(post);
			if (answer !== undefined) {
				tell({ answer });
				// A thread that is ended leaves nothing behind by itself.
				flushCompileCache();
			}
			Atomics.add(counts, TAKEN, 1);
			Atomics.notify(counts, TAKEN);
		}
	} catch (error) {
		tell({ error: sent(error) });
		Atomics.store(counts, FAILED, 1);
		Atomics.notify(counts, TAKEN);
	}
}

function sent(error: unknown, depth = 0): SentError {
	if (!(error instanceof Error)) {
		return { message: String(error), stack: undefined, facts: {}, cause: undefined };
	}
	const facts = Object.entries(error).filter(
		(entry): entry is [string, string | number] =>
			typeof entry[1] === "string" || typeof entry[1] === "number",
	);
	// Libraries name what their error was caused by in either way.
	const cause = "originalError" in error ? error.originalError : error.cause;
	return {
		message: error.message,
		stack: error.stack,
		facts: Object.fromEntries(facts),
		cause: cause === undefined || depth > 4 ? undefined : sent(cause, depth + 1),
	};
}

function arrived({ message, stack, facts, cause }: SentError): Error {
	const error = new Error(message, cause && { cause: arrived(cause) });
	return Object.assign(error, facts, stack === undefined ? {} : { stack });
}
