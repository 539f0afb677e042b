/**
 * The still picture of a video that has none of its own: the figure of the drill's first shape beside a
 * sign for playing, or the sign alone. It is turned into pixels, so its colours are fixed.
 */

import { drawFigure } from "../../figures/figure.ts";
import type { LinkedShape } from "../../model.ts";

const WIDTH = 960;
const HEIGHT = 540;
const INK = "#12303a";
const PAPER = "#f5f0e3";
const FAR = "#7d8b8f";

/** The poster as SVG text. */
export function drawPoster(shape: LinkedShape | undefined): string {
	const play = (x: number) =>
		`<circle cx="${x}" cy="${HEIGHT / 2}" r="70" fill="none" stroke="${INK}" stroke-width="8"/>` +
		`<path d="M${x - 22} ${HEIGHT / 2 - 38}L${x + 42} ${HEIGHT / 2}L${x - 22} ${HEIGHT / 2 + 38}z" fill="${INK}"/>`;
	const figure =
		shape === undefined
			? ""
			: drawFigure(shape, { title: shape.name, description: shape.name, idPrefix: "poster", size: 420 })
					.replace("<svg ", `<svg x="80" y="60" color="${INK}" `)
					.replaceAll("currentColor", INK)
					.replace(/var\(--figure-far,[^)]*\)/g, FAR)
					.replace(/var\(--[\w-]+,\s*\w+\)/g, PAPER);
	return (
		`<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}" viewBox="0 0 ${WIDTH} ${HEIGHT}">` +
		`<path d="M0 0H${WIDTH}V${HEIGHT}H0z" fill="${PAPER}"/>${figure}${play(shape === undefined ? WIDTH / 2 : 720)}</svg>`
	);
}
