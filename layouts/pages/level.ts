/**
 * One level: its classes, the skills it learns, its drills by apparatus.
 */

import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { LevelView } from "../../scripts/views/level.ts";
import { drillRows } from "../parts/drill-parts.ts";
import { findingsList } from "../parts/findings-list.ts";
import { a, beside, chips, fold, type PageContext, section } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";
import { spacingSummary } from "../parts/spacing-table.ts";

export function levelPage(ctx: PageContext, view: LevelView): Html {
	const findings = findingsList(ctx, view.findings);
	const { counts, levels: say } = ctx.words;
	const { entry } = view;
	return html`<h1>${view.name}</h1>
${view.description && html`<p class="lead">${view.description}</p>`}
${beside(ctx, view.easier, view.harder, say.besides)}
${chips(ctx, view.classes, ctx.words.destinations.classes)}
${printLinks(ctx, [{ file: SHEET_FILES.checkSheet(ctx.page.address.split("/")[1] ?? ""), words: ctx.words.prints.checkSheet }])}
${view.skills.length > 0 && section("skills", say.learns, chips(ctx, view.skills))}
${entry.skills.length + entry.drills.length > 0 && section("entry", say.arrives, html`${entry.skills.length > 0 && fold(counts.skills(entry.skills.length), chips(ctx, entry.skills))}${entry.drills.length > 0 && fold(counts.drills(entry.drills.length), chips(ctx, entry.drills))}`)}
${view.drills.map(({ apparatus, lines }, i) => section(`on-${i + 1}`, a(ctx, apparatus), drillRows(ctx, lines)))}
${view.drills.length === 0 && html`<p class="empty">${say.noDrill}</p>`}
${view.spacing && section("spacing", ctx.words.drill.overTerm, spacingSummary(ctx, view.spacing))}
${findings && section("findings", ctx.words.findingsPage.found, findings)}`;
}
