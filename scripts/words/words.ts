/**
 * Every word of the handbook that is not the club's own, by language.
 *
 * A language is one file with the same named sections, `en.ts` being the pattern: a section is a
 * record of texts, or of functions from values to text where a sentence holds names or numbers. A
 * missing or misspelt word in another language is a type error. To add a language: copy `fr.ts`,
 * translate it, and name it here.
 *
 * What a programme in the reader's browser says stands in the same files, in sections of its own.
 */

import * as english from "./en.ts";
import * as french from "./fr.ts";

/** The sections of a language. */
export type Words = typeof english;

const WORDS: Readonly<Record<string, Words>> = { en: english, fr: french };

/** Those that the handbook's frame is written in. */
export const LANGUAGES: readonly string[] = Object.keys(WORDS);

/** The words for a BCP 47 tag, by its first part: `fr-CA` is French. English for a language that is not here. */
export function wordsFor(language: string): Words {
	return WORDS[language.toLowerCase().split("-")[0] ?? ""] ?? english;
}
