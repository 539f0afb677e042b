/**
 * Draws one posed body as SVG elements: the part that single figures and strips share.
 *
 *   1. discs → outlines: two discs and the straight sides that touch both make a limb's segment
 *   2. far limbs as outlines, then trunk and head, then near limbs over them, each with a thin rim of
 *      paper so that a limb in front of the body stays readable without any colour
 *   3. what carries the body
 *
 * Ink is `currentColor`; paper is `--figure-paper`, else the page's own canvas colour, so a figure
 * follows dark mode and print. Nothing needs a style sheet.
 */

import { INK, PAPER } from "./markup.ts";
import { type Arm, type Disc, discsOf, type Leg, type Pose, type Side } from "./pose.ts";
import { RADII } from "./segments.ts";

/** Drawing units in one stature: many, so that whole numbers place a joint well enough. */
export const UNITS = 2000;

/** Half the width of the rim of paper around near parts, and of the line around far ones. */
const RIM = 20;
const FAR_LINE = 22;
/** Far limbs are this much thinner than near ones. */
const FAR_SHARE = 0.8;

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
	for (const { x, y, r } of discsOf(pose)) {
		left = Math.min(left, x - r);
		right = Math.max(right, x + r);
		top = Math.min(top, -y - r);
		bottom = Math.max(bottom, -y + r);
	}
	const { support } = pose;
	if ("y" in support) {
		const out = { bar: pose.view === "side" ? RADII.bar : BAR_ENDS, block: 0, beam: BEAM_HALF, rails: 0.05 }[
			support.kind
		];
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

/** What one body is drawn from: the outlines of its parts, as the `d` of their paths. */
export interface BodyParts {
	/** Far limbs where they are not hidden behind near ones; always empty from the front. */
	readonly farLeg: string;
	readonly farArm: string;
	readonly trunk: string;
	readonly head: { readonly cx: number; readonly cy: number; readonly r: number };
	readonly leg: string;
	readonly legRoot: string;
	readonly arm: string;
	readonly armRoot: string;
}

/** The outlines of a body, its x shifted by `dx` drawing units; its ground is y = 0. */
export function bodyParts(pose: Pose, dx: number): BodyParts {
	const { left, right } = pose;
	const toPage = ({ x, y, r }: Disc): Disc => ({ x: x * UNITS + dx, y: -y * UNITS, r: r * UNITS });
	const fromSide = pose.view === "side";
	const sides = fromSide ? [right] : [left, right];
	const root = (a: Disc, b: Disc): string => segment(toPage(a), toPage(between(a, b, ROOT.to)));
	const head = toPage(pose.head);
	return {
		farLeg: fromSide && differ(left.leg, right.leg) ? legPath(left, toPage, FAR_SHARE, 0) : "",
		farArm: fromSide && differ(left.arm, right.arm) ? armPath(left, toPage, FAR_SHARE, 0) : "",
		trunk: fromSide ? trunkFromSide(pose, toPage) : trunkFromFront(pose, toPage),
		head: { cx: Math.round(head.x), cy: Math.round(head.y), r: Math.round(head.r) },
		leg: sides.map((side) => legPath(side, toPage, 1, ROOT.from)).join(""),
		legRoot: sides.map(({ leg }) => root(leg.hip, leg.knee)).join(""),
		arm: sides.map((side) => armPath(side, toPage, 1, ROOT.from)).join(""),
		armRoot: sides.map(({ arm }) => root(arm.shoulder, arm.elbow)).join(""),
	};
}

/** Attributes of the two layers of a body: far limbs, and everything nearer. */
export const FAR_LAYER = { fill: PAPER, stroke: INK, "stroke-width": 2 * FAR_LINE, "paint-order": "stroke" };
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
	const { farLeg, farArm, trunk, head, leg, legRoot, arm, armRoot } = bodyParts(pose, dx);
	const limb = (name: string, d: string): string =>
		d === "" ? "" : `<path class="figure-${name}" d="${d}"/>`;
	const far = limb("leg", farLeg) + limb("arm", farArm);
	return (
		(far === "" ? "" : `${FAR_OPEN}${far}</g>`) +
		`${NEAR_OPEN}<path class="figure-trunk" d="${trunk}"/>` +
		`<circle class="figure-head" cx="${head.cx}" cy="${head.cy}" r="${head.r}"${pose.view === "side" ? "" : ' stroke="none"'}/>` +
		`${limb("leg", leg)}<path stroke="none" d="${legRoot}"/>` +
		`${limb("arm", arm)}<path stroke="none" d="${armRoot}"/></g>` +
		drawHold(pose, dx)
	);
}

/** The bar, beam, rails or block under or over the hands; the ground is the caller's. */
export function drawHold(pose: Pose, dx: number): string {
	const { support } = pose;
	if (!("y" in support)) return "";
	const left = Math.round(support.left * UNITS + dx);
	const right = Math.round(support.right * UNITS + dx);
	const y = Math.round(-support.y * UNITS);
	const line = `fill="${PAPER}" stroke="${INK}" stroke-width="40" stroke-linejoin="round"`;
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
		`<path class="figure-beam" fill="${PAPER}" stroke="${INK}" stroke-width="40" stroke-linejoin="round" ` +
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
	return (
		segment(between(at(arm.shoulder), elbow, from), elbow) +
		segment(elbow, wrist) +
		segment(wrist, at(arm.fingers))
	);
}

/** A leg, as `armPath`. */
function legPath({ leg }: Side, toPage: ToPage, share: number, from: number): string {
	const at = (disc: Disc): Disc => toPage({ ...disc, r: disc.r * share });
	// The foot keeps its size: its sole has to stand on the floor.
	const toe = toPage(leg.toe);
	const knee = at(leg.knee);
	const ankle = at(leg.ankle);
	return (
		segment(between(at(leg.hip), knee, from), knee) +
		segment(knee, ankle) +
		segment(ankle, toe) +
		segment(toPage(leg.heel), toe)
	);
}

/** The outline of two discs and the two lines that touch both; one disc where it covers the other. */
function segment(a: Disc, b: Disc): string {
	const dx = b.x - a.x;
	const dy = b.y - a.y;
	const distance = Math.hypot(dx, dy);
	if (distance <= Math.abs(a.r - b.r) + 0.5) return circle(a.r > b.r ? a : b);
	const angle = Math.atan2(dy, dx);
	const open = Math.acos((a.r - b.r) / distance);
	return (
		`M${on(a, angle + open)}L${on(b, angle + open)}` +
		`${arcTo(b, 2 * open, angle - open)}L${on(a, angle - open)}` +
		`${arcTo(a, 2 * Math.PI - 2 * open, angle + open)}z`
	);
}

/** The point of a disc's edge in a direction. */
function on(disc: Disc, angle: number): string {
	return `${Math.round(disc.x + disc.r * Math.cos(angle))} ${Math.round(disc.y + disc.r * Math.sin(angle))}`;
}

/** Along a disc's edge, anticlockwise on the page, over `extent` radians to a direction. */
function arcTo(disc: Disc, extent: number, angle: number): string {
	const r = Math.round(disc.r);
	return `A${r} ${r} 0 ${extent > Math.PI ? 1 : 0} 0 ${on(disc, angle)}`;
}

function circle({ x, y, r }: Disc): string {
	const d = Math.round(r);
	return `M${Math.round(x - r)} ${Math.round(y)}a${d} ${d} 0 0 0 ${2 * d} 0a${d} ${d} 0 0 0 ${-2 * d} 0z`;
}

/** Shares of the discs at the trunk's ends. */
const WAIST = 0.82;
const RIBS = 1.42;

/** The trunk along its curve: round at both ends, narrow at the waist, full at the chest. */
function trunkFromSide(pose: Pose, toPage: ToPage): string {
	const hip = toPage(pose.hip);
	const chest = toPage(pose.chest);
	const chord = Math.atan2(chest.y - hip.y, chest.x - hip.x);
	const half = ((pose.curve / 2) * Math.PI) / 180;
	// On the page y runs down, so a rounded back turns clockwise on its way up.
	const start = chord - half;
	const end = chord + half;
	const length = Math.hypot(chest.x - hip.x, chest.y - hip.y);
	// Handles of a cubic curve that follows the arc; the two sides run inside and outside of it.
	const handle = half === 0 ? length / 3 : ((2 / 3) * length * Math.tan(half / 2)) / Math.sin(half);
	const radius = half === 0 ? Number.POSITIVE_INFINITY : length / (2 * Math.sin(half));
	const sideHandle = (offset: number): number => handle * (1 + offset / radius);
	const control = (disc: Disc, along: number, direction: number, across: number): string => {
		const x = disc.x + along * Math.cos(direction) + across * Math.cos(direction + Math.PI / 2);
		const y = disc.y + along * Math.sin(direction) + across * Math.sin(direction + Math.PI / 2);
		return `${Math.round(x)} ${Math.round(y)}`;
	};
	const waist = WAIST * hip.r;
	const ribs = RIBS * chest.r;
	const quarter = Math.PI / 2;
	return (
		`M${on(hip, start + quarter)}` +
		`C${control(hip, sideHandle(-waist), start, waist)} ${control(chest, -sideHandle(-ribs), end, ribs)} ${on(chest, end + quarter)}` +
		`${arcTo(chest, Math.PI, end - quarter)}` +
		`C${control(chest, -sideHandle(ribs), end, -ribs)} ${control(hip, sideHandle(waist), start, -waist)} ${on(hip, start - quarter)}` +
		`${arcTo(hip, Math.PI, start + quarter)}z`
	);
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
	const path = sides.map(({ b, out }, i) => {
		const next = sides[(i + 1) % sides.length] ?? first;
		const r = Math.round(b.r);
		return `L${on(b, out)}A${r} ${r} 0 0 0 ${on(b, next.out)}`;
	});
	return `M${on(first.a, first.out)}${path.join("")}z`;
}
