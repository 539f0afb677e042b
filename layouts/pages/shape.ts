/**
 * One body shape: its figure, and its drills by apparatus.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { ShapeView } from "../../scripts/views/shape.ts";
import { anglesOfShape } from "../parts/angles.ts";
import { drillCards } from "../parts/drill-parts.ts";
import { shapeFigure } from "../parts/figures.ts";
import { findingsList } from "../parts/findings-list.ts";
import { a, type PageContext, section } from "../parts/page.ts";
import { spacingTable } from "../parts/spacing-table.ts";

export function shapePage(ctx: PageContext, view: ShapeView): Html {
	const { shape } = view;
	const findings = findingsList(ctx, view.findings);
	return html`<h1>${shape.name}</h1>
${view.description && html`<p class="lead">${view.description}</p>`}
${shape.aliases.length > 0 && html`<p class="small">${ctx.words.alsoCalled(shape.aliases.join(", "))}</p>`}
<div class="one-figure">${shapeFigure(shape, "figure", true)}</div>
${
	view.drills.length === 0
		? html`<p class="empty">${ctx.words.shapes.noDrill}</p>`
		: view.drills.map(({ apparatus, lines }, i) =>
				section(`on-${i + 1}`, a(ctx, apparatus), drillCards(ctx, lines)),
			)
}
${spacingTable(ctx, view.spacing)}
${anglesOfShape(ctx, view)}
${findings && section("findings", ctx.words.findingsPage.found, findings)}`;
}
