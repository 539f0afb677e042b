/**
 * One guide.
 */

import type { GuideView } from "../../scripts/views/guide.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { beside, type PageContext } from "../parts/page.ts";

export function guidePage(ctx: PageContext, view: GuideView): Html {
	return html`<h1>${view.title}</h1>
<div class="prose">${view.body}</div>
${beside(ctx, view.previous, view.next, ctx.words.guides.besides)}`;
}
