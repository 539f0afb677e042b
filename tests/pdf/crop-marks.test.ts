/** Boxes and marks of paper that is to be cut, by what ISO 15930 (PDF/X) says of them. */

import { PDFDocument, StandardFonts } from "pdf-lib";
import { expect, it } from "vitest";
import { withCropMarks } from "../../scripts/pdf/crop-marks.ts";
import { paintedExtremes } from "../../scripts/pdf/painted.ts";
import { readPdf } from "../print/read-pdf.ts";

const MM = 72 / 25.4;

it("puts the trimmed page within its bleed, and that within the paper, with marks outside of both", async () => {
	const document = await PDFDocument.create({ updateMetadata: false });
	const font = await document.embedFont(StandardFonts.Helvetica);
	for (const words of ["Chin to chest", "Heels to seat"])
		document.addPage([200, 300]).drawText(words, { x: 20, y: 100, size: 12, font });
	const marked = await withCropMarks(await document.save(), 3);
	const read = await PDFDocument.load(marked);
	for (const page of read.getPages()) {
		expect(page.getTrimBox()).toEqual({ x: 0, y: 0, width: 200, height: 300 });
		const bleed = page.getBleedBox();
		expect(bleed.x).toBeCloseTo(-3 * MM);
		expect(bleed.width).toBeCloseTo(200 + 6 * MM);
		const paper = page.getMediaBox();
		expect(paper.x).toBeLessThan(bleed.x - 5 * MM);
		expect(paper.height).toBeGreaterThan(bleed.height + 10 * MM);
	}
	for (const painted of paintedExtremes(marked)) {
		expect(painted?.left).toBeCloseTo(-9 * MM, 1);
		expect(painted?.top).toBeCloseTo(300 + 9 * MM, 1);
	}
	expect((await readPdf(marked)).pages.map(({ text }) => text)).toEqual(["Chin to chest", "Heels to seat"]);
});
