/**
 * Planned against available minutes of a class, week by week.
 *
 *   1. one scale from 0, weeks across
 *   2. available as a stepped broken line, planned as a solid line with a mark for each week
 *   3. planned numbers at their marks, and under each week what is left over or too much
 *
 * A week that asks for more than there is has a triangle instead of a dot, and a plus sign.
 */

import * as english from "../words/en.ts";
import {
	type ChartOptions,
	type ChartWords,
	chartFrame,
	checkValue,
	hasLinks,
	INK,
	type LegendItem,
	LINE,
	legend,
	linked,
	PAPER,
	PHONE,
	SMALL,
	SOFT,
	TEXT,
	TONE,
	tenth,
	text,
	textWidth,
	WRONG,
} from "./chart-frame.ts";

export interface TimeLine {
	readonly points: readonly TimePoint[];
}

export interface TimePoint {
	/** As in "Week 3". */
	readonly name: string;
	/** As it stands under the line: "3". */
	readonly short: string;
	readonly planned: number;
	/** Unknown where the class has no length. */
	readonly available?: number;
	readonly href?: string;
}

/** CSS pixels. */
const EDGE = 2;
const PLOT = 132;
const HEAD = 22;
const FLOOR = HEAD + PLOT;
const LEAST_PITCH = 24;

/** The line as SVG text. Throws without points. */
export function drawTimeLine({ points }: TimeLine, options: ChartOptions): string {
	const { format, words: say = english.charts } = options;
	if (points.length === 0) throw new RangeError("a line needs at least one week");
	for (const { name, planned, available } of points) {
		checkValue(planned, name);
		if (available !== undefined) checkValue(available, name);
	}
	const differences = points.map(({ planned, available }) =>
		available === undefined ? "" : signed(planned - available, format),
	);
	const left = EDGE + Math.ceil(Math.max(textWidth(say.weeks, SMALL), textWidth(say.difference, SMALL))) + 6;
	const pitch = Math.max(
		LEAST_PITCH,
		((options.width ?? PHONE) - left - EDGE) / points.length,
		...points.map(
			({ planned, short }) => Math.max(textWidth(format(planned), TEXT, true), textWidth(short)) + 2,
		),
		...differences.map((words) => textWidth(words, SMALL, true) + 3),
	);
	const width = Math.ceil(left + pitch * points.length + EDGE);
	const most = Math.max(1, ...points.flatMap(({ planned, available }) => [planned, available ?? 0]));
	const x = (i: number): number => left + pitch * (i + 0.5);
	const yOf = (value: number): number => FLOOR - (value / most) * PLOT;

	const steps = points
		.map(({ available }, i) => {
			if (available === undefined) return "";
			const y = tenth(yOf(available));
			const joins = points[i - 1]?.available !== undefined;
			return `${joins ? `V${y}` : `M${tenth(x(i) - pitch / 2)} ${y}`}H${tenth(x(i) + pitch / 2)}`;
		})
		.join("");
	const labels = points.map(({ planned, available }, i) =>
		available === undefined || available === points[i - 1]?.available
			? ""
			: text(x(i) - pitch / 2 + 2, yOf(available) + (planned > available ? 13 : -5), format(available), {
					size: SMALL,
					fill: SOFT,
					rim: true,
					className: "chart-available",
				}),
	);
	const line = points
		.map(({ planned }, i) => `${i === 0 ? "M" : "L"}${tenth(x(i))} ${tenth(yOf(planned))}`)
		.join("");

	const weeks = points.map((point, i) => {
		const drawn = drawPoint(point, differences[i] ?? "", x(i), yOf(point.planned), format);
		const area = { left: x(i) - pitch / 2, top: HEAD, width: pitch, height: PLOT + 40 };
		return linked(point.href, pointInWords(point, format, say), drawn, area);
	});

	const known = points.some(({ available }) => available !== undefined);
	const key = legend(legendOf(points, say), EDGE, FLOOR + 46, width - 2 * EDGE);
	return chartFrame(
		options,
		{ width, height: FLOOR + 46 + key.height },
		"chart-line",
		hasLinks(points) ? undefined : points.map((point) => pointInWords(point, format, say)),
		`<path stroke="${LINE}" d="M${left} ${tenth(FLOOR - PLOT / 2)}H${width - EDGE}"/>` +
			`<path stroke="${INK}" d="M${left} ${FLOOR}H${width - EDGE}"/>` +
			text(EDGE, FLOOR + 17, say.weeks, { size: SMALL, fill: SOFT }) +
			(known ? text(EDGE, FLOOR + 34, say.difference, { size: SMALL, fill: SOFT }) : "") +
			(known ? availableLine(steps) : "") +
			`<path class="chart-planned" fill="none" stroke="${TONE}" stroke-width="2.5" stroke-linejoin="round" d="${line}"/>` +
			labels.join("") +
			weeks.join("") +
			key.svg,
	);
}

/** A week's mark with its number above it or, where there is room, below; its name, and what is left over. */
function drawPoint(
	point: TimePoint,
	difference: string,
	x: number,
	y: number,
	format: (value: number) => string,
): string {
	const over = isOver(point);
	const below = point.planned > 0 && FLOOR - y > 24 && !over;
	const number = text(x, below ? y + 19 : y - 10, format(point.planned), {
		anchor: "middle",
		bold: true,
		rim: true,
		className: "chart-number",
	});
	const beside =
		difference === ""
			? ""
			: text(x, FLOOR + 34, difference, {
					anchor: "middle",
					size: SMALL,
					bold: over,
					fill: over ? WRONG : SOFT,
					className: "chart-difference",
				});
	const name = text(x, FLOOR + 17, point.short, { anchor: "middle" });
	return `<g class="chart-point">${mark(x, y, over)}${number}${name}${beside}</g>`;
}

function legendOf(points: readonly TimePoint[], say: ChartWords): readonly LegendItem[] {
	const planned: LegendItem = {
		sample: (x, y) =>
			`<path stroke="${TONE}" stroke-width="2" d="M${tenth(x)} ${tenth(y + 7)}h18"/>${mark(x + 9, y + 7, false)}`,
		words: say.planned,
	};
	const available: LegendItem = {
		sample: (x, y) => availableLine(`M${tenth(x)} ${tenth(y + 7)}h18`),
		words: say.available,
	};
	const over: LegendItem = { sample: (x, y) => mark(x + 9, y + 7, true), words: say.over };
	const known = points.some((point) => point.available !== undefined);
	return [planned, ...(known ? [available] : []), ...(points.some(isOver) ? [over] : [])];
}

/** Whether more is planned than there is; nobody can say where no length is known. */
function isOver({ planned, available }: TimePoint): boolean {
	return available !== undefined && planned > available;
}

function availableLine(d: string): string {
	return `<path class="chart-steps" fill="none" stroke="${INK}" stroke-width="1.5" stroke-dasharray="5 3" d="${d}"/>`;
}

/** A dot, or a triangle where the plan asks for too much. */
function mark(x: number, y: number, over: boolean): string {
	return over
		? `<path class="chart-over" fill="${WRONG}" stroke="${PAPER}" d="M${tenth(x)} ${tenth(y - 6)}l6 10h-12z"/>`
		: `<circle fill="${TONE}" stroke="${PAPER}" cx="${tenth(x)}" cy="${tenth(y)}" r="4"/>`;
}

/** A difference with its sign; a true minus, which is as wide as a plus. */
function signed(difference: number, format: (value: number) => string): string {
	if (difference === 0) return format(0);
	return `${difference > 0 ? "+" : "−"}${format(Math.abs(difference))}`;
}

function pointInWords(
	{ name, planned, available }: TimePoint,
	format: (value: number) => string,
	say: ChartWords,
): string {
	return `${name}: ${say.inFull(format(planned), available === undefined ? undefined : format(available))}`;
}
