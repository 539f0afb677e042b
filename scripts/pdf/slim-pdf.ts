/**
 * Makes a printed PDF small: figures are vectors, and the browser writes their curves with eight
 * figures where two decimals of a pixel are finer than any printer.
 *
 *   1. every stream of drawing commands is unpacked
 *   2. coordinates of paths and steps between letters are rounded; matrices stay as they are
 *   3. it is packed again
 */

import { deflateSync, inflateSync } from "node:zlib";
import { PDFArray, PDFDocument, PDFName, PDFNumber, PDFRawStream, PDFRef } from "pdf-lib";
import { savePdf } from "./save-pdf.ts";

/** The same document with smaller drawing commands. Throws where it is not a PDF as the browser prints it. */
export async function slimPdf(pdf: Uint8Array): Promise<Uint8Array> {
	const document = await PDFDocument.load(pdf, { updateMetadata: false });
	const { context } = document;
	for (const { node } of document.getPages()) {
		const contents = node.get(PDFName.of("Contents"));
		const refs = contents instanceof PDFArray ? contents.asArray() : [contents];
		for (const ref of refs) {
			if (!(ref instanceof PDFRef)) continue;
			const stream = context.lookup(ref);
			if (!(stream instanceof PDFRawStream)) continue;
			if (stream.dict.get(PDFName.of("Filter")) !== PDFName.of("FlateDecode")) continue;
			const commands = Buffer.from(inflateSync(stream.contents)).toString("latin1");
			const packed = deflateSync(Buffer.from(roundedCommands(commands), "latin1"));
			stream.dict.set(PDFName.of("Length"), PDFNumber.of(packed.length));
			context.assign(ref, PDFRawStream.of(stream.dict, packed));
		}
	}
	return savePdf(document);
}

/** The most that rounding may move a point, in points: half the dot of an office printer (600 to the inch). */
const FINEST = 0.06;

/**
 * Drawing commands, one to a line, with the numbers of paths and of steps between letters rounded to
 * what can be seen at the scale they are drawn at.
 */
export function roundedCommands(commands: string): string {
	const stack: number[] = [];
	let scale = 1;
	return commands
		.split("\n")
		.map((line) => {
			const command = line.slice(line.lastIndexOf(" ") + 1);
			switch (command) {
				case "q":
					stack.push(scale);
					return line;
				case "Q":
					scale = stack.pop() ?? 1;
					return line;
				case "cm": {
					const [a = 1, b = 0, c = 0, d = 1] = line.split(" ").map(Number);
					scale *= Math.sqrt(Math.abs(a * d - b * c));
					return line;
				}
				case "m":
				case "l":
				case "c":
				case "v":
				case "y":
				case "re":
					return rounded(line, Math.max(0, Math.ceil(Math.log10(scale / (2 * FINEST)))));
				case "Tj":
					return line.replace(/^\S+ \S+(?= Td )/, (step) => rounded(step, 2));
				default:
					return line;
			}
		})
		.join("\n");
}

function rounded(line: string, decimals: number): string {
	const factor = 10 ** decimals;
	return line.replace(/-?\d*\.\d+/g, (number) => String(Math.round(Number(number) * factor) / factor + 0));
}
