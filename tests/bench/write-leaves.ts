/**
 * Writes a club's finished pages as one document, for the benchmark of printing.
 *
 *   node tests/bench/write-leaves.ts <club> <file>
 */

import { writeFileSync } from "node:fs";
import { binderSheets } from "../../layouts/sheets/binder.ts";
import { paperOf } from "../../layouts/sheets/paper.ts";
import { openHandbook } from "../../scripts/handbook.ts";
import { assemble } from "../../scripts/print/assemble.ts";
import { openBrowser, readPageScripts } from "../../scripts/print/browser-pages.ts";
import { findBrowser } from "../../scripts/print/find-browser.ts";
import { layOut } from "../../scripts/print/layout.ts";
import { printStyles } from "../../scripts/print/print-styles.ts";
import { openCache } from "../../scripts/print/sheet-cache.ts";
import { binderView } from "../../scripts/views/sheets/binder.ts";

const [dir = "", file = ""] = process.argv.slice(2);
const { handbook } = openHandbook(dir);
const found = await findBrowser();
if (handbook === undefined || "missing" in found) throw new Error("no club or no browser");
const sheets = binderSheets(binderView(handbook));
const paper = paperOf(handbook.curriculum.club);
const styles = printStyles(paper, sheets.slots);
const pages = await openBrowser(found.browser);
try {
	const jobs = sheets.sections.flatMap(({ title, parts }) =>
		parts.map(({ html }) => ({ title, html: html.text, place: { file: "", line: 1, column: 1 } })),
	);
	const { pages: laidOut } = await layOut(jobs, {
		pages,
		scripts: await readPageScripts(),
		styles,
		language: sheets.language,
		continued: sheets.continued,
		area: { width: paper.areaWidth, height: paper.areaHeight },
		cache: openCache(undefined),
		workers: 2,
		onDone: () => undefined,
		signal: undefined,
	});
	let next = 0;
	const { leaves } = assemble(
		sheets,
		sheets.sections.map(({ parts }) => parts.map(() => laidOut[next++] ?? [])),
	);
	const body = leaves.map(({ html }) => html).join("");
	writeFileSync(
		file,
		`<!doctype html><html lang="${sheets.language}"><head><meta charset="utf-8"><title>Binder</title><style>${styles}</style></head><body class="binder">${body}</body></html>`,
	);
} finally {
	await pages.close();
}
