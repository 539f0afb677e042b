/**
 * The parts of a drill that more than one page shows: safety, cues, faults, doses, set-up, lists.
 */

import type { DrillCore, DrillLine, LevelText, LevelWay, Safety, SetUp } from "../../scripts/views/drill.ts";
import { type Html, type HtmlValue, html } from "../../scripts/views/html.ts";
import type { Link } from "../../scripts/views/links.ts";
import { capital } from "../../scripts/views/words.ts";
import type { Words } from "../../scripts/words/words.ts";
import { wrongFigures } from "./figures.ts";
import { sign } from "./icons.ts";
import type { Nothing } from "./nothing.ts";
import { a, more, type PageContext } from "./page.ts";

/**
 * The lines of a drill's safety box, on pages and on paper.
 *
 * @param otherwise what holds where nothing is written
 * @param sign as a page or as paper shows signs
 */
export function safetyLines(
	words: Words,
	safety: Safety,
	otherwise: HtmlValue,
	sign: (name: "spotting" | "caution") => Html,
): Html {
	const say = words.safety;
	return html`${safety.map((line) =>
		line.says === "nothing-written"
			? html`<p>${sign("caution")}<strong>${say.both}</strong> ${otherwise}</p>`
			: html`<p>${sign(line.says)}<strong>${say[line.says]}</strong> ${line.texts.map((text, i) => html`${i > 0 && " "}${levelText(words, text)}`)}</p>`,
	)}`;
}

/** Spotting and caution; where neither is written, what to do then. */
export function safetyBox(ctx: PageContext, safety: Safety): Html {
	const say = ctx.words.safety;
	const otherwise = say.nothingWritten(html`<a href="${ctx.way("about/")}">${say.usual}</a>`);
	return html`<div class="safety">${safetyLines(ctx.words, safety, otherwise, sign)}</div>`;
}

/** A text after the names of the levels that it is for, where it is not for all. */
export function levelText({ colon }: Words, { levels, text }: LevelText): Html {
	return levels.length === 0
		? text
		: html`<b>${levels.map(({ name }) => name).join(", ")}${colon.trimEnd()}</b> ${text}`;
}

/** What to say, large enough to read at arm's length. */
export function cueList(cues: readonly Html[]): Html | undefined {
	if (cues.length === 0) return undefined;
	return html`<ul class="cues">${cues.map((cue) => html`<li>${cue}</li>`)}</ul>`;
}

/** What to see, and what to say to it; drawn on the drill's own page, where there is room. */
export function faultList(ctx: PageContext, faults: DrillCore["faults"], drawn: boolean): Html | undefined {
	if (faults.length === 0) return undefined;
	const words = ctx.words.drill;
	return html`<dl class="faults">${faults.map(
		({ see, say, wrong }) =>
			html`<div><dt><b>${words.see}</b> ${see}</dt><dd><b>${words.say}</b> ${say}</dd>${drawn && wrong && html`<dd class="two-figures">${wrongFigures(ctx.words, wrong)}</dd>`}</div>`,
	)}</dl>`;
}

/** How each level does it. */
export function levelWays(ctx: PageContext, ways: readonly LevelWay[]): Html | undefined {
	if (ways.length === 0) return undefined;
	return html`<ul class="ways">${ways.map(
		({ level, how, dose }) => html`<li>${a(ctx, level)}
<span>${how ?? ctx.words.drill.asDescribed}</span>${dose === "" ? "" : html` <b>${dose}</b>`}</li>`,
	)}</ul>`;
}

/** What stands ready. */
export function setUpList(ctx: PageContext, setUp: SetUp): Html | undefined {
	const { equipment, heights, turns, ...rest } = setUp;
	rest satisfies Nothing;
	const say = ctx.words.setUp;
	if (equipment.length === 0 && heights.length === 0 && turns.length === 0) return undefined;
	const whose = (levels: readonly Link[]): Html | undefined =>
		levels.length === 0 ? undefined : html`${levels.map(({ name }) => name).join(", ")}${ctx.words.colon}`;
	return html`<ul class="setup">
${equipment.map(
	({ item, count, per, levels }) =>
		html`<li>${whose(levels)}<b>${count}</b> ${a(ctx, item)}${per === "gymnast" && ` ${say.forEachGymnast}`}</li>`,
)}
${heights.map(
	({ what, landmark, levels, ranges }) =>
		html`<li>${whose(levels)}${say.at(html`<strong>${capital(what)}</strong>`, landmark)}${
			ranges.length > 0 &&
			html` <span class="small">${ranges
				.map(({ who, low, high }) =>
					say.range(levels.length === 1 ? undefined : who, Math.round(low), Math.round(high)),
				)
				.join(ctx.words.semicolon)}</span>`
		}</li>`,
)}
${turns.map(({ seconds, atOnce, levels }) => html`<li>${whose(levels)}${say.turn(seconds, atOnce)}</li>`)}
</ul>`;
}

/** What to do where the drill is too hard or too easy; nothing where the club says neither. */
export function adaptList(ctx: PageContext, { easier, harder }: DrillCore["adapt"]): Html | undefined {
	if (easier.length === 0 && harder.length === 0) return undefined;
	const say = ctx.words.drill;
	const part = (name: string, lines: readonly LevelText[]): Html | undefined =>
		lines.length === 0
			? undefined
			: html`<div><dt>${name}</dt>${lines.map((line) => html`<dd>${levelText(ctx.words, line)}</dd>`)}</div>`;
	return html`<dl class="adapt">${part(say.easier, easier)}${part(say.harder, harder)}</dl>`;
}

/** What must be seen of each skill that the drill performs; nothing where the club says none. */
export function criteriaList(ctx: PageContext, criteria: DrillCore["criteria"]): Html | undefined {
	if (criteria.length === 0) return undefined;
	return html`<dl class="adapt">${criteria.map(
		({ skill, lines }) =>
			html`<div><dt>${a(ctx, skill)}</dt>${lines.map((line) => html`<dd>${line}</dd>`)}</div>`,
	)}</dl>`;
}

/** Whether a set-up shows heights in centimetres. */
export function hasHeights(setUp: SetUp): boolean {
	return setUp.heights.some(({ ranges }) => ranges.length > 0);
}

/** Where heights in centimetres come from, and how far to trust them. */
export function heightsSource(ctx: PageContext): Html {
	return html`<p class="small">${ctx.words.setUp.heightsCaution} ${more(ctx, { to: "measures/heights/", name: ctx.words.measurePage.source })}</p>`;
}

export function drillCards(ctx: PageContext, lines: readonly DrillLine[]): Html {
	return html`<ul class="cards">${lines.map((line) => drillLine(ctx, line))}</ul>`;
}

/** Drills as a compact list for long pages. */
export function drillRows(ctx: PageContext, lines: readonly DrillLine[]): Html {
	return html`<ul class="rows">${lines.map((line) => drillLine(ctx, line))}</ul>`;
}

/**
 * A drill in a list, written alike in every list, as a device keeps each line once for all of them:
 * how a list looks is the styles' business, and what only one list says stands at the end.
 */
function drillLine(ctx: PageContext, { link, summary, apparatus, levels, because }: DrillLine): Html {
	return html`<li class="drill"><p class="name">${a(ctx, link)}</p>${summary && html`<p class="sum">${summary}</p>`}
<p class="small"><span class="on">${apparatus.map((x) => x.name).join(", ")} · </span>${levels.map((x) => x.name).join(", ")}</p>${because && html`<p class="small because">${because}</p>`}</li>`;
}
