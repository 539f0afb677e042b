/**
 * Ends a test file whose thread no longer comes back, such as a loop without an end: vitest's own limits
 * need that thread, so a whole run would wait for ever, and nobody would learn for which file.
 */

import { Worker } from "node:worker_threads";
import { expect } from "vitest";

const SILENT_MS = 300_000;

const WATCHER = `
const { parentPort, workerData: { beat, silent } } = require("node:worker_threads");
const { writeSync } = require("node:fs");
let [file, last] = ["", -1];
parentPort.on("message", (now) => { file = now; });
setInterval(() => {
	const now = Atomics.load(beat, 0);
	if (now !== last) { last = now; return; }
	writeSync(2, "\\n" + file + " did not come back for " + silent / 1000 + " s and is ended.\\n");
	process.kill(process.pid, "SIGKILL");
}, silent);
`;

/** One watcher for all files of this process, each of which says that it begins. */
const perProcess = globalThis as { fileWatcher?: Worker };
perProcess.fileWatcher ??= startWatcher();
perProcess.fileWatcher.postMessage(expect.getState().testPath);

function startWatcher(): Worker {
	const beat = new Int32Array(new SharedArrayBuffer(4));
	setInterval(() => Atomics.add(beat, 0, 1), 1000).unref();
	const watcher = new Worker(WATCHER, { eval: true, workerData: { beat, silent: SILENT_MS } });
	watcher.unref();
	return watcher;
}
