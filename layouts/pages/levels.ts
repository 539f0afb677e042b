/**
 * All levels, lowest first.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { LevelsView } from "../../scripts/views/level.ts";
import { a, type PageContext } from "../parts/page.ts";

export function levelsPage(ctx: PageContext, view: LevelsView): Html {
	return html`<h1>${ctx.words.destinations.levels}</h1>
<ol class="cards ladder">${view.levels.map(
		({ link, description, drills, classes }) =>
			html`<li class="card"><h2 class="name">${a(ctx, link)}</h2>${description && html`<p>${description}</p>`}<p class="small">${ctx.words.counts.drills(drills)} · ${ctx.words.counts.classes(classes)}</p></li>`,
	)}</ol>`;
}
