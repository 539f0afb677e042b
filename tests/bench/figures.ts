/**
 * How long figures and strips take, in time of one processor: what else runs on the machine does not count.
 * Run: node tests/bench/figures.ts. Prints; asserts nothing.
 */

import { fileURLToPath } from "node:url";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { movementOf } from "../../scripts/figures/support.ts";
import { openHandbook } from "../../scripts/handbook.ts";

const FIGURES = 10_000;

const { handbook } = openHandbook(fileURLToPath(new URL("../../", import.meta.url)));
if (handbook === undefined) throw new Error("the demo club has an error");
const { curriculum } = handbook;
const shapes = [...curriculum.shapes.values()];
const movements = Array.from(curriculum.drills.values(), (drill) => movementOf(drill, curriculum)).filter(
	({ stances }) => stances.length > 0,
);
const words = { title: "Shape", description: "What it looks like.", idPrefix: "figure" };

function timed(name: string, count: number, draw: (i: number) => string): void {
	for (let i = 0; i < count / 10; i++) draw(i);
	let bytes = 0;
	let most = 0;
	const start = process.cpuUsage();
	for (let i = 0; i < count; i++) {
		const { length } = draw(i);
		bytes += length;
		most = Math.max(most, length);
	}
	const { user, system } = process.cpuUsage(start);
	const time = (user + system) / 1000;
	console.log(
		`${count} ${name}: ${time.toFixed(0)} ms, ${((time * 1000) / count).toFixed(0)} µs each; ` +
			`${(bytes / count).toFixed(0)} B in the mean, ${most} B at most`,
	);
}

timed("figures", FIGURES, (i) => {
	const shape = shapes[i % shapes.length];
	return shape === undefined ? "" : drawFigure(shape, words);
});
timed("strips", FIGURES / 5, (i) => {
	const movement = movements[i % movements.length];
	return movement === undefined ? "" : drawStrip(movement, words);
});
