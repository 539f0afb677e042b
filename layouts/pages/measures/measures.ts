/**
 * The measures, each with its question.
 */

import { type Html, html } from "../../../scripts/views/html.ts";
import type { MeasuresView } from "../../../scripts/views/measures/measure-page.ts";
import { a, type PageContext, section } from "../../parts/page.ts";

/** The index of measures. */
export function measuresPage(ctx: PageContext, view: MeasuresView): Html {
	const { words } = ctx;
	const say = words.measurePage;
	return html`<h1>${words.destinations.measures}</h1>
<p class="lead">${say.lead}</p>
<p>${view.count === 0 ? words.findingsPage.allMet : a(ctx, { to: "findings/", name: say.allFindings(view.count) })}</p>
<ul class="cards">${view.measures.map(
		({ link, question, target, findings }) =>
			html`<li class="card"><h2 class="name">${a(ctx, link)}</h2><p>${question}</p>${target && html`<p class="small">${say.targetIs(target)}</p>`}${
				findings !== undefined &&
				html`<p class="small">${findings === 0 ? say.noFindings : html`<b>${words.counts.findings(findings)}</b>`}</p>`
			}</li>`,
	)}</ul>
${section(
	"files",
	words.coverage.files,
	html`<ul class="rows files">${view.files.map((file) => html`<li><a href="${ctx.way(file.to)}" download>${file.name}</a></li>`)}</ul>`,
)}`;
}
