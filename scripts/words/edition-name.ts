/** How an edition is called. It stands apart from the languages, so that a program of one carries no other. */

import type { ClubEdition } from "../model.ts";
import type { Words } from "./words.ts";

/** What follows the word "edition" wherever a reader meets it: "7, 30 November 2026". */
export function editionNameOf({
	edition: { number, date },
	words,
}: {
	readonly edition: ClubEdition;
	readonly words: Words;
}): string {
	return words.editionName(number, words.date(date, "long"));
}
