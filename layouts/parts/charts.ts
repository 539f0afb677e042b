/**
 * Charts as pages show them: drawn from a view's data, with addresses made relative to the page. What
 * there is no data for is not drawn. Every chart stands beside a table with the same numbers.
 */

import { type BarChart, drawBars } from "../../scripts/figures/bar-chart.ts";
import type { Words } from "../../scripts/figures/markup.ts";
import { drawPairedBars, type PairedBars } from "../../scripts/figures/paired-bars.ts";
import { drawRangeBars, type RangeBars } from "../../scripts/figures/range-bars.ts";
import { drawTermMatrix, type TermMatrix } from "../../scripts/figures/term-matrix.ts";
import { drawTimeLine, type TimeLine } from "../../scripts/figures/time-line.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import { a, type PageContext } from "./page.ts";

/** A chart's title and description, for those who do not see it, and what its ids begin with. */
export type ChartWords = Words;

/** A picture wider than a phone's screen scrolls within itself. */
export function scrolling(ctx: PageContext, words: ChartWords, svg: string): Html {
	return html`<section class="scroll picture" tabindex="0" aria-label="${ctx.words.charts.picture(words.title)}">${raw(svg)}</section>`;
}

function standing(svg: string): Html {
	return html`<div class="picture">${raw(svg)}</div>`;
}

/** Weeks across, things down. */
export function termMatrix(
	ctx: PageContext,
	matrix: TermMatrix | undefined,
	words: ChartWords,
): Html | undefined {
	if (matrix === undefined || matrix.weeks.length === 0 || matrix.rows.length === 0) return undefined;
	const own = {
		...matrix,
		weeks: here(ctx, matrix.weeks),
		rows: here(ctx, matrix.rows),
		cells: here(ctx, matrix.cells),
	};
	return scrolling(ctx, words, drawTermMatrix(own, { ...words, ...chartWords(ctx) }));
}

/** One bar for each week, item or class. */
export function barChart(ctx: PageContext, chart: BarChart, words: ChartWords): Html | undefined {
	if (chart.bars.length === 0) return undefined;
	return standing(drawBars({ ...chart, bars: here(ctx, chart.bars) }, { ...words, ...chartWords(ctx) }));
}

/** Left against right. */
export function pairedBars(
	ctx: PageContext,
	{ sides, groups }: PairedBars,
	words: ChartWords,
): Html | undefined {
	if (groups.every(({ bars }) => bars.length === 0)) return undefined;
	const own = groups.map(({ name, bars }) => ({ name, bars: here(ctx, bars) }));
	return standing(drawPairedBars({ sides, groups: own }, { ...words, ...chartWords(ctx) }));
}

/** Planned against available. */
export function timeLine(ctx: PageContext, { points }: TimeLine, words: ChartWords): Html | undefined {
	if (points.length === 0) return undefined;
	return scrolling(ctx, words, drawTimeLine({ points: here(ctx, points) }, { ...words, ...chartWords(ctx) }));
}

/** From low to high. */
export function rangeBars(ctx: PageContext, chart: RangeBars, words: ChartWords): Html | undefined {
	if (chart.ranges.length === 0) return undefined;
	return standing(
		drawRangeBars(chart, { ...words, ...chartWords(ctx), format: (value) => String(Math.round(value)) }),
	);
}

/** A number that leads to what it was counted from; plain where it leads nowhere. */
export function countedCell(
	ctx: PageContext,
	value: string,
	link: { readonly to: string; readonly name: string } | undefined,
	className = "",
): Html {
	if (link === undefined) return html`<td class="${className}">${value}</td>`;
	return html`<td class="${className}">${a(ctx, { to: link.to, name: value }, "cell")}</td>`;
}

export function here<Part extends { readonly href?: string }>(
	ctx: PageContext,
	parts: readonly Part[],
): readonly Part[] {
	return parts.map((part) => (part.href === undefined ? part : { ...part, href: ctx.way(part.href) }));
}

function chartWords({ words }: PageContext) {
	return { format: words.number, words: words.charts };
}
