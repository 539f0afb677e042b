import { describe, expect, test } from "vitest";
import {
	groundOf,
	movementOf,
	settingOf,
	stripCaption,
	stripDescription,
} from "../../scripts/figures/support.ts";
import type { Drill, Equipment, Shape } from "../../scripts/model.ts";
import { wordsFor } from "../../scripts/words/words.ts";
import { DEMO_SHAPES, demoShape, posture } from "./demo-shapes.ts";

const WORDS = wordsFor("en");

const source = {
	file: "_data/equipment.yaml",
	place: () => ({ file: "_data/equipment.yaml", line: 1, column: 1 }),
	bodyPlace: () => ({ file: "_data/equipment.yaml", line: 1, column: 1 }),
};
const thing = (id: string, name: string, ...aliases: string[]): readonly [string, Equipment] => [
	id,
	{ id, name, aliases, adults: 1, source, path: [] },
];
const equipment = new Map([
	thing("landing-mat", "Landing mat (20 cm)"),
	thing("beam-pad", "Beam pad", "beam sleeve"),
	thing("low-beam", "Low beam"),
	thing("wall-bars", "Wall bars (bay)", "stall bars"),
	thing("wall-space", "Wall space (2 m)"),
	thing("parallettes", "Parallettes (pair)", "push-up bars"),
	thing("matte", "Matte", "mat"),
	thing("cone", "Cone"),
]);
const shapes = new Map(
	DEMO_SHAPES.map((shape): [string, Shape] => [shape.id, { ...shape, aliases: [], source, path: [] }]),
);
const club = {
	apparatus: new Map(),
	equipment: new Map(
		[...equipment].map(([id, one]) => [id, { ...one, drills: [], floorPlan: undefined }] as const),
	),
	shapes,
};

function setting(apparatus: readonly string[], ...items: readonly string[]) {
	const needs = items.map((item) => ({ item, count: 1, per: "station" as const }));
	return settingOf({ apparatus, equipment: needs }, club);
}

describe("what a drill is done on", () => {
	test.each([
		[["beam"], [], ["beam"]],
		[["floor"], ["landing-mat", "cone"], ["mat"]],
		[["bars"], ["landing-mat", "beam-pad"], ["mat", "bar"]],
		[["floor"], ["wall-bars"], ["wall-bars", "bar"]],
		[["floor"], ["wall-space"], ["wall"]],
		[["floor"], ["matte"], ["mat"]],
		[["floor"], ["unheard-of"], []],
		// Several apparatus say nothing: the equipment does.
		[["beam", "floor"], ["landing-mat"], ["mat"]],
	] as const)("on %j with %j: %j", (apparatus, items, grounds) => {
		expect([...setting(apparatus, ...items)]).toEqual(grounds);
	});

	test.each([
		["straight", ["beam"], ["landing-mat"], "beam"],
		["straight", ["floor"], ["landing-mat"], "mat"],
		["straight", ["floor"], [], "floor"],
		["straight", ["bars"], [], "floor"],
		["straight-hang", ["floor"], [], "bar"],
		["bar-support", ["bars"], ["landing-mat"], "bar"],
		["bar-support", ["beam"], ["landing-mat"], "beam"],
		["l-support", ["bars"], ["parallettes"], "rails"],
		["handstand", ["floor"], ["wall-space", "landing-mat"], "wall"],
		["handstand", ["bars"], ["landing-mat"], "mat"],
	] as const)("%s on %j with %j is on: %s", (id, apparatus, items, ground) => {
		expect(groundOf(demoShape(id), setting(apparatus, ...items))).toBe(ground);
	});

	test("a fold over a bar is on the bar", () => {
		expect(groundOf(posture({ base: "hips" }), new Set())).toBe("bar");
	});
});

const drill: Pick<Drill, "apparatus" | "equipment" | "sequence" | "shapes" | "direction"> = {
	apparatus: ["beam"],
	equipment: [],
	shapes: ["straight"],
	sequence: [
		{ shape: "straight" },
		{ shape: "straight", base: "air", on: "mat", angles: { ankle: 170 } },
		{ shape: "landing-squat", on: "mat" },
	],
	direction: "backward",
};

describe("a movement", () => {
	test("takes the shape, and what the phase changes of it", () => {
		const { stances, inOrder, travel } = movementOf(drill, club);
		expect([inOrder, travel]).toEqual([true, "backward"]);
		expect(stances.map(({ ground }) => ground)).toEqual(["beam", "mat", "mat"]);
		const [stand, jump] = stances;
		expect(stand?.posture.angles).toEqual(demoShape("straight").angles);
		expect(jump?.posture).toEqual({
			view: "side",
			tilt: 0,
			base: "air",
			angles: { ...demoShape("straight").angles, ankle: 170 },
		});
	});

	test("without a sequence shows the shapes it trains, in no order", () => {
		const found = movementOf({ ...drill, sequence: [] }, club);
		expect(found.inOrder).toBe(false);
		expect(stripCaption(found, WORDS)).toBe("Straight");
		expect(stripDescription(found, WORDS)).toMatch(/^Straight, on the beam: /);
	});

	test("is described with what it is on, and where it travels", () => {
		const found = movementOf(drill, club);
		expect(stripCaption(found, WORDS)).toBe("Backward: Straight → Straight → Landing shape");
		expect(stripDescription(found, WORDS)).toMatch(
			/^1\. Straight, on the beam: .* 2\. Straight, in the air over a mat: .* 3\. Landing shape, on a mat: .* The body travels backward\.$/,
		);
	});

	test("says what the hands are on where the feet are on something else", () => {
		const sequence = [{ shape: "front-plank", on: "mat" as const, hands: "block" as const }];
		const found = movementOf({ ...drill, sequence }, club);
		expect(found.stances[0]?.hands).toBe("block");
		expect(stripDescription(found, WORDS)).toMatch(/^1\. Front plank, on a mat, hands on a block: /);
	});

	test("leaves out what cannot be drawn, and keeps its name", () => {
		const bare = new Map(shapes).set("straight", {
			id: "straight",
			name: "Straight",
			aliases: [],
			view: "side",
			tilt: 0,
			base: "feet",
			source,
			path: [],
		});
		const found = movementOf(
			{ ...drill, sequence: [{ shape: "straight" }, { shape: "tuck" }] },
			{ ...club, shapes: bare },
		);
		expect(found.names).toEqual(["Straight", "Tuck"]);
		expect(found.stances).toHaveLength(1);
	});
});
