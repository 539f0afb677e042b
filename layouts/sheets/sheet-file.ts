/**
 * What the single sheets hand to the printer: files of pieces.
 *
 * A piece is laid out and printed on its own and may stand in several files: a class sheet is a file,
 * and a part of its week's packet. Its markup is a `.piece` of `.side`s in the paper's size; what is to
 * flow over sides stands in a `.pour`, what is to fit its place in a `.box`.
 */

import type { Place } from "../../scripts/place.ts";
import type { Html } from "../../scripts/views/html.ts";

/** What can be asked for, one for each choice of the `print` command. */
export const SHEET_KINDS = [
	"class-sheets",
	"week-packet",
	"station-cards",
	"floor-plans",
	"store-room",
	"labels",
	"check-sheets",
	"term-overview",
] as const;
export type SheetKind = (typeof SHEET_KINDS)[number];

/** A way to set a piece: the size of its type, 1 as designed, and how much room it takes otherwise: 3 as designed. */
export interface SheetStep {
	readonly scale: number;
	readonly detail: 0 | 1 | 2 | 3;
}

export interface SheetPiece {
	/** How the outline and problems call it. */
	readonly title: string;
	/** What stands before the number in the PDF's page labels. */
	readonly label: string;
	readonly html: Html;
	/** Sides it should take at most. */
	readonly most: number;
	/** What needs more sides gets further leaves, filled at full detail, and that is no problem. */
	readonly leaves?: true;
	/** From the one that is liked best to the smallest that can be read; the first that fits is taken. */
	readonly steps: readonly SheetStep[];
	/** What has to be found on paper, as plain text. */
	readonly words: readonly string[];
	/** What keeps people safe, as plain text: without it the piece is not to be used. */
	readonly safety: readonly string[];
	/** Where its content is written. */
	readonly place: Place;
}

export interface SheetFile {
	readonly kind: SheetKind;
	/** From the root of the output. */
	readonly path: string;
	readonly title: string;
	readonly landscape: boolean;
	/** Pieces start on the front of a leaf; one with an odd number of sides gets a blank back before the next. */
	readonly leaves: boolean;
	readonly pieces: readonly SheetPiece[];
}
