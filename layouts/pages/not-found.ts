/**
 * The page for an address that nothing has.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { NotFoundView } from "../../scripts/views/pages.ts";
import { a, type PageContext } from "../parts/page.ts";

/** The page that a host shows where there is none. */
export function notFoundPage(ctx: PageContext, view: NotFoundView): Html {
	return html`<h1>${ctx.words.notFound.title}</h1>
<p class="lead">${ctx.words.notFound.lead}</p>
<ul class="rows">${view.places.map((place) => html`<li>${a(ctx, place)}</li>`)}</ul>`;
}
