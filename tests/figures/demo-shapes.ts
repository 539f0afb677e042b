/** The demo club's shapes, as figures take them. */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "yaml";
import type { Posture } from "../../scripts/figures/pose.ts";

export interface DemoShape extends Posture {
	readonly id: string;
	readonly name: string;
	readonly description: string;
}

type Written = Pick<DemoShape, "id" | "name" | "description"> & Partial<Posture>;

const file = join(import.meta.dirname, "../../_data/shapes.yaml");
const written: readonly Written[] = parse(readFileSync(file, "utf8"));

export const DEMO_SHAPES: readonly DemoShape[] = written.map((shape) => ({
	view: "side",
	tilt: 0,
	base: "feet",
	...shape,
}));

/** One of them; throws where the demo club no longer has it. */
export function demoShape(id: string): DemoShape {
	const shape = DEMO_SHAPES.find((one) => one.id === id);
	if (shape === undefined) throw new Error(`the demo club has no shape ${id}`);
	return shape;
}

/** A posture with what a club may leave out filled in. */
export function posture(part: Partial<Posture>): Posture {
	return { view: "side", tilt: 0, base: "feet", ...part };
}
