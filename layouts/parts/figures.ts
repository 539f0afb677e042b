/**
 * Figures of body shapes as pages show them. A shape without angles has no figure, only its name.
 */

import { drawHold, inSteps, placeParts, UNITS } from "../../scripts/figures/draw-body.ts";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { mirrored, movedBy, type Posture } from "../../scripts/figures/pose.ts";
import { type BodiesOfStrip, drawStrip } from "../../scripts/figures/strip.ts";
import { type Movement, stripCaption, stripDescription, type Wrong } from "../../scripts/figures/support.ts";
import type { LinkedShape } from "../../scripts/model.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import type { Words } from "../../scripts/words/words.ts";
import type { PageContext } from "./page.ts";

/** One shape's figure; `idPrefix` keeps its ids apart from others on the page. */
export function shapeFigure(shape: LinkedShape, idPrefix: string, alone = false): Html | undefined {
	if (shape.angles === undefined) return undefined;
	return raw(drawFigure(shape, { title: shape.name, description: wordsOf(shape), idPrefix, alone }));
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
 * A drill's phases in order, with their names under them. Classes do the same shapes again and again, and
 * limbs are bent in few ways, so a page draws each part of a body once (`drawnBodies`), and strips place them.
 */
export function shapeStrip(ctx: PageContext, movement: Movement): Html | undefined {
	if (movement.stances.length === 0) return undefined;
	// How each shape looks is said on the drill's own page; elsewhere its name says which it is.
	const { svg, drawn } = keptStrip(ctx, movement, ctx.page.kind === "drill");
	for (const [name, element] of drawn) {
		if (!ctx.drawn.has(name)) ctx.drawn.set(name, { id: `b${ctx.drawn.size}`, element });
	}
	return html`<figure class="strip">${raw(withIds(ctx, svg))}<figcaption>${stripCaption(movement, ctx.words)}</figcaption></figure>`;
}

/** The bodies that the page's strips place, in a picture that takes no room; after all strips are made. */
export function drawnBodies(ctx: PageContext): Html | undefined {
	if (ctx.drawn.size === 0) return undefined;
	const elements = Array.from(ctx.drawn.values(), ({ id, element }) =>
		withIds(ctx, element.replace(/^<\w+/, `$& id="${id}"`)),
	);
	return raw(
		`<svg class="bodies" width="0" height="0" aria-hidden="true" focusable="false"><defs>${elements.join("\n")}</defs></svg>`,
	);
}

/** Names of what is placed are long, so that they hold on all pages; a page has short ones. */
function withIds({ drawn }: PageContext, svg: string): string {
	return svg.replace(/(?<= href="#)\w+/g, (name) => drawn.get(name)?.id ?? name);
}

/**
 * A figure without the attributes that the site's styles give its parts: a class sheet has thirty strips,
 * and every one would say them again. `figures` in site.css says the same as these. How high it is follows
 * from its width.
 */
function plain(svg: string): string {
	let text = svg.replace(/ height="[^"]*"/, "");
	for (const attributes of STYLED) text = text.replaceAll(attributes, "");
	return text;
}

const STYLED: readonly string[] = [
	' fill="none" stroke="currentColor" stroke-width="20" stroke-dasharray="60 50"',
	' class="figure-floor" stroke="currentColor" stroke-width="30" stroke-linecap="round"',
	' class="figure-numbers" transform="translate(0 360)" fill="currentColor" font-size="300" text-anchor="middle"',
	' fill="currentColor" stroke="currentColor" stroke-width="25" stroke-linecap="round" stroke-linejoin="round"',
	' fill="none" stroke="currentColor" stroke-width="25" stroke-linecap="round" stroke-linejoin="round"',
	' fill="currentColor" fill-opacity=".3" stroke="currentColor" stroke-width="36" stroke-linejoin="round"',
	' fill="var(--figure-paper,Canvas)" stroke="currentColor" stroke-width="36" stroke-linejoin="round"',
	' fill="none" stroke="var(--figure-far,gray)" stroke-width="48"',
	' fill="none" stroke="var(--figure-paper,Canvas)" stroke-width="118" stroke-linecap="round"',
	' fill="none" stroke="var(--figure-far,gray)" stroke-width="78" stroke-linecap="round"',
	' xmlns="http://www.w3.org/2000/svg" class="figure-strip"',
];

interface KeptStrip {
	readonly svg: string;
	/** Elements that are drawn once, by their names. */
	readonly drawn: ReadonlyMap<string, string>;
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

	const drawn = new Map<string, string>();
	const nameOf = (element: string): string => {
		const name = shortHash(element);
		drawn.set(name, element);
		return name;
	};
	const bodies: BodiesOfStrip = {
		gymnast: ({ pose, dx, up, turned }) => {
			// What faces left is the mirror's picture of what faces right; a body stands by its hip wherever it is.
			const shown = inSteps(turned ? mirrored(pose) : pose);
			const { x, y } = shown.hip;
			const name = nameOf(placeParts(movedBy(shown, -x, -y), 0, false, nameOf));
			const at = Math.round((turned ? -dx : dx) + x * UNITS);
			const mirror = turned ? ' transform="scale(-1 1)"' : "";
			const use = `<use href="#${name}" x="${at}" y="${Math.round(-up - y * UNITS)}"${mirror}/>`;
			return use + drawHold(pose, dx);
		},
		helper: (pose, dx) => placeParts(pose, dx, true, nameOf),
	};
	// The caption beneath says its name.
	const named = { title: "", description: stripDescription(movement, words, withLooks) };
	const strip = { svg: plain(drawStrip(movement, named, bodies)), drawn };
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
