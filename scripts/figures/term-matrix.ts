/**
 * The term at a glance: weeks across, shapes or skills down, and in each cell what the week gives it.
 *
 *   1. check the cells, find gaps longer than the target, choose round steps
 *   2. for each group a head with the weeks, then its rows: name, cells, brackets over long gaps
 *   3. what the shades and the bracket mean
 *
 * A cell shows its number, its shade and a line as long as its step, so that it reads without colour.
 */

import * as english from "../words/en.ts";
import {
	box,
	type ChartOptions,
	type ChartWords,
	chartFrame,
	checkValue,
	escaped,
	hasLinks,
	INK,
	type LegendItem,
	LINE,
	legend,
	legendWidth,
	linked,
	PAPER,
	SMALL,
	SOFT,
	TEXT,
	TONE,
	tenth,
	text,
	textLines,
	textWidth,
	WRONG,
	wrapText,
} from "./chart-frame.ts";

export interface MatrixWeek {
	readonly week: number;
	/** Its name in full, as in "Week 3". */
	readonly name: string;
	readonly href?: string;
}

export interface MatrixRow {
	readonly id: string;
	readonly name: string;
	readonly href?: string;
	/** Rows of one group stand together under its name. */
	readonly group?: string;
}

/** A week that trains a row's thing; weeks that do not have no cell. */
export interface MatrixCell {
	readonly row: string;
	readonly week: number;
	readonly value: number;
	/** The value with its unit, as in "12 minutes"; the drawn number if left out. */
	readonly words?: string;
	/** Where its drills are listed. */
	readonly href?: string;
}

export interface TermMatrix {
	/** In the order they are drawn in. */
	readonly weeks: readonly MatrixWeek[];
	readonly rows: readonly MatrixRow[];
	readonly cells: readonly MatrixCell[];
	/** The longest gap the club allows, in weeks from one taught week to the next. */
	readonly mostGap?: number;
}

/** CSS pixels. A cell is at least the 24 of the smallest target that a finger hits (WCAG 2.2, 2.5.8). */
const CELL = { width: 24, height: 28, gap: 2 } as const;
const NAMES = { most: 104, gap: 8 } as const;
const EDGE = 2;
const HEAD = 24;
const GROUP_SPACE = 8;

/** Opacity of the four steps; the number turns to paper on the last. */
const STEPS = [0.1, 0.22, 0.36, 0.84] as const;

/** The mantissas of a round step. */
const ROUND = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10] as const;

/** Two taught weeks that are further apart than the target, as places in the list of weeks. */
interface Gap {
	readonly from: number;
	readonly to: number;
	/** Weeks from one to the other. */
	readonly weeks: number;
}

/** The matrix as SVG text. Throws without weeks or rows, and for a cell twice or outside of them. */
export function drawTermMatrix(matrix: TermMatrix, options: Omit<ChartOptions, "width">): string {
	const { weeks, rows, cells, mostGap } = matrix;
	const { format, idPrefix, words: say = english.charts } = options;
	if (weeks.length === 0 || rows.length === 0) throw new RangeError("a matrix needs weeks and rows");
	const byRow = placeCells(matrix);
	const upTo = stepsFor(Math.max(0, ...cells.map(({ value }) => value)));

	const names = Math.min(
		NAMES.most,
		Math.max(
			...rows.flatMap(({ name, group }) => [
				textWidth(name),
				...(group === undefined ? [] : [textWidth(group, TEXT, true)]),
			]),
			30,
		),
	);
	const cellWidth = Math.max(
		CELL.width,
		...cells.map(({ value }) => Math.ceil(textWidth(format(value)) + 3)),
		...weeks.map(({ week }) => Math.ceil(textWidth(String(week)) + 3)),
	);
	const columns = {
		left: EDGE + Math.ceil(names) + NAMES.gap,
		pitch: cellWidth + CELL.gap,
		width: cellWidth,
	};
	const width = Math.max(
		columns.left + weeks.length * columns.pitch - CELL.gap + EDGE,
		mostGap === undefined ? 0 : Math.ceil(legendWidth(say.gapKey(mostGap))) + 2 * EDGE,
	);

	const drawn: string[] = [];
	let y = EDGE;
	let group: string | undefined;
	rows.forEach((row, i) => {
		if (i === 0 || row.group !== group) {
			if (i > 0) y += GROUP_SPACE;
			group = row.group;
			drawn.push(drawHead(weeks, group, columns, y, width, names, say));
			y += HEAD;
		}
		drawn.push(drawRow(row, byRow.get(row.id) ?? new Map(), matrix, options, columns, upTo, y, names));
		y += CELL.height + CELL.gap;
	});

	const steps = upTo.map(
		(limit, i): LegendItem => ({
			sample: (left, top) => drawStep(left, top, 18, 14, i + 1),
			words: say.step(format(limit)),
		}),
	);
	const gap: readonly LegendItem[] =
		mostGap === undefined
			? []
			: [{ sample: (left, top) => drawBracket(idPrefix, left, top, 18, 14), words: say.gapKey(mostGap) }];
	const none: LegendItem = { sample: (left, top) => drawNone(left, top, 18, 14), words: say.noneKey };
	const key = legend([...steps, none, ...gap], EDGE, y + 8, width - 2 * EDGE);
	return chartFrame(
		options,
		{ width, height: y + 8 + key.height },
		"chart-matrix",
		hasLinks([...weeks, ...rows, ...cells])
			? undefined
			: rows.map((row) => rowInWords(row, byRow.get(row.id), matrix, format, say)),
		(mostGap === undefined ? "" : hatchDefs(idPrefix)) + drawn.join("") + key.svg,
	);
}

function placeCells({
	weeks,
	rows,
	cells,
}: TermMatrix): ReadonlyMap<string, ReadonlyMap<number, MatrixCell>> {
	const known = new Set(weeks.map(({ week }) => week));
	const byRow = new Map<string, Map<number, MatrixCell>>(rows.map(({ id }) => [id, new Map()]));
	for (const cell of cells) {
		const row = byRow.get(cell.row);
		const what = `the cell of ${cell.row} in week ${cell.week}`;
		if (row === undefined || !known.has(cell.week)) throw new RangeError(`${what} is outside of the matrix`);
		if (row.has(cell.week)) throw new RangeError(`${what} is there twice`);
		checkValue(cell.value, what);
		row.set(cell.week, cell);
	}
	return byRow;
}

/**
 * Upper ends of four equal round steps that reach a value: 37 gives 10, 20, 30, 40. A value of 0 gives
 * steps of 1.
 */
export function stepsFor(most: number): readonly number[] {
	const quarter = most === 0 ? 1 : most / STEPS.length;
	const power = Math.floor(Math.log10(quarter));
	const mantissa = ROUND.find((m) => scaled(m, power) * STEPS.length >= most) ?? 10;
	return STEPS.map((_, i) => Number((scaled(mantissa, power) * (i + 1)).toPrecision(12)));
}

function scaled(mantissa: number, power: number): number {
	return power >= 0 ? mantissa * 10 ** power : mantissa / 10 ** -power;
}

/** The step of a value, from 1. */
function stepOf(value: number, upTo: readonly number[]): number {
	const found = upTo.findIndex((limit) => value <= limit);
	return found === -1 ? upTo.length : found + 1;
}

/** Neighbouring taught weeks that are more than `mostGap` apart. */
function longGaps(
	weeks: readonly MatrixWeek[],
	taught: ReadonlyMap<number, MatrixCell>,
	mostGap: number | undefined,
): readonly Gap[] {
	if (mostGap === undefined) return [];
	const places = weeks.flatMap(({ week }, at) => (taught.has(week) ? [{ week, at }] : []));
	return places.slice(1).flatMap(({ week, at }, i) => {
		const before = places[i];
		if (before === undefined || week - before.week <= mostGap || at - before.at < 2) return [];
		return [{ from: before.at, to: at, weeks: week - before.week }];
	});
}

interface Columns {
	readonly left: number;
	readonly pitch: number;
	readonly width: number;
}

function drawHead(
	weeks: readonly MatrixWeek[],
	group: string | undefined,
	columns: Columns,
	top: number,
	width: number,
	names: number,
	say: ChartWords,
): string {
	const base = top + HEAD - 8;
	const [name = ""] = group === undefined ? [say.corner] : wrapText(group, names, TEXT, 1, true);
	return (
		`<g class="chart-head">${text(EDGE, base, name, group === undefined ? { fill: SOFT } : { bold: true })}` +
		weeks
			.map(({ week, name: inFull, href }, i) =>
				linked(
					href,
					inFull,
					text(columns.left + i * columns.pitch + columns.width / 2, base, String(week), {
						anchor: "middle",
						bold: true,
						className: "chart-week",
					}),
					{ left: columns.left + i * columns.pitch, top, width: columns.width, height: HEAD },
				),
			)
			.join("") +
		`<path stroke="${INK}" d="M${EDGE} ${tenth(top + HEAD - 3)}H${tenth(width - EDGE)}"/></g>`
	);
}

function drawRow(
	row: MatrixRow,
	taught: ReadonlyMap<number, MatrixCell>,
	{ weeks, mostGap }: TermMatrix,
	{ format, idPrefix, words: say = english.charts }: Omit<ChartOptions, "width">,
	columns: Columns,
	upTo: readonly number[],
	top: number,
	names: number,
): string {
	const gaps = longGaps(weeks, taught, mostGap);
	const inGap = (at: number): boolean => gaps.some(({ from, to }) => from < at && at < to);
	const name = linked(
		row.href,
		row.name,
		textLines(EDGE, top + CELL.height / 2, wrapText(row.name, names, TEXT, 2), { leading: 12.5 }),
		{ left: EDGE, top, width: names, height: CELL.height },
	);
	const cells = weeks.map(({ week, name: weekName }, at) => {
		const cell = taught.get(week);
		const left = columns.left + at * columns.pitch;
		if (cell === undefined) return inGap(at) ? "" : drawNone(left, top, columns.width, CELL.height);
		const step = stepOf(cell.value, upTo);
		const number = format(cell.value);
		const label = `${row.name}, ${weekName}: ${cell.words ?? number}`;
		const drawn =
			drawStep(left, top, columns.width, CELL.height, step) +
			text(left + columns.width / 2, top + CELL.height / 2 + 3, number, {
				anchor: "middle",
				bold: step === STEPS.length,
				fill: step === STEPS.length ? PAPER : INK,
				className: "chart-number",
			});
		return cell.href === undefined
			? `<g class="chart-cell" role="img" aria-label="${escaped(label)}">${drawn}</g>`
			: linked(cell.href, label, `<g class="chart-cell">${drawn}</g>`, {
					left,
					top,
					width: columns.width,
					height: CELL.height,
				});
	});
	const brackets = gaps.map(({ from, to, weeks: length }) => {
		const left = columns.left + (from + 1) * columns.pitch;
		const width = (to - from - 1) * columns.pitch - CELL.gap;
		const words =
			[say.gap(length), say.shortGap(length)].find(
				(choice) => textWidth(choice, SMALL, true) + 14 <= width,
			) ?? say.shortestGap(length);
		const label = `${row.name}: ${gapInWords(weeks, { from, to, weeks: length }, say)}`;
		return (
			`<g class="chart-gap" role="img" aria-label="${escaped(label)}">` +
			drawBracket(idPrefix, left, top, width, CELL.height) +
			text(left + width / 2, top + CELL.height / 2 + 4, words, {
				anchor: "middle",
				size: SMALL,
				bold: true,
				fill: WRONG,
				rim: true,
			}) +
			"</g>"
		);
	});
	return `<g class="chart-row">${name}${cells.join("")}${brackets.join("")}</g>`;
}

/** A cell's ground: its shade, and a line at its foot that grows by a quarter with each step. */
function drawStep(left: number, top: number, width: number, height: number, step: number): string {
	const last = step === STEPS.length;
	const foot = height > 20 ? 5 : 3;
	return (
		box(left, top, width, height, TONE, STEPS[step - 1] ?? 1, undefined, 3) +
		`<path class="chart-step-${step}" stroke="${last ? PAPER : TONE}" stroke-width="2" d="M${tenth(left + 3)} ${tenth(top + height - foot)}h${tenth(((width - 6) * step) / STEPS.length)}"/>`
	);
}

/** Nothing in this week. */
function drawNone(left: number, top: number, width: number, height: number): string {
	return (
		`<g class="chart-none" aria-hidden="true">${box(left + 0.5, top + 0.5, width - 1, height - 1, "none", 1, LINE, 3)}` +
		`<circle cx="${tenth(left + width / 2)}" cy="${tenth(top + height / 2)}" r="1.3" fill="${SOFT}"/></g>`
	);
}

/** A hatched run between two bracket ends. */
function drawBracket(idPrefix: string, left: number, top: number, width: number, height: number): string {
	const [from, to] = [tenth(left + 1), tenth(left + width - 1)];
	const [up, down] = [tenth(top + 1), tenth(top + height - 1)];
	return (
		box(left + 1, top + 3, width - 2, height - 6, `url(#${gapId(idPrefix)})`, 1, undefined, 0) +
		`<path fill="none" stroke="${WRONG}" stroke-width="2" d="M${from + 4} ${up}H${from}V${down}H${from + 4}M${to - 4} ${up}H${to}V${down}H${to - 4}"/>`
	);
}

function hatchDefs(idPrefix: string): string {
	return (
		`<defs><pattern id="${gapId(idPrefix)}" width="6" height="6" patternUnits="userSpaceOnUse">` +
		`<path fill="none" stroke="${WRONG}" stroke-opacity="0.55" d="M-1.5 1.5l3-3M0 6l6-6M4.5 7.5l3-3"/></pattern></defs>`
	);
}

function gapId(idPrefix: string): string {
	return escaped(`${idPrefix}-gap`);
}

function gapInWords(weeks: readonly MatrixWeek[], { from, to, weeks: length }: Gap, say: ChartWords): string {
	return say.gapInFull(length, weeks[from]?.name ?? "", weeks[to]?.name ?? "");
}

function rowInWords(
	row: MatrixRow,
	taught: ReadonlyMap<number, MatrixCell> | undefined,
	{ weeks, mostGap }: TermMatrix,
	format: (value: number) => string,
	say: ChartWords,
): string {
	if (taught === undefined || taught.size === 0) return `${row.name}: ${say.never}`;
	const parts = weeks.flatMap(({ week, name }) => {
		const cell = taught.get(week);
		return cell === undefined ? [] : [`${name} ${cell.words ?? format(cell.value)}`];
	});
	const gaps = longGaps(weeks, taught, mostGap).map((gap) => gapInWords(weeks, gap, say));
	return `${row.name}: ${[...parts, ...gaps].join(", ")}`;
}
