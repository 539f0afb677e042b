/**
 * Forward against backward: two bars from one middle axis for each week, or each apparatus of a week.
 *
 * The left side is hatched and the right side plain, and both carry their numbers. Where one side has
 * work and the other has none, the empty side shows a broken box, so that it is seen and not missed.
 */

import * as english from "../words/en.ts";
import {
	box,
	type ChartOptions,
	type ChartWords,
	chartFrame,
	checkValue,
	hasLinks,
	INK,
	lengthOf,
	linked,
	PHONE,
	SMALL,
	TEXT,
	TONE,
	tenth,
	text,
	texture,
	textureDefs,
	textWidth,
	WRONG,
	wrapText,
} from "./chart-frame.ts";

export interface PairedBars {
	/** What goes to the left and to the right, as in "Backward" and "Forward". */
	readonly sides: readonly [left: string, right: string];
	/** Bars under a heading: an apparatus with its weeks, or a week with its apparatus. */
	readonly groups: readonly PairedGroup[];
}

export interface PairedGroup {
	/** Empty for no heading. */
	readonly name: string;
	readonly bars: readonly PairedBar[];
}

export interface PairedBar {
	readonly name: string;
	readonly left: number;
	readonly right: number;
	readonly href?: string;
}

/** CSS pixels. */
const EDGE = 2;
const BAR = 16;
const ROW = 24;
const HEAD = 24;
const SIDES = 20;
const GROUP_GAP = 8;
const NAMES = { most: 84, gap: 8 } as const;
const NUMBER_GAP = 5;

/** The bars as SVG text. Throws without any bar. */
export function drawPairedBars({ sides, groups }: PairedBars, options: ChartOptions): string {
	const { format, idPrefix, width = PHONE, words: say = english.charts } = options;
	const bars = groups.flatMap((group) => group.bars);
	if (bars.length === 0) throw new RangeError("paired bars need at least one bar");
	for (const { name, left, right } of bars) for (const value of [left, right]) checkValue(value, name);
	const names = Math.min(NAMES.most, Math.max(...bars.map(({ name }) => textWidth(name))));
	const start = EDGE + Math.ceil(names) + NAMES.gap;
	const numbers = Math.ceil(
		Math.max(
			textWidth(say.none, SMALL) + 6,
			...bars.flatMap(({ left, right }) => [left, right].map((v) => textWidth(format(v), TEXT, true))),
		) + NUMBER_GAP,
	);
	const axis = Math.round((start + width - EDGE) / 2);
	const room = width - EDGE - axis - numbers;
	const most = Math.max(...bars.flatMap(({ left, right }) => [left, right]));

	const drawPair = (bar: PairedBar, rowTop: number): string => {
		const top = rowTop + (ROW - BAR) / 2 - 1;
		const base = top + BAR / 2 + 4.2;
		const [name = ""] = wrapText(bar.name, names, TEXT, 1);
		const left = lengthOf(bar.left, most, room);
		const right = lengthOf(bar.right, most, room);
		const idle = bar.left === 0 && bar.right === 0;
		const number = (value: number, x: number, anchor: "start" | "end"): string =>
			text(x, base, format(value), { anchor, bold: true, className: "chart-number" });
		return (
			`<g class="chart-pair">${text(EDGE, base, name)}` +
			(bar.left > 0
				? box(axis - left, top, left, BAR, texture(idPrefix, 1), 1, TONE, 0) +
					number(bar.left, axis - left - NUMBER_GAP, "end")
				: idle
					? number(0, axis - NUMBER_GAP, "end")
					: drawMissing(axis - 4 - numbers, top, numbers, say)) +
			(bar.right > 0
				? box(axis, top, right, BAR, TONE, 0.84, undefined, 0) +
					number(bar.right, axis + right + NUMBER_GAP, "start")
				: idle
					? number(0, axis + NUMBER_GAP, "start")
					: drawMissing(axis + 4, top, numbers, say)) +
			"</g>"
		);
	};

	let y: number = EDGE;
	const drawn = [drawSides(sides, axis, y)];
	y += SIDES + 2;
	for (const group of groups) {
		if (group.bars.length === 0) continue;
		if (group.name !== "") {
			const [name = ""] = wrapText(group.name, width - 2 * EDGE, TEXT, 1, true);
			drawn.push(
				text(EDGE, y + 14, name, { bold: true, className: "chart-group" }) +
					`<path stroke="${INK}" stroke-opacity="0.35" d="M${EDGE} ${y + HEAD - 4.5}H${width - EDGE}"/>`,
			);
			y += HEAD;
		}
		const top = y;
		for (const bar of group.bars) {
			const area = { left: EDGE, top: y, width: width - 2 * EDGE, height: ROW };
			drawn.push(linked(bar.href, barInWords(bar, sides, format), drawPair(bar, y), area));
			y += ROW;
		}
		drawn.push(`<path stroke="${INK}" stroke-width="1.5" d="M${axis} ${top - 1}V${y - 1}"/>`);
		y += GROUP_GAP;
	}

	const inWords = groups.flatMap(({ name, bars: own }) =>
		own.map((bar) => `${name === "" ? "" : `${name}, `}${barInWords(bar, sides, format)}`),
	);
	return chartFrame(
		options,
		{ width, height: y - GROUP_GAP + EDGE },
		"chart-pairs",
		hasLinks(bars) ? undefined : inWords,
		textureDefs(idPrefix, 2) + drawn.join(""),
	);
}

/** What lies to each side of the axis, with arrows. */
function drawSides([left, right]: PairedBars["sides"], axis: number, y: number): string {
	return (
		`<g class="chart-sides">${text(axis - 22, y + 13, left, { anchor: "end", bold: true })}${text(axis + 22, y + 13, right, { bold: true })}` +
		`<path fill="none" stroke="${INK}" stroke-width="1.5" stroke-linecap="round" d="M${axis - 6} ${y + 9}h-10m4-4l-4 4l4 4M${axis + 6} ${y + 9}h10m-4-4l4 4l-4 4"/></g>`
	);
}

function drawMissing(left: number, top: number, width: number, say: ChartWords): string {
	return (
		`<g class="chart-missing">${missingBox(left, top, width, BAR)}` +
		`${text(left + width / 2, top + BAR / 2 + 3.8, say.none, { anchor: "middle", size: SMALL, fill: WRONG })}</g>`
	);
}

function missingBox(left: number, top: number, width: number, height: number): string {
	return `<rect x="${tenth(left + 0.5)}" y="${tenth(top + 0.5)}" width="${tenth(width - 1)}" height="${tenth(height - 1)}" fill="none" stroke="${WRONG}" stroke-dasharray="3 2"/>`;
}

function barInWords(
	{ name, left, right }: PairedBar,
	[leftSide, rightSide]: PairedBars["sides"],
	format: (value: number) => string,
): string {
	return `${name}: ${leftSide} ${format(left)}, ${rightSide} ${format(right)}`;
}
