import { describe, expect, test } from "vitest";
import { classify } from "../../scripts/link/classify.ts";
import { demoShape } from "../figures/demo-shapes.ts";

describe("borders of the FIG Trampoline Code of Points §14.6 (2013–16)", () => {
	test.each([
		[{ hip: 136, knee: 180 }, "straight"],
		[{ hip: 135.1, knee: 90 }, "straight"],
		[{ hip: 135, knee: 136 }, "pike"],
		[{ hip: 135, knee: 135 }, "tuck"],
		[{ hip: 40, knee: 135.1 }, "pike"],
		[{ hip: 40, knee: 60 }, "tuck"],
		[{}, "straight"],
		[{ hip: 220, knee: 100 }, "straight"],
	])("%j is %s", (angles, position) => {
		expect(classify(angles)?.position).toBe(position);
	});
});

test("legs are straddled from 90 degrees", () => {
	expect(classify({ hip: 60, spread: 90 })).toEqual({ position: "pike", straddle: true });
	expect(classify({ hip: 60, spread: 89 })).toEqual({ position: "pike", straddle: false });
});

test("legs in different positions have none in common", () => {
	expect(classify({ hip: 180, left: { hip: 90 } })).toBeUndefined();
	expect(classify({ left: { hip: 100, knee: 180 }, right: { hip: 130, knee: 170 } })?.position).toBe("pike");
});

test.each([
	["straight", "straight", false],
	["hollow", "straight", false],
	["arch", "straight", false],
	["handstand", "straight", false],
	["pike", "pike", false],
	["pike-sit", "pike", false],
	["l-support", "pike", false],
	["straddle", "pike", true],
	["straddle-sit", "pike", true],
	["tuck", "tuck", false],
	["tuck-sit", "tuck", false],
	["tuck-hang", "tuck", false],
	["bunny-hop", "tuck", false],
])("the demo's %s is drawn as %s", (id, position, straddle) => {
	expect(classify(demoShape(id).angles ?? {})).toEqual({ position, straddle });
});
