/**
 * What the single sheets hand to the printer: files of pieces.
 *
 * A piece is laid out and printed on its own and may stand in several files: a class sheet is a file,
 * and a part of its week's packet. Its markup is a `.piece` of `.side`s in the paper's size; what is to
 * flow over sides stands in a `.pour`, what is to fit its place in a `.box`.
 */

import type { Html } from "../../scripts/views/html.ts";
import type { Piece, SheetFileOf } from "../../scripts/views/sheets/sheet.ts";

/** A way to set a piece: the size of its type, 1 as designed, and how much room it takes otherwise: 3 as designed. */
export interface SheetStep {
	readonly scale: number;
	readonly detail: 0 | 1 | 2 | 3;
}

/** How a piece is drawn. */
export interface Drawn {
	readonly html: Html;
	/** Sides it should take at most. */
	readonly most: number;
	/** What needs more sides gets further leaves, filled at full detail, and that is no problem. */
	readonly leaves?: true;
	/** From the one that is liked best to the smallest that can be read; the first that fits is taken. */
	readonly steps: readonly SheetStep[];
}

export interface SheetPiece extends Drawn, Pick<Piece, "title" | "label" | "words" | "safety" | "place"> {}

export type SheetFile = SheetFileOf<SheetPiece>;
