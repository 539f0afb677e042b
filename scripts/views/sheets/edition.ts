/** What a printed binder was: leaves, and the editions in which they last changed. */

import type { Club, ClubEdition, Id } from "../../model.ts";
import { editionNameOf } from "../../words/edition-name.ts";
import type { Words } from "../../words/words.ts";

/** An edition as a leaf names it. */
export interface EditionMark {
	readonly id: string;
	/** As it is printed, with its date. */
	readonly words: string;
}

/**
 * What is bound together: the binder is all of it; the library is what is coached from year to year; the
 * director's volume is what the term trains and needs.
 */
export const VOLUMES = ["binder", "library", "director"] as const;
export type Volume = (typeof VOLUMES)[number];

export const EDITION_FORMAT = 1;

/** The codes of all passages of each part, by the part's label, one after the other. */
export type PassageCodes = Readonly<Record<string, string>>;

/** What an edition is called in the file. */
export function editionId({ number, content }: ClubEdition): string {
	return `${number}-${content.slice(0, 8)}`;
}

/** The edition of a handbook, as it is printed. */
export function editionMark(handbook: { readonly edition: ClubEdition; readonly words: Words }): EditionMark {
	return {
		id: editionId(handbook.edition),
		words: handbook.words.binder.edition(editionNameOf(handbook)),
	};
}

/** What a pocket was made of. */
export interface PocketChoice {
	readonly classes: readonly Id[];
	/** Every week where none is named. */
	readonly week?: Id;
}

/** The file's content; `edition.schema.json` says the same to other programs. */
export interface Edition {
	readonly format: typeof EDITION_FORMAT;
	/** The binder's own edition: one of `issues`. */
	readonly edition: string;
	/** Which volume, where it is not the binder. */
	readonly volume?: Volume;
	/** Whose pocket it is, where it is one. */
	readonly pocket?: PocketChoice & { readonly twoUp: boolean };
	readonly title: string;
	readonly paper: Club["paper"] | "A5";
	readonly punch: Club["punch"];
	/** Hash of the style sheet: with another one every page may look different. */
	readonly look: string;
	/** Places for tabs down the outer edge. */
	readonly slots: number;
	/** The editions that leaves carry at their foot. */
	readonly issues: readonly EditionMark[];
	readonly sections: readonly EditionSection[];
	/** In the order of the binder. */
	readonly leaves: readonly EditionLeaf[];
	/** By a part's label, the codes of its passages, each of eight characters. */
	readonly passages: PassageCodes;
	/** The page number of everything that can be referred to, in this volume or another, by its id in the markup. */
	readonly numbers: Readonly<Record<string, string>>;
	/** The drills that its lists and its index name; those added since stand on a leaf of their own. */
	readonly drills?: readonly Id[];
}

export interface EditionSection {
	readonly title: string;
	/** The words of its tab, and where the tab stands; null for none. */
	readonly tab: string;
	readonly slot: number | null;
}

export interface EditionLeaf {
	/** Position in `sections`. */
	readonly section: number;
	/** The label of its part, as in "D · Floor". */
	readonly part: string;
	/** Its place in the part, counted from 1. */
	readonly number: number;
	/** The numbers at the foot of its front and back; empty on a cover and on a blank back. */
	readonly front: string;
	readonly back: string;
	/** Of what is printed on both sides, without the edition at the foot. */
	readonly hash: string;
	/** The edition in which it last changed: one of `issues`. */
	readonly issue: string;
}

/** What to do with a binder of an earlier edition. */
export interface Update {
	/** Leaves to take out, in the order of the earlier binder. */
	readonly out: readonly EditionLeaf[];
	/** Leaves to put in, in the order of the new one. */
	readonly in: readonly Insertion[];
}

export interface Insertion {
	readonly leaf: EditionLeaf;
	/** Position in the new edition's `leaves`. */
	readonly position: number;
	/** The leaf after which it belongs, once those before it are in place; undefined in front of all. */
	readonly after: EditionLeaf | undefined;
}
