/**
 * Everything the measures find, weightiest first.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { FindingsView } from "../../scripts/render/views/findings.ts";
import { capital } from "../../scripts/render/views/words.ts";
import { findingsList } from "../parts/findings-list.ts";
import { a, fold, type PageContext, section } from "../parts/page.ts";

/** The page of findings. */
export function findingsPage(ctx: PageContext, view: FindingsView): Html {
	const { words } = ctx;
	const say = words.findingsPage;
	return html`<h1>${words.destinations.findings}</h1>
<p class="lead">${view.count === 0 ? say.allMet : say.against(view.count)}</p>
<p>${say.lead(html`<code>_data/targets.yaml</code>`, a(ctx, { to: "author-guide/#targets", name: say.whatEachMeans }))}</p>
${view.groups.map(({ weight, count, codes }, g) =>
	section(
		`weight-${g + 1}`,
		`${capital(words.weights[weight])}${words.colon}${count}`,
		codes.map(({ code, measure, lines }) => {
			const entry = words.catalogue[code];
			return html`<h3 id="${code}-${g + 1}">${entry.title} <span class="small">${lines.length}</span></h3>
<p>${entry.why}${measure && html` ${say.measure(a(ctx, measure))}`}</p>
${lines.length > 12 ? fold(say.all(lines.length), findingsList(ctx, lines)) : findingsList(ctx, lines)}`;
		}),
	),
)}`;
}
