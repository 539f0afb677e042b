/** A thread that works on PDFs, one order after the other, and says what came of each. */

import { parentPort } from "node:worker_threads";
import type { PdfAnswers, PdfOrder } from "./pdf-threads.ts";

parentPort?.on("message", async (order: PdfOrder) => {
	try {
		parentPort?.postMessage({ done: await done(order) });
	} catch (error) {
		parentPort?.postMessage({ fault: error instanceof Error ? error.message : String(error) });
	}
});

/** What only some orders need is loaded when the first of them comes. */
async function done(order: PdfOrder): Promise<PdfAnswers[keyof PdfAnswers]> {
	switch (order.what) {
		case "place": {
			const { placeSegment } = await import("./place-segment.ts");
			return placeSegment(order.pdf, order.place);
		}
		case "pages": {
			const { readPages } = await import("./read-pages.ts");
			return readPages(order.pdf, order.sides, order.paper);
		}
		case "file": {
			const { readFile } = await import("./read-back.ts");
			return readFile(order.pdf);
		}
	}
}

// Loaded while nothing is asked for yet.
void import("./read-pages.ts");
