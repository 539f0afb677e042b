/** What makes the binder a book: codes that a phone reads, wide tables, what does not fit, the file's fonts. */

import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PDFDict, PDFDocument, PDFName } from "pdf-lib";
import { afterAll, describe, expect, it } from "vitest";
import { prepareZXingModule, readBarcodes } from "zxing-wasm/reader";
import { openHandbook } from "../../scripts/handbook.ts";
import { type PrintedBinder, printBinder } from "../../scripts/print/binder.ts";
import type { Volume } from "../../scripts/views/sheets/edition.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";
import { openPrinter, threads } from "./open-printer.ts";
import { letters, type PrintedPdf, readPdf } from "./read-pdf.ts";
import { openPictures } from "./render-pages.ts";
import { shorten } from "./short-club.ts";

const MM = 72 / 25.4;

const browser = await openPrinter();
const folder = mkdtempSync(join(tmpdir(), "book-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function print(
	name: string,
	change: (dir: string) => void,
	{ overlay, volume }: { readonly overlay?: string; readonly volume?: Volume } = {},
): Promise<{ readonly printed: PrintedBinder; readonly bytes: Buffer; readonly pdf: PrintedPdf }> {
	const dir = clubCopy(overlay);
	change(dir);
	const { handbook, problems } = openHandbook(dir);
	if (handbook === undefined) throw new Error(JSON.stringify(problems.map(({ what }) => what)));
	const outFile = join(folder, name);
	const printed = await printBinder(handbook, { outFile, cacheDir: false, volume, browser, threads });
	if (printed.pages === 0) throw new Error(JSON.stringify(printed.problems.map(({ what }) => what)));
	const bytes = readFileSync(outFile);
	return { printed, bytes, pdf: await readPdf(bytes) };
}

describe("a club with a site", () => {
	let printed: ReturnType<typeof print> | undefined;
	/** Printed once, for both. */
	function book(): ReturnType<typeof print> {
		printed ??= print(
			"codes.pdf",
			(dir) => {
				shorten(dir);
				writeFileSync(
					join(dir, "_data/club.yaml"),
					"name: Marrowby\ntimezone: Europe/London\nsite: https://staff.marrowby.example/handbook\n",
				);
			},
			{ overlay: join(FIXTURES, "clubs", "printed-binder") },
		);
		return printed;
	}

	it("has on every card a code that leads to the drill's page", async () => {
		const { printed, bytes, pdf } = await book();
		expect(printed.problems).toEqual([]);
		const wasm = createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");
		prepareZXingModule({ overrides: { wasmBinary: Uint8Array.from(readFileSync(wasm)).buffer } });
		const scale = 3;
		const pictures = await openPictures(bytes, scale);
		const cards = [...pdf.destinations].filter(([id]) => id.startsWith("drill-"));
		expect(cards.length).toBeGreaterThan(4);
		for (const [id, position] of cards) {
			const address = `https://staff.marrowby.example/handbook/drills/${id.slice("drill-".length)}/`;
			const { width, height, grey } = await pictures.page(position);
			const data = new Uint8ClampedArray(4 * grey.length);
			grey.forEach((value, i) => {
				data.set([value, value, value, 255], 4 * i);
			});
			const found = await readBarcodes(
				{ width, height, data, colorSpace: "srgb" },
				{ formats: ["QRCode"], maxNumberOfSymbols: 8 },
			);
			const code = found.find(({ text }) => text === address);
			expect(code, id).toBeDefined();
			if (code === undefined) continue;
			const { topLeft, topRight, bottomLeft } = code.position;
			expect((topRight.x - topLeft.x) / scale).toBeGreaterThanOrEqual(18 * MM - 2 / scale);
			expect((bottomLeft.y - topLeft.y) / scale).toBeGreaterThanOrEqual(18 * MM - 2 / scale);
			expect(pdf.pages[position]?.links.map(({ url }) => url)).toContain(address);
			expect(pdf.pages[position]?.alternatives.some((words) => words.includes(address))).toBe(true);
		}
		await pictures.close();
	});

	it("embeds its fonts as outlines, none as drawings of letters", async () => {
		const { bytes } = await book();
		const document = await PDFDocument.load(bytes);
		const kinds = new Set<string>();
		let files = 0;
		for (const [, object] of document.context.enumerateIndirectObjects()) {
			if (!(object instanceof PDFDict)) continue;
			if (object.get(PDFName.of("Type")) === PDFName.of("Font"))
				kinds.add(String(object.get(PDFName.of("Subtype"))));
			if (object.get(PDFName.of("FontFile2")) !== undefined) files++;
		}
		expect([...kinds].sort()).toEqual(["/CIDFontType2", "/Type0"]);
		expect(files).toBeGreaterThan(1);
	});
});

describe("a year of forty weeks with sixty shapes", () => {
	it("has its tables on their side, whole", async () => {
		const shapes = Array.from({ length: 60 }, (_, i) => `Long shape name ${i + 1}`);
		const { printed, pdf } = await print(
			"wide.pdf",
			(dir) => {
				writeFileSync(
					join(dir, "_data/club.yaml"),
					"name: Marrowby\ntimezone: Europe/London\npaper: A4\npunch: three-hole\n",
				);
				writeFileSync(join(dir, "_data/term.yaml"), "name: A long year\nstarts: 2027-01-04\nweeks: 40\n");
				writeFileSync(
					join(dir, "_data/shapes.yaml"),
					shapes
						.map((name, i) => `- id: s${i + 1}x\n  name: ${name}\n`)
						.concat(["tuck", "hollow"].map((id) => `- id: ${id}\n  name: ${id}\n`))
						.join(""),
				);
				// Twelve drills of five shapes each.
				for (let i = 0; i < 12; i++) {
					const own = [1, 2, 3, 4, 5].map((shape) => `s${5 * i + shape}x`);
					writeFileSync(
						join(dir, `content/drills/floor/trains-${i}.md`),
						`---\ntitle: Trains ${i}\napparatus: floor\nlevels: [junior]\nshapes: [${own}]\n---\nAs it says.\n`,
					);
				}
				rmSync(join(dir, "content/weeks"), { recursive: true });
				mkdirSync(join(dir, "content/weeks"));
				for (let week = 1; week <= 40; week++) {
					writeFileSync(
						join(dir, `content/weeks/week-${week}.md`),
						`---\nweek: ${week}\ntheme: Theme ${week}\napparatus:\n  floor:\n    blocks:\n      - {drill: trains-${week % 12}, minutes: 10}\n      - {drill: trains-${(week + 6) % 12}, minutes: 110}\n---\n`,
					);
				}
			},
			{ volume: "director" },
		);
		expect(printed.problems).toEqual([]);
		const pages = pdf.pages.filter(
			({ label, text }) => label.startsWith("C ") && /Long shape name \d/.test(text),
		);
		expect(pages.length).toBeGreaterThan(3);
		const rows = new Map<string, number>();
		for (const page of pages) {
			const turned = page.lines.filter((line) => line.turned && line.x > 20 && line.x < page.width - 20);
			const words = turned.map(({ text }) => text.trim());
			for (let week = 1; week <= 40; week++) expect(words, page.label).toContain(String(week));
			for (const name of shapes) {
				if (letters(page.text).includes(letters(`${name} `)) && words.includes(name))
					rows.set(name, (rows.get(name) ?? 0) + 1);
			}
		}
		const tables = new Set(rows.values());
		expect(rows.size).toBe(60);
		expect(tables.size).toBe(1);
	});
});

describe("what does not fit as it is written", () => {
	it("is named with its file, and printed smaller or broken (H405)", async () => {
		const column = (i: number) => `Unbreakablecolumn${i}`;
		const { printed, pdf } = await print("squeezed.pdf", (dir) => {
			const names = Array.from({ length: 12 }, (_, i) => column(i + 1));
			const rows = [names, names.map(() => "---"), names.map((_, i) => `value${i}`)];
			writeFileSync(
				join(dir, "content/guides/wide.md"),
				`---\ntitle: A wide table\n---\n${rows.map((row) => `| ${row.join(" | ")} |`).join("\n")}\n`,
			);
			writeFileSync(
				join(dir, "content/guides/tall.md"),
				`---\ntitle: A tall row\n---\n| One | Two |\n| --- | --- |\n| ${Array.from({ length: 900 }, (_, i) => `word${i}`).join(" ")} | short |\n`,
			);
		});
		const told = printed.problems.map(
			({ code, place, what }) => `${code} ${place.file}:${place.line} ${what}`,
		);
		expect(told).toEqual([
			"H405 content/guides/tall.md:1 A row of a table is longer than a page, and goes on overleaf (page G 1).",
			"H405 content/guides/wide.md:1 A table is wider than the page, and was set smaller (page G 2).",
		]);
		const all = letters(pdf.pages.map(({ text }) => text).join(" "));
		for (let i = 1; i <= 12; i++) expect(all).toContain(letters(column(i)));
		for (const i of [0, 450, 899]) expect(all).toContain(`word${i}`);
	});
});
