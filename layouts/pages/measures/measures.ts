/**
 * The measures, each with its question.
 */

import { type Html, html } from "../../../scripts/render/html.ts";
import type { MeasuresView } from "../../../scripts/render/views/measures/measure-page.ts";
import { counted } from "../../../scripts/render/views/words.ts";
import { a, type PageContext, section } from "../../parts/page.ts";

/** The index of measures. */
export function measuresPage(ctx: PageContext, view: MeasuresView): Html {
	return html`<h1>Measures</h1>
<p class="lead">What is counted from the plan, and what the club wants of it. Every number opens to the drills it was counted from.</p>
<p>${view.count === 0 ? "The plan meets every target of the club." : a(ctx, { to: "findings/", name: `All ${counted(view.count, "finding")}, weightiest first` })}</p>
<ul class="cards">${view.measures.map(
		({ link, question, target, findings }) =>
			html`<li class="card"><h2 class="name">${a(ctx, link)}</h2><p>${question}</p>${target && html`<p class="small">Target: ${target}</p>`}${
				findings !== undefined &&
				html`<p class="small">${findings === 0 ? "No findings" : html`<b>${counted(findings, "finding")}</b>`}</p>`
			}</li>`,
	)}</ul>
${section(
	"files",
	"For a spreadsheet",
	html`<ul class="rows files">${view.files.map((file) => html`<li><a href="${ctx.way(file.to)}" download>${file.name}</a></li>`)}</ul>`,
)}`;
}
