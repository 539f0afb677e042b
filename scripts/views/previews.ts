/**
 * The picture that a link to a page is shown with: the figure of the shape that it is about.
 */

import { drawFigure } from "../figures/figure.ts";
import type { Curriculum, Id, Shape } from "../model.ts";

/** Pixels: what services that show links ask for. */
export const PREVIEW = { width: 1200, height: 630 } as const;

const PAPER = "#fffdf7";
const INK = "#12303a";
const FAR = "#7d8b8f";
const SIGNAL = "#ffb51f";

/** The picture of the first of these shapes that has a figure, from the root of the site. */
export function previewOf(shapes: readonly Id[], curriculum: Pick<Curriculum, "shapes">): string | undefined {
	const drawn = shapes.find((id) => curriculum.shapes.get(id)?.angles !== undefined);
	return drawn === undefined ? undefined : `previews/${drawn}.png`;
}

/** A shape's picture as SVG text, with its own colours: a picture file has no style sheet. */
export function previewSvg(shape: Shape): string | undefined {
	const { angles } = shape;
	if (angles === undefined) return undefined;
	const { width, height } = PREVIEW;
	const size = 540;
	const figure = drawFigure(
		{ ...shape, angles },
		{ title: shape.name, description: shape.description ?? shape.name, idPrefix: "figure", size },
	)
		.replaceAll("currentColor", INK)
		.replaceAll(/var\(--figure-paper,\s*Canvas\)/g, PAPER)
		.replaceAll(/var\(--figure-far,[^)]*\)/g, FAR)
		.replace("<svg ", `<svg x="${(width - size) / 2}" y="${(height - size) / 2}" `);
	return (
		`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">` +
		`<rect width="${width}" height="${height}" fill="${PAPER}"/><rect width="24" height="${height}" fill="${SIGNAL}"/>${figure}</svg>`
	);
}
