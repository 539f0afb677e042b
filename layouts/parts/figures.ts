/**
 * Figures of body shapes as pages show them. A shape without angles has no figure, only its name.
 */

import { drawBody } from "../../scripts/figures/draw-body.ts";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { tenth } from "../../scripts/figures/markup.ts";
import { poseOf } from "../../scripts/figures/pose.ts";
import { type BodyOfStrip, drawStrip } from "../../scripts/figures/strip.ts";
import type { Id, LinkedShape } from "../../scripts/model.ts";
import { type Html, html, raw } from "../../scripts/render/html.ts";
import type { PageContext } from "./page.ts";

/** One shape's figure; `idPrefix` keeps its ids apart from others on the page. */
export function shapeFigure(shape: LinkedShape, idPrefix: string): Html | undefined {
	if (shape.angles === undefined) return undefined;
	return raw(drawFigure(shape, { title: shape.name, description: wordsOf(shape), idPrefix }));
}

/**
 * Shapes in the order the body goes through them, with their names under them. Classes do the same
 * shapes again and again, so a page draws each body once (`drawnBodies`), and its strips place them.
 */
export function shapeStrip(
	ctx: PageContext,
	shapes: readonly LinkedShape[],
	idPrefix: string,
): Html | undefined {
	const drawn = shapes.filter((shape) => shape.angles !== undefined);
	if (drawn.length === 0) return undefined;
	for (const shape of drawn) ctx.bodies.set(shape.id, shape);
	const names = shapes.map((shape) => shape.name);
	const title = names.join(", then ");
	const description = drawn.map(wordsOf).join(" ");
	const place: BodyOfStrip = (_, dx, step) => `<use href="#${bodyId(drawn[step]?.id)}" x="${tenth(dx)}"/>`;
	const draw = () => drawStrip(drawn, { title, description, idPrefix: PREFIX }, place);
	const strip = drawnOnce(drawn[0], shapes.map((shape) => shape.id).join(" "), draw).replaceAll(
		PREFIX,
		idPrefix,
	);
	return html`<figure class="strip">${raw(strip)}<figcaption>${names.join(" → ")}</figcaption></figure>`;
}

/** The bodies that the page's strips place, in a picture that takes no room; after all strips are made. */
export function drawnBodies({ bodies }: PageContext): Html | undefined {
	if (bodies.size === 0) return undefined;
	const drawn = Array.from(bodies.values(), (shape) =>
		drawnOnce(shape, "", () => `<g id="${bodyId(shape.id)}">${drawBody(poseOf(shape), 0)}</g>`),
	);
	return raw(
		`<svg class="bodies" width="0" height="0" aria-hidden="true" focusable="false"><defs>${drawn.join("\n")}</defs></svg>`,
	);
}

function bodyId(shape: Id | undefined): string {
	return `body-${shape}`;
}

/** Stands in for the prefix in strips that are kept. */
const PREFIX = "strip-of-a-drill";

/** Drills share strips and bodies, and the same drill comes in many weeks; kept as long as their shapes are. */
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
