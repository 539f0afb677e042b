/**
 * Holds a club's texts against its own list of words (_data/words.yaml): what is said one way in a cue and
 * another way in a note is two things to a child.
 *
 * Aliases are what others say, and are left alone; so are ids, code and the targets of links.
 */

import { type ClubWord, isPageKind, type SourceFile } from "../model.ts";
import { type Problem, problem } from "../problems.ts";
import { withoutCode } from "./link-syntax.ts";
import { proseOf } from "./texts-of.ts";

/**
 * A file that was read stays the same for ever, and comes again at every change of another: a quarter of the
 * time that the desk takes for a change went here. Kept with the words that it was held against.
 */
const known = new WeakMap<SourceFile, { readonly words: string; readonly problems: readonly Problem[] }>();

export function unsaidWords(files: readonly SourceFile[], words: readonly ClubWord[]): readonly Problem[] {
	const preferred = new Map(
		words.flatMap((word) => word.not.map((one) => [one.toLowerCase(), word] as const)),
	);
	if (preferred.size === 0) return [];
	// The longest first, so that a word of two is not taken for its half.
	const any = [...preferred.keys()].sort((a, b) => b.length - a.length).map(escaped);
	const pattern = new RegExp(`(?<![\\p{L}\\p{N}-])(?:${any.join("|")})(?![\\p{L}\\p{N}-])`, "giu");
	const all = JSON.stringify(words);
	return files
		.filter(({ kind }) => isPageKind(kind))
		.flatMap((file) => {
			const before = known.get(file);
			if (before?.words === all) return before.problems;
			const problems = proseOf(file).flatMap(({ text, placeOf }) =>
				read(text)
					.split("\n")
					.flatMap((line, number) =>
						[...line.matchAll(pattern)].flatMap(({ 0: found, index }): readonly Problem[] => {
							const word = preferred.get(found.toLowerCase());
							if (word === undefined) return [];
							const why = word.note === undefined ? "" : ` ${word.note}`;
							const what = `“${found}” stands here; the club says “${word.say}”.${why}`;
							return [problem("H218", placeOf(number, index), what)];
						}),
					),
			);
			known.set(file, { words: all, problems });
			return problems;
		});
}

/** The text as it is read: without code, and of a link only its words; every place stays. */
function read(text: string): string {
	const blank = (part: string): string => part.replace(/[^\n]/g, " ");
	return withoutCode(text).replace(/\[\[[^[\]|\n]+(?=\||\]\])/g, blank);
}

function escaped(text: string): string {
	return text.toLowerCase().replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
