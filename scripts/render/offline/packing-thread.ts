/**
 * A thread that packs the files of a site while its pages are still being made: it is posted each file,
 * and tells at the end what it wrote.
 */

import { enableCompileCache } from "node:module";
import { parentPort, workerData } from "node:worker_threads";
import type { SiteFile } from "./pack-pages.ts";
import type { PackWriterOptions } from "./write-packs.ts";

/** What the thread is started with. */
export interface PackingStart {
	/** Where compiled programs are kept, if they are: a thread has to be told anew. */
	readonly compiled: string | undefined;
	readonly options: PackWriterOptions;
	/** One number in shared memory: how many posts it has read. Who posts waits where it falls behind. */
	readonly read: Int32Array;
}

/** Files, or the word that there are no more. */
export type ToPacking = readonly SiteFile[] | "end";

const { options, read, compiled } = workerData as PackingStart;
if (compiled !== undefined) enableCompileCache(compiled);
// Loaded now, and not before the cache is on.
const { PackWriter } = await import("./write-packs.ts");
const writer = new PackWriter(options);
parentPort?.on("message", (message: ToPacking) => {
	if (message !== "end") {
		for (const file of message) writer.add(file);
		Atomics.add(read, 0, 1);
		Atomics.notify(read, 0);
		return;
	}
	parentPort?.postMessage(writer.write());
	parentPort?.close();
});
