/**
 * The angles that figures are drawn from, as tables: of one shape, and of all side by side.
 */

import { sideAngles } from "../../scripts/figures/pose.ts";
import { classify, STRADDLE_BORDER, TRAMPOLINE_BORDER } from "../../scripts/link/classify.ts";
import type { Base, LinkedShape, SideAngles } from "../../scripts/model.ts";
import { type Html, type HtmlValue, html } from "../../scripts/render/html.ts";
import type { Link } from "../../scripts/render/views/links.ts";
import { scrollTable } from "./measure-parts.ts";
import { a, type PageContext, section } from "./page.ts";

const JOINTS: readonly (readonly [keyof SideAngles, string, string])[] = [
	["shoulder", "Shoulder", "arm to trunk: 0 by the side, 180 overhead"],
	["elbow", "Elbow", "upper arm to forearm: 180 straight"],
	["hip", "Hip", "trunk to thigh: 180 straight"],
	["knee", "Knee", "thigh to shank: 180 straight"],
	["ankle", "Ankle", "shank to foot: 90 flexed, 180 pointed"],
];

const CARRIED: Readonly<Record<Base, string>> = {
	feet: "feet",
	hands: "hands",
	"hands-and-feet": "hands and feet",
	head: "head and hands",
	hips: "hips over a bar",
	seat: "seat",
	back: "back",
	front: "front",
	shoulders: "shoulders",
	knees: "knees",
	hang: "hands, hanging",
	air: "nothing, in the air",
};

const BORDERS = `Straight, pike and tuck by the borders of the FIG Trampoline Code of Points, §14.6, 2013–16 (${TRAMPOLINE_BORDER} degrees at hip and knee); straddle from ${STRADDLE_BORDER} degrees between the legs, FIG Aerobic code (edition not known). These are rules for judging another discipline, used here to name a drawing.`;

/** The position a shape is drawn in, in words. */
function positionOf({ angles }: LinkedShape): string {
	const drawn = angles && classify(angles);
	if (drawn === undefined) return "legs differ";
	return drawn.straddle ? `${drawn.position}, straddled` : drawn.position;
}

/** One angle for both sides, or left and right where they differ. */
function angleOf(shape: LinkedShape, joint: keyof SideAngles): HtmlValue {
	const left = sideAngles(shape, "left")[joint];
	const right = sideAngles(shape, "right")[joint];
	return left === right ? degrees(left) : html`${degrees(left)} left<br>${degrees(right)} right`;
}

function degrees(value = 0): string {
	return `${value < 0 ? "−" : ""}${Math.abs(value)}°`;
}

/** A part with the angles of one shape; nothing where it has none. */
export function anglesOfShape(shape: LinkedShape): Html | undefined {
	if (shape.angles === undefined) return undefined;
	const { spread = 0, trunk = 0 } = shape.angles;
	const rows: readonly (readonly [string, HtmlValue, string])[] = [
		...JOINTS.map(([joint, name, what]) => [name, angleOf(shape, joint), what] as const),
		["Legs apart", degrees(spread), "between the legs"],
		["Trunk", degrees(trunk), "curve: positive rounded, negative arched"],
		["Lean", degrees(shape.tilt), "of the trunk: 0 upright, 90 face down, −90 face up, 180 upside down"],
	];
	return section("angles", "Angles", [
		scrollTable(
			"Angles the figure is drawn from",
			["Joint", "Degrees", html`<span class="left">Measured</span>`],
			rows.map(
				([name, size, what]) =>
					html`<tr><th scope="row">${name}</th><td>${size}</td><td class="left">${what}</td></tr>`,
			),
		),
		html`<p>Carried by: ${CARRIED[shape.base]}. Drawn as: ${positionOf(shape)}.</p>`,
		html`<p class="small source">${BORDERS}</p>`,
	]);
}

/** A part with the angles of all shapes, in the club's order; nothing where none has any. */
export function anglesOfShapes(
	ctx: PageContext,
	shapes: readonly { readonly shape: LinkedShape; readonly link: Link }[],
): Html | undefined {
	const drawn = shapes.filter(({ shape }) => shape.angles !== undefined);
	if (drawn.length === 0) return undefined;
	return section("angles", "Their angles", [
		scrollTable(
			"Angles of every shape, degrees",
			[
				"Shape",
				...JOINTS.map(([, name]) => name),
				"Legs apart",
				"Trunk",
				"Lean",
				html`<span class="left">Carried by</span>`,
				html`<span class="left">Drawn as</span>`,
			],
			drawn.map(({ shape, link }) => {
				const joints = JOINTS.map(([joint]) => html`<td>${angleOf(shape, joint)}</td>`);
				return html`<tr><th scope="row">${a(ctx, link)}</th>${joints}<td>${degrees(shape.angles?.spread)}</td><td>${degrees(shape.angles?.trunk)}</td><td>${degrees(shape.tilt)}</td><td class="left">${CARRIED[shape.base]}</td><td class="left">${positionOf(shape)}</td></tr>`;
			}),
		),
		html`<p>A club adds a shape by writing its angles in <code>_data/shapes.yaml</code>; <a href="${ctx.way("author-guide/")}">the author guide</a> says how each is measured.</p>`,
		html`<p class="small source">${BORDERS}</p>`,
	]);
}
