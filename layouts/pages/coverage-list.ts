/**
 * The coverage tables, and the data files behind them.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { CoverageListView } from "../../scripts/views/pages.ts";
import { a, kept, type PageContext, section } from "../parts/page.ts";

export function coverageListPage(ctx: PageContext, view: CoverageListView): Html {
	return html`<h1>${ctx.words.destinations.coverage}</h1>
<p class="lead">${ctx.words.coverage.lead}</p>
<ul class="cards">${view.tables.map(
		({ link, question }) =>
			html`<li class="card"><h2 class="name">${a(ctx, link)}</h2><p>${question}</p></li>`,
	)}</ul>
${
	view.files.length > 0 &&
	section(
		"files",
		ctx.words.coverage.files,
		html`<ul class="rows">${kept(ctx, view.files).map((file) => html`<li><a href="${ctx.way(file.to)}" download>${file.name}</a></li>`)}</ul>`,
	)
}`;
}
