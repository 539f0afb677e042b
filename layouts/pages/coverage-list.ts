/**
 * The coverage tables, and the data files behind them.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { CoverageListView } from "../../scripts/render/site.ts";
import { a, type PageContext, section } from "../parts/page.ts";

/** The index of coverage. */
export function coverageListPage(ctx: PageContext, view: CoverageListView): Html {
	return html`<h1>Coverage</h1>
<p class="lead">What the term as a whole trains. Every number opens to the drills it was counted from.</p>
<ul class="cards">${view.tables.map(
		({ link, question }) =>
			html`<li class="card"><h2 class="name">${a(ctx, link)}</h2><p>${question}</p></li>`,
	)}</ul>
${
	view.files.length > 0 &&
	section(
		"files",
		"For a spreadsheet",
		html`<ul class="rows">${view.files.map((file) => html`<li><a href="${ctx.way(file.to)}" download>${file.name}</a></li>`)}</ul>`,
	)
}`;
}
