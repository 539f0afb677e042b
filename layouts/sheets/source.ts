/** What the sheets are made from: the handbook, and the club's pictures as addresses to embed. */

import type { Measured } from "../../scripts/compute/measure.ts";
import type { ClubEdition } from "../../scripts/model.ts";
import type { MarkdownRenderer } from "../../scripts/views/markdown.ts";
import type { Words } from "../../scripts/words/words.ts";

export interface SheetSource extends Measured {
	readonly markdown: MarkdownRenderer;
	/** The words that are not the club's, in its language. */
	readonly words: Words;
	readonly edition: ClubEdition;
	/** A picture of the club's media folder as a `data:` address; undefined for what cannot be printed. */
	readonly picture: (file: string) => string | undefined;
}
