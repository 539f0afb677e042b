/**
 * The measures, each with its question.
 */

import { type Html, html } from "../../../scripts/views/html.ts";
import type { MeasuresView } from "../../../scripts/views/measures/measure-page.ts";
import { a, kept, type PageContext, section } from "../../parts/page.ts";

export function measuresPage(ctx: PageContext, view: MeasuresView): Html {
	const { words } = ctx;
	const say = words.measurePage;
	// Left out, they are none here, which says nothing of the targets.
	const found = !ctx.page.frame.leaveOut.has("findings");
	return html`<h1>${words.destinations.measures}</h1>
<p class="lead">${say.lead}</p>
${found && html`<p>${view.count === 0 ? words.findingsPage.allMet : a(ctx, { to: "findings/", name: say.allFindings(view.count) })}</p>`}
<ul class="cards">${view.measures.map(
		({ link, question, target, findings }) =>
			html`<li class="card"><h2 class="name">${a(ctx, link)}</h2><p>${question}</p>${target && html`<p class="small">${say.targetIs(target)}</p>`}${
				found &&
				findings !== undefined &&
				html`<p class="small">${findings === 0 ? say.noFindings : html`<b>${words.counts.findings(findings)}</b>`}</p>`
			}</li>`,
	)}</ul>
${section(
	"files",
	words.coverage.files,
	html`<ul class="rows files">${kept(ctx, view.files).map((file) => html`<li><a href="${ctx.way(file.to)}" download>${file.name}</a></li>`)}</ul>`,
)}`;
}
