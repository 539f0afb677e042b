/**
 * The pieces that several sheets share: headings, level marks, doses, figures, the safety box.
 */

import { valuesAt } from "../../scripts/compute/drill-at.ts";
import { drawFigure } from "../../scripts/figures/figure.ts";
import { drawStrip } from "../../scripts/figures/strip.ts";
import { movementOf, stripDescription, stripTitle } from "../../scripts/figures/support.ts";
import type { Block, Dose, Drill, Id, LinkedDrill, LinkedShape } from "../../scripts/model.ts";
import { type Html, type HtmlValue, html, raw } from "../../scripts/render/html.ts";
import { doseIn } from "../../scripts/render/views/drill.ts";
import { doseWords } from "../../scripts/render/views/words.ts";
import { sign } from "../parts/icons.ts";
import type { PlaceKind, Places } from "./places.ts";
import type { SheetSource } from "./source.ts";

/** A sheet's heading under a thick rule, with what it belongs to above it. */
export function sheetHead(id: string, over: HtmlValue, title: HtmlValue, under: HtmlValue = undefined): Html {
	return html`<header class="sheet-head"><p class="over">${over}</p><h1 id="${id}">${title}</h1>${under && html`<p class="under">${under}</p>`}</header>`;
}

/** A line of a list that ends in a page. */
export function pageLine(words: Html, page: Html | undefined, className = ""): Html {
	return html`<li class="page-line ${className}"><span class="page-line-words">${words}</span><span class="page-line-dots"></span>${page}</li>`;
}

/** Things with their pages, in two columns. */
export function pageList(
	places: Places,
	kind: PlaceKind,
	things: readonly { readonly id: Id; readonly name: string }[],
): Html {
	return html`<ul class="page-list">${things.map(({ id, name }) =>
		pageLine(places.link(kind, id, name), places.page(kind, id)),
	)}</ul>`;
}

/** Words with a page behind each, in a running line. */
export function pageRun(
	places: Places,
	kind: PlaceKind,
	things: readonly { readonly id: Id; readonly name: string }[],
): Html {
	return html`${things.map(
		({ id, name }, i) =>
			html`${i > 0 && places.words.semicolon}<span class="run">${places.link(kind, id, name)} ${places.page(kind, id)}</span>`,
	)}`;
}

/** Names of things by id; an id that is gone stands for itself. */
export function named(
	ids: readonly Id[],
	things: ReadonlyMap<Id, { readonly id: Id; readonly name: string }>,
): readonly { readonly id: Id; readonly name: string }[] {
	return ids.map((id) => ({ id, name: things.get(id)?.name ?? id }));
}

export function namedDrills(
	ids: readonly Id[],
	drills: ReadonlyMap<Id, LinkedDrill>,
	source: SheetSource,
): readonly { readonly id: Id; readonly name: string }[] {
	return ids.map((id) => ({ id, name: source.markdown.plain(drills.get(id)?.title ?? id) }));
}

/** How each of some levels does a drill: one row for each, with its dose. */
export function levelRows(
	source: SheetSource,
	places: Places,
	drill: LinkedDrill,
	only: (level: Id) => boolean = () => true,
	block?: Block,
): Html {
	const rows = [...drill.levels].filter(([level]) => only(level));
	return html`<table class="levels"><tbody>${rows.map(
		([level, dose]) =>
			html`<tr><th scope="row">${source.curriculum.levels.get(level)?.name ?? level}</th><td>${wayOf(source, places, drill, doseIn(block, level, dose))}</td></tr>`,
	)}</tbody></table>`;
}

function wayOf(source: SheetSource, places: Places, drill: LinkedDrill, dose: Dose): Html {
	const words = doseWords(source.words, drill, dose);
	return html`${dose.do === undefined ? source.words.drill.asDescribed : places.inline(dose.do)}${words !== "" && html` <b class="dose">${words}</b>`}`;
}

/** What to say. */
export function cueList(places: Places, cues: readonly string[]): Html | undefined {
	return cues.length === 0
		? undefined
		: html`<ul class="cues">${cues.map((cue) => html`<li>${places.inline(cue)}</li>`)}</ul>`;
}

/** Spotting and caution in a thick frame; where neither is written, what holds then. */
export function safetyBox(
	source: SheetSource,
	places: Places,
	drill: LinkedDrill,
	levels: readonly Id[],
): Html {
	const { words } = source;
	const say = words.safety;
	const spotting = textAt(source, places, drill, levels, "spotting");
	const caution = textAt(source, places, drill, levels, "caution");
	return html`<div class="safety">${
		spotting && html`<p>${sign("spotting")}<b>${say.spotting}</b> ${spotting}</p>`
	}${caution && html`<p>${sign("caution")}<b>${say.caution}</b> ${caution}</p>`}${
		spotting === undefined &&
		caution === undefined &&
		html`<p>${sign("caution")}<b>${say.both}</b> ${say.nothingWritten(words.binder.cautionInFront)}</p>`
	}</div>`;
}

/** A safety text; where levels have their own, each after its level's name. */
function textAt(
	source: SheetSource,
	places: Places,
	drill: LinkedDrill,
	levels: readonly Id[],
	field: "spotting" | "caution",
): Html | undefined {
	const texts = valuesAt(drill, levels, (one) => one[field]).flatMap(({ value, levels: those }) =>
		value === undefined
			? []
			: [
					html`${those !== "all" && html`<b class="of-levels">${beforeLevels(source, those)}</b>`}${places.inline(value)}`,
				],
	);
	return texts.length === 0 ? undefined : html`${texts.map((text, i) => html`${i > 0 && " "}${text}`)}`;
}

/** The names of the levels that a value is for, before it; nothing where it is for all. */
export function beforeLevels({ curriculum, words }: SheetSource, levels: readonly Id[] | "all"): string {
	if (levels === "all") return "";
	return `${levels.map((id) => curriculum.levels.get(id)?.name ?? id).join(", ")}${words.colon}`;
}

/** One shape's figure. */
export function shapeFigure(shape: LinkedShape, idPrefix: string, size: number): Html {
	const words = { title: shape.name, description: shape.description ?? shape.name, idPrefix };
	return raw(drawFigure(shape, { ...words, size }));
}

/** Drawing units of 8.5 pt where a stature of 2,000 is 11 mm, as in print.css. */
const CARD_NUMBERS = 560;

/** A drill's phases in the order a body goes through them, with their names under them. */
export function shapeStrip(source: SheetSource, drill: Drill, idPrefix: string): Html | undefined {
	const movement = movementOf(drill, source.curriculum);
	if (movement.stances.length === 0) return undefined;
	const names = movement.stances.map(({ shape }) => shape.name);
	const words = {
		title: stripTitle(movement, source.words),
		description: stripDescription(movement, source.words),
		idPrefix,
	};
	return html`<figure class="strip">${raw(drawStrip(movement, words, undefined, CARD_NUMBERS))}<figcaption>${names.map(
		(name, i) => html`<span>${movement.inOrder && html`<b>${i + 1}</b> `}${name}</span>`,
	)}</figcaption></figure>`;
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
