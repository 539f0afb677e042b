/**
 * The contact sheet: every body shape beside the others.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { ShapesView } from "../../scripts/render/views/shape.ts";
import { counted } from "../../scripts/render/views/words.ts";
import { anglesOfShapes } from "../parts/angles.ts";
import { shapeFigure } from "../parts/figures.ts";
import { a, type PageContext } from "../parts/page.ts";

/** The page of all shapes. */
export function shapesPage(ctx: PageContext, view: ShapesView): Html {
	return html`<h1>Body shapes</h1>
<p class="lead">${counted(view.shapes.length, "shape")} that every apparatus shares.</p>
<ul class="contact-sheet">${view.shapes.map(
		({ shape, link, drills }) =>
			html`<li class="card">${shapeFigure(shape, `shape-${shape.id}`)}<p class="name">${a(ctx, link)}</p><p class="small">${counted(drills, "drill")}</p></li>`,
	)}</ul>
${anglesOfShapes(ctx, view.shapes)}`;
}
