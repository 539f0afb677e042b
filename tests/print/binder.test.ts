/** The binder of a small club, printed by a real browser and read back. */

import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
	PDFArray,
	PDFDict,
	PDFDocument,
	PDFName,
	PDFNumber,
	type PDFObject,
	PDFRawStream,
	PDFString,
} from "pdf-lib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { type Folder, makeFolder } from "../../scripts/files/folder.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { paintedExtremes } from "../../scripts/pdf/painted.ts";
import { type PrintedBinder, printBinder } from "../../scripts/print/binder.ts";
import { printSheets } from "../../scripts/print/sheets.ts";
import { singleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { clubCopy, FIXTURES } from "../open-fixture.ts";
import { openPrinter, threads } from "./open-printer.ts";
import { readMarks } from "./read-marks.ts";
import { letters, type PrintedPage, type PrintedPdf, readPdf } from "./read-pdf.ts";
import { shorten } from "./short-club.ts";

const MM = 72 / 25.4;

const browser = await openPrinter();
const folder = mkdtempSync(join(tmpdir(), "binder-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function openClub(change: (dir: string) => void = () => undefined): Handbook {
	const dir = clubCopy(join(FIXTURES, "clubs", "printed-binder"));
	change(dir);
	const { handbook, problems } = openHandbook(dir);
	if (handbook === undefined) throw new Error(JSON.stringify(problems.map(({ what }) => what)));
	return handbook;
}

const print = (handbook: Handbook, name: string, cacheDir: Folder | false = false) =>
	printBinder(handbook, { outFile: join(folder, name), cacheDir, browser, threads });

describe("the binder", () => {
	let handbook: Handbook;
	let printed: PrintedBinder;
	let pdf: PrintedPdf;
	let bytes: Buffer;

	beforeAll(async () => {
		// The copy is opened, and its text is in memory, before the folder goes.
		handbook = await openInHook();
		printed = await print(handbook, "binder.pdf", makeFolder(join(folder, "cache")));
		bytes = readFileSync(join(folder, "binder.pdf"));
		pdf = await readPdf(bytes);
	});

	const pageOf = (id: string): PrintedPage => {
		const page = pdf.pages[pdf.destinations.get(id) ?? -1];
		if (page === undefined) throw new Error(`${id} has no page`);
		return page;
	};

	it("has no problems, and tells its pages and sections", () => {
		expect(printed.problems).toEqual([]);
		expect(printed.pages).toBe(pdf.pages.length);
		// Cover, contents, guides, two weeks, two apparatus, shapes, skills, coverage, equipment, index.
		expect(printed.sections).toBe(12);
	});

	it("has its marks where pdfjs-dist finds them too", async () => {
		const found = paintedExtremes(bytes);
		const theirs = await readMarks(bytes);
		expect(found.length).toBe(pdf.pages.length);
		found.forEach((page, position) => {
			const there = theirs[position];
			expect(page === undefined, `marks on page ${position + 1}`).toBe(there === undefined);
			if (page === undefined || there === undefined) return;
			for (const edge of ["left", "bottom", "right", "top"] as const) {
				expect(page[edge], `${edge} of page ${position + 1}`).toBeCloseTo(there[edge], 2);
			}
		});
		expect(found.filter((page) => page !== undefined).length).toBeGreaterThan(30);
	});

	it("is on A4 as ISO 216 has it", () => {
		for (const { width, height } of pdf.pages) {
			expect(width).toBeCloseTo(210 * MM, 2);
			expect(height).toBeCloseTo(297 * MM, 2);
		}
	});

	it("carries on every page the number that its label says, or nothing on a blank back", () => {
		for (const page of pdf.pages) {
			if (page.label.startsWith("Cover")) continue;
			const foot = page.lines.filter(({ y }) => y < 18 * MM).map(({ text }) => text);
			if (page.text.includes("This side is left blank")) {
				expect(foot.join(" ")).not.toContain(page.label);
				continue;
			}
			expect(foot.join(" ").replace(/\s+/g, " ")).toContain(page.label);
		}
	});

	it("starts what is replaced on its own on a right-hand page, after whole leaves", () => {
		const firsts = pdf.pages.flatMap(({ label }, i) => (label.endsWith(" 1") ? [i] : []));
		// Cover, contents, guides, two weeks, two apparatus, shapes, skills, coverage, equipment, index.
		expect(firsts.length).toBe(12);
		for (const position of firsts) expect(position % 2, pdf.pages[position]?.label).toBe(0);
		expect(pdf.pages.length % 2).toBe(0);
		expect(pdf.pages.some(({ text }) => text.includes("This side is left blank"))).toBe(true);
	});

	it("keeps the punched edge and the unprintable edges free, on facing pages", () => {
		pdf.pages.forEach(({ lines, label, width, height }, position) => {
			const right = position % 2 === 0;
			for (const { text, x, y, width: length, turned } of lines) {
				const end = turned ? x : x + length;
				// ISO 838: holes reach 15 mm in.
				expect(x, `${label}: ${text}`).toBeGreaterThan((right ? 15 : 5) * MM);
				expect(end, `${label}: ${text}`).toBeLessThan(width - (right ? 5 : 15) * MM);
				expect(y, `${label}: ${text}`).toBeGreaterThan(5 * MM);
				expect(y, `${label}: ${text}`).toBeLessThan(height - 5 * MM);
			}
		});
	});

	it("puts the number of the real page behind every entry of the contents", () => {
		const contents = pdf.pages.filter(({ label }) => label.startsWith("Contents"));
		const words = contents.map(({ text }) => text).join(" ");
		for (const [id, title] of [
			["part-guides", "Guides and levels"],
			["guide-long-table", "A table over several pages"],
			["week-week-1", "Week 1: Round shapes"],
			["week-apparatus-week-2-floor", "Floor"],
			["reach-skill", "Skills by class"],
			["apparatus-floor", "Floor drills"],
			["part-shapes", "Shapes"],
			["part-skills", "Skills"],
			["part-coverage", "Coverage"],
			["part-equipment", "Equipment"],
			["part-index", "Index"],
		] as const) {
			const { label } = pageOf(id);
			expect(letters(words), title).toContain(letters(`${title} ${label}`));
		}
	});

	it("puts things where the outline and their links say", () => {
		for (const drill of handbook.curriculum.drills.values()) {
			expect(letters(pageOf(`drill-${drill.id}`).text)).toContain(letters(drill.title));
		}
		for (const skill of handbook.curriculum.skills.values()) {
			expect(pageOf(`skill-${skill.id}`).text).toContain(skill.name);
		}
	});

	it("resolves every link, and prints the target's number in every numbered one", () => {
		let numbered = 0;
		const labels = new Set(pdf.pages.map(({ label }) => label));
		for (const page of pdf.pages) {
			for (const { dest, url, rect } of page.links) {
				expect(url ?? "").not.toContain("binder.invalid");
				if (dest === undefined) continue;
				const target = pdf.destinations.get(dest);
				expect(target, dest).toBeDefined();
				const [left = 0, bottom = 0, right = 0, top = 0] = rect;
				const words = page.lines
					.filter(
						({ x, y, width }) => x + width / 2 > left && x + width / 2 < right && y > bottom - 1 && y < top,
					)
					.map(({ text }) => text)
					.join("")
					.trim();
				if (!labels.has(words)) continue;
				numbered++;
				expect(words).toBe(pdf.pages[target ?? -1]?.label);
			}
		}
		expect(numbered).toBeGreaterThan(200);
	});

	it("has every word of a card, and shows marks as they were written", () => {
		const text = letters(pdf.pages.map((page) => page.text).join(" "));
		for (const words of [
			"Say loudly that 3 < 4 & go on to Rock on the back",
			"Élan, façade, naïve: 2 × 45°",
			"Only on the mat & never alone",
			"<b>Not bold.</b>",
		]) {
			expect(text).toContain(letters(words));
		}
		const card = pageOf("drill-marked-words").text;
		expect(card).toContain('Rock & roll <quick> "quotes"');
		expect(card.replace(/\s+/g, "")).toContain("<b>Notbold.</b>");
	});

	it("breaks a card that is taller than a page, and loses nothing of it", () => {
		const start = pdf.destinations.get("drill-long-talk") ?? 0;
		const pages = pdf.pages.slice(start, start + 3).map(({ text }) => text);
		expect(pages[0]).toContain("Paragraph 1 goes");
		expect(pages[0]).not.toContain("Paragraph 40 goes");
		const all = letters(pages.join(" "));
		for (let i = 1; i <= 40; i++) expect(all).toContain(letters(`Paragraph ${i} goes on`));
		expect(all).toContain(letters("Stop when wrists tire."));
	});

	it("repeats the head of a table on every page it goes on to", () => {
		const guide = pdf.pages.filter(({ text }) => /what happens in row \d/.test(text));
		expect(guide.length).toBeGreaterThan(1);
		for (const { text } of guide) expect(text).toContain("Row meaning");
		const rows = guide.flatMap(({ text }) => text.match(/in row \d+/g) ?? []);
		expect(new Set(rows).size).toBe(80);
		expect(rows.length).toBe(80);
		const coverage = pdf.pages.filter(
			({ label, text }) => label.startsWith("C ") && /Practice step \d/.test(text),
		);
		expect(coverage.length).toBeGreaterThan(2);
		// What goes on says so, under its head.
		const goesOn = pdf.pages.filter(({ label, text }) => label.startsWith("C ") && /, continued/.test(text));
		expect(goesOn.length).toBeGreaterThan(1);
		for (const { text } of goesOn) expect(text).toMatch(/, continued (Shape|Skill) (1 2|Junior|[A-Z])/);
	});

	it("keeps a heading on the page of what follows it", () => {
		for (const page of pdf.pages) {
			const body = page.lines.filter(({ y, turned }) => !turned && y > 18 * MM && y < page.height - 20 * MM);
			const last = body.at(-1)?.text ?? "";
			expect(["Under a heading", "Say", "See and say", "Set up", "Skills this week"]).not.toContain(last);
		}
	});

	it("has an outline, a title, a language, tags and the edition's own date", () => {
		expect(pdf.title).toBe("Marrowby & <Friends> Gym Club: Spring term");
		expect(pdf.language).toBe("en");
		// The day on which the edition is issued.
		expect(pdf.created).toBe("D:20270104");
		const titles = pdf.outline.map(({ title }) => title);
		expect(titles).toEqual([
			"Coaching binder",
			"Contents",
			"Guides and levels",
			"Week 1: Round shapes",
			"Week 2: Rolling & rocking",
			"Floor drills",
			"Beam drills",
			"Shapes",
			"Skills",
			"Coverage",
			"Equipment",
			"Index",
		]);
		expect(pdf.outline[3]?.kids).toEqual(["Floor", "Beam"]);
		for (const { dest } of pdf.outline) expect(pdf.destinations.has(String(dest))).toBe(true);
		const roles = new Set(pdf.pages.flatMap((page) => page.roles));
		for (const role of ["H1", "H2", "P", "Table", "TH", "L", "LI", "Figure", "Link"])
			expect(roles).toContain(role);
	});

	/** ISO 14289-1 (PDF/UA-1), 5 and 7.1 to 7.18, as far as they can be seen in the tags. */
	it("says that it keeps to PDF/UA, and has the tags for it", async () => {
		const document = await PDFDocument.load(bytes, { updateMetadata: false });
		const { context, catalog } = document;
		const metadata = context.lookup(catalog.get(PDFName.of("Metadata")));
		if (!(metadata instanceof PDFRawStream)) throw new Error("there is no metadata");
		const xmp = Buffer.from(metadata.contents).toString("utf8");
		expect(xmp).toContain("<pdfuaid:part>1</pdfuaid:part>");
		expect(xmp).toContain("Marrowby &amp; &lt;Friends&gt; Gym Club: Spring term</rdf:li>");
		const typeOf = (value: PDFObject | undefined) => {
			const tag = context.lookup(value);
			return tag instanceof PDFDict ? String(tag.get(PDFName.of("S"))) : "";
		};
		const kidsOf = (tag: PDFDict) => {
			const kids = tag.lookup(PDFName.of("K"));
			return kids instanceof PDFArray ? kids.asArray() : [];
		};
		const root = catalog.lookup(PDFName.of("StructTreeRoot"), PDFDict);
		expect(kidsOf(root).map(typeOf)).toEqual(["/Document"]);
		const seen = new Map<string, number>();
		for (const [, tag] of context.enumerateIndirectObjects()) {
			if (!(tag instanceof PDFDict) || tag.get(PDFName.of("Type")) !== PDFName.of("StructElem")) continue;
			const type = typeOf(tag);
			seen.set(type, (seen.get(type) ?? 0) + 1);
			if (type === "/Figure") expect(tag.get(PDFName.of("Alt"))).toBeDefined();
			if (type === "/LI")
				expect(
					kidsOf(tag)
						.map(typeOf)
						.filter((kid) => kid !== "/Lbl"),
				).toEqual(["/LBody"]);
			if (type === "/Document" || type === "/Part" || type === "/L" || type === "/TR")
				for (const kid of kidsOf(tag)) expect(typeOf(kid), type).not.toBe("");
		}
		expect(seen.get("/Document")).toBe(1);
		expect(seen.get("/NonStruct") ?? 0).toBe(0);
		expect(seen.get("/LI")).toBeGreaterThan(100);
		for (const { node } of document.getPages()) {
			for (const link of node.Annots()?.asArray() ?? [])
				expect(context.lookup(link, PDFDict).get(PDFName.of("StructParent"))).toBeDefined();
		}
	});

	it.skipIf(spawnSync("qpdf", ["--version"]).error !== undefined)(
		"is sound to qpdf, where that is installed",
		() => {
			const { status, stdout, stderr } = spawnSync("qpdf", ["--check", join(folder, "binder.pdf")]);
			expect(`${stderr}`).toBe("");
			expect(`${stdout}`).toContain("No syntax or stream encoding errors found");
			expect(status).toBe(0);
		},
	);

	it("hangs every tag of every page and link in one tree", async () => {
		const document = await PDFDocument.load(bytes, { updateMetadata: false });
		const { context, catalog } = document;
		const root = catalog.lookup(PDFName.of("StructTreeRoot"), PDFDict);
		const kidsOf = (tree: PDFDict) => tree.lookup(PDFName.of("Kids"), PDFArray).asArray();
		const keys = new Map<number, PDFObject>();
		for (const node of kidsOf(root.lookup(PDFName.of("ParentTree"), PDFDict))) {
			const leaf = context.lookup(node, PDFDict);
			const [least, most] = leaf.lookup(PDFName.of("Limits"), PDFArray).asArray().map(Number);
			const pairs = leaf.lookup(PDFName.of("Nums"), PDFArray);
			for (let i = 0; i < pairs.size(); i += 2) {
				const key = pairs.lookup(i, PDFNumber).asNumber();
				expect(keys.has(key) || key < (least ?? 0) || key > (most ?? 0)).toBe(false);
				keys.set(key, pairs.get(i + 1));
			}
		}
		let found = 0;
		const has = (holder: PDFDict, name: string) => {
			const key = holder.get(PDFName.of(name));
			if (!(key instanceof PDFNumber)) return;
			found++;
			expect(context.lookup(keys.get(key.asNumber())), String(key)).toBeDefined();
		};
		// Turned words are drawn in forms.
		for (const [, object] of context.enumerateIndirectObjects()) {
			if (object instanceof PDFRawStream) has(object.dict, "StructParents");
		}
		for (const { node } of document.getPages()) {
			has(node, "StructParents");
			for (const link of node.Annots()?.asArray() ?? []) has(context.lookup(link, PDFDict), "StructParent");
		}
		expect(found).toBe(keys.size);
		expect(found).toBeGreaterThan(300);
		// Every element hangs below the root, and every named cell is found by its name.
		const reached = new Set<PDFDict>();
		const named = new Map<string, PDFDict>();
		const visit = (value: PDFObject | undefined, parent: PDFDict) => {
			const element = context.lookup(value);
			if (element instanceof PDFArray) for (const kid of element.asArray()) visit(kid, parent);
			if (!(element instanceof PDFDict) || element.get(PDFName.of("S")) === undefined) return;
			expect(context.lookup(element.get(PDFName.of("P")))).toBe(parent);
			reached.add(element);
			const id = element.get(PDFName.of("ID"));
			if (id instanceof PDFString) named.set(id.asString(), element);
			visit(element.get(PDFName.of("K")), element);
		};
		visit(root.get(PDFName.of("K")), root);
		const elements = context
			.enumerateIndirectObjects()
			.filter(
				([, object]) =>
					object instanceof PDFDict && object.get(PDFName.of("Type")) === PDFName.of("StructElem"),
			);
		expect(reached.size).toBe(elements.length);
		let names = 0;
		for (const node of kidsOf(root.lookup(PDFName.of("IDTree"), PDFDict))) {
			const pairs = context.lookup(node, PDFDict).lookup(PDFName.of("Names"), PDFArray);
			for (let i = 0; i < pairs.size(); i += 2, names++) {
				expect(named.get(pairs.lookup(i, PDFString).asString())).toBe(pairs.lookup(i + 1));
			}
		}
		expect(names).toBe(named.size);
		expect(names).toBeGreaterThan(20);
		for (const element of reached) {
			const attributes = element.lookup(PDFName.of("A"));
			for (const one of attributes instanceof PDFArray ? attributes.asArray() : []) {
				const heads = context.lookup(one, PDFDict).lookup(PDFName.of("Headers"));
				for (const head of heads instanceof PDFArray ? heads.asArray() : []) {
					if (head instanceof PDFString) expect(named.has(head.asString()), head.asString()).toBe(true);
				}
			}
		}
	});

	it("lists drills, shapes, skills and equipment by all their names in the index", () => {
		const index = letters(
			pdf.pages
				.filter(({ label }) => label.startsWith("X "))
				.map(({ text }) => text)
				.join(" "),
		);
		const line = (words: string, id: string) => letters(`${words} ${pageOf(id).label}`);
		expect(index).toContain(line("Dive roll", "skill-dive"));
		expect(index).toContain(line('Ærial rocking Rock & roll <quick> "quotes"', "drill-marked-words"));
		expect(index).toContain(line("Block", "equipment-block"));
		expect(index).toContain(line("Hollow", "shape-hollow"));
	});

	it("is the library and the director's volume in one: pages have the same numbers and words in all", async () => {
		const cacheDir = makeFolder(join(folder, "cache"));
		const inBinder = new Map(pdf.pages.map((page) => [page.label, page.text]));
		const labels: string[] = [];
		for (const volume of ["library", "director"] as const) {
			const outFile = join(folder, `${volume}.pdf`);
			const own = await printBinder(handbook, { outFile, cacheDir, volume, browser, threads });
			expect(own.problems).toEqual([]);
			const read = await readPdf(readFileSync(outFile));
			expect(read.pages.length).toBe(own.pages);
			for (const page of read.pages) {
				if (/^(Cover|Contents)/.test(page.label)) continue;
				expect(page.text, page.label).toBe(inBinder.get(page.label));
				labels.push(page.label);
				// What is in another volume is named by its number, and leads nowhere.
				for (const { dest } of page.links)
					if (dest !== undefined) expect(read.destinations.has(dest), dest).toBe(true);
			}
		}
		const rest = [...inBinder.keys()].filter((label) => !labels.includes(label));
		for (const label of rest) expect(label).toMatch(/^(Cover|Contents|W\d)/);
		expect(labels.filter((label) => label.startsWith("D · "))).not.toEqual([]);
		expect(labels.filter((label) => label.startsWith("C "))).not.toEqual([]);
	});

	it("counts the sides that have next to nothing on them", () => {
		// Recounted from where words stand: the text begins 16 mm from the top, and ends 14 mm from the bottom.
		const short = pdf.pages.filter(({ label, lines, height, text }) => {
			if (label.startsWith("Cover") || text.includes("This side is left blank")) return false;
			const body = lines.filter(({ y, turned }) => !turned && y > 14 * MM && y < height - 16 * MM);
			const lowest = Math.min(height, ...body.map(({ y }) => y));
			return (height - 16 * MM - lowest) / (height - 30 * MM) < 0.25;
		});
		expect(Math.abs(printed.short - short.length)).toBeLessThanOrEqual(1);
	});

	it("comes out the same byte for byte, from the cache and without it", async () => {
		await print(handbook, "cached.pdf", makeFolder(join(folder, "cache")));
		await print(handbook, "fresh.pdf");
		expect(readFileSync(join(folder, "cached.pdf")).equals(bytes)).toBe(true);
		expect(readFileSync(join(folder, "fresh.pdf")).equals(bytes)).toBe(true);
	});

	it("leaves the last binder where it was when a run is stopped, and no pieces beside it", async () => {
		const dir = mkdtempSync(join(folder, "stopped-"));
		const outFile = join(dir, "binder.pdf");
		writeFileSync(outFile, "the last good one");
		const stop = new AbortController();
		const run = printBinder(handbook, {
			outFile,
			cacheDir: false,
			signal: stop.signal,
			progress: (done) => done > 3 && stop.abort(),
		});
		await expect(run).rejects.toThrow(/abort/i);
		expect(readFileSync(outFile, "utf8")).toBe("the last good one");
		expect(readdirSync(dir)).toEqual(["binder.pdf"]);
	});

	it("withholds a page that lacks a safety text (H411), and prints every other", async () => {
		const dir = clubCopy();
		const file = join(dir, "content/drills/floor/rock.md");
		// Letters of a script that was encoded in 2024 (Unicode 16, Kirat Rai): fonts do not have it yet.
		const words = "\u{16D43}\u{16D44}\u{16D45}\u{16D46}";
		writeFileSync(
			file,
			readFileSync(file, "utf8")
				.replace(/^caution: .*$/m, "")
				.replace("\n---\n", `\ncaution: ${words}\n---\n`),
		);
		const opened = openHandbook(dir).handbook;
		if (opened === undefined) throw new Error("no club");
		const outFile = join(folder, "withheld.pdf");
		const result = await printBinder(
			{ ...opened, clubDir: dir },
			{ outFile, cacheDir: false, browser, threads },
		);
		const codes = new Set(result.problems.map(({ code }) => code));
		expect(codes).toContain("H411");
		expect(codes).toContain("H408");
		const { pages } = await readPdf(readFileSync(outFile));
		expect(pages.length).toBe(result.pages);
		const withheld = pages.filter(({ text }) => text.includes("This page is not printed"));
		expect(withheld.length).toBeGreaterThan(0);
		expect(withheld.every(({ label }) => label.startsWith("D · Floor"))).toBe(true);
		expect(pages.filter(({ text }) => text.trim() !== "").length).toBeGreaterThan(10);
	});

	it("reports H401 without a browser, and leaves the last binder", async () => {
		const outFile = join(folder, "kept.pdf");
		writeFileSync(outFile, "the last good one");
		const result = await printBinder(handbook, {
			outFile,
			cacheDir: false,
			browser: { environment: { PATH: "" }, packaged: false },
		});
		expect(result.pages).toBe(0);
		expect(result.problems.map(({ code }) => code)).toEqual(["H401"]);
		expect(readFileSync(outFile, "utf8")).toBe("the last good one");
	});

	it("reports H401 where the browser does not start", async () => {
		const outFile = join(folder, "never.pdf");
		const result = await printBinder(handbook, {
			outFile,
			cacheDir: false,
			browser: { environment: { HANDBOOK_BROWSER: process.execPath } },
		});
		expect(result.problems.map(({ code }) => code)).toEqual(["H401"]);
		expect(existsSync(outFile)).toBe(false);
	});
});

/** Opens the club outside of a test: the folder is not needed once it is read. */
async function openInHook(): Promise<Handbook> {
	const { cpSync, mkdirSync } = await import("node:fs");
	const dir = join(folder, "club");
	mkdirSync(dir);
	for (const part of [join(FIXTURES, "base-club"), join(FIXTURES, "clubs", "printed-binder")]) {
		for (const name of ["content", "_data"]) cpSync(join(part, name), join(dir, name), { recursive: true });
	}
	const { handbook, problems } = openHandbook(dir, { now: new Date("2027-01-04T12:00:00Z") });
	if (handbook === undefined) throw new Error(JSON.stringify(problems.map(({ what }) => what)));
	return handbook;
}

describe("other clubs", () => {
	it("prints on Letter for a three-hole punch", async () => {
		// The tabs of its leaves have room for names of any length.
		const name = "Cool-down, stretching and parents'-corner area beside the south-east entrance";
		const handbook = openClub((dir) => {
			shorten(dir);
			writeFileSync(join(dir, "_data/club.yaml"), "name: Marrowby\npaper: Letter\npunch: three-hole\n");
			writeFileSync(
				join(dir, "_data/apparatus.yaml"),
				`- {id: floor, name: "${name}"}\n- {id: beam, name: Schwebebalkengleichgewichtsübungsstation}\n`,
			);
		});
		const result = await print(handbook, "letter.pdf");
		expect(result.problems).toEqual([]);
		const { pages } = await readPdf(readFileSync(join(folder, "letter.pdf")));
		const tabs = pages.map(({ lines }) => lines.filter(({ turned }) => turned).map(({ text }) => text));
		expect(tabs.some((lines) => letters(lines.join("")).includes(letters(name)))).toBe(true);
		pages.forEach(({ width, height, lines }, position) => {
			expect([width, height]).toEqual([612, 792]);
			for (const { x, width: length, turned, text } of lines) {
				// Holes of 8 mm, half an inch in.
				if (position % 2 === 0) expect(x, text).toBeGreaterThan(16.7 * MM);
				else expect(turned ? x : x + length, text).toBeLessThan(612 - 16.7 * MM);
			}
		});
	});

	it("prints in French what it then finds on paper in French", async () => {
		const handbook = openClub((dir) => {
			shorten(dir);
			const file = join(dir, "_data/club.yaml");
			writeFileSync(file, `${readFileSync(file, "utf8")}language: fr\n`);
		});
		const result = await print(handbook, "french.pdf");
		expect(result.problems).toEqual([]);
		const { pages } = await readPdf(readFileSync(join(folder, "french.pdf")));
		const text = letters(pages.map((page) => page.text).join(" "));
		for (const words of ["Classeur d'entraînement", "Cette page est laissée blanche", "À mettre en place"]) {
			expect(text).toContain(letters(words));
		}
		expect(pages.map(({ label }) => label)).toContain("S1 1");
		const outDir = join(folder, "french");
		const sheets = await printSheets(drawSheets(singleSheets(handbook)), {
			outDir,
			club: handbook.curriculum.club,
			browser,
		});
		expect(sheets.problems).toEqual([]);
		expect(sheets.files.length).toBe(drawSheets(singleSheets(handbook)).length);
	});

	it("prints a club without weeks and without anything optional", async () => {
		const handbook = openClub((dir) => {
			shorten(dir);
			for (const part of ["content/weeks", "content/guides", "content/drills/floor/marked-words.md"]) {
				rmSync(join(dir, part), { recursive: true });
			}
		});
		const result = await print(handbook, "bare.pdf");
		expect(result.problems).toEqual([]);
		expect(result.pages).toBeGreaterThan(8);
	});
});
