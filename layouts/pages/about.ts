/**
 * The usual caution in full, and what this handbook is.
 */

import { LICENCES_FILE } from "../../scripts/views/addresses.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { AboutView } from "../../scripts/views/pages.ts";
import { a, more, type PageContext, section } from "../parts/page.ts";
import { binderLink, printLinks } from "../parts/print-links.ts";

/** The page about safety and the handbook. */
export function aboutPage(ctx: PageContext, view: AboutView): Html {
	const { words } = ctx;
	const say = words.about;
	const edition = html`<b>${view.edition}</b>`;
	const findings = more(ctx, { to: "findings/", name: words.counts.findings(view.findings) });
	return html`<h1>${say.title}</h1>
${view.emergency && section("emergency", words.frame.inEmergency, html`<p class="emergency">${view.emergency}</p>`)}
${section(
	"caution",
	say.caution,
	html`<div class="prose"><p>${say.first}</p>
<ul>${say.rules.map((rule) => html`<li>${rule}</li>`)}</ul>
<p>${say.computed}</p></div>`,
)}
${section(
	"reports",
	say.reports,
	html`<div class="prose"><ul>${say.reportsKept.map((line) => html`<li>${line}</li>`)}<li>${view.sums === undefined ? say.reportsNotHere : say.reportsSums(a(ctx, view.sums))}</li></ul></div>`,
)}
${section(
	"handbook",
	say.handbook,
	html`<div class="prose"><p>${say.curriculum(view.club)}</p>
<p>${findings === undefined ? words.frame.edition(edition) : say.edition(edition, findings)}${view.contact && html` ${say.corrections(html`<a href="mailto:${view.contact}">${view.contact}</a>`)}`}</p></div>
${view.program && html`<p>${say.madeWith(view.program)}</p>`}
<p><a href="${ctx.way(LICENCES_FILE)}" type="text/plain">${say.licences}</a></p>
${printLinks(ctx, binderLink(ctx, view.binder))}
${ctx.page.frame.changes && html`<p>${a(ctx, { to: ctx.page.frame.changes, name: words.whatChanged.link })}</p>`}
<p id="kept-status" class="kept-status" role="status">${say.kept}</p>`,
)}`;
}
