/**
 * A thread that packs the files of a site while its pages are still being made: it is posted each file,
 * and tells at the end what it wrote.
 */

import { parentPort, workerData } from "node:worker_threads";
import type { SiteFile } from "./pack-pages.ts";
import { PackWriter, type PackWriterOptions } from "./write-packs.ts";

/** Files, or the word that there are no more. */
export type ToPacking = readonly SiteFile[] | "end";

const writer = new PackWriter(workerData as PackWriterOptions);
parentPort?.on("message", (message: ToPacking) => {
	if (message !== "end") {
		for (const file of message) writer.add(file);
		return;
	}
	parentPort?.postMessage(writer.write());
	parentPort?.close();
});
