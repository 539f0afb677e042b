/**
 * Pages as the reader's own browser prints them, where no sheet was printed for them: the class sheet, a week,
 * an apparatus in a week and a drill, at A4 and Letter. Looked at as print media in a browser, and as the PDF
 * that it makes.
 */

import { afterAll, describe, expect, it } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";
import { readPdf } from "../print/read-pdf.ts";
import { openSite } from "./open-site.ts";

/** Nothing is printed in smaller type, as on the printed sheets. Pixels of 1/96 inch (CSS Values 3, 5.2). */
const LEAST = (8.5 * 96) / 72;

/** Widths between margins of 10 mm: A4 is 210 mm wide (ISO 216), Letter 8.5 inches. */
const PAPERS = [
	["A4", ((210 - 20) * 96) / 25.4],
	["Letter", 8.5 * 96 - (20 * 96) / 25.4],
] as const;

describe("a page printed from the reader's browser", async () => {
	const { browser, root, site, close } = await openSite(REPOSITORY);
	afterAll(close);
	const pagesOf = (kind: string) =>
		[...site.pages].flatMap(([file, text]) => (text.includes(`<body class="kind-${kind}">`) ? [file] : []));

	it.each(["class-sheet", "week", "week-apparatus", "drill"])("is a sheet: %s", async (kind) => {
		const [file = ""] = pagesOf(kind);
		expect(file).not.toBe("");
		const page = await browser.newPage();
		for (const [format, width] of PAPERS) {
			await page.emulateMediaType("screen");
			await page.setViewport({ width: Math.floor(width), height: 1000 });
			await page.goto(root + file.replace("index.html", ""));
			const drawn = await page.evaluate(
				() => [...document.querySelectorAll("main figure svg")].filter((one) => one.checkVisibility()).length,
			);
			await page.emulateMediaType("print");
			const seen = await page.evaluate(() => {
				const shown = (query: string) =>
					[...document.querySelectorAll<HTMLElement>(query)].filter((one) => one.checkVisibility());
				const words = shown("body *").filter(
					(one) =>
						one.closest("svg, .sr") === null &&
						[...one.childNodes].some(
							({ nodeType, textContent }) => nodeType === 3 && /\S/.test(textContent ?? ""),
						),
				);
				return {
					keys: shown("button, nav, input:not([type=checkbox])").map((one) => one.outerHTML.slice(0, 80)),
					drawn: shown("main figure svg" as "svg").length,
					small: words.map(
						(one) => `${Number.parseFloat(getComputedStyle(one).fontSize)} ${one.outerHTML.slice(0, 60)}`,
					),
					wide: document.documentElement.scrollWidth,
					dark: words
						.filter((one) => {
							// Without an alpha: with one it is transparent, or hardly there.
							const [red = 255, ...rest] =
								getComputedStyle(one)
									.backgroundColor.match(/[\d.]+/g)
									?.map(Number) ?? [];
							return rest.length === 2 && red < 200;
						})
						.map((one) => one.outerHTML.slice(0, 60)),
					emergency: shown(".emergency-words").length,
				};
			});
			expect(seen.keys).toEqual([]);
			expect(seen.drawn).toBe(drawn);
			expect(seen.dark).toEqual([]);
			expect(seen.emergency).toBe(1);
			expect(seen.small.filter((one) => Number.parseFloat(one) < LEAST - 0.05)).toEqual([]);
			expect(seen.wide).toBeLessThanOrEqual(Math.ceil(width));
			const margin = { top: "10mm", right: "10mm", bottom: "10mm", left: "10mm" };
			const pdf = await readPdf(await page.pdf({ format, margin }));
			expect(pdf.pages.map(({ text }) => text.trim().length > 40)).toEqual(pdf.pages.map(() => true));
		}
		await page.close();
	});
});
