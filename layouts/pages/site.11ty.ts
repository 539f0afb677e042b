/**
 * The one template of the site: Eleventy pages through the handbook's pages, and each is written by
 * the function of its kind inside the frame.
 */

import { addressFile } from "../../scripts/views/addresses.ts";
import { raw } from "../../scripts/views/html.ts";
import { documentOf } from "./document.ts";
import type { SitePage } from "./site-pages.ts";

interface TemplateData {
	readonly sitePage: SitePage;
	readonly handbook: {
		/** Told of each page as it is made. */
		readonly made?: (page: SitePage) => void;
	};
}

/** What Eleventy gives a template as `this`. */
interface Helpers {
	highlight(language: string, code: string): string;
}

export const data = {
	pagination: { data: "handbook.pages", size: 1, alias: "sitePage" },
	permalink: ({ sitePage }: TemplateData) => addressFile(sitePage.address),
	eleventyExcludeFromCollections: true,
};

export function render(this: Helpers, { sitePage, handbook }: TemplateData): string {
	const text = documentOf(sitePage, (language, code) => raw(this.highlight(language, code)));
	handbook.made?.(sitePage);
	// Eleventy holds it until a run ends. A character of it is read, since that makes one string of the pieces it
	// was joined of: 664 MB at 10,000 drills, and 840 without.
	text.charCodeAt(0);
	return text;
}
