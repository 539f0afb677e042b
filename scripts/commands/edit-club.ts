/**
 * What every command does that changes the club's own files: shows the change, tries it on a copy, and
 * makes it only when asked and only where the copy has no error that was not there before.
 */

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import {
	changesBetween,
	describeChanges,
	FilesChanged,
	makeChanges,
	mendInterrupted,
} from "../edit/change-set.ts";
import { type ClubTexts, readTexts } from "../edit/club-texts.ts";
import { EditRefused } from "../edit/move-block.ts";
import { type OpenedHandbook, openHandbook } from "../handbook.ts";
import type { Problem } from "../problems.ts";
import { count, reportProblems } from "./report.ts";
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
	const mended = mendInterrupted(clubDir);
	if (mended !== undefined) out.line(`Took back a change that was interrupted: ${mended.what}`);
	const { problems, handbook } = openHandbook(clubDir);
	if (handbook === undefined) {
		reportProblems(problems, clubDir, out);
		out.line("Mend these first: a change is made only in a folder without errors.");
		return 1;
	}
	const before = readTexts(clubDir);
	let after: ClubTexts;
	try {
		after = edit(before);
	} catch (error) {
		if (!(error instanceof EditRefused)) throw error;
		out.line(error.message);
		return 2;
	}
	const changes = changesBetween(before, after);
	if (changes.length === 0) {
		out.line("Nothing changes.");
		return 0;
	}
	const news = newErrors(problems, tryTexts(clubDir, after).problems);
	const lines = describeChanges(changes);
	for (const line of lines.slice(0, MOST_LINES)) out.line(line);
	if (lines.length > MOST_LINES) out.line(`… and ${count(lines.length - MOST_LINES, "line")} more`);
	if (news.length > 0) {
		out.line("");
		for (const { code, what: wrong, place } of news) out.line(`${place.file}: ${code} ${wrong}`);
		out.line("The folder would have these errors. Nothing was written.");
		return 1;
	}
	out.line("");
	if (!write) {
		out.line(`${count(changes.length, "file")} would change. Nothing was written; --write makes the change.`);
		return 0;
	}
	try {
		makeChanges(clubDir, what, changes);
	} catch (error) {
		if (!(error instanceof FilesChanged)) throw error;
		out.line(`Changed by somebody else in the meantime: ${error.paths.join(", ")}. Nothing was written.`);
		return 1;
	}
	out.line(`${count(changes.length, "file")} changed. \`undo\` takes it back.`);
	return 0;
}

/** Opens texts that stand nowhere yet, with the pictures of the club they are from. */
export function tryTexts(clubDir: string, texts: ClubTexts): OpenedHandbook {
	const dir = mkdtempSync(join(tmpdir(), "handbook-try-"));
	try {
		for (const [path, text] of texts) {
			mkdirSync(dirname(join(dir, path)), { recursive: true });
			writeFileSync(join(dir, path), text);
		}
		return openHandbook(dir, { mediaFrom: clubDir });
	} finally {
		rmSync(dir, { recursive: true, force: true });
	}
}

/** Errors that were not there before; lines may have moved. */
function newErrors(before: readonly Problem[], after: readonly Problem[]): readonly Problem[] {
	const known = new Set(before.map(({ code, what }) => `${code} ${what}`));
	return after.filter((one) => one.severity === "error" && !known.has(`${one.code} ${one.what}`));
}
