/**
 * What every chart shares: its frame and words, its inks, its textures, its legend, and how text is
 * measured and wrapped without a browser.
 *
 * Charts are drawn in CSS pixels. Nothing needs a style sheet: colours are custom properties with
 * fallbacks, in presentation attributes. No colour stands alone; each tone has a number, a texture or a
 * mark beside it, so a chart reads the same on a grey copy.
 */

import type { Words as Language } from "../words/words.ts";
import { escaped, INK, PAPER, tenth, type Words } from "./markup.ts";

export { escaped, INK, PAPER, tenth, type Words };

/** Fills, quiet text, hair lines, and what misses a target. */
export const TONE = "var(--heat,currentColor)";
export const SOFT = "var(--ink-soft,currentColor)";
export const LINE = "var(--line,GrayText)";
export const WRONG = "var(--wrong,currentColor)";

/** Font sizes in CSS pixels. */
export const TEXT = 12;
export const SMALL = 11;

/** Puts a number into a reader's form: 4.5 → "4.5" or "4,5". */
export type NumberFormat = (value: number) => string;

/** What charts say by themselves, in one language. */
export type ChartWords = Language["charts"];

export interface ChartOptions extends Words {
	/** For every number drawn. */
	readonly format: NumberFormat;
	/** What a chart says by itself; English if left out. */
	readonly words?: ChartWords;
	/** Width in CSS pixels; charts keep to it unless their content needs more. 320 if left out. */
	readonly width?: number;
}

/** The width of a small phone's screen. */
export const PHONE = 320;

/**
 * The `<svg>` around a chart.
 *
 * @param inWords the numbers of an image, for its description; undefined for a chart with links, which is a
 *   group whose parts speak for themselves
 */
export function chartFrame(
	words: Words,
	size: { readonly width: number; readonly height: number },
	className: string,
	inWords: readonly string[] | undefined,
	content: string,
): string {
	const role = inWords === undefined ? "group" : "img";
	const title = escaped(`${words.idPrefix}-title`);
	const description = escaped(`${words.idPrefix}-desc`);
	const width = Math.ceil(size.width);
	const height = Math.ceil(size.height);
	return (
		`<svg xmlns="http://www.w3.org/2000/svg" class="chart ${className}" viewBox="0 0 ${width} ${height}" ` +
		`width="${width}" height="${height}" role="${role}" aria-labelledby="${title}" aria-describedby="${description}" ` +
		`font-size="${TEXT}" fill="${INK}">` +
		`<title id="${title}">${escaped(words.title)}</title>` +
		`<desc id="${description}">${escaped(sentences(words.description, ...(inWords ?? [])))}</desc>${content}</svg>`
	);
}

export function hasLinks(parts: readonly { readonly href?: string | undefined }[]): boolean {
	return parts.some(({ href }) => href !== undefined);
}

/** A rectangle that a finger or a pointer hits. */
export interface HitArea {
	readonly left: number;
	readonly top: number;
	readonly width: number;
	readonly height: number;
}

/**
 * `content` with a link over it where there is an address. What is drawn is hidden from screen readers,
 * which read the link's label: numbers scattered over a chart are no name for it.
 */
export function linked(
	href: string | undefined,
	label: string,
	content: string,
	{ left, top, width, height }: HitArea,
): string {
	if (href === undefined) return content;
	return (
		`<g aria-hidden="true">${content}</g><a href="${escaped(href)}" aria-label="${escaped(label)}">` +
		`<rect class="chart-hit" x="${tenth(left)}" y="${tenth(top)}" width="${tenth(width)}" height="${tenth(height)}" rx="3" fill="none" pointer-events="all"/></a>`
	);
}

interface TextStyle {
	readonly anchor?: "start" | "middle" | "end";
	readonly size?: number;
	readonly bold?: boolean;
	readonly fill?: string;
	/** A rim of paper, for text over textures and lines. */
	readonly rim?: boolean;
	readonly className?: string;
}

/** One line of text on its base line. */
export function text(x: number, y: number, words: string, style: TextStyle = {}): string {
	const { anchor = "start", size = TEXT, bold = false, fill, rim = false, className } = style;
	return (
		`<text${className === undefined ? "" : ` class="${className}"`} x="${tenth(x)}" y="${tenth(y)}"` +
		(anchor === "start" ? "" : ` text-anchor="${anchor}"`) +
		(size === TEXT ? "" : ` font-size="${size}"`) +
		(bold ? ' font-weight="700"' : "") +
		(fill === undefined ? "" : ` fill="${fill}"`) +
		(rim ? ` stroke="${PAPER}" stroke-width="3.5" stroke-linejoin="round" paint-order="stroke"` : "") +
		`>${escaped(words)}</text>`
	);
}

/** Lines under each other, centred on the height `y`. */
export function textLines(
	x: number,
	y: number,
	lines: readonly string[],
	style: TextStyle & { readonly leading?: number } = {},
): string {
	const { leading = 13, size = TEXT } = style;
	const first = y - ((lines.length - 1) * leading) / 2 + size * 0.35;
	return lines.map((line, i) => text(x, first + i * leading, line, style)).join("");
}

/** Characters by width in ems: measured on no font in particular, on the wide side of common text faces. */
const WIDTHS: readonly (readonly [RegExp, number])[] = [
	[/[.,:;'’|!ijlI\u00b7]/u, 0.32],
	[/[ frt()\-/]/u, 0.42],
	[/[mwMW%@…–−×+]/u, 0.88],
	[/\p{Lu}/u, 0.67],
	[/[\u1100-\u{3ffff}]/u, 1.05],
];
const OTHER_WIDTH = 0.57;
const BOLD_SHARE = 1.06;

/** About how wide a line of text is, in CSS pixels. */
export function textWidth(words: string, size: number = TEXT, bold = false): number {
	let ems = 0;
	for (const sign of words) ems += WIDTHS.find(([signs]) => signs.test(sign))?.[1] ?? OTHER_WIDTH;
	return ems * size * (bold ? BOLD_SHARE : 1);
}

/**
 * Breaks words into at most `most` lines of a width in CSS pixels, at spaces and after hyphens; a piece
 * wider than the line is broken, and what does not fit ends in "…".
 */
export function wrapText(words: string, width: number, size: number, most: number, bold = false): string[] {
	const fits = (line: string): boolean => textWidth(line, size, bold) <= width;
	const lines: string[] = [];
	let line = "";
	for (const word of words.split(/\s+/)) {
		// After a hyphen a word may go on in the next line without a mark.
		(word.match(/[^-]+-*|-+/g) ?? []).forEach((piece, i) => {
			const longer = line === "" || i > 0 ? line + piece : `${line} ${piece}`;
			if (fits(longer)) {
				line = longer;
				return;
			}
			if (line !== "") lines.push(line);
			line = "";
			for (const sign of piece) {
				if (line !== "" && !fits(line + sign)) {
					lines.push(line);
					line = "";
				}
				line += sign;
			}
		});
	}
	lines.push(line);
	if (lines.length <= most) return lines;
	let last = [...(lines[most - 1] ?? "")];
	while (last.length > 0 && !fits(`${last.join("")}…`)) last = last.slice(0, -1);
	return [...lines.slice(0, most - 1), `${last.join("").trimEnd()}…`];
}

/** Lines of the textures, on a tile of eight pixels. */
const TEXTURES = [
	"",
	'<path d="M-2 2l4-4M0 8l8-8M6 10l4-4"/>',
	'<circle cx="2" cy="2" r="1.1"/><circle cx="6" cy="6" r="1.1"/>',
	'<path d="M2 0v8M6 0v8"/>',
	'<path d="M-2 6l4 4M0 0l8 8M6-2l4 4"/>',
	'<path d="M0 4h8M4 0v8"/>',
] as const;
const TEXTURE_TONES = [0.34, 0.08, 0, 0.16, 0.22, 0.04] as const;
/** Series beyond the last texture come again on a darker ground. */
const DARKER = 0.14;

/** The pattern elements of a number of series; their ids begin with `idPrefix`. */
export function textureDefs(idPrefix: string, count: number): string {
	const patterns = Array.from({ length: count }, (_, i) => {
		const kind = i % TEXTURES.length;
		const tone = (TEXTURE_TONES[kind] ?? 0) + DARKER * Math.floor(i / TEXTURES.length);
		const dots = kind === 2;
		return (
			`<pattern id="${escaped(textureId(idPrefix, i))}" width="8" height="8" patternUnits="userSpaceOnUse">` +
			`<path fill="${TONE}" fill-opacity="${Math.round(Math.min(tone, 0.6) * 100) / 100}" d="M0 0h8v8H0z"/>` +
			`<g ${dots ? `fill="${TONE}"` : `fill="none" stroke="${TONE}" stroke-width="1.3"`}>${TEXTURES[kind] ?? ""}</g></pattern>`
		);
	});
	return `<defs>${patterns.join("")}</defs>`;
}

/** The fill of series `index`. */
export function texture(idPrefix: string, index: number): string {
	return `url(#${escaped(textureId(idPrefix, index))})`;
}

function textureId(idPrefix: string, index: number): string {
	return `${idPrefix}-texture-${index + 1}`;
}

export interface LegendItem {
	/** Draws its sample in a box of 18 by 14 pixels at a corner. */
	readonly sample: (left: number, top: number) => string;
	readonly words: string;
}

const SAMPLE = { width: 18, height: 14 } as const;
const LEGEND_ROW = 20;

export function legendWidth(words: string): number {
	return SAMPLE.width + 5 + textWidth(words, SMALL);
}

/** Samples and their words from `top` downwards, wrapped to a width, with the height they take. */
export function legend(
	items: readonly LegendItem[],
	left: number,
	top: number,
	width: number,
): { readonly svg: string; readonly height: number } {
	let x = left;
	let y = top;
	const drawn = items.map(({ sample, words: whole }) => {
		const [words = ""] = wrapText(whole, width - SAMPLE.width - 5, SMALL, 1);
		const needs = legendWidth(words);
		if (x > left && x + needs > left + width) {
			x = left;
			y += LEGEND_ROW;
		}
		const at = x;
		x += needs + 12;
		return sample(at, y) + text(at + SAMPLE.width + 5, y + 11, words, { size: SMALL, fill: SOFT });
	});
	return {
		svg: `<g class="chart-legend" aria-hidden="true">${drawn.join("")}</g>`,
		height: items.length === 0 ? 0 : y - top + LEGEND_ROW,
	};
}

export function boxSample(fill: string): LegendItem["sample"] {
	return (left, top) => box(left + 0.5, top + 0.5, SAMPLE.width - 1, SAMPLE.height - 1, fill, 1, TONE);
}

/** A rectangle, with an outline where `stroke` says so. */
export function box(
	left: number,
	top: number,
	width: number,
	height: number,
	fill: string,
	opacity = 1,
	stroke?: string,
	radius = 2,
): string {
	return (
		`<rect x="${tenth(left)}" y="${tenth(top)}" width="${tenth(width)}" height="${tenth(height)}"` +
		(radius === 0 ? "" : ` rx="${radius}"`) +
		` fill="${fill}"${opacity === 1 ? "" : ` fill-opacity="${opacity}"`}` +
		`${stroke === undefined ? "" : ` stroke="${stroke}"`}/>`
	);
}

/** The length of a value where `most` fills the room; dividing first, for a scale may be past all numbers. */
export function lengthOf(value: number, most: number, room: number): number {
	return most === 0 ? 0 : (value / most) * room;
}

/** Throws for what cannot be drawn: a value that is not a number, or below 0. */
export function checkValue(value: number, what: string): void {
	if (!Number.isFinite(value) || value < 0) throw new RangeError(`${what} cannot be drawn: ${value}`);
}

/** Sentences for a description. */
export function sentences(...parts: readonly string[]): string {
	return parts
		.filter((part) => part !== "")
		.map((part) => (/[.!?…]$/u.test(part) ? part : `${part}.`))
		.join(" ");
}
