/**
 * Which function writes which kind of page.
 */

import type { Html } from "../../scripts/render/html.ts";
import type { SitePage } from "../../scripts/render/site.ts";
import type { PageContext } from "../parts/page.ts";
import { authorGuidePage } from "./author-guide.ts";
import { coveragePage } from "./coverage.ts";
import * as onDevices from "./kinds-on-devices.ts";
import { termPage } from "./term.ts";

/** The main part of a page. */
export function mainOf(ctx: PageContext, page: SitePage): Html {
	switch (page.kind) {
		case "author-guide":
			return authorGuidePage(ctx, page.view);
		case "coverage":
			return coveragePage(ctx, page.view);
		case "term":
			return termPage(ctx, page.view);
		default:
			return onDevices.mainOf(ctx, page);
	}
}
