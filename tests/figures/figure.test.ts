import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { type Disc, discsOf, hairRoot, poseOf, sideAngles } from "../../scripts/figures/pose.ts";
import { DEMO_SHAPES, type DemoShape, demoShape, posture } from "./demo-shapes.ts";
import { postures } from "./random-postures.ts";
import {
	apart,
	clockwise,
	direction,
	pathsOf,
	pointsOf,
	type Segment,
	segmentsOf,
	viewBoxOf,
} from "./read-svg.ts";

/** Drawing units in one stature. */
const UNITS = 2000;
/** Statures, and degrees: what rounding to whole units can cost. */
const LENGTH = 0.0012;
const ANGLE = 0.6;

const words = { title: "Tuck", description: "Knees to chest.", idPrefix: "tuck-1" };
const figureOf = (shape: DemoShape): string =>
	drawFigure(shape, { title: shape.name, description: shape.description, idPrefix: `shape-${shape.id}` });

test("a figure that stands alone has no more room above it than around it, and loses nothing", () => {
	for (const shape of DEMO_SHAPES) {
		const options = { title: shape.name, description: shape.description };
		const [square, alone] = [drawFigure(shape, options), drawFigure(shape, { ...options, alone: true })];
		const [left, top, width, height] = viewBoxOf(square);
		const [, cut, , rest] = viewBoxOf(alone);
		expect(viewBoxOf(alone)).toEqual([left, cut, width, rest]);
		expect(cut + rest).toBe(top + height);
		expect(alone.slice(alone.indexOf("<path"))).toBe(square.slice(square.indexOf("<path")));
		const highest = Math.min(...pathsOf(alone).flatMap((d) => pointsOf(d).map(({ y }) => y)));
		expect(cut, shape.id).toBeLessThan(highest);
	}
	const [, , width, height] = viewBoxOf(drawFigure(demoShape("hollow"), { ...words, alone: true }));
	expect(height / width).toBeLessThan(0.6);
});

const near = (svg: string): string => svg.slice(svg.indexOf('class="figure-near"'));
const far = (svg: string): string => /class="figure-far".*?<\/g>/.exec(svg)?.[0] ?? "";

function only<T>(list: readonly T[], i: number): T {
	const item = list[i];
	if (item === undefined) throw new Error(`nothing at ${i}`);
	return item;
}

/** The drawn joints of a figure from the side: its trunk, and one side's limbs. */
function drawnJoints(svg: string, which: "near" | "far") {
	const [legRoot, armRoot] = pathsOf(near(svg), /stroke="none"/).map((d) => only(segmentsOf(d), 0));
	if (legRoot === undefined || armRoot === undefined) throw new Error("no roots");
	const limb = (name: string): string => {
		const drawn = (part: string): string | undefined => pathsOf(part, new RegExp(`figure-${name}"`))[0];
		// A far limb that is hidden behind the near one is not drawn.
		return (which === "far" ? drawn(far(svg)) : undefined) ?? drawn(near(svg)) ?? "";
	};
	// The foot's outline goes round the ankle, the heel and the toe: its second side is the sole.
	const [, , heel, toe] = pointsOf(only(limb("leg").split("z"), 2));
	if (heel === undefined || toe === undefined) throw new Error("no foot");
	return {
		hip: legRoot.from,
		shoulder: armRoot.from,
		leg: segmentsOf(limb("leg")),
		arm: segmentsOf(limb("arm")),
		foot: direction(heel, toe),
	};
}

const turned = (degrees: number, wanted: number): number =>
	Math.abs(((((degrees - wanted) % 360) + 540) % 360) - 180);

const fromSide = DEMO_SHAPES.filter(({ view }) => view === "side");

describe.each(fromSide)("$id, measured on the page", (shape) => {
	const svg = figureOf(shape);

	test.each(["near", "far"] as const)("%s limbs are as long as the table says", (which) => {
		const { hip, shoulder, leg, arm } = drawnJoints(svg, which);
		const long = (a: typeof hip, b: typeof hip, wanted: number): void =>
			expect(Math.abs(apart(a, b) / UNITS - wanted)).toBeLessThan(LENGTH);
		long(hip, only(leg, 0).to, 0.245);
		long(only(leg, 1).from, only(leg, 1).to, 0.246);
		long(shoulder, only(arm, 0).to, 0.186);
		long(only(arm, 1).from, only(arm, 1).to, 0.146);
	});

	test.each(["near", "far"] as const)("%s joints have the angles of the data", (which) => {
		const { hip, shoulder, leg, arm, foot } = drawnJoints(svg, which);
		const wanted = sideAngles(shape, which === "near" ? "right" : "left");
		const trunkUp = direction(hip, shoulder);
		const thigh = direction(hip, only(leg, 0).to);
		const shank = direction(only(leg, 1).from, only(leg, 1).to);
		const upperArm = direction(shoulder, only(arm, 0).to);
		const back = ({ x, y }: typeof thigh) => ({ x: -x, y: -y });
		expect(turned(clockwise(trunkUp, thigh), wanted.hip)).toBeLessThan(ANGLE);
		expect(turned(clockwise(shank, back(thigh)), wanted.knee)).toBeLessThan(ANGLE);
		expect(turned(clockwise(back(shank), foot), wanted.ankle)).toBeLessThan(ANGLE);
		expect(turned(clockwise(upperArm, back(trunkUp)), wanted.shoulder)).toBeLessThan(ANGLE);
		const forearm = direction(only(arm, 1).from, only(arm, 1).to);
		expect(turned(clockwise(forearm, upperArm), 180 - wanted.elbow)).toBeLessThan(ANGLE);
	});

	test("the trunk leans as written and is an arc of the published length", () => {
		const { hip, shoulder } = drawnJoints(svg, "near");
		const half = (((shape.angles?.trunk ?? 0) / 2) * Math.PI) / 180;
		const arc = (apart(hip, shoulder) / UNITS) * (half === 0 ? 1 : half / Math.sin(half));
		expect(Math.abs(arc - 0.288)).toBeLessThan(LENGTH);
		const lean = clockwise({ x: 0, y: -1 }, direction(hip, shoulder));
		expect(turned(lean, poseOf(shape).tilt)).toBeLessThan(ANGLE);
	});
});

describe.each(DEMO_SHAPES)("$id", (shape) => {
	const svg = figureOf(shape);

	test("lies inside its square", () => inside(svg));

	test("is named and described", () => {
		const id = `shape-${shape.id}`;
		expect(svg).toContain(`role="img" aria-labelledby="${id}-title ${id}-desc"`);
		expect(svg).toMatch(new RegExp(`<title id="${id}-title">[^<]+</title>`));
		expect(svg).toMatch(new RegExp(`<desc id="${id}-desc">[^<]+</desc>`));
	});

	test("is small and needs no style", () => {
		expect(Buffer.byteLength(svg)).toBeLessThan(3000);
		expect(svg).not.toMatch(/style|#[0-9a-f]{3}|url\(|NaN|undefined|Infinity/i);
		expect(svg).toContain("currentColor");
	});

	test("has its floor at the soles' height, or its bar at the hands", () => {
		const { support } = poseOf(shape);
		if (support.kind === "bar") {
			expect(svg).not.toContain("figure-floor");
			const bar = /figure-bar".*? cx="([^"]*)" cy="([^"]*)"/.exec(svg);
			const grip = only(segmentsOf(only(pathsOf(near(svg), /figure-arm"/), 0)), 3).to;
			expect(apart({ x: Number(bar?.[1]), y: Number(bar?.[2]) }, grip)).toBeLessThan(3);
		} else {
			const [floor] = pathsOf(svg, /figure-floor/);
			// The line is 30 units thick, its upper edge at 0.
			expect(pointsOf(floor ?? "").map(({ y }) => y)).toEqual([15, 15]);
			expect(svg.includes("stroke-dasharray")).toBe(support.kind === "air");
		}
	});
});

test("a straddle from the front shows its legs as wide as they are spread", () => {
	const svg = figureOf(demoShape("straddle"));
	const [legs = ""] = pathsOf(near(svg), /figure-leg"/);
	const shanks = segmentsOf(legs).filter(({ from, to }) => apart(from, to) > 0.15 * UNITS);
	const spread = demoShape("straddle").angles?.spread ?? 0;
	for (const { from, to } of [only(shanks, 0), only(shanks, shanks.length - 1)]) {
		const across = Math.abs(to.x - from.x) / UNITS;
		expect(across).toBeLessThanOrEqual(0.246 * Math.sin((spread / 2) * (Math.PI / 180)) + LENGTH);
		expect(across).toBeGreaterThan(0.1);
	}
});

test("the far side is a lighter solid, never an outline alone", () => {
	const svg = figureOf(demoShape("lunge"));
	expect(far(svg)).toContain('fill="var(--figure-far,gray)"');
	expect(far(svg)).not.toContain("currentColor");
	const thigh = (part: string): Segment => only(segmentsOf(only(pathsOf(part, /figure-leg"/), 0)), 0);
	expect(thigh(far(svg)).to.r).toBeLessThan(thigh(near(svg)).to.r);
	expect(figureOf(demoShape("landing-squat"))).not.toContain("figure-far");
});

test("the lighter tone stands off white and off black by 3:1 (WCAG 2.2, 1.4.11)", () => {
	expect(figureOf(demoShape("lunge"))).toContain("var(--figure-far,gray)");
	// CSS's gray is 128 of 255. Relative luminance and contrast as WCAG 2.2 defines them.
	const grey = 128;
	const luminance = ((grey / 255 + 0.055) / 1.055) ** 2.4;
	expect(1.05 / (luminance + 0.05)).toBeGreaterThan(3);
	expect((luminance + 0.05) / 0.05).toBeGreaterThan(3);
});

test("the head is drawn over every limb, with its nose at the front and its hair at the back", () => {
	for (const shape of fromSide) {
		const svg = figureOf(shape);
		const parts = [...near(svg).matchAll(/class="figure-(\w+)"/g)].map(([, name]) => name);
		expect(parts.slice(0, 5)).toEqual(["near", "trunk", "leg", "arm", "head"]);
		const { head, nose, chest } = poseOf(shape);
		const tied = hairRoot(poseOf(shape));
		const up = { x: head.x - chest.x, y: head.y - chest.y };
		const front = { x: nose.x - head.x, y: nose.y - head.y };
		// All figures face right when upright: the front is on the right hand of who looks up the neck.
		expect(up.x * front.y - up.y * front.x).toBeLessThan(0);
		const back = (tied.x - head.x) * front.x + (tied.y - head.y) * front.y;
		expect(back, shape.id).toBeLessThan(0);
	}
});

test("words are escaped", () => {
	const svg = drawFigure(posture({}), { ...words, title: `Tuck & "roll" <fast>`, description: "a<b>" });
	expect(svg).toContain("Tuck &#38; &#34;roll&#34; &#60;fast&#62;");
	expect(svg).toContain(">a&#60;b&#62;</desc>");
});

test("the size is the caller's, and the square stays the same", () => {
	const large = drawFigure(posture({}), { ...words, size: 600 });
	expect(large).toContain('width="600" height="600"');
	expect(viewBoxOf(large)).toEqual(viewBoxOf(drawFigure(posture({}), words)));
});

test("the same shape gives the same text", () => {
	expect(drawFigure(demoShape("bridge"), words)).toBe(drawFigure(demoShape("bridge"), words));
});

test("a shape with no angles is drawn standing", () => {
	expect(poseOf(posture({})).chest.y).toBeCloseTo(0.818, 10);
	inside(drawFigure(posture({}), words));
});

test("any angles give finite numbers inside the square, under 3 kB", () => {
	fc.assert(
		fc.property(postures, (any) => {
			const svg = drawFigure(any, words);
			expect(svg).not.toMatch(/NaN|Infinity|undefined|e-\d/);
			expect(svg.length).toBeLessThan(3000);
			inside(svg);
			const [left, top, width, height] = viewBoxOf(svg);
			const discs = discsOf(poseOf(any));
			const within = (low: number, high: number, at: (disc: Disc) => number): boolean =>
				discs.every((disc) => (at(disc) - disc.r) * UNITS >= low && (at(disc) + disc.r) * UNITS <= high);
			expect(within(left, left + width, ({ x }) => x)).toBe(true);
			expect(within(top, top + height, ({ y }) => -y)).toBe(true);
		}),
		{ numRuns: 300 },
	);
});

describe.each([
	"mat",
	"soft-mat",
	"wedge",
	"block",
	"box",
	"board",
	"beam",
	"rails",
	"wall",
	"barrel",
	"octagon",
	"floor-bar",
	"table",
] as const)("on: %s", (ground) => {
	test.each(DEMO_SHAPES.map(({ id }) => id))("%s lies inside its square, under 3 kB, on its ground", (id) => {
		const shape = demoShape(id);
		const svg = drawFigure(shape, { ...words, ground });
		inside(svg);
		expect(Buffer.byteLength(svg)).toBeLessThan(3000);
		const held = "y" in poseOf(shape, ground).support;
		expect(svg.includes(`class="figure-${ground}"`)).toBe(
			held ? poseOf(shape, ground).support.kind === ground : ground !== "rails",
		);
	});
});

function inside(svg: string): void {
	const [left, top, width, height] = viewBoxOf(svg);
	const paths = pathsOf(svg);
	expect(paths.length).toBeGreaterThan(3);
	const points = paths.flatMap(pointsOf);
	const xs = points.map(({ x }) => x);
	const ys = points.map(({ y }) => y);
	expect(Math.min(...xs)).toBeGreaterThanOrEqual(left);
	expect(Math.max(...xs)).toBeLessThanOrEqual(left + width);
	expect(Math.min(...ys)).toBeGreaterThanOrEqual(top);
	expect(Math.max(...ys)).toBeLessThanOrEqual(top + height);
}
