/** Which function draws which kind of piece. */

import type { Piece, PieceKind, PieceViews, SheetFacts } from "../../scripts/views/sheets/sheet.ts";
import type { SingleSheets } from "../../scripts/views/sheets/single-sheets.ts";
import { checkSheet } from "./check-sheet.ts";
import { classLeaf } from "./class-leaf.ts";
import { dividerSheets } from "./dividers.ts";
import { planSheet } from "./plan-sheets.ts";
import { pocketPiece } from "./pocket.ts";
import type { Drawn, SheetFile, SheetPiece } from "./sheet-file.ts";
import { stationCards } from "./station-cards.ts";
import { labelSheet, storeRoomList } from "./store-room.ts";
import { termPage } from "./term-page.ts";
import { weekFront } from "./week-front.ts";

const PIECES: { readonly [K in PieceKind]: (facts: SheetFacts, view: PieceViews[K]) => Drawn } = {
	"class-leaf": classLeaf,
	"pocket-week": pocketPiece,
	"week-front": weekFront,
	"plan-sheet": planSheet,
	"station-cards": stationCards,
	"store-room": storeRoomList,
	"label-sheet": labelSheet,
	"check-sheet": checkSheet,
	"term-page": termPage,
	dividers: dividerSheets,
};

/** Draws the sheets of a club: each piece once, in however many files it stands. */
export function drawSheets({ facts, files }: SingleSheets): readonly SheetFile[] {
	const drawn = new Map<Piece, SheetPiece>();
	return Array.from(files, ({ pieces, ...file }) => ({
		...file,
		pieces: pieces.map((piece) => {
			const known = drawn.get(piece) ?? draw(facts, piece);
			drawn.set(piece, known);
			return known;
		}),
	}));
}

function draw<K extends PieceKind>(facts: SheetFacts, piece: Piece & { readonly kind: K }): SheetPiece {
	const { kind, title, label, view, words, safety, place } = piece;
	// A kind has its own view; the table's type says so, the union does not.
	const { html, ...setting } = PIECES[kind as K](facts, view as PieceViews[K]);
	return { title, label, html, ...setting, words, safety, place };
}
