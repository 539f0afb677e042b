/** Figures in a browser: bundled without Node, they draw the very text that the build draws. */

import { join } from "node:path";
import { build } from "esbuild";
import type { Browser } from "puppeteer-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { movementOf } from "../../scripts/figures/support.ts";
import { demoHandbook } from "../demo.ts";
import { openBrowser } from "../see-pages.ts";
import { DEMO_SHAPES } from "./demo-shapes.ts";

const FIGURES = join(import.meta.dirname, "../../scripts/figures");

/** What the browser's program offers, for the types of what runs there. */
interface Drawing {
	readonly drawFigure: typeof drawFigure;
	readonly drawStrip: typeof drawStrip;
}

let browser: Browser;
let program: string;

beforeAll(async () => {
	const bundle = await build({
		stdin: {
			contents: `export { drawFigure } from "./figure.ts"; export { drawStrip } from "./strip.ts";`,
			resolveDir: FIGURES,
			loader: "ts",
		},
		bundle: true,
		platform: "browser",
		format: "iife",
		globalName: "drawing",
		write: false,
	});
	program = bundle.outputFiles[0]?.text ?? "";
	browser = await openBrowser();
});

afterAll(() => browser?.close());

test("every shape and every strip of the demo club is the same text in the browser", async () => {
	const words = { title: "Shape", description: "What it looks like.", idPrefix: "figure" };
	const { curriculum } = demoHandbook();
	const movements = Array.from(curriculum.drills.values(), (drill) => movementOf(drill, curriculum)).filter(
		({ stances }) => stances.length > 0,
	);
	const page = await browser.newPage();
	const mistakes: string[] = [];
	page.on("pageerror", (error) => mistakes.push(String(error)));
	await page.evaluate(program.replace(/^(["']use strict["'];\s*)?var drawing/, "globalThis.drawing"));
	const drawn = await page.evaluate(
		(shapes, strips, named) => {
			const { drawing } = globalThis as unknown as { drawing: Drawing };
			return {
				node: "process" in globalThis,
				figures: shapes.map((shape) => drawing.drawFigure(shape, named)),
				strips: strips.map((movement) => drawing.drawStrip(movement, named)),
			};
		},
		DEMO_SHAPES,
		movements,
		words,
	);
	expect(mistakes).toEqual([]);
	expect(drawn.node).toBe(false);
	expect(drawn.figures).toEqual(DEMO_SHAPES.map((shape) => drawFigure(shape, words)));
	expect(drawn.strips).toEqual(movements.map((movement) => drawStrip(movement, words)));
	expect(drawn.strips.length).toBeGreaterThan(140);
	await page.close();
});
