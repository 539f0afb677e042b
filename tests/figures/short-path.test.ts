/** Short paths lead where the long ones did: read again by a reader of SVG that draws (resvg). */

import { Resvg } from "@resvg/resvg-js";
import { expect, it } from "vitest";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { shortPath } from "../../scripts/figures/short-path.ts";
import { DEMO_SHAPES } from "./demo-shapes.ts";

const pixels = (svg: string) => new Resvg(svg, { fitTo: { mode: "width", value: 300 } }).render().pixels;

it("draws every shape of the demo as before, in fewer letters", () => {
	let [long, short] = [0, 0];
	for (const shape of DEMO_SHAPES) {
		const before = drawFigure(shape, { title: shape.name, description: shape.description, idPrefix: "f" });
		const after = before.replace(/ d="([^"]*)"/g, (_, d: string) => ` d="${shortPath(d)}"`);
		expect(Buffer.compare(pixels(before), pixels(after)), shape.id).toBe(0);
		long += before.length;
		short += after.length;
	}
	expect(short).toBeGreaterThan(0);
	expect(short).toBeLessThan(0.95 * long);
});

it.each([
	["M1 2L3 4", "m1 2l2 2"],
	["M10 10H30V5Z", "m10 10h20v-5z"],
	["M0 0C1 2 3 4 5 6C6 7 8 9 10 11", "m0 0c1 2 3 4 5 6c1 1 3 3 5 5"],
	["M5 5A2 3 0 1 0 9 8z", "m5 5a2 3 0 1 0 4 3z"],
	["M5 5L6 6zM7 7L8 8", "m5 5l1 1zm2 2l1 1"],
	["M80 15H7075m-110 0h220", "M80 15H7075m-110 0h220"],
])("%s is %s", (long, short) => {
	expect(shortPath(long)).toBe(short);
});
