/**
 * Figures of body shapes as pages show them. A shape without angles has no figure, only its name.
 */

import { drawBody, FAR_LAYER, NEAR_LAYER } from "../../scripts/figures/draw-body.ts";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { tenth } from "../../scripts/figures/markup.ts";
import type { Pose, Posture } from "../../scripts/figures/pose.ts";
import { type BodyOfStrip, drawStrip } from "../../scripts/figures/strip.ts";
import {
	type Movement,
	stripCaption,
	stripDescription,
	stripTitle,
	type Wrong,
} from "../../scripts/figures/support.ts";
import type { LinkedShape } from "../../scripts/model.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { Words } from "../../scripts/words/words.ts";
import type { PageContext } from "./page.ts";

/** One shape's figure; `idPrefix` keeps its ids apart from others on the page. */
export function shapeFigure(shape: LinkedShape, idPrefix: string): Html | undefined {
	if (shape.angles === undefined) return undefined;
	return raw(drawFigure(shape, { title: shape.name, description: wordsOf(shape), idPrefix }));
}

/** A shape as it should be, and beside it as a fault has it. */
export function wrongFigures(
	{ figures: say }: Words,
	{ name, ground, right, wrong }: Wrong,
	size = 96,
): Html {
	const drawn = (posture: Posture, mark: "right" | "wrong") =>
		drawFigure(posture, { title: name, description: say.marks[mark], ground, mark, size });
	return raw(drawn(right, "right") + drawn(wrong, "wrong"));
}

/**
 * A drill's phases in order, with their names under them. Classes do the same shapes again and again,
 * so a page draws each body once (`drawnBodies`), and its strips place them.
 */
export function shapeStrip(ctx: PageContext, movement: Movement): Html | undefined {
	if (movement.stances.length === 0) return undefined;
	// How each shape looks is said on the drill's own page; elsewhere its name says which it is.
	const { svg, bodies } = keptStrip(ctx, movement, ctx.page.kind === "drill");
	for (const [id, pose] of bodies) ctx.bodies.set(id, pose);
	return html`<figure class="strip">${raw(svg)}<figcaption>${stripCaption(movement, ctx.words)}</figcaption></figure>`;
}

/** The bodies that the page's strips place, in a picture that takes no room; after all strips are made. */
export function drawnBodies({ bodies }: PageContext): Html | undefined {
	if (bodies.size === 0) return undefined;
	const drawn = Array.from(bodies, ([id, pose]) => `<g id="${id}">${keptBody(pose)}</g>`);
	return raw(
		`<svg class="bodies" width="0" height="0" aria-hidden="true" focusable="false"><defs>${drawn.join("\n")}</defs></svg>`,
	);
}

/** The strips of many pages place the same bodies. */
const keptBodies = new WeakMap<Pose, string>();

function keptBody(pose: Pose): string {
	const known = keptBodies.get(pose);
	if (known !== undefined) return known;
	const drawn = plain(drawBody(pose, 0));
	keptBodies.set(pose, drawn);
	return drawn;
}

/**
 * A figure without the attributes that the site's styles give its parts: a class sheet has thirty strips,
 * and every one would say them again. `figures` in site.css says the same as these.
 */
function plain(svg: string): string {
	let text = svg;
	for (const attributes of STYLED) text = text.replaceAll(attributes, "");
	return text;
}

const LAYER = [FAR_LAYER, NEAR_LAYER].map((layer) =>
	Object.entries(layer)
		.map(([name, value]) => ` ${name}="${value}"`)
		.join(""),
);
const STYLED: readonly string[] = [
	...LAYER,
	' fill="none" stroke="currentColor" stroke-width="20" stroke-dasharray="60 50"',
	' stroke="currentColor" stroke-width="30" stroke-linecap="round"',
	' fill="currentColor" font-size="300" text-anchor="middle"',
	' stroke="currentColor" stroke-width="25" stroke-linecap="round" stroke-linejoin="round"',
	' xmlns="http://www.w3.org/2000/svg"',
];

interface KeptStrip {
	readonly svg: string;
	readonly bodies: ReadonlyMap<string, Pose>;
}

/** Drills share strips, and the same drill comes in many weeks; kept as long as their first shapes are. */
const kept = new WeakMap<object, Map<string, KeptStrip>>();

function keptStrip({ words }: PageContext, movement: Movement, withLooks: boolean): KeptStrip {
	const { stances, inOrder, travel } = movement;
	const first = stances[0]?.shape;
	const strips = first && (kept.get(first) ?? new Map<string, KeptStrip>());
	if (first !== undefined && strips !== undefined) kept.set(first, strips);
	const key = JSON.stringify([
		words.language,
		withLooks,
		inOrder,
		travel,
		stances.map(({ posture, ground, hands, overMat, hung, helpers, shape }) => [
			shape.id,
			posture,
			[ground, hands, overMat, hung],
			helpers,
		]),
	]);
	const known = strips?.get(key);
	if (known !== undefined) return known;

	const bodies = new Map<string, Pose>();
	const place: BodyOfStrip = ({ pose, dx, up, key: look }) => {
		const id = `body-${shortHash(look)}`;
		bodies.set(id, pose);
		return `<use href="#${id}" x="${tenth(dx)}"${up === 0 ? "" : ` y="${tenth(-up)}"`}/>`;
	};
	const named = {
		title: stripTitle(movement, words),
		description: stripDescription(movement, words, withLooks),
	};
	const strip = { svg: plain(drawStrip(movement, named, place)), bodies };
	strips?.set(key, strip);
	return strip;
}

/** A few letters and digits that name a text (FNV-1a and a second hash beside it): the same on every page. */
function shortHash(text: string): string {
	let a = 0x811c9dc5;
	let b = 0x01000193;
	for (let i = 0; i < text.length; i++) {
		a = Math.imul(a ^ text.charCodeAt(i), 0x01000193);
		b = Math.imul(b ^ text.charCodeAt(i), 0x85ebca6b);
	}
	return (a >>> 0).toString(36) + (b >>> 0).toString(36);
}

function wordsOf(shape: LinkedShape): string {
	return shape.description ?? shape.name;
}
