/**
 * Editions of the pocket: what a coach carries, kept beside it so that a later one can say which leaves to
 * change. Pure. A class's week is replaced whole: the mark at the foot of all its sides is made of its content.
 */

import type { PaperName } from "../../layouts/sheets/paper.ts";
import type { SheetFile, SheetPiece } from "../../layouts/sheets/sheet-file.ts";
import type { Club } from "../model.ts";
import type { Edition, EditionMark, PocketChoice } from "../views/sheets/edition.ts";
import { EditionFault, issueLeaves } from "./edition.ts";
import { digestOf } from "./sheet-cache.ts";

/** How a pocket is printed. */
export interface PocketLook {
	readonly paper: PaperName;
	readonly punch: Club["punch"];
	/** With other ones every leaf is new. */
	readonly styles: string;
	readonly twoUp: boolean;
}

function hashOf({ html }: SheetPiece, { styles, twoUp }: PocketLook): string {
	return digestOf([styles, String(twoUp), html.text]).slice(0, 32);
}

/** The weeks of a pocket that an earlier one does not have as they are now. Throws where it is on other paper. */
export function changedPieces(
	{ pieces }: SheetFile,
	look: PocketLook,
	{ leaves, paper, punch }: Edition,
): readonly SheetPiece[] {
	if (paper !== look.paper || punch !== look.punch) {
		throw new EditionFault(
			`That pocket is on ${paper} for a ${punch} punch, and this one on ${look.paper} for a ${look.punch} punch: print it whole.`,
		);
	}
	const known = new Set(leaves.map(({ part, hash }) => `${part}\n${hash}`));
	return pieces.filter((piece) => !known.has(`${piece.label}\n${hashOf(piece, look)}`));
}

/**
 * The edition of a pocket.
 *
 * @param pages how many pages each piece was printed on; one that has not changed keeps those it had
 */
export function pocketEdition(
	{ title, pieces, pocket }: SheetFile & { readonly pocket: PocketChoice },
	look: PocketLook,
	pages: (piece: SheetPiece) => number | undefined,
	{ current, earlier }: { readonly current: EditionMark; readonly earlier?: Edition | undefined },
): Edition {
	const before = Map.groupBy(earlier?.leaves ?? [], ({ part }) => part);
	const papers = pieces.flatMap((piece, section) => {
		const { label: part } = piece;
		const hash = hashOf(piece, look);
		const printed = pages(piece);
		if (printed === undefined) {
			return (before.get(part) ?? []).map((leaf) => ({ ...leaf, section, hash, namesBinder: false }));
		}
		return Array.from({ length: Math.ceil(printed / 2) }, (_, i) => ({
			section,
			part,
			number: i + 1,
			front: `${part} ${2 * i + 1}`,
			back: 2 * i + 2 <= printed ? `${part} ${2 * i + 2}` : "",
			hash,
			namesBinder: false,
		}));
	});
	const { leaves, issues, edition } = issueLeaves(papers, current, earlier);
	return {
		format: 1,
		edition: edition.id,
		pocket: { ...pocket, twoUp: look.twoUp },
		title,
		paper: look.paper,
		punch: look.punch,
		look: digestOf([look.styles]).slice(0, 32),
		slots: 1,
		issues,
		sections: pieces.map((piece) => ({ title: piece.title, tab: "", slot: null })),
		leaves,
		passages: {},
		numbers: {},
	};
}
