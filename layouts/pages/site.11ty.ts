/**
 * The one template of the site: Eleventy pages through the handbook's pages. What makes a page's text comes
 * with them, so that what Eleventy loads for itself stands for nothing that a build has loaded already.
 */

import { addressFile } from "../../scripts/views/addresses.ts";
import type { SitePage } from "./site-pages.ts";

/** What Eleventy gives a template as `this`. */
interface Helpers {
	highlight(language: string, code: string): string;
}

/** The pages, and what makes the document of each. */
export interface TemplatePages {
	readonly pages: readonly SitePage[];
	readonly textOf: (page: SitePage, highlight: Helpers["highlight"]) => string;
}

interface TemplateData {
	readonly sitePage: SitePage;
	readonly handbook: TemplatePages;
}

export const data = {
	pagination: { data: "handbook.pages", size: 1, alias: "sitePage" },
	permalink: ({ sitePage }: TemplateData) => addressFile(sitePage.address),
	eleventyExcludeFromCollections: true,
};

export function render(this: Helpers, { sitePage, handbook }: TemplateData): string {
	const text = handbook.textOf(sitePage, (language, code) => this.highlight(language, code));
	// Eleventy holds it until a run ends. A character of it is read, since that makes one string of the pieces it
	// was joined of: 664 MB at 10,000 drills, and 840 without.
	text.charCodeAt(0);
	return text;
}
