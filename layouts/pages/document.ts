/** The whole document of a page, of whatever kind: for the site and the preview alike. */

import type { SitePage } from "../../scripts/render/site.ts";
import { documentWith } from "../parts/document.ts";
import type { PageContext } from "../parts/page.ts";
import { mainOf } from "./kinds.ts";

export function documentOf(page: SitePage, highlight: PageContext["highlight"]): string {
	return documentWith(mainOf, page, highlight);
}
