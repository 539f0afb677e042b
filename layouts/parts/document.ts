/** The document of a page: what the function of its kind wrote, inside the frame. */

import type { Html } from "../../scripts/render/html.ts";
import type { SitePage } from "../../scripts/render/site.ts";
import { drawnBodies } from "./figures.ts";
import { frame } from "./frame.ts";
import { contextOf, type PageContext } from "./page.ts";

export function documentWith(
	mainOf: (ctx: PageContext, page: SitePage) => Html,
	page: SitePage,
	highlight: PageContext["highlight"],
): string {
	const ctx = contextOf(page, highlight);
	const main = mainOf(ctx, page);
	return frame(ctx, main, drawnBodies(ctx)).text;
}
