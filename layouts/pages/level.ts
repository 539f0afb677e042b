/**
 * One level: its classes, the skills it learns, its drills by apparatus.
 */

import { SHEET_FILES } from "../../scripts/render/addresses.ts";
import { type Html, html } from "../../scripts/render/html.ts";
import type { LevelView } from "../../scripts/render/views/level.ts";
import { drillRows } from "../parts/drill-parts.ts";
import { findingsList } from "../parts/findings-list.ts";
import { a, beside, chips, fold, type PageContext, section } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";
import { spacingSummary } from "../parts/spacing-table.ts";

/** The page of a level. */
export function levelPage(ctx: PageContext, view: LevelView): Html {
	const findings = findingsList(ctx, view.findings);
	return html`<h1>${view.name}</h1>
${view.description && html`<p class="lead">${view.description}</p>`}
${beside(ctx, view.easier, view.harder, "Levels below and above")}
${chips(ctx, view.classes, "Classes")}
${printLinks(ctx, [{ file: SHEET_FILES.checkSheet(ctx.page.address.split("/")[1] ?? ""), words: "Blank skill check sheet" }])}
${view.skills.length > 0 && section("skills", "Learns", chips(ctx, view.skills))}
${view.entry.length > 0 && section("entry", "Arrives with", fold(html`${view.entry.length} skills`, chips(ctx, view.entry)))}
${view.drills.map(({ apparatus, lines }, i) => section(`on-${i + 1}`, a(ctx, apparatus), drillRows(ctx, lines)))}
${view.drills.length === 0 && html`<p class="empty">No drill offers this level yet.</p>`}
${view.spacing && section("spacing", "Over the term", spacingSummary(ctx, view.spacing))}
${findings && section("findings", "What the measures find", findings)}`;
}
