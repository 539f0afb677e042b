/** `move`: a block of a plan, or a whole week, to another place. */

import { EditRefused, moveBlock, readPlace } from "../edit/move-block.ts";
import { moveWeek } from "../edit/move-week.ts";
import { editClub } from "./edit-club.ts";
import type { Run } from "./run.ts";

export interface MoveOptions {
	readonly what: "block" | "week";
	readonly from: string;
	readonly to: string;
	/** Two weeks trade places, and those between stay. */
	readonly swap: boolean;
	readonly write: boolean;
}

export function move(run: Run, { what, from, to, swap, write }: MoveOptions): number {
	const said = `move ${what} ${from} ${to}${swap ? " --swap" : ""}`;
	return editClub(run, { what: said, write }, (texts) =>
		what === "block"
			? moveBlock(texts, readPlace(from), readPlace(to))
			: moveWeek(texts, weekNumber(from), weekNumber(to), swap),
	);
}

function weekNumber(text: string): number {
	if (!/^[1-9]\d*$/.test(text)) throw new EditRefused(`\`${text}\` is no number of a week.`);
	return Number(text);
}
