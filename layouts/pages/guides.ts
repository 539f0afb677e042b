/**
 * The club's guides, and the author guide.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { GuidesView } from "../../scripts/render/views/guide.ts";
import { a, type PageContext } from "../parts/page.ts";

/** The page of all guides. */
export function guidesPage(ctx: PageContext, view: GuidesView): Html {
	return html`<h1>Guides</h1>
${view.guides.length === 0 && html`<p class="empty">No guide is written yet.</p>`}
<ul class="cards">${view.guides.map((guide) => html`<li class="card"><p class="name">${a(ctx, guide)}</p></li>`)}
<li class="card"><p class="name">${a(ctx, { to: "author-guide/", name: "Author guide" })}</p><p class="small">Every field and every problem code, for those who write the handbook.</p></li></ul>`;
}
