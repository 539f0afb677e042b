/**
 * The usual caution in full, and what this handbook is.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { AboutView } from "../../scripts/render/site.ts";
import { a, type PageContext, section } from "../parts/page.ts";

/** The page about safety and the handbook. */
export function aboutPage(ctx: PageContext, view: AboutView): Html {
	return html`<h1>Safety and about this handbook</h1>
${view.emergency && section("emergency", "In an emergency", html`<p class="emergency">${view.emergency}</p>`)}
${section(
	"caution",
	"The usual caution",
	html`<div class="prose"><p>Coaching gymnastics needs qualified supervision, matting and spotting suited to the gymnast. Local codes, the governing body's rules and licensed practice come first, before anything written here.</p>
<ul><li>Teach only what your licence and your training cover, and spot only what you have been trained to spot.</li>
<li>Check apparatus, fixings and mats before each class, and again after each change.</li>
<li>A gymnast who is tired, unwell, hurt or frightened does the easier version, or rests.</li>
<li>One gymnast on a landing area at a time; waiting gymnasts stand clear.</li></ul>
<p>Computed loads count planned landings and hand contacts. Computed heights come from tables of average growth. Both are planning aids, not medical measures, and say nothing about any one child.</p></div>`,
)}
${section(
	"handbook",
	"This handbook",
	html`<div class="prose"><p>This is the curriculum of ${view.club}: one source for the site, the printed binder and the class sheets. No personal data of gymnasts is kept in it.</p>
<p>Edition <code>${view.edition}</code>. The plan has ${a(ctx, { to: "findings/", name: view.findings === 1 ? "one finding" : `${view.findings} findings` })} against the club's targets.${view.contact && html` Corrections are welcome at <a href="mailto:${view.contact}">${view.contact}</a>.`}</p></div>
<p id="kept-status" class="kept-status" role="status">After the first visit the whole handbook opens without a network, in a browser with JavaScript.</p>`,
)}`;
}
