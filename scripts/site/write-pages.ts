/**
 * Writes the pages of a site: view → document → file, one after the other, by Eleventy.
 *
 * Eleventy holds the text of every page of a run until its end, so pages are written in several runs.
 */

import { relative } from "node:path";
import Eleventy from "@11ty/eleventy";
import type { TemplatePages } from "../../layouts/pages/site.11ty.ts";
import type { SitePage } from "../../layouts/pages/site-pages.ts";
import { documentOf } from "../../layouts/parts/frame.ts";
import { PROGRAM } from "../files/program.ts";
import { raw } from "../views/html.ts";

/** Pages of a run: each has a cost of its own, and larger ones hold more text. */
const RUN = 250;

/** What the template takes. */
export function templatePages(pages: readonly SitePage[], made?: (page: SitePage) => void): TemplatePages {
	return {
		pages,
		textOf(page, highlight) {
			const text = documentOf(page, (language, code) => raw(highlight(language, code)));
			made?.(page);
			return text;
		},
	};
}

/** @param made told of each page as it is made */
export async function writePages(
	pages: readonly SitePage[],
	siteDir: string,
	made: (page: SitePage) => void,
): Promise<void> {
	const here = (path: string) => relative(process.cwd(), path) || ".";
	let written = 0;
	const count = (page: SitePage) => {
		written++;
		made(page);
	};
	for (let from = 0; from < pages.length; from += RUN) {
		const run = templatePages(pages.slice(from, from + RUN), count);
		const eleventy = new Eleventy(here(`${PROGRAM}layouts/pages`), here(siteDir), {
			configPath: here(`${PROGRAM}eleventy.config.ts`),
			config: (config) => config.addGlobalData("handbook", () => run),
			quietMode: true,
			source: "script",
			runMode: "build",
		});
		eleventy.disableLogger();
		await eleventy.write();
	}
	// It says nothing of a template that it does not take.
	if (written !== pages.length) throw new Error(`Eleventy wrote ${written} of ${pages.length} pages`);
}
