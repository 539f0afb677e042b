/**
 * A thread that packs the files of a site while its pages are still being made: it is posted each file,
 * and tells at the end what it wrote.
 */

import { parentPort, workerData } from "node:worker_threads";
import type { SiteFile } from "./pack-pages.ts";
import { PackWriter, type PackWriterOptions } from "./write-packs.ts";

/** What the thread is started with. */
export interface PackingStart {
	readonly options: PackWriterOptions;
	/** One number in shared memory: how many posts it has read. Who posts waits where it falls behind. */
	readonly read: Int32Array;
}

/** Files, or the word that there are no more. */
export type ToPacking = readonly SiteFile[] | "end";

const { options, read } = workerData as PackingStart;
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
