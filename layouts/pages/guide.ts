/**
 * One guide.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { GuideView } from "../../scripts/render/views/guide.ts";
import { beside, type PageContext } from "../parts/page.ts";

/** The page of a guide. */
export function guidePage(ctx: PageContext, view: GuideView): Html {
	return html`<h1>${view.title}</h1>
<div class="prose">${view.body}</div>
${beside(ctx, view.previous, view.next, ctx.words.guides.besides)}`;
}
