/** The checks of a finished binder, each shown something it must find. */

import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import { paperOf } from "../../layouts/sheets/paper.ts";
import type { Sheets } from "../../layouts/sheets/section.ts";
import { makeFolder } from "../../scripts/files/folder.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { PdfFile } from "../../scripts/pdf/pdf-file.ts";
import { FIRST_OFFSET, fileOf, type Piece } from "../../scripts/pdf/pdf-piece.ts";
import { entriesOf, referred } from "../../scripts/pdf/pdf-text.ts";
import { type Assembled, assemble } from "../../scripts/print/assemble.ts";
import { type BrowserPages, type PageScripts, readPageScripts } from "../../scripts/print/browser-pages.ts";
import { type Joined, joinSegments } from "../../scripts/print/join.ts";
import { layOut } from "../../scripts/print/layout.ts";
import { type PrintSetting, printSegments } from "../../scripts/print/print-segments.ts";
import { printStyles } from "../../scripts/print/print-styles.ts";
import { readJoined } from "../../scripts/print/read-segments.ts";
import { openCache } from "../../scripts/print/sheet-cache.ts";
import { verifyBinder } from "../../scripts/print/verify.ts";
import { raw } from "../../scripts/views/html.ts";
import { binderView } from "../../scripts/views/sheets/binder.ts";
import { FIXTURES } from "../open-fixture.ts";
import { openPrinter, threads } from "./open-printer.ts";

const NO_EDITIONS = { words: [], pdf: new Uint8Array() };
const PLACE = { file: "_data/club.yaml", line: 1, column: 1 };

describe("reading back", () => {
	let handbook: Handbook;
	let pages: BrowserPages;
	let scripts: PageScripts;
	let sheets: Sheets;
	let sound: Assembled;
	let common: PrintSetting;
	const folder = mkdtempSync(join(tmpdir(), "verify-"));
	/** Of the problems that were found last. */
	let places: readonly string[] = [];
	const paper = paperOf({ paper: "A4", punch: "four-hole" });

	beforeAll(async () => {
		const opened = openHandbook(join(FIXTURES, "base-club")).handbook;
		if (opened === undefined) throw new Error("no club");
		handbook = opened;
		pages = await openPrinter();
		scripts = await readPageScripts();
		sheets = binderSheets(binderView(handbook));
		common = {
			pages,
			scripts,
			styles: printStyles(paper, sheets.slots),
			language: "en",
			title: sheets.title,
			paper,
			cache: openCache(makeFolder(join(folder, "cache"))),
			workers: 1,
			onDone: () => undefined,
			signal: undefined,
		};
		const jobs = sheets.sections.flatMap(({ parts, title }) =>
			parts.map(({ html }) => ({ title, html: html.text, place: PLACE })),
		);
		const area = { width: paper.areaWidth, height: paper.areaHeight };
		const laidOut = await layOut(jobs, {
			...common,
			area,
			continued: sheets.continued,
			onDone: () => undefined,
		});
		let next = 0;
		sound = assemble(
			sheets,
			sheets.sections.map(({ parts }) => parts.map(() => laidOut.pages[next++] ?? [])),
		);
		// From here on the cache says of every section and page that it was found sound.
		expect(await problemsOf((leaf) => leaf)).toEqual([]);
	});
	afterAll(() => rmSync(folder, { recursive: true, force: true }));

	/** Prints with one leaf's markup changed, and verifies against what was meant. */
	async function problemsOf(
		change: (leaf: string) => string,
		meant: {
			readonly assembled?: Assembled;
			readonly handbook?: Handbook;
			readonly sheets?: Sheets;
			/** What the file is made of besides the pages. */
			readonly joined?: Assembled;
		} = {},
	): Promise<readonly string[]> {
		let changed = 0;
		const leaves = sound.leaves.map((leaf) => {
			const html = change(leaf.html);
			if (html !== leaf.html) changed++;
			return { ...leaf, html };
		});
		const segments = await printSegments({ ...sound, leaves }, common);
		const joined = await joinSegments(segments, meant.joined ?? sound, sheets, paper);
		const { problems } = await verifyBinder({
			read: readJoined(
				{ ...joined, leaves: sound.leaves, issues: NO_EDITIONS, paper },
				common.cache,
				threads,
			),
			sheets: meant.sheets ?? sheets,
			assembled: meant.assembled ?? sound,
			segments,
			editions: NO_EDITIONS.words,
			paper,
			handbook: meant.handbook ?? handbook,
			elsewhere: PLACE,
			cache: common.cache,
		});
		expect(changed > 0 || Object.keys(meant).length > 0 || problems.length === 0).toBe(true);
		places = problems.map(({ place }) => `${place.file}:${place.line}`);
		return problems.map(({ code, what }) => `${code} ${what}`);
	}

	it("finds nothing in a sound binder", async () => {
		expect(await problemsOf((leaf) => leaf)).toEqual([]);
	});

	it("finds nothing in it again, by what was found before", async () => {
		const kept = readdirSync(join(folder, "cache")).length;
		expect(await problemsOf((leaf) => leaf)).toEqual([]);
		expect(readdirSync(join(folder, "cache")).length).toBe(kept);
	});

	it("finds a wrong number in the reader's list of pages, and a wrong line in the outline", async () => {
		const leaves = sound.leaves.map((leaf) => (leaf.label === "S 1" ? { ...leaf, number: 7 } : leaf));
		const numbers = await problemsOf((leaf) => leaf, { joined: { ...sound, leaves } });
		expect(numbers).toContain("H404 A reader shows S 7 for S 1 (page S 1).");
		const targets = new Map(sound.targets);
		const tuck = targets.get("shape-tuck");
		if (tuck === undefined) throw new Error("the fixture has this shape");
		targets.set("shape-tuck", { ...tuck, title: "Tack" });
		const lines = await problemsOf((leaf) => leaf, { joined: { ...sound, targets } });
		expect(lines).toEqual(['H404 The outline does not lead to "Tuck" where it should (page S 1).']);
	});

	it("finds a printed number that is not the target's", async () => {
		const wrong = await problemsOf((leaf) => leaf.replace(/(data-to="drill-rock">D · Floor )\d/, "$19"));
		expect(wrong.some((what) => /^H404 .*drill-rock/.test(what))).toBe(true);
	});

	it("finds a number of another page", async () => {
		const wrong = await problemsOf((leaf) => leaf.replace(/(data-to="shape-tuck">)[^<]+/, "$1K 1"));
		expect(wrong.some((what) => what.startsWith('H404 "Tuck" is said to be on K 1, and is on S 1'))).toBe(
			true,
		);
	});

	it("finds a page without its number", async () => {
		const wrong = await problemsOf((leaf) =>
			leaf.replace('<span class="folio">S 1</span>', '<span class="folio"></span>'),
		);
		expect(wrong.some((what) => /^H404 The page's number S 1 is not at its foot/.test(what))).toBe(true);
	});

	it("finds words in the punched margin", async () => {
		const wrong = await problemsOf((leaf) =>
			leaf.replace('id="part-shapes">', 'id="part-shapes"><i style="position:absolute;left:-70px">Oh</i>'),
		);
		expect(wrong.some((what) => what.startsWith('H403 "Oh" stands in the punched margin'))).toBe(true);
	});

	it("finds a drawing in the punched margin", async () => {
		const wrong = await problemsOf((leaf) =>
			leaf.replace(
				'<div class="leaf-foot"',
				'<svg style="position:absolute;left:20px;top:300px" width="40" height="40"><path d="M0 0H40V40H0Z"/></svg><div class="leaf-foot"',
			),
		);
		expect(
			wrong.some((what) => what.startsWith("H409 A drawing or a line reaches into the punched margin")),
		).toBe(true);
	});

	it("finds what runs out of its text area, cut off or not", async () => {
		const wrong = await problemsOf((leaf) =>
			leaf.replace(/(<h1 id="part-skills")/, '$1 style="width:2000px"'),
		);
		expect(wrong.some((what) => what.startsWith('H403 "Skills" stands outside the text area'))).toBe(true);
	});

	it("finds words that were laid out and did not get onto paper", async () => {
		const wrong = await problemsOf((leaf) => leaf.replace("<p>Down the slope.</p>", ""));
		expect(wrong.some((what) => what.startsWith("H403 Letters that were laid out are not on paper"))).toBe(
			true,
		);
	});

	it("finds a drill's words that no sheet prints", async () => {
		const rock = handbook.curriculum.drills.get("rock");
		if (rock === undefined) throw new Error("the fixture has a drill called rock");
		const drills = new Map(handbook.curriculum.drills).set("rock", {
			...rock,
			caution: "Never on a full stomach",
		});
		const wrong = await problemsOf((leaf) => leaf, {
			handbook: { ...handbook, curriculum: { ...handbook.curriculum, drills } },
		});
		expect(wrong).toEqual([
			'H411 The card of "Rock on the back" lacks the words "Caution. Never on a full stomach" (page D · Floor 1).',
		]);
	});

	it("finds words that stand on paper twice", async () => {
		const wrong = await problemsOf((leaf) =>
			leaf.replace("<p>Down the slope.</p>", "<p>Down the slope.</p><p>Down the slope.</p>"),
		);
		expect(wrong.some((what) => what.startsWith("H403 Letters are on paper that were not laid out"))).toBe(
			true,
		);
	});

	it("finds a cue that stands on its card twice, or elsewhere than with the cues", async () => {
		const rock = handbook.curriculum.drills.get("rock");
		const cue = rock?.cues[0];
		if (cue === undefined) throw new Error("the fixture's drill has a cue");
		const told = (change: (markup: string) => string) =>
			problemsOf((leaf) => leaf, {
				sheets: {
					...sheets,
					sections: sheets.sections.map((section) => ({
						...section,
						parts: section.parts.map((part) => ({ ...part, html: raw(change(part.html.text)) })),
					})),
				},
			});
		const onCard = (change: (card: string) => string) => (markup: string) =>
			markup.replace(/<article class="card [\s\S]*?id="drill-rock"[\s\S]*?<\/article>/, change);
		const twice = await told(
			onCard((card) => card.replace(`<li>${cue}</li>`, `<li>${cue}</li><li>${cue}</li>`)),
		);
		expect(twice).toContain(
			`H403 The card of "Rock on the back" has the words "${cue}" 2 times instead of 1 (page D · Floor 1).`,
		);
		const elsewhere = await told(onCard((card) => card.replace(`<li>${cue}</li>`, `<li></li><p>${cue}</p>`)));
		expect(elsewhere).toContain(
			`H403 The card of "Rock on the back" lacks the words "${cue}" (page D · Floor 1).`,
		);
	});

	it("finds a page that is empty and no intended back", async () => {
		const at = sound.leaves.findIndex(({ blank, label }) => !blank && label === "S 1");
		const leaves = sound.leaves.map((leaf, i) => (i === at ? { ...leaf, text: "<p></p>" } : leaf));
		const wrong = await problemsOf(
			(leaf) =>
				leaf.includes('<span class="folio">S 1</span>')
					? leaf.replace(/(<div class="leaf-text">)[\s\S]*(<div class="leaf-foot")/, "$1</div>$2")
					: leaf,
			{ assembled: { ...sound, leaves } },
		);
		expect(wrong).toContain("H403 A page is empty (page S 1).");
	});

	it("finds a line that is cut at the foot of its page", async () => {
		const wrong = await problemsOf((leaf) =>
			leaf.replace(
				"<p>Down the slope.</p>",
				'<p style="position:absolute;top:calc(100% - 6px)">Down the slope.</p>',
			),
		);
		expect(wrong.some((what) => what.startsWith('H403 "Down the slope." stands outside the text area'))).toBe(
			true,
		);
	});

	it("finds letters that run over the edge of their cell, and names the file", async () => {
		const wrong = await problemsOf((leaf) =>
			leaf.replace(
				/(<table class="levels"><tbody><tr><th scope="row")/,
				'$1 style="white-space:nowrap;letter-spacing:60px"',
			),
		);
		expect(wrong.some((what) => /^H403 ".*" runs over the edge of its cell/.test(what))).toBe(true);
		expect(places.some((place) => /^content\/(drills|weeks)\/.*:1$/.test(place))).toBe(true);
	});

	it("finds a link that leads nowhere", async () => {
		const wrong = await problemsOf((leaf) =>
			leaf.replace("binder.invalid/#shape-tuck", "binder.invalid/#shape-tack"),
		);
		expect(wrong.some((what) => what.startsWith("H404 A link to shape-tack leads nowhere"))).toBe(true);
	});

	describe("a file that was damaged", () => {
		let joined: Joined;
		beforeAll(async () => {
			joined = await joinSegments(await printSegments(sound, common), sound, sheets, paper);
		});

		const read = ({ pdf, placed }: Joined) =>
			readJoined({ pdf, placed, leaves: sound.leaves, issues: NO_EDITIONS, paper }, common.cache, threads);

		/** The file, written again with its third piece changed. */
		function rewritten(change: (piece: Piece) => Piece): Joined {
			const whole = new PdfFile(joined.pdf);
			const numbers = whole.numbers();
			const free = numbers.at(-1) ?? 0;
			const pieces: Piece[] = joined.placed.map(({ bytes, places }) => ({ bytes, places }));
			const end = FIRST_OFFSET + pieces.reduce((sum, { bytes }) => sum + bytes.length, 0);
			const inPieces = new Set(pieces.flatMap(({ places }) => [...places].filter((_, i) => i % 4 === 0)));
			const rest = numbers.filter((number) => !inPieces.has(number) && number !== free);
			const places = rest.flatMap((number) => {
				const place = whole.place(number);
				if (place === undefined) return [];
				return "container" in place
					? [number, 2, place.container, place.position]
					: [number, 1, place.offset - end, 0];
			});
			const start = Buffer.from(joined.pdf).lastIndexOf(`${free} 0 obj`);
			const common = { bytes: joined.pdf.subarray(end, start), places: Uint32Array.from(places) };
			const changed = pieces.map((piece, i) => (i === 2 ? change(piece) : piece));
			const Root = whole.trailer.get("Root") ?? "";
			const pdf = fileOf([...changed, common], { Root }, free);
			return { pdf, placed: joined.placed };
		}

		it("is read where nothing was changed", async () => {
			expect((await read(rewritten((piece) => piece))).pages.length).toBe(sound.leaves.length);
		});

		it("is refused with a byte taken out of it", async () => {
			for (const share of [0.2, 0.5, 0.9]) {
				const at = Math.floor(joined.pdf.length * share);
				const pdf = Buffer.concat([joined.pdf.subarray(0, at), joined.pdf.subarray(at + 1)]);
				await expect(read({ ...joined, pdf }), String(share)).rejects.toThrow();
			}
		});

		it("is refused where an object is said to be a byte further on", async () => {
			const shifted = rewritten(({ bytes, places }) => {
				const changed = Uint32Array.from(places);
				const at = changed.findIndex((kind, i) => i % 4 === 1 && kind === 1);
				changed[at + 1] = (changed[at + 1] ?? 0) + 1;
				return { bytes, places: changed };
			});
			await expect(read(shifted)).rejects.toThrow(/is not at its place/);
		});

		it("is refused where two packed objects are said to stand in each other's place", async () => {
			const swapped = rewritten(({ bytes, places }) => {
				const changed = Uint32Array.from(places);
				const [a = 0, b = 0] = [...changed.keys()].filter((i) => i % 4 === 1 && changed[i] === 2);
				[changed[a + 2], changed[b + 2]] = [changed[b + 2] ?? 0, changed[a + 2] ?? 0];
				return { bytes, places: changed };
			});
			await expect(read(swapped)).rejects.toThrow(/is not at its place/);
		});

		it("is refused where a page's commands cannot be unpacked", async () => {
			const pdf = Buffer.from(joined.pdf);
			const { pages } = new PdfFile(pdf).pages();
			const contents = referred(entriesOf(new PdfFile(pdf).object(pages[8] ?? 0).text).get("Contents"));
			const place = new PdfFile(pdf).place(contents ?? 0);
			if (place === undefined || "container" in place) throw new Error("commands are a stream");
			const at = pdf.indexOf("stream\n", place.offset) + 30;
			pdf[at] = (pdf[at] ?? 0) ^ 0xff;
			await expect(read({ ...joined, pdf })).rejects.toThrow();
		});

		it("is refused where its pieces hang in another order", async () => {
			const [first, second, ...others] = joined.placed;
			if (first === undefined || second === undefined) throw new Error("there are many");
			const order = [{ ...first, node: second.node }, { ...second, node: first.node }, ...others];
			const { pdf } = await joinSegments(
				await printSegments(sound, common),
				sound,
				sheets,
				paper,
				{},
				async (segment) => order[segmentsBefore(segment.first)] ?? first,
			);
			await expect(read({ ...joined, pdf })).rejects.toThrow(/not in the order/);
		});

		/** How many segments start before a leaf. */
		function segmentsBefore(leaf: number): number {
			let leaves = 0;
			return joined.placed.findIndex(({ pages }) => {
				leaves += pages.length;
				return leaves > leaf;
			});
		}
	});
});
