/**
 * Puts the pages of a PDF on larger paper, to be cut: the trimmed size, what is printed beyond it, and marks
 * at the corners that say where to cut (ISO 15930: TrimBox and BleedBox within the MediaBox).
 */

import { PDFArray, PDFDocument, PDFName, PDFRawStream } from "pdf-lib";
import { MM_POINTS } from "./points.ts";
import { savePdf } from "./save-pdf.ts";

/** Millimetres: the marks are so long, and stand so far from what is printed. */
const MARK = 5;
const GAP = 1;

/** @param bleed millimetres beyond the edge that is cut */
export async function withCropMarks(pdf: Uint8Array, bleed: number): Promise<Uint8Array> {
	const document = await PDFDocument.load(pdf, { updateMetadata: false });
	const { context } = document;
	const beyond = bleed * MM_POINTS;
	const slug = (bleed + GAP + MARK) * MM_POINTS;
	const marks = new Map<string, ReturnType<typeof context.register>>();
	for (const page of document.getPages()) {
		const { width, height } = page.getSize();
		const key = `${width} ${height}`;
		const known = marks.get(key) ?? context.register(context.flateStream(cornerMarks(width, height, beyond)));
		marks.set(key, known);
		// Before the page's own content, which may leave another scale behind.
		const contents = page.node.get(PDFName.of("Contents"));
		const own = context.lookup(contents);
		page.node.set(
			PDFName.of("Contents"),
			context.obj([
				known,
				...(own instanceof PDFArray
					? own.asArray()
					: own instanceof PDFRawStream && contents
						? [contents]
						: []),
			]),
		);
		page.setMediaBox(-slug, -slug, width + 2 * slug, height + 2 * slug);
		page.setCropBox(-slug, -slug, width + 2 * slug, height + 2 * slug);
		page.setBleedBox(-beyond, -beyond, width + 2 * beyond, height + 2 * beyond);
		page.setTrimBox(0, 0, width, height);
	}
	return savePdf(document);
}

/** Two lines at each corner, outside of what is printed and of no page's structure. */
function cornerMarks(width: number, height: number, beyond: number): string {
	const from = beyond + GAP * MM_POINTS;
	const to = from + MARK * MM_POINTS;
	const lines = [0, height].flatMap((y) => {
		const down = y === 0 ? -1 : 1;
		return [0, width].map((x) => {
			const across = x === 0 ? -1 : 1;
			return `${x + across * from} ${y} m ${x + across * to} ${y} l ${x} ${y + down * from} m ${x} ${y + down * to} l S`;
		});
	});
	return `/Artifact BMC q 0.25 w ${lines.join(" ")} Q EMC`;
}
