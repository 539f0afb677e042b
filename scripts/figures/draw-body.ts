/**
 * Draws one posed body as SVG elements: the part that single figures and strips share.
 *
 *   1. discs → outlines: two discs and the straight sides that touch both make a limb's segment; the trunk
 *      is a smooth outline that is fuller at the chest and the seat, so that front and back tell apart
 *   2. far limbs in a lighter tone, then trunk, near leg and near arm, then the head with its nose and tied
 *      hair over everything, so that it shows which side is the front whatever the arms do; each part with
 *      a thin rim of paper, so that a limb before the body stays readable without any colour
 *   3. what carries the body
 *
 * Ink is `currentColor`; paper is `--figure-paper`, else the page's own canvas colour, so a figure follows
 * dark mode and print; the lighter tone is a grey that stands off both. Nothing needs a style sheet.
 */

import { FAR, INK, PAPER, tenth } from "./markup.ts";
import {
	type Arm,
	type Disc,
	discsOf,
	hairRoot,
	type Leg,
	type Point,
	type Pose,
	type Side,
} from "./pose.ts";
import { RADII } from "./segments.ts";

/** Drawing units in one stature: many, so that whole numbers place a joint well enough. */
export const UNITS = 2000;

/** Half the width of the rim of paper around parts. */
const RIM = 20;
/** Far limbs are this much thinner than near ones. */
const FAR_SHARE = 0.92;

/**
 * A near limb's root, as shares of its first segment. The limb and its rim start at `from`; up to `to`
 * it is drawn again without a rim, so that it grows out of the trunk with no seam.
 */
const ROOT = { from: 0.4, to: 0.5 } as const;

/** A rectangle in drawing units, y downwards. */
export interface Box {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

/** What the body and its bar or block cover, in drawing units, with the lines' own width. */
export function boxOf(pose: Pose): Box {
	let left = Number.POSITIVE_INFINITY;
	let top = Number.POSITIVE_INFINITY;
	let right = Number.NEGATIVE_INFINITY;
	let bottom = Number.NEGATIVE_INFINITY;
	for (const { x, y, r } of [...discsOf(pose), pose.nose, pose.tail, hairRoot(pose)]) {
		left = Math.min(left, x - r);
		right = Math.max(right, x + r);
		top = Math.min(top, -y - r);
		bottom = Math.max(bottom, -y + r);
	}
	const { support } = pose;
	if ("y" in support) {
		const out = {
			bar: pose.view === "side" ? RADII.bar : BAR_ENDS,
			block: 0,
			beam: BEAM_HALF,
			rails: 0.05,
			rope: 0,
		}[support.kind];
		left = Math.min(left, support.left - out);
		right = Math.max(right, support.right + out);
		top = Math.min(top, -support.y - RADII.bar);
		bottom = Math.max(bottom, -support.y + RADII.bar);
	}
	if (support.kind !== "bar") bottom = Math.max(bottom, 0);
	// The waist and the chest swell a little beyond the discs at the trunk's ends.
	const swell = RIM + 30;
	return {
		left: left * UNITS - swell,
		top: top * UNITS - swell,
		right: right * UNITS + swell,
		bottom: bottom * UNITS + swell,
	};
}

/** How far a bar seen from the front runs past the hands. */
const BAR_ENDS = 0.12;

/** Half the width of a beam seen end on. */
const BEAM_HALF = 0.042;

/** What one body is drawn from: the outlines of its parts, as the `d` of their paths, in the order of drawing. */
export interface BodyParts {
	/** Far limbs where they are not hidden behind near ones; always empty from the front. */
	readonly farLeg: string;
	readonly farArm: string;
	readonly trunk: string;
	readonly leg: string;
	readonly legRoot: string;
	readonly arm: string;
	readonly armRoot: string;
	readonly head: string;
	/** Two eyes where the body faces the viewer. */
	readonly eyes: string;
}

/** The outlines of a body, its x shifted by `dx` drawing units; its ground is y = 0. */
export function bodyParts(pose: Pose, dx: number, hair = true): BodyParts {
	const { left, right } = pose;
	const toPage = ({ x, y, r }: Disc): Disc => ({ x: x * UNITS + dx, y: -y * UNITS, r: r * UNITS });
	const fromSide = pose.view === "side";
	const sides = fromSide ? [right] : [left, right];
	return {
		farLeg: fromSide && differ(left.leg, right.leg) ? legPath(left, toPage, FAR_SHARE, 0) : "",
		farArm: fromSide && differ(left.arm, right.arm) ? armPath(left, toPage, FAR_SHARE, 0) : "",
		trunk: fromSide ? trunkFromSide(pose, toPage) : trunkFromFront(pose, toPage),
		leg: sides.map((side) => legPath(side, toPage, 1, ROOT.from)).join(""),
		legRoot: sides.map(({ leg }) => rootPath(leg.hip, leg.knee, toPage)).join(""),
		arm: sides.map((side) => armPath(side, toPage, 1, ROOT.from)).join(""),
		armRoot: sides.map(({ arm }) => rootPath(arm.shoulder, arm.elbow, toPage)).join(""),
		head: headPath(pose, toPage, hair),
		eyes: fromSide ? "" : eyesPath(pose, toPage),
	};
}

/** So many drawing units are one where bodies are placed by parts: a fifth of a pixel in a strip, in fewer digits. */
const GRID = 5;

/**
 * A body's elements where a page has many: each part is drawn once along an axis of its own, since limbs are
 * bent in few ways, and the body places it. Half of what a page's bodies weigh. Styles give the body its ink
 * and its size (`body` and `far` in site.css).
 *
 * @param nameOf takes an element that is drawn once and gives the id to place it by
 */
export function placeParts(
	pose: Pose,
	dx: number,
	helps: boolean,
	nameOf: (element: string) => string,
): string {
	const { left, right, hip, chest, head, nose } = pose;
	const fromSide = pose.view === "side";
	const place = (from: Point, to: Point, drawn: (toPage: ToPage) => string, more = ""): string => {
		const way = Math.atan2(from.y - to.y, to.x - from.x);
		const units = UNITS / GRID;
		const [cosine, sine] = [Math.cos(way) * units, Math.sin(way) * units];
		const name = nameOf(
			drawn(({ x, y, r }) => ({
				x: (x - from.x) * cosine - (y - from.y) * sine,
				y: (from.x - x) * sine - (y - from.y) * cosine,
				r: r * units,
			})),
		);
		const at = pair(rounded({ x: from.x * units + dx / GRID, y: -from.y * units }));
		const moved = at === "0 0" ? "" : `translate(${at})`;
		return `<use${more} href="#${name}" transform="${moved}rotate(${tenth((way * 180) / Math.PI)})"/>`;
	};
	const path = (d: string, more = ""): string => `<path${more} d="${d}"/>`;
	/** A limb's first outline, its upper half, is the same in many: drawn under the rest, and over it without a rim. */
	const rooted = (d: string, from: Disc, to: Disc): string => {
		const once = (part: string, more?: string): string => `<use href="#${nameOf(path(part, more))}"/>`;
		const [upper = "", ...rest] = d.split(/(?<=z)/);
		return `<g>${once(upper)}${path(rest.join(""))}${once(segment(from, to), ' stroke="none"')}</g>`;
	};
	const neck = turned({ head, nose }, chest, Math.atan2(chest.y - hip.y, chest.x - hip.x), 10);
	const far = ' class="far"';
	const farLeg = (toPage: ToPage): string => path(legPath(left, toPage, FAR_SHARE, 0));
	const farArm = (toPage: ToPage): string => path(armPath(left, toPage, FAR_SHARE, 0));
	const sides = fromSide ? [right] : [left, right];
	const legs = sides.map((side) =>
		place(side.leg.hip, side.leg.knee, (toPage) =>
			rooted(legPath(side, toPage, 1, ROOT.from), toPage(side.leg.hip), toPage(side.leg.knee)),
		),
	);
	const arms = sides.map((side) =>
		place(side.arm.shoulder, side.arm.elbow, (toPage) =>
			rooted(armPath(side, toPage, 1, ROOT.from), toPage(side.arm.shoulder), toPage(side.arm.elbow)),
		),
	);
	return [
		`<g class="body${helps ? " far" : ""}">`,
		fromSide && differ(left.leg, right.leg) ? place(left.leg.hip, left.leg.knee, farLeg, far) : "",
		fromSide && differ(left.arm, right.arm) ? place(left.arm.shoulder, left.arm.elbow, farArm, far) : "",
		place(hip, chest, (toPage) =>
			path(fromSide ? trunkFromSide({ ...pose, ...neck }, toPage) : trunkFromFront(pose, toPage)),
		),
		...legs,
		...arms,
		fromSide
			? place(head, nose, (toPage) => path(headPath(pose, toPage, !helps)))
			: place(head, chest, (toPage) => {
					const eyes = path(eyesPath(pose, toPage), ` fill="${PAPER}" stroke="none"`);
					return `<g>${path(headPath(pose, toPage, !helps))}${eyes}</g>`;
				}),
		"</g>",
	].join("");
}

/**
 * A body whose hair, neck, hands and feet stand in steps to what they grow out of, so that many bodies have
 * the same ones; by less than half a pixel in a strip, but for hair, and that stays as it is where it lies.
 */
export function inSteps(pose: Pose): Pose {
	const { head, nose, tail } = pose;
	const root = hairRoot(pose);
	const way = (from: Point, to: Point): number => Math.atan2(to.y - from.y, to.x - from.x);
	const side = ({ arm, leg }: Side): Side => ({
		arm: { ...arm, ...turned({ fingers: arm.fingers }, arm.wrist, way(arm.elbow, arm.wrist), 4) },
		leg: { ...leg, ...turned({ toe: leg.toe, heel: leg.heel }, leg.ankle, way(leg.knee, leg.ankle), 4) },
	});
	return {
		...pose,
		left: side(pose.left),
		right: side(pose.right),
		...(tail.y < 2 * tail.r ? {} : turned({ tail }, root, way(head, nose), 15)),
	};
}

/** Joints turned about another, so that the first stands at a whole number of steps of so many degrees to a way. */
function turned<Joints extends Readonly<Record<string, Disc>>>(
	joints: Joints,
	{ x, y }: Point,
	way: number,
	degrees: number,
): Joints {
	const [first = { x, y }] = Object.values(joints);
	const step = (degrees * Math.PI) / 180;
	const angle = Math.atan2(first.y - y, first.x - x) - way;
	const more = step * Math.round(angle / step) - angle;
	const [cosine, sine] = [Math.cos(more), Math.sin(more)];
	const turn = (one: Disc): Disc => ({
		...one,
		x: x + (one.x - x) * cosine - (one.y - y) * sine,
		y: y + (one.x - x) * sine + (one.y - y) * cosine,
	});
	return Object.fromEntries(Object.entries(joints).map(([name, one]) => [name, turn(one)])) as Joints;
}

/** Attributes of the two layers of a body: far limbs, and everything nearer. */
export const FAR_LAYER = { fill: FAR, stroke: PAPER, "stroke-width": 2 * RIM, "paint-order": "stroke" };
export const NEAR_LAYER = { fill: INK, stroke: PAPER, "stroke-width": 2 * RIM, "paint-order": "stroke" };

const FAR_OPEN = `<g class="figure-far"${attributes(FAR_LAYER)}>`;
const NEAR_OPEN = `<g class="figure-near"${attributes(NEAR_LAYER)}>`;

function attributes(values: Readonly<Record<string, string | number>>): string {
	return Object.entries(values)
		.map(([name, value]) => ` ${name}="${value}"`)
		.join("");
}

/** The body's elements and what its hands hold, its x shifted by `dx` drawing units; its ground is y = 0. */
export function drawBody(pose: Pose, dx: number): string {
	return drawParts(pose, dx) + drawHold(pose, dx);
}

/** The body's elements alone; all in the lighter tone, and without tied hair, for who helps. */
export function drawParts(pose: Pose, dx: number, helps = false): string {
	const { farLeg, farArm, trunk, leg, legRoot, arm, armRoot, head, eyes } = bodyParts(pose, dx, !helps);
	const part = (name: string, d: string): string =>
		d === "" ? "" : `<path class="figure-${name}" d="${d}"/>`;
	const far = part("leg", farLeg) + part("arm", farArm);
	return (
		(far === "" ? "" : `${FAR_OPEN}${far}</g>`) +
		`${helps ? FAR_OPEN : NEAR_OPEN}${part("trunk", trunk)}` +
		`${part("leg", leg)}<path stroke="none" d="${legRoot}"/>` +
		`${part("arm", arm)}<path stroke="none" d="${armRoot}"/>${part("head", head)}` +
		`${eyes === "" ? "" : `<path class="figure-eyes" fill="${PAPER}" stroke="none" d="${eyes}"/>`}</g>`
	);
}

/** The bar, beam, rails or block under or over the hands; the ground is the caller's. */
export function drawHold(pose: Pose, dx: number): string {
	const { support } = pose;
	if (!("y" in support) || support.kind === "rope") return "";
	const left = Math.round(support.left * UNITS + dx);
	const right = Math.round(support.right * UNITS + dx);
	const y = Math.round(-support.y * UNITS);
	const line = `fill="${PAPER}" stroke="${INK}" stroke-width="36" stroke-linejoin="round"`;
	if (support.kind === "block")
		return `<path class="figure-block" ${line} d="M${left} ${y}H${right}V0H${left}z"/>`;
	if (support.kind === "beam") return drawBeamEnd(Math.round((left + right) / 2), y, 0);
	if (support.kind === "rails") {
		const [a, b] = [left - 60, right + 60];
		return `<path class="figure-rails" fill="none" stroke="${INK}" stroke-width="50" stroke-linecap="round" d="M${a} ${y + 25}H${b}M${a + 60} ${y + 25}V0M${b - 60} ${y + 25}V0"/>`;
	}
	if (pose.view === "side") {
		return `<circle class="figure-bar" ${line} cx="${Math.round((left + right) / 2)}" cy="${y}" r="${Math.round(RADII.bar * UNITS - 20)}"/>`;
	}
	const ends = BAR_ENDS * UNITS - 40;
	return `<path class="figure-bar" stroke="${INK}" stroke-width="80" stroke-linecap="round" d="M${Math.round(left - ends)} ${y}H${Math.round(right + ends)}"/>`;
}

/** A bar along its length, on two uprights: behind bodies on it, which show where its end would be seen. */
export function drawLongBar(
	{ left, right }: { readonly left: number; readonly right: number },
	height: number,
	floor: number,
	rungs: readonly number[] = [],
	name = "long-bar",
): string {
	const [a, b] = [Math.round(left), Math.round(right)];
	const top = Math.round(-height * UNITS);
	const lines = [top, ...rungs].map((y) => `M${a} ${y}H${b}`).join("");
	return (
		`<path class="figure-${name}" fill="none" stroke="${FAR}" stroke-width="48" ` +
		`d="${lines}M${a} ${top - 40}V${Math.round(floor)}M${b} ${top - 40}V${Math.round(floor)}"/>`
	);
}

/**
 * The uprights of the bar that a body hangs or presses on, down to a floor in drawing units, with feet
 * where they reach it: one where the bar is seen end on. Fine, since they stand behind the body.
 */
export function drawUprights({ support, view }: Pose, dx: number, floor: number): string {
	if (support.kind !== "bar") return "";
	const y = Math.round(-support.y * UNITS);
	const left = support.left * UNITS + dx;
	const right = support.right * UNITS + dx;
	const ends = BAR_ENDS * UNITS - 40;
	const at = view === "side" ? [(left + right) / 2] : [left - ends, right + ends];
	const foot = floor === 0 ? "m-110 0h220" : "";
	return `<path class="figure-upright" fill="none" stroke="${INK}" stroke-width="24" stroke-opacity=".5" d="${at
		.map((x) => `M${Math.round(x)} ${y}V${Math.round(floor)}${foot}`)
		.join("")}"/>`;
}

/** A beam seen end on, on its foot: its top at `y`, its foot at `floor`, in drawing units. */
export function drawBeamEnd(x: number, y: number, floor: number): string {
	const half = Math.round(BEAM_HALF * UNITS);
	const under = y + 2 * half;
	return (
		`<path class="figure-beam" fill="${PAPER}" stroke="${INK}" stroke-width="36" stroke-linejoin="round" ` +
		`d="M${x - half} ${y + 20}h${2 * half}V${under}h${-2 * half}zM${x} ${under}V${floor}M${x - 2 * half} ${floor}h${4 * half}"/>`
	);
}

/** Whether two limbs are drawn apart by more than a line's width anywhere. */
function differ<Limb extends Arm | Leg>(a: Limb, b: Limb): boolean {
	const discsOfB: readonly Disc[] = Object.values(b);
	return Object.values(a).some((disc: Disc, i) => {
		const other = discsOfB[i] ?? disc;
		return Math.abs(disc.x - other.x) + Math.abs(disc.y - other.y) > 0.005;
	});
}

type ToPage = (disc: Disc) => Disc;

/** The disc a share of the way from one to another. */
function between(a: Disc, b: Disc, share: number): Disc {
	return {
		x: a.x + share * (b.x - a.x),
		y: a.y + share * (b.y - a.y),
		r: a.r + share * (b.r - a.r),
	};
}

/** An arm, `share` as thick as a near one, from a share `from` of the way down its upper arm. */
function armPath({ arm }: Side, toPage: ToPage, share: number, from: number): string {
	const at = (disc: Disc): Disc => toPage({ ...disc, r: disc.r * share });
	const elbow = at(arm.elbow);
	const wrist = at(arm.wrist);
	const fingers = at(arm.fingers);
	// The palm is broader than the wrist.
	const palm = at({ ...between(arm.wrist, arm.fingers, 0.42), r: 0.021 });
	return (
		segment(between(at(arm.shoulder), elbow, from), elbow) +
		segment(elbow, wrist, true) +
		segment(wrist, palm, true) +
		segment(palm, fingers, true)
	);
}

/** A leg, as `armPath`: the calf is behind the shank, and the foot has a heel and a toe. */
function legPath({ leg }: Side, toPage: ToPage, share: number, from: number): string {
	const at = (disc: Disc): Disc => toPage({ ...disc, r: disc.r * share });
	// The foot keeps its size: its sole has to stand on the floor.
	const toe = toPage(leg.toe);
	const heel = toPage(leg.heel);
	const knee = at(leg.knee);
	const ankle = at(leg.ankle);
	const calf = { ...calfOf(leg), r: 0.031 * share };
	return (
		segment(between(at(leg.hip), knee, from), knee) +
		segment(knee, ankle, true) +
		footPath(ankle, heel, toe) +
		segment(ankle, toPage(calf), true)
	);
}

/** One outline from the side; from the front a foot is as good as a line. */
function footPath(ankle: Disc, heel: Disc, toe: Disc): string {
	const wide = (heel.x - ankle.x) * (toe.y - ankle.y) - (heel.y - ankle.y) * (toe.x - ankle.x);
	if (Math.abs(wide) > 2 * ankle.r ** 2) return hull(wide < 0 ? [ankle, heel, toe] : [ankle, toe, heel]);
	return segment(ankle, toe, true) + segment(heel, toe) + segment(ankle, heel, true);
}

/** The middle of the calf: a third of the way down the shank, towards the heel. */
function calfOf({ knee, ankle, heel, toe }: Leg): Point {
	const long = Math.hypot(toe.x - heel.x, toe.y - heel.y);
	const back = long === 0 ? 0 : 0.008 / long;
	const at = between(knee, ankle, 0.32);
	return { x: at.x + (heel.x - toe.x) * back, y: at.y + (heel.y - toe.y) * back };
}

/** The head from the side, facing where the nose is, with a chin and tied hair; from the front with a bun. */
function headPath(pose: Pose, toPage: ToPage, hair: boolean): string {
	const { head, nose, tail, view } = pose;
	const root = hairRoot(pose);
	if (view === "front") return circle(toPage(head)) + (hair ? circle(toPage({ ...root, r: 0.026 })) : "");
	const bridge = { ...between(head, nose, 0.62), r: 0.019 };
	const away = { x: root.x - head.x, y: root.y - head.y };
	// Opposite to where the hair is tied, a little in front.
	const chin = { ...between(head, nose, 0.42), r: 0.022 };
	const jaw = { x: chin.x - 0.48 * away.x, y: chin.y - 0.48 * away.y, r: chin.r };
	const lock = { ...between(root, tail, 0.6), r: 0.026 };
	return (
		circle(toPage(head)) +
		segment(toPage(bridge), toPage(nose), true) +
		segment(toPage({ ...head, r: 0.05 }), toPage(jaw), true) +
		(hair ? segment(toPage(root), toPage(lock), true) + segment(toPage(lock), toPage(tail), true) : "")
	);
}

function eyesPath({ head, chest }: Pose, toPage: ToPage): string {
	const tall = Math.hypot(head.x - chest.x, head.y - chest.y) || 1;
	const up = { x: (head.x - chest.x) / tall, y: (head.y - chest.y) / tall };
	return [-0.024, 0.024]
		.map((out) => circle(toPage({ x: head.x + out * up.y, y: head.y - out * up.x, r: 0.009 })))
		.join("");
}

/**
 * The outline of two discs and the two lines that touch both; one disc where it covers the other.
 *
 * @param open where another part covers the first disc, its end is a straight line, which is shorter to write
 */
function segment(a: Disc, b: Disc, open = false): string {
	const dx = b.x - a.x;
	const dy = b.y - a.y;
	const distance = Math.hypot(dx, dy);
	if (distance <= Math.abs(a.r - b.r) + 0.5) return circle(a.r > b.r ? a : b);
	const angle = Math.atan2(dy, dx);
	const wide = Math.acos((a.r - b.r) / distance);
	const start = on(a, angle + wide);
	const [there, back, end] = [on(b, angle + wide), on(b, angle - wide), on(a, angle - wide)];
	return (
		`M${pair(start)}l${pair(step(start, there))}${arcTo(b, 2 * wide, there, back)}l${pair(step(back, end))}` +
		`${open ? "" : arcTo(a, 2 * Math.PI - 2 * wide, end, start)}z`
	);
}

/** Where a limb grows out of the trunk. */
function rootPath(from: Disc, to: Disc, toPage: ToPage): string {
	return segment(toPage(from), toPage(between(from, to, ROOT.to)));
}

/** The point of a disc's edge in a direction, in whole units. */
function on({ x, y, r }: Disc, angle: number): Point {
	return rounded({ x: x + r * Math.cos(angle), y: y + r * Math.sin(angle) });
}

/** Along a disc's edge, anticlockwise on the page, over `extent` radians. */
function arcTo(disc: Disc, extent: number, from: Point, to: Point): string {
	const r = Math.round(disc.r);
	return `a${r} ${r} 0 ${extent > Math.PI ? 1 : 0} 0 ${pair(step(from, to))}`;
}

const step = (from: Point, to: Point): Point => ({ x: to.x - from.x, y: to.y - from.y });

const rounded = ({ x, y }: Point): Point => ({ x: Math.round(x), y: Math.round(y) });

/** Two numbers as short as a path takes them. */
function pair({ x, y }: Point): string {
	return y < 0 ? `${x}${y}` : `${x} ${y}`;
}

function circle({ x, y, r }: Disc): string {
	const d = Math.round(r);
	return `M${Math.round(x - r)} ${Math.round(y)}a${d} ${d} 0 0 0 ${2 * d} 0a${d} ${d} 0 0 0 ${-2 * d} 0z`;
}

/**
 * Half the trunk's thickness in statures, to the front and to the back, at shares of the way from the hip to
 * the shoulder joint: a seat, a waist, a chest, shoulders. Chosen for the drawing; what lies on the floor
 * stays within the discs that the body is set down by.
 */
const PROFILE: readonly (readonly [at: number, front: number, back: number])[] = [
	[-0.1, 0.03, 0.036],
	[0.04, 0.049, 0.055],
	[0.22, 0.048, 0.053],
	[0.44, 0.044, 0.042],
	[0.66, 0.05, 0.045],
	[0.83, 0.058, 0.05],
	[0.98, 0.046, 0.047],
	[1.07, 0.02, 0.03],
];

/** The trunk along its curve, and the neck up to the head. */
function trunkFromSide(pose: Pose, toPage: ToPage): string {
	const { hip, chest, head, nose } = pose;
	const facing = (head.x - chest.x) * (nose.y - head.y) - (head.y - chest.y) * (nose.x - head.x) > 0 ? -1 : 1;
	const spine = spineOf(pose);
	const edge = (at: number, out: number): Disc => {
		const { x, y, turn } = spine(at);
		return toPage({ x: x + out * Math.sin(turn), y: y - out * Math.cos(turn), r: 0 });
	};
	const fronts = PROFILE.map(([at, front]) => edge(at, facing * front));
	const backs = PROFILE.map(([at, , back]) => edge(at, -facing * back));
	const neck = { ...between(chest, head, 0.15), r: RADII.neck * 1.15 };
	return (
		smooth([...fronts, ...backs.reverse()]) +
		segment(toPage(neck), toPage({ ...head, r: RADII.neck })) +
		circle(toPage({ ...hip, r: 0.036 }))
	);
}

/** Places along the spine, on from its ends straight, and the direction up it there. */
function spineOf({ hip, chest, curve }: Pose): (at: number) => Point & { readonly turn: number } {
	const chord = Math.atan2(chest.y - hip.y, chest.x - hip.x);
	// So small a curve is none: its radius would be beyond all numbers.
	const half = Math.abs(curve) < 0.01 ? 0 : (curve * Math.PI) / 360;
	const long = Math.hypot(chest.x - hip.x, chest.y - hip.y);
	const arc = half === 0 ? long : (long * half) / Math.sin(half);
	const radius = half === 0 ? 0 : arc / (2 * half);
	return (at) => {
		const on = Math.max(0, Math.min(1, at));
		const turn = chord + half * (1 - 2 * on);
		const past = (at - on) * arc;
		// An arc of a circle is where its ends' directions have turned the way from one to the other.
		const along = half === 0 ? on * long : radius * (Math.sin(half) - Math.sin(half - 2 * half * on));
		const out = half === 0 ? 0 : radius * (Math.cos(half - 2 * half * on) - Math.cos(half));
		return {
			x: hip.x + along * Math.cos(chord) - out * Math.sin(chord) + past * Math.cos(turn),
			y: hip.y + along * Math.sin(chord) + out * Math.cos(chord) + past * Math.sin(turn),
			turn,
		};
	};
}

/**
 * A closed smooth line through points (Catmull and Rom's spline, as cubic curves). A curve's first handle
 * mirrors the second of the curve before, so only the first curve says its own.
 */
function smooth(points: readonly Disc[]): string {
	const at = (i: number): Point => points.at(i % points.length) ?? { x: 0, y: 0 };
	const slope = (i: number): Point => step(at(i - 1), at(i + 1));
	const [start, out] = [rounded(at(0)), slope(0)];
	let d = `M${pair(start)}c${pair(rounded({ x: out.x / 6, y: out.y / 6 }))}`;
	let from = start;
	for (let i = 1; i <= points.length; i++) {
		const [to, into] = [rounded(at(i)), slope(i)];
		const handle = rounded({ x: at(i).x - into.x / 6, y: at(i).y - into.y / 6 });
		d += `${i === 1 ? " " : "s"}${pair(step(from, handle))} ${pair(step(from, to))}`;
		from = to;
	}
	return `${d}z`;
}

/** From the front: shoulders to hips, and the neck. */
function trunkFromFront({ left, right, chest, head }: Pose, toPage: ToPage): string {
	const corners = [left.arm.shoulder, right.arm.shoulder, right.leg.hip, left.leg.hip];
	return (
		hull(corners.map(toPage)) +
		segment(toPage({ ...chest, r: RADII.neck }), toPage({ ...head, r: RADII.neck }))
	);
}

/** The outline around discs that stand in anticlockwise order on the page, none inside another. */
function hull(discs: readonly Disc[]): string {
	const sides = discs.map((a, i) => {
		const b = discs[(i + 1) % discs.length] ?? a;
		const angle = Math.atan2(b.y - a.y, b.x - a.x);
		return { a, b, out: angle + Math.acos((a.r - b.r) / Math.hypot(b.x - a.x, b.y - a.y)) };
	});
	const first = sides[0];
	if (first === undefined) return "";
	const start = on(first.a, first.out);
	let at = start;
	const path = sides.map(({ b, out }, i) => {
		const next = sides[(i + 1) % sides.length] ?? first;
		const r = Math.round(b.r);
		const [to, past] = [on(b, out), on(b, next.out)];
		const line = `l${pair(step(at, to))}a${r} ${r} 0 0 0 ${pair(step(to, past))}`;
		at = past;
		return line;
	});
	return `M${pair(start)}${path.join("")}z`;
}
