/**
 * Figures of body shapes as pages show them.
 */

import type { LinkedShape } from "../../scripts/model.ts";
import { type Html, html } from "../../scripts/render/html.ts";

/** One shape's figure. */
export function shapeFigure(shape: LinkedShape, _idPrefix: string): Html {
	return html`<span class="figure-name">${shape.name}</span>`;
}

/** Shapes in the order the body goes through them. */
export function shapeStrip(shapes: readonly LinkedShape[], idPrefix: string): Html | undefined {
	if (shapes.length === 0) return undefined;
	return html`<ol class="strip">${shapes.map((shape, i) => html`<li>${shapeFigure(shape, `${idPrefix}-${i}`)}</li>`)}</ol>`;
}
