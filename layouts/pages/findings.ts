/**
 * Everything the measures find, weightiest first.
 */

import { CATALOGUE, type CatalogueEntry } from "../../scripts/problems.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import type { FindingsView } from "../../scripts/render/views/findings.ts";
import { capital, counted } from "../../scripts/render/views/words.ts";
import { findingsList } from "../parts/findings-list.ts";
import { a, fold, type PageContext, section } from "../parts/page.ts";

/** The page of findings. */
export function findingsPage(ctx: PageContext, view: FindingsView): Html {
	return html`<h1>Findings</h1>
<p class="lead">${view.count === 0 ? "The plan meets every target of the club." : `${counted(view.count, "finding")} against the club's targets.`}</p>
<p>Findings never stop a build: a director may have good reasons. The thresholds are the club's own, in <code>_data/targets.yaml</code>; ${a(ctx, { to: "author-guide/#targets", name: "what each means" })}.</p>
${view.groups.map(({ weight, count, codes }, g) =>
	section(
		`weight-${g + 1}`,
		`${capital(weight)}: ${count}`,
		codes.map(({ code, measure, lines }) => {
			const entry = (CATALOGUE as Readonly<Record<string, CatalogueEntry>>)[code];
			return html`<h3 id="${code}-${g + 1}">${entry?.title ?? code} <span class="small">${lines.length}</span></h3>
${(entry || measure) && html`<p>${entry?.why}${measure && html` Measure: ${a(ctx, measure)}.`}</p>`}
${lines.length > 12 ? fold(`All ${lines.length}`, findingsList(ctx, lines)) : findingsList(ctx, lines)}`;
		}),
	),
)}`;
}
