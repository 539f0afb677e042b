/**
 * How much floor a piece of equipment takes, and what it is for at a station.
 *
 * A size is the club's own where it gives one; else the first row of the table whose words all stand in
 * the item's id; else, in its name; else that of an unknown item. Rows run from the particular to the
 * general ("floor bar" before "bar"). Published sizes name their source; the others are common sizes
 * chosen by us, and no rule.
 */

import type { Equipment } from "../model.ts";
import { onceEach } from "./get-or-make.ts";

/** The plan symbol an item is drawn with. */
export type PlanSymbol =
	| "bar"
	| "beam"
	| "block"
	| "board"
	| "box"
	| "cone"
	| "cylinder"
	| "disc"
	| "hoop"
	| "landing"
	| "line"
	| "mat"
	| "other"
	| "pair"
	| "ring"
	| "rope"
	| "small"
	| "soft"
	| "stack"
	| "table"
	| "trampoline"
	| "wall"
	| "wedge";

/**
 * What an item does in a station's arrangement: `bar` and `beam` carry the work and have mats around
 * them; `body` stands in the lane; `board` is taken off from after a run; `mat` is worked on; `landing`
 * is landed on; `line`, `mark` and `hand` lie in the lane; `wall` wants the edge of the plan; `aside`
 * stands beside the lane; `on` takes no floor of its own.
 */
export type Role =
	| "aside"
	| "bar"
	| "beam"
	| "board"
	| "body"
	| "hand"
	| "landing"
	| "line"
	| "mark"
	| "mat"
	| "on"
	| "wall";

export interface Footprint {
	readonly symbol: PlanSymbol;
	readonly role: Role;
	/** Metres in the direction of the work. */
	readonly length: number;
	/** Metres across it. */
	readonly width: number;
	/** Who published the size; undefined where it is a common size chosen by us or the club's own. */
	readonly source?: string;
	/** Whether the club gave the size, or no row of the table fitted. */
	readonly from: "club" | "table" | "unknown";
}

const FIG = "FIG, women's artistic apparatus";

interface Row {
	/** Each alternative is a set of words that must all be there. */
	readonly words: readonly (readonly string[])[];
	readonly symbol: PlanSymbol;
	readonly role: Role;
	readonly size: readonly [length: number, width: number];
	readonly source?: string;
}

function row(
	words: string,
	symbol: PlanSymbol,
	role: Role,
	length: number,
	width: number,
	source?: string,
): Row {
	return {
		words: words.split(", ").map(wordsOf),
		symbol,
		role,
		size: [length, width],
		...(source === undefined ? {} : { source }),
	};
}

/** From the particular to the general. */
const TABLE: readonly Row[] = [
	// Lies on something else, hangs on a wall, or stands outside the plan.
	row(
		"pad, sleeve, timer, clock, whistle, music, speaker, tablet, camera, tape measure",
		"small",
		"on",
		0,
		0,
	),
	row("throw mat, sting mat, top mat", "mat", "on", 2, 1.2),
	// Walls.
	row("wall bar, wall bars, stall bars, ladder", "wall", "wall", 0.2, 0.9),
	row("wall", "wall", "wall", 0.1, 2),
	// Beside the lane.
	row("spotting, platform, side mat, beam step, step stool", "block", "aside", 0.9, 0.6),
	row("chalk, bowl, bucket", "disc", "aside", 0.5, 0.5),
	// Vault.
	row("vault table, table", "table", "body", 1.2, 0.95, FIG),
	row("mini trampoline, trampette, minitramp", "trampoline", "board", 1.2, 1.2),
	row("trampoline, airtrack, air track, tumble track", "trampoline", "body", 6, 2),
	row("springboard, spring board, beat board, board", "board", "board", 1.2, 0.6),
	row("mat stack, stack, pit", "stack", "landing", 3, 2),
	row("box, trapezoid, horse, buck, mushroom, pommel", "box", "body", 0.8, 1.4),
	// Bars. The bar lies across the work.
	row("parallette, parallettes, push-up bars", "pair", "body", 0.6, 0.5),
	row("floor bar, mini bar", "bar", "bar", 0.8, 1.5),
	row("parallel bars, parallel bar", "pair", "bar", 3.5, 0.6),
	row("ring, rings", "ring", "bar", 0.4, 0.6),
	row("bar, bars, rail", "bar", "bar", 0.2, 2.4),
	// Beam: top 10 cm wide, 5 m long.
	row("beam", "beam", "beam", 5, 0.1, FIG),
	row("bench", "beam", "beam", 3, 0.3),
	// Things worked on and over.
	row("small wedge", "wedge", "body", 1.2, 0.6),
	row("wedge, incline, ramp, cheese", "wedge", "body", 1.8, 1.2),
	row("barrel, octagon, roller, cylinder", "cylinder", "body", 0.8, 0.9),
	row("block, cube", "block", "body", 0.6, 0.9),
	row("climbing rope, rope climb", "disc", "body", 0.5, 0.5),
	// Mats.
	row("soft mat, deep mat, crash mat, safety mat, cushion", "soft", "landing", 2.4, 1.5),
	row("landing mat, landing", "landing", "landing", 2, 1.5),
	row("panel, folding, mat, mats, tumbling", "mat", "mat", 1.8, 1.2),
	// Lines and small things.
	row("line, tape", "line", "line", 4, 0.06),
	row("rope, skipping, jump rope", "rope", "mark", 0.1, 1.2),
	row("hoop", "hoop", "mark", 0.7, 0.7),
	row("cone", "cone", "mark", 0.25, 0.25),
	row("hand marker, hand print, foot marker, foot print", "pair", "mark", 0.25, 0.35),
	row("marker, spot, dot", "disc", "mark", 0.25, 0.25),
	row("ribbon, ball, club, beanbag, band, slider, disc, balloon, scarf, stick", "small", "hand", 0.2, 0.2),
];

/** An item no row knows: a square metre, in the lane. */
const UNKNOWN: Footprint = { symbol: "other", role: "body", length: 1, width: 1, from: "unknown" };

type Item = Pick<Equipment, "id" | "name" | "size">;

/** The floor an item takes. */
export const footprintOf = onceEach((item: Item): Footprint => {
	const found = rowFor(item.id) ?? rowFor(item.name);
	const base: Footprint =
		found === undefined
			? UNKNOWN
			: {
					symbol: found.symbol,
					role: found.role,
					length: found.size[0],
					width: found.size[1],
					from: "table",
					...(found.source === undefined ? {} : { source: found.source }),
				};
	if (item.size === undefined) return base;
	const { symbol, role } = base;
	return { symbol, role, length: item.size[0], width: item.size[1], from: "club" };
});

function rowFor(text: string): Row | undefined {
	const words = new Set(wordsOf(text));
	return TABLE.find(({ words: alternatives }) =>
		alternatives.some((wanted) => wanted.every((word) => words.has(word))),
	);
}

/** Words in lower case and without the plural's s, so that "mats" finds "mat". */
function wordsOf(text: string): readonly string[] {
	return (text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []).map((word) =>
		word.length > 3 && word.endsWith("s") && !word.endsWith("ss") ? word.slice(0, -1) : word,
	);
}

/** The floor's norm, for a club that gives no size of its own: the area, and the border around it. */
export const FLOOR_NORM = { length: 12, width: 12, border: 1, source: FIG } as const;
