import fc from "fast-check";
import { expect, test } from "vitest";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { demoShape } from "./demo-shapes.ts";
import { postures } from "./random-postures.ts";
import { pathsOf, pointsOf, viewBoxOf } from "./read-svg.ts";

const words = { title: "Roll", description: "From standing to standing.", idPrefix: "roll" };
const roll = ["straight", "tuck-sit", "candlestick", "tuck-sit", "straight"].map(demoShape);

test("figures stand in order, numbered, on one floor", () => {
	const svg = drawStrip(roll, words);
	expect(svg.match(/class="figure-step"/g)).toHaveLength(5);
	expect(svg.match(/class="figure-floor"/g)).toHaveLength(1);
	const numbers = [...svg.matchAll(/<text x="([^"]*)"[^>]*>(\d)<\/text>/g)];
	expect(numbers.map(([, , number]) => number)).toEqual(["1", "2", "3", "4", "5"]);
	const places = numbers.map(([, x]) => Number(x));
	expect(places).toEqual([...places].sort((a, b) => a - b));
});

test("an arrow leads from each number to the next", () => {
	const svg = drawStrip(roll, words);
	const [d = ""] = pathsOf(svg, /figure-arrows/);
	const shafts = [...d.matchAll(/M([\d.]+) [\d.]+H([\d.]+)/g)];
	expect(shafts).toHaveLength(4);
	for (const [, from, to] of shafts) expect(Number(to)).toBeGreaterThan(Number(from));
});

test("the broken line goes through every hip, marked on top of the body", () => {
	const svg = drawStrip(roll, words);
	const hips = pointsOf(pathsOf(svg, /figure-path/)[0] ?? "");
	expect(hips).toHaveLength(5);
	const heights = hips.map(({ y }) => -y / 2000);
	expect(heights[0]).toBeCloseTo(0.53, 2);
	expect(heights[1]).toBeLessThan(0.1);
	const marks = pointsOf(pathsOf(svg, /figure-hips/)[0] ?? "");
	for (const hip of hips) expect(marks).toContainEqual(hip);
});

test("hanging figures share the height of their bar", () => {
	const svg = drawStrip(["straight-hang", "tuck-hang", "pike-hang"].map(demoShape), words);
	const heights = [...svg.matchAll(/class="figure-bar"[^>]* cy="([^"]*)"/g)].map(([, y]) => y);
	expect(heights).toHaveLength(3);
	expect(new Set(heights).size).toBe(1);
});

test("one shape needs neither arrow nor path; none is a mistake", () => {
	const svg = drawStrip([demoShape("tuck")], words);
	expect(svg).not.toContain("figure-arrows");
	expect(svg).not.toContain("figure-path");
	expect(() => drawStrip([], words)).toThrow(RangeError);
});

test("any strip is finite and inside its frame, its figures side by side", () => {
	fc.assert(
		fc.property(fc.array(postures, { minLength: 1, maxLength: 6 }), (any) => {
			const svg = drawStrip(any, words);
			expect(svg).not.toMatch(/NaN|Infinity|undefined|style/);
			const [left, top, width, height] = viewBoxOf(svg);
			const [figures = ""] = svg.split('<path class="figure-floor"');
			const steps = figures.split('<g class="figure-step">').slice(1);
			expect(steps).toHaveLength(any.length);
			let edge = left;
			for (const step of steps) {
				const xs = pathsOf(step)
					.flatMap(pointsOf)
					.map(({ x }) => x);
				expect(Math.min(...xs)).toBeGreaterThanOrEqual(edge);
				edge = Math.max(...xs);
			}
			expect(edge).toBeLessThanOrEqual(left + width);
			const ys = steps
				.flatMap((step) => pathsOf(step))
				.flatMap(pointsOf)
				.map(({ y }) => y);
			expect(Math.min(...ys)).toBeGreaterThanOrEqual(top);
			expect(Math.max(...ys)).toBeLessThanOrEqual(top + height);
		}),
		{ numRuns: 100 },
	);
});
