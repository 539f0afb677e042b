/**
 * Figures of body shapes as pages show them. A shape without angles has no figure, only its name.
 */

import { drawFigure } from "../../scripts/figures/figure.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import type { LinkedShape } from "../../scripts/model.ts";
import { type Html, html, raw } from "../../scripts/render/html.ts";

/** One shape's figure; `idPrefix` keeps its ids apart from others on the page. */
export function shapeFigure(shape: LinkedShape, idPrefix: string): Html | undefined {
	if (shape.angles === undefined) return undefined;
	return raw(drawFigure(shape, { title: shape.name, description: wordsOf(shape), idPrefix }));
}

/** Shapes in the order the body goes through them, with their names under them. */
export function shapeStrip(shapes: readonly LinkedShape[], idPrefix: string): Html | undefined {
	const drawn = shapes.filter((shape) => shape.angles !== undefined);
	if (drawn.length === 0) return undefined;
	const names = shapes.map((shape) => shape.name);
	const title = names.join(", then ");
	const description = drawn.map(wordsOf).join(" ");
	const draw = () => drawStrip(drawn, { title, description, idPrefix: PREFIX });
	const strip = drawnOnce(drawn[0], shapes.map((shape) => shape.id).join(" "), draw).replaceAll(
		PREFIX,
		idPrefix,
	);
	return html`<figure class="strip">${raw(strip)}<figcaption>${names.join(" → ")}</figcaption></figure>`;
}

/** Stands in for the prefix in strips that are kept. */
const PREFIX = "strip-of-a-drill";

/** Drills share strips, and the same drill comes in many weeks; kept as long as their shapes are. */
const kept = new WeakMap<LinkedShape, Map<string, string>>();

function drawnOnce(first: LinkedShape | undefined, key: string, draw: () => string): string {
	if (first === undefined) return draw();
	let strips = kept.get(first);
	if (strips === undefined) {
		strips = new Map();
		kept.set(first, strips);
	}
	let strip = strips.get(key);
	if (strip === undefined) {
		strip = draw();
		strips.set(key, strip);
	}
	return strip;
}

function wordsOf(shape: LinkedShape): string {
	return shape.description ?? shape.name;
}
