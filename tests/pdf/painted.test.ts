/** How far marks reach: on pages drawn by hand, where it is known, and as pdfjs-dist has it. */

import { degrees, PDFDocument } from "pdf-lib";
import { expect, it } from "vitest";
import { followPages, paintedExtremes } from "../../scripts/pdf/painted.ts";
import { PdfFile } from "../../scripts/pdf/pdf-file.ts";
import { readMarks } from "../print/read-marks.ts";

const rounded = (pages: ReturnType<typeof paintedExtremes>) =>
	pages.map(
		(page) =>
			page && [page.left, page.bottom, page.right, page.top].map((one) => Math.round(one * 100) / 100),
	);

async function drawn(draw: (document: PDFDocument) => Promise<void> | void) {
	const document = await PDFDocument.create();
	await draw(document);
	return document.save();
}

it("is where a rectangle, a curve and a turned picture stand", async () => {
	const bytes = await drawn(async (document) => {
		document.addPage([200, 200]).drawRectangle({ x: 20, y: 30, width: 40, height: 50, borderWidth: 1 });
		// A half circle by its usual cubic curves: it reaches 25 up, its control points no further than that.
		document.addPage([200, 200]).drawSvgPath("M 0 0 C 0 -80 90 -80 90 0 Z", { x: 50, y: 60 });
		const dot = await document.embedPng(
			Buffer.from(
				"iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
				"base64",
			),
		);
		document
			.addPage([200, 200])
			.drawImage(dot, { x: 100, y: 100, width: 30, height: 20, rotate: degrees(90) });
		document.addPage([200, 200]);
	});
	const found = rounded(paintedExtremes(bytes));
	expect(found).toEqual([
		[20, 30, 60, 80],
		// The curve's highest point is three quarters of its control points' height.
		[50, 60, 140, 120],
		[80, 100, 100, 130],
		undefined,
	]);
	expect(rounded(await readMarks(bytes))).toEqual(found);
});

it("follows forms within forms, smaller and moved", async () => {
	const inner = await drawn((document) => {
		document.addPage([100, 100]).drawRectangle({ x: 10, y: 10, width: 80, height: 20 });
	});
	const middle = await drawn(async (document) => {
		const [form] = await document.embedPdf(inner);
		if (form === undefined) throw new Error("One page was drawn.");
		document.addPage([100, 100]).drawPage(form, { x: 20, y: 0, xScale: 0.5, yScale: 0.5 });
	});
	const bytes = await drawn(async (document) => {
		const [form] = await document.embedPdf(middle);
		if (form === undefined) throw new Error("One page was drawn.");
		document.addPage([300, 300]).drawPage(form, { x: 100, y: 200, xScale: 0.5, yScale: 1 });
	});
	const found = rounded(paintedExtremes(bytes));
	// 10 … 90 becomes 25 … 65, then 112.5 … 132.5; 10 … 30 becomes 5 … 15, then 205 … 215.
	expect(found).toEqual([[112.5, 205, 132.5, 215]]);
	expect(rounded(await readMarks(bytes))).toEqual(found);
});

it("gives back all commands but those that draw", async () => {
	const bytes = await drawn(async (document) => {
		const page = document.addPage([200, 200]);
		page.drawRectangle({ x: 20, y: 30, width: 40, height: 50, borderWidth: 1 });
		page.drawText("1 0 m (a) \\ l", { x: 20, y: 100 });
		page.drawSvgPath("M 0 0 C 0 -80 90 -80 90 0 Z", { x: 50, y: 60 });
	});
	const { letters } = followPages(new PdfFile(bytes));
	const left = [...letters.values()].map((commands) => Buffer.from(commands).toString("latin1")).join("\n");
	const operators = left.split(/\s+/).filter((word) => /^[A-Za-z*]+$/.test(word));
	expect(operators.filter((one) => /^(m|l|c|h|re|f|S|B|w|rg|RG)$/.test(one))).toEqual([]);
	expect(operators.filter((one) => one === "q").length).toBe(operators.filter((one) => one === "Q").length);
	expect(left).toContain(`<${Buffer.from("1 0 m (a) \\ l").toString("hex").toUpperCase()}> Tj`);
});

it("refuses what is not a PDF", () => {
	expect(() => paintedExtremes(new TextEncoder().encode("no PDF"))).toThrow();
});
