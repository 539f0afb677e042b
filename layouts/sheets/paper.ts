/**
 * The sheet: its size, what the punch takes from it, and the text area that is left.
 *
 * Lengths are CSS pixels (96 to the inch, 25.4 mm), whole ones where the text stands, so that a
 * browser rounds nothing. The text area is a whole number of lines: facing pages keep the same
 * baselines.
 */

import type { Club } from "../../scripts/model.ts";

/** What sheets are printed on: A5 is the pocket's. */
export type PaperName = Club["paper"] | "A5";

export interface Paper {
	readonly name: PaperName;
	readonly width: number;
	readonly height: number;
	/** Kept free of everything at the binding edge. */
	readonly punched: number;
	/** Kept free at the other three edges: office printers leave it white. */
	readonly border: number;
	/** From the binding edge to the text. */
	readonly inner: number;
	/** From the top edge to the text; the running head stands in it. */
	readonly top: number;
	readonly areaWidth: number;
	readonly areaHeight: number;
}

/** A millimetre in pixels. */
const MM = 96 / 25.4;

/** One line of the text, pixels. */
const LINE = 18;

const SIZES: Readonly<Record<PaperName, { readonly width: number; readonly height: number }>> = {
	A4: { width: 210 * MM, height: 297 * MM },
	A5: { width: 148 * MM, height: 210 * MM },
	Letter: { width: 8.5 * 96, height: 11 * 96 },
};

/**
 * The paper of a club.
 *
 * Sizes: A4 is 210 × 297 mm, A5 148 × 210 mm (ISO 216), Letter 8.5 × 11 in. Holes: centres 12 mm from the edge and
 * 6 mm across for two and four holes (ISO 838), so the rim of a hole is 15 mm in. The three-hole
 * punch has no standard; common practice is centres half an inch from the edge and 8 mm across, so
 * 16.7 mm. Two millimetres are added for a sheet punched askew.
 */
export function paperOf(club: { readonly paper: PaperName; readonly punch: Club["punch"] }): Paper {
	const { width, height } = SIZES[club.paper];
	const rim = club.punch === "three-hole" ? 12.7 + 4 : 12 + 3;
	const inner = Math.ceil((rim + 7) * MM);
	const top = Math.ceil(16 * MM);
	const outer = 16 * MM;
	const bottom = 14 * MM;
	return {
		name: club.paper,
		width,
		height,
		punched: (rim + 2) * MM,
		border: 5 * MM,
		inner,
		top,
		areaWidth: Math.floor(width - inner - outer),
		areaHeight: Math.floor((height - top - bottom) / LINE) * LINE,
	};
}
