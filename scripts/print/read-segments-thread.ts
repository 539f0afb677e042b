/** A thread that reads PDFs one after the other, and says what it found in each. */

import { parentPort } from "node:worker_threads";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { linksOf, measuresOf, type ReadPdf, readStretch } from "./read-back.ts";
import type { ReadOrder } from "./read-segments.ts";

parentPort?.on("message", async ({ pdf, what }: ReadOrder) => {
	parentPort?.postMessage(
		what === "pages" ? await readStretch({ pdf, part: 0, parts: 1 }) : await readLinks(pdf),
	);
});

/** Sizes, links and destinations, without what is painted. */
async function readLinks(pdf: Uint8Array): Promise<ReadPdf> {
	const task = getDocument({ data: new Uint8Array(pdf), verbosity: 0, disableFontFace: true });
	try {
		const document = await task.promise;
		const pages: ReadPdf["pages"][number][] = [];
		for (let number = 1; number <= document.numPages; number++) {
			const page = await document.getPage(number);
			const { width, height } = measuresOf(page);
			pages.push({ width, height, words: [], links: await linksOf(page), painted: undefined });
			page.cleanup();
		}
		const destinations = new Map<string, number>();
		for (const [name, [page]] of await document.getDestinations()) {
			destinations.set(name, await document.getPageIndex(page));
		}
		return { pages, destinations };
	} finally {
		await task.destroy();
	}
}
