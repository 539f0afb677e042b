/** The whole document of a page, of whatever kind: for the site, the preview and devices alike. */

import { drawnBodies } from "../parts/figures.ts";
import { frame } from "../parts/frame.ts";
import { contextOf, type PageContext } from "../parts/page.ts";
import type { SitePage } from "./site-pages.ts";

export function documentOf(page: SitePage, highlight: PageContext["highlight"]): string {
	const ctx = contextOf(page, highlight);
	const main = page.main(ctx);
	return frame(ctx, main, drawnBodies(ctx)).text;
}
