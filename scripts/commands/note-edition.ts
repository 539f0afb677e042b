/**
 * Notes which edition was issued, for the next one.
 *
 * What goes to the club's own output is an edition of the club, and is noted in its folder; what is
 * written elsewhere with `--out` is a copy, and leaves the club folder as it is.
 */

import { join } from "node:path";
import { openFolder, realPlace } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
import { clubResults } from "../files/places.ts";
import { PROGRAM } from "../files/program.ts";
import type { ClubEdition } from "../model.ts";
import { CLUB_RECORD, editionRecord, OUTPUT_RECORD } from "../read/club-edition.ts";
import { addToOutput, claimFolder } from "./publish.ts";
import type { Run } from "./run.ts";

/**
 * The output of a club folder where nobody names another: `_site` in it where the program lies in the same
 * folder, or where there is one; else a folder beside what is kept for the club, since a club's folder may
 * be one that a program carries to other computers, and an edition has hundreds of files.
 */
export function ownOutput(clubDir: string): string {
	const inside = join(clubDir, "_site");
	const own = realPlace(clubDir) === realPlace(PROGRAM) || givenKind(inside) !== undefined;
	return own ? inside : join(clubResults(clubDir), "site");
}

/** Notes the edition in the club folder, if this is its own output; says so where that cannot be done. */
export function noteInClub({ clubDir, outDir, out }: Run, edition: ClubEdition): void {
	if (outDir !== ownOutput(clubDir)) return;
	try {
		note(clubDir, CLUB_RECORD, editionRecord(edition));
	} catch (error) {
		const why = error instanceof Error && "code" in error ? String(error.code) : String(error);
		out.line(`Edition ${edition.number} could not be noted in ${CLUB_RECORD} (${why}); the output knows it.`);
	}
}

/** Notes the edition of something that was printed by itself, in the output and in the club folder. */
export function noteEdition(run: Run, edition: ClubEdition): void {
	if (note(run.outDir, OUTPUT_RECORD, editionRecord(edition))) {
		addToOutput(claimFolder(run.outDir), [OUTPUT_RECORD]);
	}
	noteInClub(run, edition);
}

/** Writes a file that says something else, or is not there; says whether it did. */
function note(dir: string, path: string, text: string): boolean {
	const folder = openFolder(dir);
	if (folder.info(path)?.kind === "file" && folder.readText(path) === text) return false;
	folder.write(path, text);
	return true;
}
