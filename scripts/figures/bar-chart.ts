/**
 * Bars by week: one amount (landings, hand contacts), or a sum in parts (minutes by apparatus).
 *
 * Weeks go down the page and bars to the right: a number always has room beside its bar, on a phone
 * too, and the chart grows downwards with the term.
 *
 * Names as long as those of classes or equipment stand over their bars.
 *
 *   1. each week's bar in parts, each with its texture and, where it is wide enough, its number
 *   2. the sum at the end; numbers that found no room in their part follow under the bar
 *   3. the limit, if there is one, and what the textures mean
 */

import {
	box,
	boxSample,
	type ChartOptions,
	chartFrame,
	checkValue,
	hasLinks,
	INK,
	type LegendItem,
	legend,
	lengthOf,
	linked,
	PHONE,
	SMALL,
	SOFT,
	sentences,
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

export interface BarChart {
	/** The parts of every bar, in order: one for plain bars. */
	readonly parts: readonly string[];
	readonly bars: readonly Bar[];
	/** A line across all bars that they are held against. */
	readonly limit?: { readonly value: number; readonly words: string };
}

export interface Bar {
	/** As in "Week 3". */
	readonly name: string;
	/** One for each part. */
	readonly values: readonly number[];
	/** A few words after the number, as in "1.6 × before"; `warns` gives them a mark and the colour of a missed target. */
	readonly note?: { readonly words: string; readonly warns: boolean };
	readonly href?: string;
}

/** CSS pixels. */
const EDGE = 2;
const BAR = 20;
const ROW_GAP = 8;
const SECOND_LINE = 15;
const NAMES = { most: 84, gap: 8 } as const;
/** The line of a name that stands over its bar. */
const NAME_LINE = 17;
const LIMIT_HEAD = 18;
/** Space for sums and notes never takes more than this share; longer notes go under the bar. */
const MOST_BESIDE = 0.4;
const PART_PADDING = 6;
const PLAIN_TONE = 0.84;
/** The width of the triangle before a warning. */
const MARK = 13;

/** The bars as SVG text. Throws without bars or parts, and for a bar with another number of values. */
export function drawBars(chart: BarChart, options: ChartOptions): string {
	const { parts, bars, limit } = chart;
	const { format, idPrefix, width = PHONE } = options;
	if (bars.length === 0 || parts.length === 0) throw new RangeError("a bar chart needs bars and parts");
	for (const { name, values } of bars) {
		if (values.length !== parts.length)
			throw new RangeError(`${name} has ${values.length} values for ${parts.length} parts`);
		for (const value of values) checkValue(value, name);
	}
	if (limit !== undefined) checkValue(limit.value, limit.words);

	const stacked = parts.length > 1;
	const sums = bars.map(({ values }) => values.reduce((sum, value) => sum + value, 0));
	const longest = Math.max(...bars.map(({ name }) => textWidth(name)));
	// Names that would be cut short beside their bars stand over them instead.
	const over = longest > NAMES.most;
	const left = over ? EDGE + 1 : EDGE + Math.ceil(longest) + NAMES.gap;
	const ends = bars.map((bar, i) => endOf(format(sums[i] ?? 0), bar.note, (width - left) * MOST_BESIDE));
	const room = width - left - Math.ceil(Math.max(...ends.map(({ beside }) => beside))) - EDGE;
	const most = Math.max(...sums, limit?.value ?? 0);
	const toLength = (value: number): number => lengthOf(value, most, room);

	let y = EDGE + (limit === undefined ? 0 : LIMIT_HEAD);
	const top = y;
	const drawn = bars.map((bar, i) => {
		const row = drawBar(bar, parts, stacked, ends[i] ?? { number: "", beside: 0, under: false }, {
			left,
			top: y,
			toLength,
			width,
			names: over ? width - left - 4 - EDGE : longest,
			over,
			limit: limit === undefined ? undefined : left + toLength(limit.value),
			format,
			idPrefix,
		});
		const area = { left: EDGE, top: y, width: width - 2 * EDGE, height: row.height };
		y += row.height + ROW_GAP;
		return linked(bar.href, barInWords(bar, sums[i] ?? 0, parts, format), row.svg, area);
	});
	const bottom = y - ROW_GAP + 4;
	const axis = `<path stroke="${INK}" d="M${left} ${top - 4}V${tenth(bottom)}"/>`;
	const key = legend(
		stacked ? parts.map((words, i): LegendItem => ({ sample: boxSample(texture(idPrefix, i)), words })) : [],
		EDGE,
		bottom + 10,
		width - 2 * EDGE,
	);
	const limitInWords = limit === undefined ? "" : `${limit.words}: ${format(limit.value)}`;
	return chartFrame(
		{ ...options, description: sentences(options.description, limitInWords) },
		{ width, height: key.height === 0 ? bottom + EDGE : bottom + 10 + key.height },
		"chart-bars",
		hasLinks(bars) ? undefined : bars.map((bar, i) => barInWords(bar, sums[i] ?? 0, parts, format)),
		(stacked ? textureDefs(idPrefix, parts.length) : "") +
			(limit === undefined
				? ""
				: drawLimit(limit, format, left + toLength(limit.value), top, bottom, width)) +
			drawn.join("") +
			axis +
			key.svg,
	);
}

/** What stands at the end of a bar, and whether its note has to go under it. */
interface End {
	readonly number: string;
	/** Width in CSS pixels. */
	readonly beside: number;
	readonly under: boolean;
}

function endOf(number: string, note: Bar["note"], most: number): End {
	const own = PART_PADDING + textWidth(number, TEXT, true) + 2;
	if (note === undefined) return { number, beside: own, under: false };
	const both = own + 6 + noteWidth(note);
	return both <= most ? { number, beside: both, under: false } : { number, beside: own, under: true };
}

function noteWidth({ words, warns }: NonNullable<Bar["note"]>): number {
	return (warns ? MARK : 0) + textWidth(words, SMALL, warns);
}

/** A note on its base line, with a triangle before it where it warns. */
function drawNote(x: number, y: number, { words, warns }: NonNullable<Bar["note"]>): string {
	if (!warns) return text(x, y, words, { size: SMALL, fill: SOFT, rim: true });
	return (
		`<path class="chart-warns" fill="${WRONG}" d="M${tenth(x)} ${tenth(y)}h9l-4.5-8z"/>` +
		text(x + MARK, y, words, { size: SMALL, bold: true, fill: WRONG, rim: true })
	);
}

interface Place {
	readonly left: number;
	readonly top: number;
	/** CSS pixels of a value. */
	readonly toLength: (value: number) => number;
	readonly width: number;
	readonly names: number;
	/** Names stand over their bars. */
	readonly over: boolean;
	/** Where the limit stands. */
	readonly limit: number | undefined;
	readonly format: (value: number) => string;
	readonly idPrefix: string;
}

function drawBar(
	bar: Bar,
	parts: readonly string[],
	stacked: boolean,
	end: End,
	{ left, top: head, toLength, width, names, over, limit, format, idPrefix }: Place,
): { readonly svg: string; readonly height: number } {
	const top = over ? head + NAME_LINE : head;
	const base = top + BAR / 2 + 4.2;
	const [name = ""] = wrapText(bar.name, names, TEXT, 1);
	let x = left;
	const narrow: string[] = [];
	const numbers: string[] = [];
	const segments = bar.values.map((value, i) => {
		const wide = toLength(value);
		const at = x;
		x += wide;
		if (value === 0) return "";
		if (!stacked) return box(at, top, wide, BAR, TONE, PLAIN_TONE, undefined, 0);
		const number = format(value);
		if (textWidth(number) + PART_PADDING <= wide) {
			numbers.push(
				text(at + wide / 2, base, number, { anchor: "middle", rim: true, className: "chart-number" }),
			);
		} else narrow.push(`${parts[i] ?? ""} ${number}`);
		return box(at, top + 0.5, wide, BAR - 1, texture(idPrefix, i), 1, TONE, 0);
	});
	// A bar that passes the limit would hide it.
	if (limit !== undefined && limit < x) segments.push(limitLine(limit, top, top + BAR));
	const total = text(x + PART_PADDING, base, end.number, { bold: true, rim: true, className: "chart-sum" });
	const note =
		bar.note === undefined || end.under
			? ""
			: drawNote(x + PART_PADDING + textWidth(end.number, TEXT, true) + 6, base, bar.note);
	const under: string[] = [];
	let y = top + BAR + 11.5;
	for (const line of narrow.length === 0
		? []
		: wrapText(narrow.join(" · "), width - left - EDGE - 4, SMALL, 8)) {
		under.push(text(left + 4, y, line, { size: SMALL, fill: SOFT, rim: true, className: "chart-under" }));
		y += SECOND_LINE;
	}
	if (bar.note !== undefined && end.under) {
		const { warns } = bar.note;
		const room = width - left - EDGE - 4 - (warns ? MARK : 0);
		wrapText(bar.note.words, room, SMALL, 3, warns).forEach((words, i) => {
			under.push(
				i === 0 || !warns
					? drawNote(left + 4, y, { words, warns })
					: text(left + 4 + MARK, y, words, { size: SMALL, bold: true, fill: WRONG, rim: true }),
			);
			y += SECOND_LINE;
		});
	}
	return {
		svg: `<g class="chart-bar">${text(over ? left + 4 : EDGE, over ? top - 5 : base, name)}${segments.join("")}${numbers.join("")}${total}${note}${under.join("")}</g>`,
		height: top - head + BAR + under.length * SECOND_LINE,
	};
}

function drawLimit(
	{ value, words }: NonNullable<BarChart["limit"]>,
	format: (value: number) => string,
	x: number,
	top: number,
	bottom: number,
	width: number,
): string {
	const [label = ""] = wrapText(`${words} ${format(value)}`, width - 2 * EDGE, SMALL, 1);
	const half = textWidth(label, SMALL) / 2;
	const at = Math.max(EDGE + half, Math.min(x, width - EDGE - half));
	return `<g class="chart-limit">${limitLine(x, top - 4, bottom)}${text(at, top - 8, label, { anchor: "middle", size: SMALL })}</g>`;
}

function limitLine(x: number, top: number, bottom: number): string {
	return `<path stroke="${INK}" stroke-width="1.5" stroke-dasharray="4 3" d="M${tenth(x)} ${tenth(top)}V${tenth(bottom)}"/>`;
}

function barInWords(
	bar: Bar,
	sum: number,
	parts: readonly string[],
	format: (value: number) => string,
): string {
	const inParts =
		parts.length === 1
			? []
			: bar.values.flatMap((value, i) => (value === 0 ? [] : [`${parts[i] ?? ""} ${format(value)}`]));
	return [
		`${bar.name}: ${format(sum)}`,
		...inParts,
		...(bar.note === undefined ? [] : [bar.note.words]),
	].join(", ");
}
