/**
 * Reads the pages of a small PDF.
 *
 *   1. every object is looked up where the file says it is
 *   2. drawing commands are followed, to see how far marks reach                              painted
 *   3. words and links are read by another library, from the same objects with what carries no words
 *      left out: paths, which are most of a file, and tags
 */

import type { Paper } from "../../layouts/sheets/paper.ts";
import { followPages, type Painted } from "../pdf/painted.ts";
import { PdfFile } from "../pdf/pdf-file.ts";
import { fileOf, PieceWriter } from "../pdf/pdf-piece.ts";
import { dictionaryOf, entriesOf } from "../pdf/pdf-text.ts";
import type { Leaf } from "./assemble.ts";
import { digestPage, type PageDigest } from "./page-digest.ts";
import { readStretch } from "./read-back.ts";

/** Throws where it is not a PDF, or an object is not at its place. */
export async function readPages(
	pdf: Uint8Array,
	sides: readonly Leaf["side"][],
	paper: Paper,
): Promise<readonly PageDigest[]> {
	const file = new PdfFile(pdf);
	const count = file.pages().pages.length;
	if (count !== sides.length)
		throw new Error(`A piece of a PDF has ${count} pages instead of ${sides.length}.`);
	const { extremes, letters } = followPages(file);
	const { pages } = await readStretch({ pdf: withLettersAlone(file, letters), part: 0, parts: 1, extremes });
	return pages.map((page, position) => digestPage(page, sides[position] ?? "right", paper));
}

/** The same pages without paths, pictures and tags, unpacked. */
function withLettersAlone(file: PdfFile, letters: Painted["letters"]): Uint8Array {
	const writer = new PieceWriter();
	let free = 0;
	for (const number of file.numbers()) {
		const { text, stream } = file.object(number);
		free = number + 1;
		if (stream === undefined) {
			if (!text.includes("/StructElem")) writer.addPlain(number, text);
			continue;
		}
		const entries = entriesOf(text);
		const type = entries.get("Type");
		if (type === "/ObjStm" || type === "/XRef") continue;
		const commands = letters.get(number);
		if (commands === undefined) {
			writer.addStream(number, text, stream);
			continue;
		}
		for (const name of ["Filter", "DecodeParms"]) entries.delete(name);
		entries.set("Length", String(commands.length));
		writer.addStream(number, dictionaryOf(entries), commands);
	}
	const catalog = file.trailer.get("Root") ?? "";
	return fileOf([writer.finish(free)], { Root: catalog }, free);
}
