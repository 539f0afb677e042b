/**
 * The pocket edition, read as a coach reads it: what does the coach of Tuesday Level 2 do at 17:20 in week 5?
 * The answer is worked out here from the demo's own files, by hand.
 */

import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { openFolder } from "../../scripts/files/folder.ts";
import { type Handbook, openHandbook } from "../../scripts/handbook.ts";
import { printSheets } from "../../scripts/print/sheets.ts";
import { singleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { REPOSITORY } from "../open-fixture.ts";
import { openPrinter } from "./open-printer.ts";
import { letters, type PrintedPdf, readPdf } from "./read-pdf.ts";

const browser = await openPrinter();
const folder = mkdtempSync(join(tmpdir(), "pocket-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let handbook: Handbook;
beforeAll(() => {
	const opened = openHandbook(REPOSITORY);
	if (opened.handbook === undefined) throw new Error(JSON.stringify(opened.problems));
	handbook = opened.handbook;
});

async function print(look: Partial<Parameters<typeof printSheets>[1]>): Promise<PrintedPdf> {
	const files = drawSheets(
		singleSheets(handbook, { kinds: ["pocket"], classes: ["tue-level-2"], week: "week-05" }),
	);
	const printed = await printSheets(files, {
		outDir: folder,
		club: handbook.curriculum.club,
		browser,
		...look,
	});
	expect(printed.problems.map(({ what }) => what)).toEqual([]);
	expect(printed.files).toEqual(["print/pocket/tue-level-2.pdf"]);
	return readPdf(readFileSync(openFolder(folder).place("print/pocket/tue-level-2.pdf")));
}

/**
 * `_data/term.yaml`: from 17:00, 3 min to gather, then warm-up, vault, bars, floor, beam, with 1.5 min between.
 * `content/weeks/week-05.md`: 9 min of warm-up for Level 2, so vault begins at 17:13:30 and lasts 21 min.
 */
const VAULT = ["17:14", "17:35"] as const;
const STATIONS = [
	"Handstand fall to flat back",
	"Straddle on from the board",
	"Plank shrug and pop",
	"Plank hop to straddle stand",
] as const;

it("says at 17:20 where the class is, who stands where, and what each station does and says", async () => {
	const pdf = await print({ edition: { id: "7-0", words: "Edition 7, 30 November 2026" } });
	expect(pdf.pages.length).toBeLessThanOrEqual(6);
	const side = pdf.pages.find(
		({ text }) => text.includes(`${VAULT[0]} Vault`) && text.includes(`–${VAULT[1]}`),
	);
	if (side === undefined) throw new Error("no side begins with vault");
	// The area, its clock and who stands where are at the head of the side.
	const head = side.lines.filter(({ y }) => y > side.height * 0.8).map(({ text }) => text);
	expect(letters(head.join(" "))).toContain(letters(`${VAULT[0]} Vault`));
	expect(letters(head.join(" "))).toContain(letters("Coach 1"));
	const text = letters(side.text);
	for (const name of STATIONS) expect(text, name).toContain(letters(name));
	// Cues and safety are found in the club's own records.
	for (const name of STATIONS) {
		const drill = [...handbook.curriculum.drills.values()].find(({ title }) => title === name);
		if (drill === undefined) throw new Error(`no drill ${name}`);
		for (const cue of drill.cues) expect(text, cue).toContain(letters(cue));
		expect(text, name).toContain(letters(drill.caution ?? ""));
	}
	for (const page of pdf.pages) expect(page.text).toContain("Edition 7, 30 November 2026");
	// A code leads to the same page on the site.
	expect(pdf.pages[0]?.links.map(({ url }) => url)).toContain(
		"https://handbook.quillmere.example/classes/tue-level-2/week-05/",
	);
});

it("has two sides of A5 on a page of A4 that lies, by ISO 216", async () => {
	const { pages } = await print({ paper: "A5", twoUp: true });
	const MM = 72 / 25.4;
	for (const { width, height } of pages) {
		expect(width).toBeCloseTo(296 * MM, 0);
		expect(height).toBeCloseTo(210 * MM, 0);
	}
	const all = letters(pages.map(({ text }) => text).join(" "));
	for (const name of STATIONS) expect(all).toContain(letters(name));
});
