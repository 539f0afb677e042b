import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rollerAt } from "../../scripts/figures/ground.ts";
import { discsOf, mirrored, type Posture, poseOf, trunkDiscs } from "../../scripts/figures/pose.ts";
import { drawStrip, onOneHold } from "../../scripts/figures/strip.ts";
import { movementOf, type Stance } from "../../scripts/figures/support.ts";
import { ROLLER_TOP, topOf } from "../../scripts/figures/tops.ts";
import type { Direction, Ground } from "../../scripts/model.ts";
import { demoHandbook } from "../demo.ts";
import { cases } from "../random-cases.ts";
import { demoShape } from "./demo-shapes.ts";
import { postures } from "./random-postures.ts";
import { pathsOf, pointsOf, viewBoxOf } from "./read-svg.ts";

const words = { title: "Roll", description: "From standing to standing.", idPrefix: "roll" };

/** Phases in order on one ground. */
function movement(postures: readonly Posture[], ground: Ground = "floor", travel: Direction = "none") {
	const shape = { id: "shape", name: "Shape" };
	const stances = postures.map((posture): Stance => ({ shape, posture, ground }));
	return { stances, inOrder: true, travel };
}

const roll = movement(["straight", "tuck-sit", "candlestick", "tuck-sit", "straight"].map(demoShape));

test("figures stand in order, numbered, on one floor", () => {
	const svg = drawStrip(roll, words);
	expect(svg.match(/class="figure-step"/g)).toHaveLength(5);
	expect(svg.match(/class="figure-floor"/g)).toHaveLength(1);
	const numbers = [...svg.matchAll(/<text x="([^"]*)"[^>]*>(\d)<\/text>/g)];
	expect(numbers.map(([, , number]) => number)).toEqual(["1", "2", "3", "4", "5"]);
	const places = numbers.map(([, x]) => Number(x));
	expect(places).toEqual([...places].sort((a, b) => a - b));
});

test("a strip without numbers has its arrows still, and is less high", () => {
	const [whole, plain] = [drawStrip(roll, words), drawStrip(roll, words, undefined, 0)];
	expect(plain).not.toContain("<text");
	expect(pathsOf(plain, /arrows/)).toHaveLength(1);
	expect(viewBoxOf(plain)[3]).toBeLessThan(viewBoxOf(whole)[3]);
});

test("an arrow leads from each number to the next", () => {
	const svg = drawStrip({ ...roll, travel: "forward" }, words);
	const [d = ""] = pathsOf(svg, /figure-arrows/);
	const shafts = [...d.matchAll(/M([\d.]+) [\d.]+H([\d.]+)/g)];
	expect(shafts).toHaveLength(4);
	for (const [, from, to] of shafts) expect(Number(to)).toBeGreaterThan(Number(from));
	const [stays = ""] = pathsOf(drawStrip(roll, words), /figure-still-arrows/);
	expect(stays.match(/M/g)).toHaveLength(4);
	expect(stays).not.toContain("H");
});

test("a broken line goes through the hips where the body flies, and nowhere else", () => {
	expect(drawStrip(roll, words)).not.toContain("figure-path");
	const jump = ["landing-squat", "tuck", "landing-squat"].map(demoShape);
	const hips = pointsOf(pathsOf(drawStrip(movement(jump), words), /figure-path/)[0] ?? "");
	expect(hips).toHaveLength(3);
	const [up = 0, top = 0, down = 0] = hips.map(({ y }) => -y / 2000);
	expect(top).toBeGreaterThan(up);
	expect(down).toBeCloseTo(up, 3);
});

test("phases beside each other on a bar have one bar on two uprights, and no arrow of travel", () => {
	const swing = {
		...movement(["straight-hang", "tuck-hang", "pike-hang"].map(demoShape)),
		travel: "forward",
	};
	const svg = drawStrip(swing as Parameters<typeof drawStrip>[0], words);
	const bars = pathsOf(svg, /figure-long-bar/);
	expect(bars).toHaveLength(1);
	const [left, right, ...posts] = pointsOf(bars[0] ?? "");
	const ends = [...svg.matchAll(/class="figure-bar"[^>]* cx="([^"]*)" cy="([^"]*)"/g)].map(([, x, y]) => ({
		x: Number(x),
		y: Number(y),
	}));
	expect(ends).toHaveLength(3);
	for (const { x, y } of ends) {
		expect(y).toBe(left?.y);
		expect(x > (left?.x ?? 0) && x < (right?.x ?? 0)).toBe(true);
	}
	expect(posts.filter(({ y }) => y === 0)).toHaveLength(2);
	expect(pathsOf(svg, /figure-still-arrows/)[0]?.match(/M/g)).toHaveLength(2);
	expect(svg).not.toContain("figure-arrows");
});

test("a stature is as large in every strip", () => {
	const scale = (svg: string): number => {
		const [, , width] = viewBoxOf(svg);
		return Number(/ width="([\d.]+)em"/.exec(svg)?.[1]) / width;
	};
	const one = scale(drawStrip(roll, words));
	for (const ids of [["tuck"], ["straight-hang", "bar-support"], ["hollow", "arch", "hollow", "arch"]]) {
		expect(scale(drawStrip(movement(ids.map(demoShape)), words)) / one).toBeCloseTo(1, 2);
	}
});

test("hanging figures share the height of their bar", () => {
	const svg = drawStrip(movement(["straight-hang", "tuck-hang", "pike-hang"].map(demoShape)), words);
	const heights = [...svg.matchAll(/class="figure-bar"[^>]* cy="([^"]*)"/g)].map(([, y]) => y);
	expect(heights).toHaveLength(3);
	expect(new Set(heights).size).toBe(1);
});

test("a head that hangs from a bar is well above the mat under it, its hair too", () => {
	const fold: Posture = {
		...demoShape("pike"),
		base: "hips",
		tilt: 152,
		angles: { hip: 58, knee: 180, shoulder: 20 },
	};
	const [, under] = onOneHold([demoShape("bar-support"), fold].map((posture) => poseOf(posture, "bar")));
	if (under === undefined) throw new Error("two postures make two poses");
	expect(under.head.y).toBeLessThan(under.hip.y);
	expect(Math.min(under.head.y, under.tail?.y ?? 9) - under.head.r).toBeGreaterThan(2 * topOf("mat"));
});

test("a bar that another phase parts from the next stands on uprights of its own, behind the bodies", () => {
	const svg = drawStrip(movement(["straight-hang", "straight", "bar-support"].map(demoShape), "mat"), words);
	const bars = pathsOf(svg, /figure-long-bar/);
	expect(bars).toHaveLength(2);
	for (const bar of bars) expect(pointsOf(bar).filter(({ y }) => y === 0)).toHaveLength(2);
	expect(svg.indexOf("figure-long-bar")).toBeLessThan(svg.indexOf("figure-step"));
});

test("a kick to handstand goes to the wall; a handstand walked up from a plank has its feet on it", () => {
	const wallsOf = (names: readonly string[], travel: Direction): readonly number[] =>
		pathsOf(drawStrip(movement(names.map(demoShape), "wall", travel), words), /figure-wall/).map(
			(d) => pointsOf(d)[0]?.x ?? Number.NaN,
		);
	const hipsOf = (names: readonly string[], travel: Direction): readonly number[] => {
		const svg = drawStrip(movement(names.map(demoShape), "wall", travel), words);
		return [...svg.matchAll(/<text x="([^"]*)"/g)].map(([, x]) => Number(x));
	};
	const kick = ["lunge", "handstand", "lunge"];
	const climb = ["front-plank", "handstand", "front-plank"];
	for (const [names, travel, ahead] of [
		[kick, "forward", true],
		[climb, "forward", false],
		[climb, "none", false],
		[["straight", "bridge", "straight"], "backward", true],
	] as const) {
		const middles = hipsOf(names, travel);
		expect(wallsOf(names, travel).map((x, i) => x > (middles[i] ?? 0))).toEqual([ahead, ahead, ahead]);
	}
});

test("wall bars and ropes are drawn where the drill has them", () => {
	const hang = movement(["straight-hang", "tuck-hang"].map(demoShape), "bar");
	const on = (hung: "wall-bars" | "rope"): string =>
		drawStrip({ ...hang, stances: hang.stances.map((stance) => ({ ...stance, hung })) }, words);
	const rungs = pointsOf(pathsOf(on("wall-bars"), /figure-wall-bars/)[0] ?? "");
	expect(new Set(rungs.map(({ y }) => y)).size).toBeGreaterThan(5);
	const rope = on("rope");
	expect(pathsOf(rope, /figure-rope/)[0]?.match(/M/g)).toHaveLength(2);
	expect(rope).not.toMatch(/figure-(bar|long-bar|upright)"/);
});

test("one shape needs neither arrow nor path; none is a mistake", () => {
	const svg = drawStrip(movement([demoShape("tuck")]), words);
	expect(svg).not.toMatch(/arrows/);
	expect(svg).not.toContain("figure-path");
	expect(() => drawStrip(movement([]), words)).toThrow(RangeError);
});

test("any strip is finite and inside its frame, its figures side by side", () => {
	fc.assert(
		fc.property(fc.array(postures, { minLength: 1, maxLength: 6 }), grounds, ways, (any, ground, way) => {
			const svg = drawStrip(movement(any, ground, way), words);
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
		{ numRuns: cases(100) },
	);
});

const GROUNDS: readonly Ground[] = [
	"floor",
	"mat",
	"soft-mat",
	"wedge",
	"block",
	"box",
	"board",
	"beam",
	"bar",
	"rails",
	"wall",
	"barrel",
	"octagon",
	"floor-bar",
	"table",
];
const grounds = fc.constantFrom(...GROUNDS);
const ways = fc.constantFrom<Direction>("forward", "backward", "sideways", "none");

test("a body that travels backward faces left, in the same order of time", () => {
	const sits = movement([demoShape("pike-sit"), demoShape("pike-sit")]);
	const toes = (svg: string): number => {
		const [, first = ""] = svg.split('<g class="figure-step">');
		const [legs = ""] = pathsOf(first, /figure-leg"/);
		const xs = pointsOf(legs).map(({ x }) => x);
		const [trunk = ""] = pathsOf(first, /figure-trunk/);
		return Math.max(...xs) - Math.max(...pointsOf(trunk).map(({ x }) => x));
	};
	expect(toes(drawStrip({ ...sits, travel: "forward" }, words))).toBeGreaterThan(800);
	expect(toes(drawStrip({ ...sits, travel: "backward" }, words))).toBeLessThan(200);
});

describe("what phases are on", () => {
	const stand = demoShape("straight");

	test.each([
		["mat", 0.05],
		["soft-mat", 0.2],
		["block", 0.26],
		["box", 0.52],
		["table", 0.64],
		["beam", 0.3],
	] as const)("feet stand on the top of: %s", (ground, top) => {
		const svg = drawStrip(movement([stand], ground), words);
		const [, step = ""] = svg.split('<g class="figure-step">');
		const [legs = ""] = pathsOf(step, /figure-leg"/);
		const soles = Math.max(...pointsOf(legs).map(({ y }) => y));
		expect(Math.abs(soles + top * 2000)).toBeLessThan(3);
		const [d = ""] = pathsOf(svg, new RegExp(`figure-${ground}"`));
		// The line is 36 units thick: its outer edge is the top that is stood on.
		expect(Math.min(...pointsOf(d).map(({ y }) => y))).toBe(-top * 2000 + 18);
	});

	test("phases beside each other share their beam, and a mat begins where the body comes down", () => {
		const beam = movement([stand, stand, stand], "beam");
		expect(drawStrip(beam, words).match(/class="figure-beam"/g)).toHaveLength(1);
		const [first, second, third] = beam.stances;
		if (first === undefined || second === undefined || third === undefined) throw new Error("no phases");
		const off = { ...beam, stances: [first, second, { ...third, ground: "mat" as const }] };
		const svg = drawStrip(off, words);
		const right = (name: string): readonly number[] =>
			pointsOf(pathsOf(svg, new RegExp(`figure-${name}"`))[0] ?? "").map(({ x }) => x);
		expect(Math.max(...right("beam"))).toBeLessThan(Math.min(...right("mat")));
	});

	test("a wedge slopes down in the order of time, and each phase stands on it", () => {
		const svg = drawStrip(movement([stand, stand, stand], "wedge"), words);
		const [wedge = ""] = pathsOf(svg, /figure-wedge"/);
		const [high, , low] = pointsOf(wedge);
		if (high === undefined || low === undefined) throw new Error("no wedge");
		const steps = svg.split('<g class="figure-step">').slice(1);
		for (const step of steps) {
			const [legs = ""] = pathsOf(step, /figure-leg"/);
			const points = pointsOf(legs);
			const down = Math.max(...points.map(({ y }) => y));
			// The ankle stands a third of the way along the sole, which is flat on a gentle slope.
			const sole = points.filter(({ y }) => y > down - 3).map(({ x }) => x);
			const ankle = Math.min(...sole) + (Math.max(...sole) - Math.min(...sole)) / 3;
			const slope = high.y + ((ankle - high.x) / (low.x - high.x)) * (low.y - high.y);
			expect(Math.abs(down - slope)).toBeLessThan(30);
		}
	});

	test("a wall stands at the feet of a plank and behind the back of a headstand", () => {
		const wall = (id: string): { wall: number; body: number } => {
			const svg = drawStrip(movement([demoShape(id)], "wall"), words);
			const [, step = ""] = svg.split('<g class="figure-step">');
			const middle = (ds: readonly string[]): number => {
				const xs = ds.flatMap(pointsOf).map(({ x }) => x);
				return (Math.min(...xs) + Math.max(...xs)) / 2;
			};
			return { wall: middle(pathsOf(svg, /figure-wall/)), body: middle(pathsOf(step, /figure-trunk/)) };
		};
		const plank = wall("front-plank");
		expect(plank.wall).toBeLessThan(plank.body);
		const head = wall("headstand");
		expect(head.wall).toBeGreaterThan(head.body);
	});

	test.each([
		["front-plank", "mat", "floor-bar"],
		["front-plank", "block", "mat"],
		["bridge", "block", "mat"],
		["bridge", "mat", "block"],
	] as const)("a %s with the feet on a %s and the hands on a %s touches both", (id, ground, hands) => {
		const pose = poseOf(demoShape(id), ground, hands);
		const low = (discs: readonly { y: number; r: number }[]): number =>
			Math.min(...discs.map(({ y, r }) => y - r)) + topOf(ground);
		const { left, right } = pose;
		expect(low([left.leg.heel, left.leg.toe, right.leg.heel, right.leg.toe])).toBeCloseTo(topOf(ground), 5);
		expect(low([left.arm.wrist, right.arm.wrist])).toBeCloseTo(topOf(hands), 5);

		const one = { ...movement([demoShape(id)], ground) };
		const svg = drawStrip({ ...one, stances: one.stances.map((stance) => ({ ...stance, hands })) }, words);
		const [high, mat] = [ground, hands].map(
			(name) => pathsOf(svg, new RegExp(`figure-${name}"`)).at(-1) ?? "",
		);
		const span = (d = ""): readonly [number, number] => {
			const xs = pointsOf(d).map(({ x }) => x);
			return [Math.min(...xs), Math.max(...xs)];
		};
		const [a, b] = ground === "mat" ? [span(mat), span(high)] : [span(high), span(mat)];
		// What is higher stands on what runs under the whole body.
		expect(a[0]).toBeGreaterThanOrEqual(b[0]);
		expect(a[1]).toBeLessThanOrEqual(b[1]);
	});

	test("a back over a barrel lies on it, and a body beside it stays clear of it", () => {
		const over = poseOf({ ...demoShape("arch"), tilt: -75, base: "back" }, "barrel");
		const middle = trunkDiscs(over)[2];
		if (middle === undefined) throw new Error("no trunk");
		expect(middle.y - middle.r).toBeCloseTo(ROLLER_TOP, 9);
		expect(rollerAt(over, "back", false)).toBeCloseTo(middle.x * 2000, 9);
		for (const [id, turned, way] of [
			["straight", false, -1],
			["straight", true, 1],
			["handstand", false, 1],
		] as const) {
			const pose = turned ? mirrored(poseOf(demoShape(id))) : poseOf(demoShape(id));
			const at = rollerAt(pose, demoShape(id).base, turned) / 2000;
			expect(Math.sign(at - pose.hip.x), id).toBe(way);
			for (const { x, y, r } of discsOf(pose)) {
				if (y - r < ROLLER_TOP) expect(way * (at - x)).toBeGreaterThanOrEqual(ROLLER_TOP / 2 + r - 1e-9);
			}
		}
		for (const ground of ["barrel", "octagon"] as const) {
			const svg = drawStrip(movement([demoShape("straight"), demoShape("bridge")], ground), words);
			expect(pathsOf(svg, new RegExp(`figure-${ground}"`))).toHaveLength(2);
		}
	});

	test("a straddle on a beam is over its end; side steps go along it", () => {
		const sit = [demoShape("straddle-sit")];
		const ends = pathsOf(drawStrip(movement(sit, "beam"), words), /figure-beam/);
		const along = pathsOf(drawStrip(movement(sit, "beam", "sideways"), words), /figure-beam/);
		const width = (d = ""): number => {
			const xs = pointsOf(d).map(({ x }) => x);
			return Math.max(...xs) - Math.min(...xs);
		};
		expect(width(ends[0])).toBeLessThan(0.3 * 2000);
		expect(width(along[0])).toBeGreaterThan(0.9 * 2000);
	});
});

describe("the demo club", () => {
	const { curriculum } = demoHandbook();
	const drills = [...curriculum.drills.values()];

	test.each(["wedge-forward-roll", "bar-three-beat-cast", "beam-jump-off-end", "headstand-wall-line"])(
		"%s is drawn as it was",
		(id) => {
			const drill = curriculum.drills.get(id);
			if (drill === undefined) throw new Error(`the demo club has no drill ${id}`);
			const svg = `${drawStrip(movementOf(drill, curriculum), { ...words, idPrefix: id })}\n`;
			const file = join(import.meta.dirname, "expected", `strip-${id}.svg`);
			if (process.env.UPDATE_EXPECTED === "1" && process.env.CI === undefined) writeFileSync(file, svg);
			expect(svg).toBe(readFileSync(file, "utf8"));
		},
	);

	test("every sequence is drawn, finite and inside its frame", () => {
		const strips = drills.filter(({ sequence }) => sequence.length > 0);
		expect(strips.length).toBeGreaterThan(140);
		for (const drill of strips) {
			const found = movementOf(drill, curriculum);
			expect(found.stances, drill.id).toHaveLength(drill.sequence.length);
			const svg = drawStrip(found, words);
			expect(svg).not.toMatch(/NaN|Infinity|undefined/);
			const [left, top, width, height] = viewBoxOf(svg);
			for (const { x, y } of pathsOf(svg).flatMap(pointsOf)) {
				expect(x >= left && x <= left + width && y >= top && y <= top + height, drill.id).toBe(true);
			}
		}
	});
});
