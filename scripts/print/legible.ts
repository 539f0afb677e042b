/**
 * Whether words on a printed page can be read: their size, what lies over them, and whether every letter
 * has a shape. Taken from the finished PDF, since a drawing or a browser may make type smaller than the
 * style sheet says. Pure.
 */

import { POINTS } from "../pdf/points.ts";
import { hasSyllables, hasWords, lettersOf } from "./letters.ts";
import type { Words } from "./read-back.ts";

/** Points. Common practice: newspapers are set in 8 to 9, and a sheet is held at arm's length in a hall. */
const LEAST_POINTS = 8.5;
/** Points, for what keeps people safe: emergency, caution, spotting. */
export const LEAST_SAFETY_POINTS = 9;

/** Browsers and PDF round; points. */
const ROUNDING = 0.04;

/** What cannot be read on a page. */
export interface Illegible {
	/** In smaller type than anything should be. */
	readonly small: readonly { readonly text: string; readonly points: number }[];
	/** Pairs of words that lie on each other. */
	readonly over: readonly (readonly [string, string])[];
	/** Words with a letter that no font has: an empty box is printed in its place. */
	readonly shapeless: readonly string[];
}

/** Letters with the type they are set in: for each change, the position of the letter and the points. */
export type Sizes = readonly (readonly [at: number, points: number])[];

export function illegible(words: readonly Words[]): Illegible {
	return {
		small: words
			.map(({ text, size }) => ({ text: shown(text), points: size * POINTS }))
			.filter(({ text, points }) => points < LEAST_POINTS - ROUNDING && /\S/.test(text)),
		over: overlaps(words).map(([a, b]) => [shown(a.text), shown(b.text)]),
		shapeless: words.flatMap(({ text, bottom }, i) => {
			if (!text.includes(NO_SHAPE)) return [];
			// Letters of another font are read back apart: what stands beside them says which they are.
			const beside = [words[i - 1], words[i], words[i + 1]].filter(
				(one) => one !== undefined && Math.abs(one.bottom - bottom) < 2,
			);
			const line = beside.map((one) => one?.text).join(" ");
			// The shape of a syllable has no name in a PDF either.
			return hasSyllables(line) ? [] : shown(line);
		}),
	};
}

/** How a PDF names the shape that stands for letters that a font does not have (glyph 0 of every OpenType font). */
const NO_SHAPE = "\0";

/** Letters of a text that are told. */
const SHOWN = 60;

function shown(text: string): string {
	const words = text.replaceAll(NO_SHAPE, "□").trim();
	return words.length > SHOWN ? `${words.slice(0, SHOWN)}…` : words;
}

/** Shares of the smaller type by which boxes have to lie on each other: accents and slanted letters lean over. */
const OVER_ACROSS = 0.3;
const OVER_DOWN = 0.25;

function overlaps(words: readonly Words[]): readonly (readonly [Words, Words])[] {
	const found: [Words, Words][] = [];
	const sorted = [...words].sort((a, b) => a.top - b.top);
	sorted.forEach((a, i) => {
		for (let j = i + 1; j < sorted.length; j++) {
			const b = sorted[j];
			if (b === undefined || b.top >= a.bottom) break;
			const size = Math.min(a.size, b.size);
			const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
			const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
			if (across > size * OVER_ACROSS && down > size * OVER_DOWN) found.push([a, b]);
		}
	});
	return found;
}

/** The letters of words, and their sizes. */
export function sizedLetters(words: readonly Words[]): { readonly letters: string; readonly sizes: Sizes } {
	let letters = "";
	const sizes: [number, number][] = [];
	for (const { text, size } of words) {
		const own = lettersOf(text);
		if (own === "") continue;
		const points = Math.round(size * POINTS * 100) / 100;
		if (sizes.at(-1)?.[1] !== points) sizes.push([letters.length, points]);
		letters += own;
	}
	return { letters, sizes };
}

/** How words stand among letters: missing, or the smallest type of the place where they are largest. */
export function largestType(
	{ letters, sizes }: { readonly letters: string; readonly sizes: Sizes },
	words: string,
): number | undefined {
	const wanted = lettersOf(words);
	let largest: number | undefined;
	for (let at = letters.indexOf(wanted); at >= 0 && wanted !== ""; at = letters.indexOf(wanted, at + 1)) {
		const end = at + wanted.length;
		const own = sizes.filter(([from], i) => from < end && (sizes[i + 1]?.[0] ?? letters.length) > at);
		const least = Math.min(...own.map(([, points]) => points));
		largest = Math.max(largest ?? 0, least);
	}
	if (largest !== undefined) return largest;
	// Where directions mix, words are found one by one, and the smallest type of the page is taken for theirs.
	return hasWords(letters, words) ? Math.min(...sizes.map(([, points]) => points)) : undefined;
}

/** Whether safety text in such type is too small. */
export function isTooSmallForSafety(points: number): boolean {
	return points < LEAST_SAFETY_POINTS - ROUNDING;
}

/** Codes of what cannot be read. */
export type FlawCode = "H406" | "H407" | "H408";

/** What cannot be read, in words. */
export function flawsOf({
	small,
	over,
	shapeless,
}: Illegible): readonly (readonly [FlawCode, readonly string[]])[] {
	return [
		["H406", small.map(({ text, points }) => `"${text}" is in ${points.toFixed(1)} pt`)],
		["H407", over.map(([a, b]) => `"${a}" and "${b}" lie on each other`)],
		["H408", shapeless.map((text) => `"${text}" has a letter that no font here has`)],
	];
}
