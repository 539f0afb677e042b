/**
 * The angles that figures are drawn from, as tables: of one shape, and of all side by side.
 */

import { sideAngles } from "../../scripts/figures/pose.ts";
import type { LinkedShape, SideAngles } from "../../scripts/model.ts";
import { type Html, type HtmlValue, html } from "../../scripts/views/html.ts";
import type { DrawnAs, ShapesView, ShapeView } from "../../scripts/views/shape.ts";
import { scrollTable } from "./measure-parts.ts";
import { a, type PageContext, section } from "./page.ts";

const JOINTS = ["shoulder", "elbow", "hip", "knee", "ankle"] as const satisfies readonly (keyof SideAngles)[];

/** The position a shape is drawn in, in words. */
function positionOf({ words: { angles: say } }: PageContext, { position }: DrawnAs): string {
	if (position === undefined) return say.legsDiffer;
	const name = say.positions[position.position];
	return position.straddle ? say.straddled(name) : name;
}

/** One angle for both sides, or left and right where they differ. */
function angleOf(
	{ words: { angles: say } }: PageContext,
	shape: LinkedShape,
	joint: keyof SideAngles,
): HtmlValue {
	const left = sideAngles(shape, "left")[joint];
	const right = sideAngles(shape, "right")[joint];
	return left === right ? degrees(left) : html`${say.left(degrees(left))}<br>${say.right(degrees(right))}`;
}

function degrees(value = 0): string {
	return `${value < 0 ? "−" : ""}${Math.abs(value)}°`;
}

/** A part with the angles of one shape; nothing where it has none. */
export function anglesOfShape(ctx: PageContext, { shape, drawnAs }: ShapeView): Html | undefined {
	if (shape.angles === undefined) return undefined;
	const { spread = 0, trunk = 0, neck } = shape.angles;
	const say = ctx.words.angles;
	const rows: readonly (readonly [string, HtmlValue, string])[] = [
		...JOINTS.map(
			(joint) => [say.joints[joint].name, angleOf(ctx, shape, joint), say.joints[joint].what] as const,
		),
		[say.spread.name, degrees(spread), say.spread.what],
		[say.trunk.name, degrees(trunk), say.trunk.what],
		...(neck === undefined ? [] : [[say.neck.name, degrees(neck), say.neck.what] as const]),
		[say.lean.name, degrees(shape.tilt), say.lean.what],
	];
	return section("angles", say.title, [
		scrollTable(
			say.table,
			[say.joint, say.degrees, html`<span class="left">${say.measured}</span>`],
			rows.map(
				([name, size, what]) =>
					html`<tr><th scope="row">${name}</th><td>${size}</td><td class="left">${what}</td></tr>`,
			),
		),
		html`<p>${say.carriedAndDrawn(say.carried[shape.base], positionOf(ctx, drawnAs))}</p>`,
		bordersNote(ctx, drawnAs),
	]);
}

/** A part with the angles of all shapes, in the club's order; nothing where none has any. */
export function anglesOfShapes(ctx: PageContext, { shapes }: ShapesView): Html | undefined {
	const drawn = shapes.filter(({ shape }) => shape.angles !== undefined);
	const [first] = drawn;
	if (first === undefined) return undefined;
	const say = ctx.words.angles;
	return section("angles", say.titleOfAll, [
		scrollTable(
			say.tableOfAll,
			[
				ctx.words.things.shape.one,
				...JOINTS.map((joint) => say.joints[joint].name),
				say.spread.name,
				say.trunk.name,
				say.lean.name,
				html`<span class="left">${say.carriedBy}</span>`,
				html`<span class="left">${say.drawnAs}</span>`,
			],
			drawn.map(({ shape, link, drawnAs }) => {
				const joints = JOINTS.map((joint) => html`<td>${angleOf(ctx, shape, joint)}</td>`);
				return html`<tr><th scope="row">${a(ctx, link)}</th>${joints}<td>${degrees(shape.angles?.spread)}</td><td>${degrees(shape.angles?.trunk)}</td><td>${degrees(shape.tilt)}</td><td class="left">${say.carried[shape.base]}</td><td class="left">${positionOf(ctx, drawnAs)}</td></tr>`;
			}),
		),
		html`<p>${say.addOne(html`<code>_data/shapes.yaml</code>`, a(ctx, { to: "author-guide/", name: say.authorGuide }))}</p>`,
		bordersNote(ctx, first.drawnAs),
	]);
}

function bordersNote({ words }: PageContext, { borders }: DrawnAs): Html {
	return html`<p class="small source">${words.angles.borders(borders.trampoline, borders.straddle)}</p>`;
}
