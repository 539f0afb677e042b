/**
 * Ranges: one bar from a low to a high value for each row, with marks on it, as for a height by age.
 *
 *   1. one scale from the lowest to the highest value; it does not start at 0, for nothing is summed up
 *   2. for each row its bar, the two ends as numbers, and a mark of its own form for each middle value
 *   3. what the marks mean
 */

import * as english from "../words/en.ts";
import {
	box,
	type ChartOptions,
	type ChartWords,
	chartFrame,
	checkValue,
	INK,
	type LegendItem,
	legend,
	PAPER,
	PHONE,
	TEXT,
	TONE,
	tenth,
	text,
	textWidth,
	wrapText,
} from "./chart-frame.ts";

export interface RangeBars {
	/** What the marks of every row stand for, in order; two at most. */
	readonly marks: readonly string[];
	readonly ranges: readonly Range[];
	/** Written after the numbers of the description, as in "cm". */
	readonly unit: string;
}

export interface Range {
	/** As in "Age 7". */
	readonly name: string;
	readonly low: number;
	readonly high: number;
	/** One for each mark, between low and high. */
	readonly marks: readonly number[];
}

/** CSS pixels. */
const EDGE = 2;
const BAR = 14;
const ROW = 24;
const NAMES = { most: 84, gap: 8 } as const;
const NUMBER_GAP = 5;
const BAR_TONE = 0.22;

/** The bars as SVG text. Throws without rows, for a row with too few marks, and for values out of order. */
export function drawRangeBars({ marks, ranges, unit }: RangeBars, options: ChartOptions): string {
	const { format, width = PHONE, words: say = english.charts } = options;
	if (ranges.length === 0) throw new RangeError("range bars need at least one range");
	if (marks.length > MARKS.length) throw new RangeError(`there are ${MARKS.length} forms of marks`);
	for (const range of ranges) checkRange(range, marks.length);
	const names = Math.min(NAMES.most, Math.max(...ranges.map(({ name }) => textWidth(name))));
	const numbers = Math.ceil(
		Math.max(...ranges.flatMap(({ low, high }) => [textWidth(format(low)), textWidth(format(high))])) +
			NUMBER_GAP,
	);
	const left = EDGE + Math.ceil(names) + NAMES.gap + numbers;
	const room = width - EDGE - numbers - left;
	const least = Math.min(...ranges.map(({ low }) => low));
	const most = Math.max(...ranges.map(({ high }) => high));
	const x = (value: number): number =>
		left + (most === least ? 0.5 : (value - least) / (most - least)) * room;

	const rows = ranges.map(({ name, low, high, marks: values }, i) => {
		const top = EDGE + i * ROW + (ROW - BAR) / 2;
		const base = top + BAR / 2 + 4.2;
		const [line = ""] = wrapText(name, names, TEXT, 1);
		return (
			`<g class="chart-range">${text(EDGE, base, line)}` +
			box(x(low), top, Math.max(1, x(high) - x(low)), BAR, TONE, BAR_TONE, TONE) +
			text(x(low) - NUMBER_GAP, base, format(low), { anchor: "end", className: "chart-number" }) +
			text(x(high) + NUMBER_GAP, base, format(high), { className: "chart-number" }) +
			values.map((value, m) => MARKS[m]?.(x(value), top + BAR / 2) ?? "").join("") +
			"</g>"
		);
	});
	const bottom = EDGE + ranges.length * ROW;
	const key = legend(
		marks.map((words, m): LegendItem => ({ sample: (sx, sy) => MARKS[m]?.(sx + 9, sy + 7) ?? "", words })),
		EDGE,
		bottom + 6,
		width - 2 * EDGE,
	);
	return chartFrame(
		options,
		{ width, height: bottom + 6 + key.height },
		"chart-ranges",
		ranges.map((range) => rangeInWords(range, marks, format, unit, say)),
		rows.join("") + key.svg,
	);
}

/** A ring and a stroke: they stay apart where they lie on each other. */
const MARKS: readonly ((x: number, y: number) => string)[] = [
	(x, y) =>
		`<circle class="chart-mark" cx="${tenth(x)}" cy="${tenth(y)}" r="4" fill="${PAPER}" stroke="${INK}" stroke-width="1.8"/>`,
	(x, y) =>
		`<path class="chart-mark" stroke="${INK}" stroke-width="2.4" d="M${tenth(x)} ${tenth(y - 7)}v14"/>`,
];

function checkRange({ name, low, high, marks }: Range, count: number): void {
	for (const value of [low, high, ...marks]) checkValue(value, name);
	if (marks.length !== count) throw new RangeError(`${name} has ${marks.length} values for ${count} marks`);
	if (marks.some((value) => value < low || value > high) || low > high)
		throw new RangeError(`${name} has values out of order`);
}

function rangeInWords(
	{ name, low, high, marks }: Range,
	words: readonly string[],
	format: (value: number) => string,
	unit: string,
	say: ChartWords,
): string {
	const middle = marks.map((value, i) => `${words[i] ?? ""} ${format(value)}`);
	return [`${name}: ${say.range(format(low), format(high), unit)}`, ...middle].join(", ");
}
