/**
 * The pieces that several sheets share: headings, ways, figures, marks, columns.
 */

import { drawFigure } from "../../scripts/figures/figure.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { type Movement, stripDescription, stripTitle } from "../../scripts/figures/support.ts";
import type { LinkedShape } from "../../scripts/model.ts";
import type { LevelWay } from "../../scripts/views/drill.ts";
import { type Html, type HtmlValue, html, raw } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import type { Words } from "../../scripts/words/words.ts";

/** A sheet's heading under a thick rule, with what it belongs to above it. */
export function sheetHead(id: string, over: HtmlValue, title: HtmlValue, under: HtmlValue = undefined): Html {
	return html`<header class="sheet-head"><p class="over">${over}</p><h1 id="${id}">${title}</h1>${under && html`<p class="under">${under}</p>`}</header>`;
}

/** How each level does a drill, with its dose. */
export function wayOf({ drill: say }: Words, { how, dose }: LevelWay): Html {
	return html`${how ?? say.asDescribed}${dose !== "" && html` <b class="dose">${dose}</b>`}`;
}

export function levelRows(words: Words, ways: readonly LevelWay[]): Html {
	return html`<table class="levels"><tbody>${ways.map((way) => html`<tr><th scope="row">${way.level.name}</th><td>${wayOf(words, way)}</td></tr>`)}</tbody></table>`;
}

/** The names of the levels that a value is for, before it; nothing where it is for all. */
export function namesBefore(words: Words, levels: readonly Link[]): string {
	return levels.length === 0 ? "" : `${inSentence(levels)}${words.colon}`;
}

/** Names with commas between them. */
export function inSentence(things: readonly { readonly name: string }[]): string {
	return things.map(({ name }) => name).join(", ");
}

/** Short lines in one; nothing for none. */
export function inOneLine(lines: readonly Html[]): Html | undefined {
	return lines.length === 0 ? undefined : html`${lines.map((line, i) => html`${i > 0 && " · "}${line}`)}`;
}

/** One shape's figure; a shape without angles has none. */
export function shapeFigure(shape: LinkedShape, idPrefix: string, size: number): Html | undefined {
	if (shape.angles === undefined) return undefined;
	const words = { title: shape.name, description: shape.description ?? shape.name, idPrefix };
	return raw(drawFigure(shape, { ...words, size }));
}

/** Drawing units of 8.5 pt where a stature of 2,000 is 11 mm, as in print.css. */
export const CARD_NUMBERS = 560;

/**
 * A drill's figures in a row; nothing for a drill without.
 *
 * @param numbers how large the steps' numbers are, in drawing units; 0 for arrows alone
 */
export function figureStrip(
	words: Words,
	movement: Movement,
	{ idPrefix, numbers = 0 }: { readonly idPrefix?: string; readonly numbers?: number } = {},
): Html | undefined {
	if (movement.stances.length === 0) return undefined;
	const said = { title: stripTitle(movement, words), description: stripDescription(movement, words) };
	const named = idPrefix === undefined ? said : { ...said, idPrefix };
	return raw(drawStrip(movement, named, undefined, numbers));
}

/** A filled mark, for tables that say yes. */
export function dot(words: string): Html {
	return html`<span class="dot" role="img" aria-label="${words}"></span>`;
}

/** Columns set by hand, in pixels; the one that is undefined gets what is left. */
export function columns(widths: readonly (number | undefined)[]): Html {
	return html`<colgroup>${widths.map((width) =>
		width === undefined ? html`<col>` : html`<col style="width:${width}px">`,
	)}</colgroup>`;
}

/** Cuts a list into runs of at most `size`, as even as they can be. */
export function evenRuns<T>(list: readonly T[], size: number): readonly (readonly T[])[] {
	if (list.length === 0) return [];
	const runs = Math.ceil(list.length / size);
	const each = Math.ceil(list.length / runs);
	return Array.from({ length: runs }, (_, i) => list.slice(i * each, (i + 1) * each));
}
