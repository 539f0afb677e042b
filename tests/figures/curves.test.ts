/** Arcs written as curves are the same arcs, compared as drawn pixels. */

import { Resvg } from "@resvg/resvg-js";
import { describe, expect, it } from "vitest";
import { arcsAsCurves } from "../../scripts/figures/curves.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { movementOf } from "../../scripts/figures/support.ts";
import { demoHandbook } from "../demo.ts";

const pixels = (svg: string) => {
	const inked = svg.replace(/var\(--figure-paper,Canvas\)/g, "#fff").replace(/currentColor/g, "#000");
	return new Resvg(inked, { fitTo: { mode: "width", value: 900 }, background: "#fff" }).render().pixels;
};

describe("arcs as curves", () => {
	it("look the same in every strip of the demo", () => {
		const handbook = demoHandbook();
		let drawn = 0;
		// Every twelfth by its id, so that the club's order of apparatus chooses no others.
		const drills = [...handbook.curriculum.drills.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
		for (const drill of drills.filter((_, i) => i % 12 === 0)) {
			const movement = movementOf(drill, handbook.curriculum);
			if (movement.stances.length === 0) continue;
			const svg = drawStrip(movement, { title: drill.title, description: "" });
			const curved = arcsAsCurves(svg);
			expect(curved).not.toMatch(/ d="[^"]*[Aa]/);
			expect(curved).not.toContain("<circle");
			const [before, after] = [pixels(svg), pixels(curved)];
			expect(after.length).toBe(before.length);
			// Of more than a million values, four to a dot, those of a few dots on the edges of rounds. The
			// most in the demo is 27, on a barrel; more and finer curves come no nearer to the drawn arc.
			const other = before.filter((value, i) => Math.abs(value - (after[i] ?? 0)) > 48).length;
			expect(other, drill.id).toBeLessThan(32);
			drawn++;
		}
		expect(drawn).toBeGreaterThan(10);
	});

	it.each([
		["a small arc one way", "M20 50A30 30 0 0 0 80 50"],
		["the other way", "M20 50A30 30 0 0 1 60 30"],
		["a large arc", "M20 50A25 25 0 1 0 50 30z"],
		["a large arc the other way", "M20 50A25 25 0 1 1 50 30z"],
		["arcs and lines counted from where the pen is", "m20 50l5 5h10v-8a20 20 0 0 1 30 10a9 9 0 1 1 -9 5z"],
		["one whose radius is too small", "M20 50A5 5 0 0 1 80 50"],
	])("%s", (_, d) => {
		const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><path d="${d}"/><circle cx="70" cy="75" r="12" fill="none" stroke="#000"/></svg>`;
		const curved = arcsAsCurves(svg);
		expect(curved).not.toContain("A");
		const [before, after] = [pixels(svg), pixels(curved)];
		const other = before.filter((value, i) => Math.abs(value - (after[i] ?? 0)) > 48).length;
		expect(other).toBeLessThan(16);
	});

	it("leave ellipses and commands in one breath alone", () => {
		for (const d of ["M0 0A5 8 0 0 1 9 9", "M0 0A5 5 0 0 1 9 9 5 5 0 0 1 2 2"]) {
			const svg = `<path d="${d}"/>`;
			expect(arcsAsCurves(svg)).toBe(svg);
		}
	});
});
