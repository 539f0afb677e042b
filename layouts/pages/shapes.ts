/**
 * The contact sheet: every body shape beside the others.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { ShapesView } from "../../scripts/views/shape.ts";
import { anglesOfShapes } from "../parts/angles.ts";
import { shapeFigure } from "../parts/figures.ts";
import { a, type PageContext } from "../parts/page.ts";

export function shapesPage(ctx: PageContext, view: ShapesView): Html {
	const say = ctx.words.shapes;
	return html`<h1>${say.title}</h1>
<p class="lead">${say.lead(view.shapes.length)}</p>
<ul class="contact-sheet">${view.shapes.map(
		({ shape, link, drills }) =>
			html`<li class="card">${shapeFigure(shape, `shape-${shape.id}`)}<p class="name">${a(ctx, link)}</p><p class="small">${ctx.words.counts.drills(drills)}</p></li>`,
	)}</ul>
${anglesOfShapes(ctx, view)}`;
}
