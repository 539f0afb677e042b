/** A single sheet: what it shows, and what has to be found on paper whatever shows it. */

import type { Place } from "../../place.ts";
import type { Words } from "../../words/words.ts";
import type { ClassSheetView } from "../week.ts";
import type { CheckSheetView } from "./check-sheet.ts";
import type { DividersView } from "./dividers.ts";
import type { PocketChoice } from "./edition.ts";
import type { PlanSheetView } from "./plan-sheet.ts";
import type { PocketView } from "./pocket.ts";
import type { StationCardsView } from "./station-cards.ts";
import type { LabelsView, StoreRoomView } from "./store-room.ts";
import type { TermPageView } from "./term-page.ts";
import type { WeekFrontView } from "./week-front.ts";

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
	"pocket",
	"dividers",
] as const;
export type SheetKind = (typeof SHEET_KINDS)[number];

/** Which choices mean something for which kind. */
export const CHOICES_OF_SHEETS: Readonly<
	Record<"week" | "class" | "level" | "apparatus" | "up" | "paper", readonly SheetKind[]>
> = {
	week: ["pocket", "class-sheets", "week-packet", "station-cards", "floor-plans", "store-room", "labels"],
	class: ["pocket", "class-sheets"],
	level: ["check-sheets"],
	apparatus: ["station-cards", "floor-plans"],
	up: ["pocket", "station-cards"],
	paper: ["pocket"],
};

/** Printed when it is asked for by name, and by no build. */
export const ON_REQUEST: ReadonlySet<SheetKind> = new Set(["pocket", "dividers"]);

/** What each kind of piece shows. */
export interface PieceViews {
	readonly "class-leaf": ClassSheetView;
	readonly "pocket-week": PocketView;
	readonly "week-front": WeekFrontView;
	readonly "plan-sheet": PlanSheetView;
	readonly "station-cards": StationCardsView;
	readonly "store-room": StoreRoomView;
	readonly "label-sheet": LabelsView;
	readonly "check-sheet": CheckSheetView;
	readonly "term-page": TermPageView;
	readonly dividers: DividersView;
}
export type PieceKind = keyof PieceViews;

/** What is laid out and printed on its own, and may stand in several files. */
export interface PieceOf<K extends PieceKind> {
	readonly kind: K;
	/** How the outline and problems call it. */
	readonly title: string;
	/** What stands before the number in the PDF's page labels. */
	readonly label: string;
	readonly view: PieceViews[K];
	/** What has to be found on paper, as plain text. */
	readonly words: readonly string[];
	/** What keeps people safe, as plain text: without it the piece is not to be used. */
	readonly safety: readonly string[];
	/** Where its content is written. */
	readonly place: Place;
}

export type Piece = { readonly [K in PieceKind]: PieceOf<K> }[PieceKind];

export interface SheetFileOf<P> {
	readonly kind: SheetKind;
	/** From the root of the output. */
	readonly path: string;
	readonly title: string;
	readonly landscape: boolean;
	/** Pieces start on the front of a leaf; one with an odd number of sides gets a blank back before the next. */
	readonly leaves: boolean;
	readonly pieces: readonly P[];
	/** Whose pocket it is, where it is one. */
	readonly pocket?: PocketChoice;
}

/** What every single sheet says of the club. */
export interface SheetFacts {
	readonly words: Words;
	readonly club: string;
	readonly term: string;
	/** What to do first when somebody is hurt. */
	readonly emergency: string | undefined;
	/** The site's address, ending in a slash; links on paper are left out without it. */
	readonly address: string | undefined;
}
