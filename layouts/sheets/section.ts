/**
 * What the sheets hand to the printer: sections of parts, and the targets their references lead to.
 *
 * A part starts on a new page. Parts of a section with the same label count their pages together and
 * are what a coach takes out and replaces: they start on a right-hand page and fill whole leaves.
 */

import type { Id, Source } from "../../scripts/model.ts";
import type { Html } from "../../scripts/views/html.ts";
import type { EditionMark, Volume } from "../../scripts/views/sheets/edition.ts";

export interface SheetPart {
	/** What stands before the page number, as in "D · Floor". */
	readonly label: string;
	readonly head: string;
	readonly html: Html;
	/** Several targets of depth 2 follow each other on its pages: the running head of a page names its own. */
	readonly runs?: boolean;
	/** Lies on its side: for tables with many columns. */
	readonly wide?: boolean;
}

/** A place in the binder that the outline and references lead to. */
export interface SheetTarget {
	/** The `id` attribute in the part's markup. */
	readonly id: string;
	/** How the outline and problems call it. */
	readonly title: string;
	/** The words that stand there, where they are not the title. */
	readonly words?: string;
	/** 1 for a section, 2 for a part, 3 for what is in it. */
	readonly depth: 1 | 2 | 3;
	/** Where what stands there is written, for problems. */
	readonly source?: Source | undefined;
}

export interface SheetSection {
	/** Names the section in progress and problems. */
	readonly title: string;
	/** The words of the tab at the outer edge. */
	readonly tab: string;
	/** Which of `tabs` places down the edge the tab has; undefined for no tab. */
	readonly slot: number | undefined;
	readonly parts: readonly SheetPart[];
	readonly targets: readonly SheetTarget[];
	/** Laid out for the numbers of its pages, which others name, and not printed: it is of another volume. */
	readonly unprinted?: boolean;
	/** A sheet without running head, foot and number: the cover. */
	readonly bare?: boolean;
}

/** Everything that is printed. */
export interface Sheets {
	readonly volume: Volume;
	readonly title: string;
	/** BCP 47. */
	readonly language: string;
	/** What every foot says beside the page's number: club and term; the leaf's edition follows. */
	readonly foot: string;
	/** The content's own edition. Where a sheet says which edition the binder is, it uses its words. */
	readonly edition: EditionMark;
	/** ISO 8601: the day of the edition, which the file carries as its own. */
	readonly date: string;
	/** What stands over a table that goes on overleaf, with % for the heading before it. */
	readonly continued: string;
	/** What a side that is left blank says. */
	readonly blank: string;
	/** What a side says that lacks a safety text, in its stead. */
	readonly withheld: string;
	/** The drills that lists and index name. */
	readonly listed: readonly Id[];
	/** How many places for tabs there are down the outer edge. */
	readonly slots: number;
	readonly sections: readonly SheetSection[];
}
