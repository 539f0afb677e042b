/** PDF values taken apart and put together, and files made of pieces, read by this program and by others. */

import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { PdfFile } from "../../scripts/pdf/pdf-file.ts";
import { fileOf, PieceWriter } from "../../scripts/pdf/pdf-piece.ts";
import {
	dictionaryOf,
	entriesOf,
	itemsOf,
	literal,
	literalText,
	referred,
	refTo,
	withReferences,
	words,
} from "../../scripts/pdf/pdf-text.ts";

describe("a value", () => {
	it("is taken apart at its own level only", () => {
		const entries = entriesOf(
			"<</Type /Page\n/Kids [1 0 R <</A (>> ] \\) /B 2 0 R)>>]/Name(x)/Hex <AB0>/N -1.5/Rest null>>",
		);
		expect([...entries.keys()]).toEqual(["Type", "Kids", "Name", "Hex", "N", "Rest"]);
		expect(entries.get("Kids")).toBe("[1 0 R <</A (>> ] \\) /B 2 0 R)>>]");
		expect(itemsOf(entries.get("Kids") ?? "")).toEqual(["1 0 R", "<</A (>> ] \\) /B 2 0 R)>>"]);
		expect(itemsOf("[7 8 0 R 9]")).toEqual(["7", "8 0 R", "9"]);
		expect(entriesOf(dictionaryOf(entries))).toEqual(entries);
		expect(() => entriesOf("[1]")).toThrow();
		expect(() => itemsOf("<<>>")).toThrow();
	});

	it("gets other references, but not within its strings", () => {
		const text = "[1 0 R 6 478 0 R (1 0 R \\) 2 0 R) <</K 12 0 R>>]";
		expect(withReferences(text, (number) => number + 100)).toBe(
			"[101 0 R 6 578 0 R (1 0 R \\) 2 0 R) <</K 112 0 R>>]",
		);
		expect(referred("12 0 R")).toBe(12);
		expect(referred("12")).toBeUndefined();
	});

	it("holds any letters", () => {
		for (const text of ["plain", "a (b) c\\d", ")(", "\\"]) expect(literalText(literal(text))).toBe(text);
		expect(literalText("(a\\047b\\n)")).toBe("a'b\n");
		expect(words("Ä–")).toBe("<FEFF00C42013>");
	});
});

describe("a file of pieces", () => {
	/** Two pages in two pieces with room between their numbers. */
	function twoPieces(): Uint8Array {
		const page = (first: number) => {
			const writer = new PieceWriter();
			writer.add(first, dictionaryOf({ Type: "/Page", Parent: refTo(2), MediaBox: `[0 0 ${first} 50]` }));
			writer.addPacked(first + 1, { Type: "/Nothing" }, Buffer.from(`content of ${first}`));
			return writer.finish(first + 2);
		};
		const common = new PieceWriter();
		common.add(1, dictionaryOf({ Type: "/Catalog", Pages: refTo(2) }));
		common.add(2, dictionaryOf({ Type: "/Pages", Kids: `[${refTo(100)} ${refTo(2000)}]`, Count: 2 }));
		const rest = common.finish(3000);
		return fileOf([page(100), page(2000), rest], { Root: refTo(1) }, rest.next);
	}

	it("is read by this program", () => {
		const file = new PdfFile(twoPieces());
		expect(file.pages().pages).toEqual([100, 2000]);
		expect(file.numbers()).toEqual([1, 2, 100, 101, 102, 2000, 2001, 2002, 3000, 3001]);
		expect(file.place(500)).toBeUndefined();
		expect(() => file.object(500)).toThrow(/lacks its object 500/);
		expect(file.inherited(100, "MediaBox")).toBe("[0 0 100 50]");
	});

	it("is read by pdfjs-dist", async () => {
		const task = getDocument({ data: new Uint8Array(twoPieces()), verbosity: 0 });
		const document = await task.promise;
		expect(document.numPages).toBe(2);
		expect((await document.getPage(2)).view).toEqual([0, 0, 2000, 50]);
		await task.destroy();
	});

	it("has no number twice", () => {
		const piece = (text: string) => {
			const writer = new PieceWriter();
			writer.addPlain(7, text);
			return writer.finish(8);
		};
		expect(() => fileOf([piece("1"), piece("2")], {}, 9)).toThrow(/twice/);
	});
});
