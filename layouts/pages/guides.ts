/**
 * The club's guides, and the author guide.
 */

import type { GuidesView } from "../../scripts/views/guide.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { a, more, type PageContext } from "../parts/page.ts";

export function guidesPage(ctx: PageContext, view: GuidesView): Html {
	const { words } = ctx;
	const author = more(ctx, { to: "author-guide/", name: words.destinations.authorGuide });
	return html`<h1>${words.destinations.guides}</h1>
${view.guides.length === 0 && html`<p class="empty">${words.guides.none}</p>`}
<ul class="cards">${view.guides.map((guide) => html`<li class="card"><p class="name">${a(ctx, guide)}</p></li>`)}
${author && html`<li class="card"><p class="name">${author}</p><p class="small">${words.guides.author}</p></li>`}</ul>`;
}
