/**
 * What every page of a measure has: its head and foot, and tables that scroll within themselves.
 */

import { type Html, type HtmlValue, html } from "../../scripts/views/html.ts";
import type { DirectionRow } from "../../scripts/views/measures/balance.ts";
import type { MeasureHead } from "../../scripts/views/measures/measure-head.ts";
import { countedCell } from "./charts.ts";
import { findingsList } from "./findings-list.ts";
import { a, type PageContext, section } from "./page.ts";

/** Title, meaning, target, and the way to what is found. */
export function measureTop(ctx: PageContext, head: MeasureHead): Html {
	const found = head.findings.length;
	const { words } = ctx;
	const { leaveOut } = ctx.page.frame;
	const say = words.measurePage;
	return html`<h1>${head.title}</h1>
<p class="lead">${head.means}</p>
${
	head.judged &&
	html`<p class="target"><span><span class="label">${say.target}</span> ${head.target ?? say.noTarget(a(ctx, { to: "author-guide/#targets", name: say.howToSet }))}</span><span>${found === 0 ? !leaveOut.has("findings") && head.target !== undefined && !head.empty && say.nothingMisses : html`<a href="#findings">${words.counts.findings(found)}</a>`}</span></p>`
}`;
}

/** What is found, where the measure comes from, its file, and the other measures. */
export function measureFoot(ctx: PageContext, head: MeasureHead): Html {
	const findings = findingsList(ctx, head.findings);
	const say = ctx.words.measurePage;
	return html`${findings && section("findings", say.finds, findings)}
${section(
	"source",
	say.source,
	html`<p>${head.source}</p>
${head.files.length > 0 && html`<p>${head.files.map((file) => html`<a class="button" href="${ctx.way(file.to)}" download>${file.name}</a> `)}</p>`}`,
)}
<nav aria-label="${say.others}"><ul class="chips">${[{ to: "measures/", name: say.all }, ...head.others].map((other) => html`<li>${a(ctx, other, "chip")}</li>`)}</ul></nav>`;
}

/** Stands in the place of tables while no week is planned. */
export function nothingPlanned(ctx: PageContext): Html {
	return html`<p class="empty">${ctx.words.measurePage.nothing(a(ctx, { to: "author-guide/#week", name: ctx.words.measurePage.howToWrite }))}</p>`;
}

/** A table in a box of its own, which a finger or the keyboard scrolls. */
export function scrollTable(
	label: string,
	heads: readonly HtmlValue[],
	rows: HtmlValue,
	className = "",
): Html {
	return html`<section class="scroll ${className}" tabindex="0" aria-label="${label}"><table>
<thead><tr>${heads.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
<tbody>${rows}</tbody></table></section>`;
}

/** A picture with its table: beside each other where there is room. */
export function pictureAndTable(picture: Html | undefined, table: HtmlValue): Html {
	return picture === undefined ? html`${table}` : html`<div class="both">${picture}<div>${table}</div></div>`;
}

/** A fold inside a cell, for what its row was counted from. */
export function opens(summary: HtmlValue, lines: readonly HtmlValue[]): Html {
	if (lines.length === 0) return html`–`;
	return html`<details class="from"><summary>${summary}</summary><ul>${lines.map((line) => html`<li>${line}</li>`)}</ul></details>`;
}

/** The heads of those cells. */
export function directionHeads({ words: { heads } }: PageContext): readonly string[] {
	return [heads.forward, heads.backward, heads.sideways, heads.noDirection];
}

/** Forward, backward, sideways and none, each leading to its drills. */
export function directionCells(ctx: PageContext, { cells, missing }: DirectionRow): Html {
	return html`${cells.map(({ direction, minutes, link }) =>
		countedCell(
			ctx,
			link === undefined && direction !== missing ? "–" : ctx.words.number(minutes),
			link,
			direction === missing ? "short" : "",
		),
	)}`;
}
