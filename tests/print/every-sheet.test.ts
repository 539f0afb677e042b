/**
 * What every sheet of paper carries that hangs, lies or is filed by itself: the code of a page that the site
 * has, the edition with its date, and where in the hall it belongs.
 */

import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { illegible } from "../../scripts/print/legible.ts";
import { readStretch } from "../../scripts/print/read-back.ts";
import { printSheets } from "../../scripts/print/sheets.ts";
import { SHEET_KINDS, type SheetKind } from "../../scripts/views/sheets/sheet.ts";
import { singleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { REPOSITORY } from "../open-fixture.ts";
import { openPrinter } from "./open-printer.ts";
import { readPdf } from "./read-pdf.ts";

const browser = await openPrinter();
const folder = mkdtempSync(join(tmpdir(), "every-sheet-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const { handbook } = openHandbook(REPOSITORY);
if (handbook === undefined) throw new Error("The demo opens.");
const { curriculum } = handbook;
/** The one that needs most. */
const week = curriculum.weeks.at(-1) ?? { id: "" };
const pages = new Set(sitePages(handbook).map(({ address }) => address));
const SITE = new URL("./", curriculum.club.site ?? "").href;

/** What is cut or taken apart has a code of its own; of the others the first side has it. */
const APART: Partial<Record<SheetKind, RegExp>> = {
	"station-cards": /<article class="box">/g,
	labels: /<div class="box">/g,
	"check-sheets": /<table class="checks">/g,
	dividers: /<section class="side">/g,
};

const names = (things: ReadonlyMap<string, { readonly name: string }>) =>
	[...things.values()].map(({ name }) => name);

/** Words for a place in the hall; the whole term, and what stands behind a tab, have none. */
const PLACES: Partial<Record<SheetKind, readonly string[]>> = {
	"class-sheets": names(curriculum.apparatus),
	pocket: names(curriculum.apparatus),
	"week-packet": names(curriculum.apparatus),
	"station-cards": names(curriculum.apparatus),
	"floor-plans": names(curriculum.apparatus),
	labels: names(curriculum.apparatus),
	"check-sheets": names(curriculum.apparatus),
	"store-room": [...curriculum.equipment.values()].flatMap(({ stored }) => stored ?? []),
};

it.each(SHEET_KINDS)("%s have the code of their page, and say where in the hall they belong", (kind) => {
	const files = drawSheets(singleSheets(handbook, { kinds: [kind], week: week.id }));
	expect(files.length).toBeGreaterThan(0);
	for (const { path, pieces } of files) {
		for (const { title, html } of pieces) {
			const wanted = APART[kind] === undefined ? 1 : [...html.text.matchAll(APART[kind])].length;
			const codes = Array.from(
				html.text.matchAll(/<a class="code" href="([^"]*)"/g),
				([, href = ""]) => href,
			);
			expect(codes.length, `${path}, ${title}`).toBe(wanted);
			for (const href of codes) {
				expect(href.startsWith(SITE), href).toBe(true);
				expect(pages.has(href.slice(SITE.length)), href).toBe(true);
			}
			const places = PLACES[kind];
			if (places === undefined) continue;
			expect(
				places.some((place) => html.text.includes(place)),
				`${path}, ${title}`,
			).toBe(true);
		}
	}
});

it("says its edition and date on every side, and on every card and label", { timeout: 300_000 }, async () => {
	const edition = { id: "7-0", words: "Edition 7, 30 November 2026" };
	const choice = { week: week.id, apparatus: "beam", class: "mon-beginners", level: "beginners" };
	const kinds = SHEET_KINDS.filter((kind) => kind !== "week-packet" && kind !== "pocket");
	const files = drawSheets(singleSheets(handbook, { ...choice, kinds }));
	const printed = await printSheets(files, { outDir: folder, club: curriculum.club, edition, browser });
	expect(printed.problems).toEqual([]);
	expect(new Set(files.map(({ kind }) => kind))).toEqual(new Set(kinds));
	for (const { kind, path, pieces } of files) {
		const pdf = readFileSync(join(folder, path));
		const { pages: sides } = await readPdf(pdf);
		// It is laid over a sheet that was checked without it.
		const { pages: read } = await readStretch({ pdf, part: 0, parts: 1, extremes: [] });
		for (const { words } of read) expect(illegible(words).over, path).toEqual([]);
		const said = sides.map(({ text }) => text.split(edition.words).length - 1);
		expect(Math.min(...said), path).toBeGreaterThan(0);
		const apart = APART[kind];
		if (apart === undefined) continue;
		const cut = pieces.reduce((sum, { html }) => sum + [...html.text.matchAll(apart)].length, 0);
		expect(
			said.reduce((sum, one) => sum + one, 0),
			path,
		).toBeGreaterThanOrEqual(cut);
	}
});
