/** Reads the pages of a small PDF, after making sure that each of its objects is where it should be. */

import type { Leaf } from "./assemble.ts";
import { digestPage, type PageDigest } from "./page-digest.ts";
import type { Paper } from "./paper.ts";
import { PdfFile } from "./pdf-file.ts";
import { readStretch } from "./read-back.ts";

/** Throws where it is not a PDF, or an object is not at its place. */
export async function readPages(
	pdf: Uint8Array,
	sides: readonly Leaf["side"][],
	paper: Paper,
): Promise<readonly PageDigest[]> {
	const file = new PdfFile(pdf);
	for (const number of file.numbers()) file.object(number);
	const count = file.pages().pages.length;
	if (count !== sides.length) throw new Error(`A piece of a PDF has ${count} pages instead of ${sides.length}.`);
	const { pages } = await readStretch({ pdf, part: 0, parts: 1 });
	return pages.map((page, position) => digestPage(page, sides[position] ?? "right", paper));
}
