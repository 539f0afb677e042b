/** What the sheets are made from: the handbook, and the club's pictures as addresses to embed. */

import type { Measured } from "../../scripts/compute/measure.ts";
import type { MarkdownRenderer } from "../../scripts/render/markdown.ts";

export interface SheetSource extends Measured {
	readonly markdown: MarkdownRenderer;
	/** Names this content and no other. */
	readonly edition: string;
	/** A picture of the club's media folder as a `data:` address; undefined for what cannot be printed. */
	readonly picture: (file: string) => string | undefined;
}
