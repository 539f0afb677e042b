/**
 * What every command does that changes the club's own files: shows the change, tries it on a copy, and
 * makes it only when asked and only where the copy has no error that was not there before.
 */

import { changesBetween, describeChanges } from "../edit/change-set.ts";
import { type ClubTexts, readTexts } from "../edit/club-texts.ts";
import {
	FilesChanged,
	interruptedChange,
	type KeptText,
	makeChanges,
	mendInterrupted,
	type TakenBack,
} from "../edit/make-changes.ts";
import { EditRefused } from "../edit/move-block.ts";
import { newErrors } from "../edit/new-errors.ts";
import { inScratchFolder } from "../files/scratch.ts";
import { type OpenedHandbook, openHandbook } from "../handbook.ts";
import { count, type Output, reportProblems } from "./report.ts";
import type { Run } from "./run.ts";

/** Lines of a change shown in the terminal; the rest is counted. */
const MOST_LINES = 200;

export interface EditOptions {
	/** The command as it was given, for the record. */
	readonly what: string;
	readonly write: boolean;
}

/** @returns 0 shown or made, 1 errors in the content, 2 refused */
export function editClub(
	{ clubDir, out }: Run,
	{ what, write }: EditOptions,
	edit: (texts: ClubTexts) => ClubTexts,
): number {
	if (write) mend({ clubDir, out });
	else {
		const interrupted = interruptedChange(clubDir);
		if (interrupted !== undefined) {
			out.line(`A change was interrupted before, so its files are half changed: ${interrupted}`);
			out.line("Nothing was written. Take it back first, with `undo`.");
			return 1;
		}
	}
	const { problems, handbook } = openHandbook(clubDir);
	if (handbook === undefined) {
		reportProblems(problems, clubDir, out);
		out.line("Mend these first: a change is made only in a folder without errors.");
		return 1;
	}
	const before = readTexts(clubDir);
	const newsOf = (texts: ClubTexts) =>
		newErrors(problems, tryTexts(clubDir, texts).problems).map(
			({ code, what: wrong, place }) => `${place.file}: ${code} ${wrong}`,
		);
	let after: ClubTexts;
	try {
		after = edit(before);
	} catch (error) {
		if (!(error instanceof EditRefused)) throw error;
		out.line(error.message);
		const news = error.rest === undefined ? [] : newsOf(error.rest);
		if (news.length > 0) out.line("The other changes would bring errors:");
		for (const line of news) out.line(line);
		return 2;
	}
	const changes = changesBetween(before, after);
	if (changes.length === 0) {
		out.line("Nothing changes.");
		return 0;
	}
	const news = newsOf(after);
	const lines = describeChanges(changes);
	for (const line of lines.slice(0, MOST_LINES)) out.line(line);
	if (lines.length > MOST_LINES) out.line(`… and ${count(lines.length - MOST_LINES, "line")} more`);
	if (news.length > 0) {
		out.line("");
		for (const line of news) out.line(line);
		out.line("The folder would have these errors. Nothing was written.");
		return 1;
	}
	out.line("");
	if (!write) {
		out.line(`${count(changes.length, "file")} would change. Nothing was written; --write makes the change.`);
		return 0;
	}
	try {
		tellKept(makeChanges(clubDir, what, changes), out);
	} catch (error) {
		if (!(error instanceof FilesChanged)) throw error;
		out.line(`Changed by somebody else in the meantime: ${error.paths.join(", ")}. Nothing was written.`);
		return 1;
	}
	out.line(`${count(changes.length, "file")} changed. \`undo\` takes it back.`);
	return 0;
}

/** Takes back a change that was interrupted before a command writes, and says what became of it. */
export function mend({ clubDir, out }: Pick<Run, "clubDir" | "out">): void {
	const mended = mendInterrupted(clubDir);
	if (mended === undefined) return;
	out.line(`Took back a change that was interrupted: ${mended.what}`);
	tellLater(mended, out);
}

/** Where later work met a change that was taken back. */
export function tellLater({ merged, left, kept }: TakenBack, out: Output): void {
	for (const path of merged)
		out.line(`${path}: written in since; the change is out of it, and the later work is kept.`);
	for (const path of left) {
		if (!kept.some((one) => one.path === path)) out.line(`${path}: written in since, and left as it is.`);
	}
	tellKept(kept, out);
}

/** Both texts of a file that two have written. */
function tellKept(kept: readonly KeptText[], out: Output): void {
	for (const { path, keptAs } of kept) {
		out.line(
			`${path}: written by somebody else as well. It stays as it is now; the other text is in ${keptAs}.`,
		);
	}
}

export function tryTexts(clubDir: string, texts: ClubTexts, taught = false): OpenedHandbook {
	return inScratchFolder("handbook-try", (folder) => {
		for (const [path, text] of texts) folder.write(path, text);
		return openHandbook(folder.path, { mediaFrom: clubDir, taught });
	});
}
