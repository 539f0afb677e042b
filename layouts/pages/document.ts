/** The whole document of a page: the function of its kind inside the frame. For the site and the preview alike. */

import type { SitePage } from "../../scripts/render/site.ts";
import { drawnBodies } from "../parts/figures.ts";
import { frame } from "../parts/frame.ts";
import { contextOf, type PageContext } from "../parts/page.ts";
import { mainOf } from "./kinds.ts";

export function documentOf(page: SitePage, highlight: PageContext["highlight"]): string {
	const ctx = contextOf(page, highlight);
	const main = mainOf(ctx, page);
	return frame(ctx, main, drawnBodies(ctx)).text;
}
