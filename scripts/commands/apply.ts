/** `apply`: a change list made; what `check --what-if` tells of it first. */

import { changeClub } from "../edit/change-club.ts";
import { givenKind, readGiven } from "../files/given.ts";
import { editClub } from "./edit-club.ts";
import type { Run } from "./run.ts";

/** @returns 0 shown or made, 1 errors in the content, 2 refused */
export function apply(run: Run, { list, write }: { readonly list: string; readonly write: boolean }): number {
	if (givenKind(list) !== "file") {
		run.out.line(`There is no change list ${list}.`);
		return 2;
	}
	const changes = readGiven(list).toString("utf8");
	return editClub(run, { what: `apply ${list}`, write }, (texts) => changeClub(texts, changes));
}
