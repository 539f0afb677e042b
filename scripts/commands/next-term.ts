/**
 * `next-term`: a club folder for the next term, made from this one, with a record of what was taught.
 * This folder stays as it is; the new one is made whole or not at all.
 */

import { join } from "node:path";
import { recordOf } from "../compute/plan-record.ts";
import { arrivals, saidTwice } from "../compute/taught.ts";
import { readTexts } from "../edit/club-texts.ts";
import { makeFolderBeside } from "../edit/make-changes.ts";
import { EditRefused } from "../edit/move-block.ts";
import { type NextTexts, nextTerm } from "../edit/next-term.ts";
import { isInside, openFolder, realPlace } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
import { openHandbook } from "../handbook.ts";
import { CLUB_RECORD, editionRecord } from "../read/club-edition.ts";
import { MEDIA_FOLDER } from "../read/read-club.ts";
import { mend, tryTexts } from "./edit-club.ts";
import { EDITOR_FOLDER } from "./editor-files.ts";
import { count, reportProblems } from "./report.ts";
import type { Run } from "./run.ts";

/** The folder for records of earlier terms, in the club folder. Nothing in it is read as content. */
const EARLIER_FOLDER = "earlier";

/** Parts of a club folder that no other club's can stand in. */
const OWN_FOLDERS = ["content", "_data", "_site", "._site.editions", ".handbook", ".handbook-cache"];

export interface NextTermOptions {
	readonly to: string;
	readonly starts: string;
	/** As many as this term has, where it is left out. */
	readonly weeks?: number;
	readonly name?: string;
	readonly closed?: readonly string[];
	readonly empty?: boolean;
	readonly write?: boolean;
}

/** @returns 0 shown or made, 1 errors in the content, 2 wrong use */
export function nextTermCommand({ clubDir, outDir, now, out }: Run, options: NextTermOptions): number {
	const { to, starts, closed = [], empty = false, write = false } = options;
	const there = givenKind(to);
	if (there !== undefined && (there !== "folder" || openFolder(to).list().length > 0)) {
		out.line(`${to} is ${there === "folder" ? "not empty" : "a file"}. Name a folder that is not there yet.`);
		return 2;
	}
	const club = openFolder(clubDir);
	const place = realPlace(to);
	if (OWN_FOLDERS.some((own) => isInside(realPlace(join(clubDir, own)), place))) {
		out.line(`${to} lies within the content of this term. Name a folder beside it.`);
		return 2;
	}
	if (write) mend({ clubDir, out });
	const { problems, handbook } = openHandbook(clubDir, { outDir, now });
	if (handbook === undefined) {
		reportProblems(problems, clubDir, out);
		return 1;
	}
	const { term } = handbook.curriculum;
	const weeks = options.weeks ?? term.weeks;
	const name = options.name ?? `${term.name} (next)`;
	let next: NextTexts;
	try {
		next = nextTerm(readTexts(clubDir), { name, starts, weeks, closed, empty });
	} catch (error) {
		if (!(error instanceof EditRefused)) throw error;
		out.line(error.message);
		return 2;
	}
	const tried = tryTexts(clubDir, next.texts);
	if (tried.handbook === undefined) {
		for (const { code, what, place } of tried.problems) out.line(`${place.file}: ${code} ${what}`);
		out.line("The next term would have these errors. Nothing was written.");
		return 1;
	}
	const record = `${EARLIER_FOLDER}/${term.starts ?? handbook.edition.content}.json`;
	const due = tried.handbook.findings.filter(({ code }) => code === "H312");
	const { curriculum, findings } = tried.handbook;
	out.line(
		`${name}: ${count(weeks, "week")} from ${starts}, ${count(curriculum.weeks.length, "week")} planned as a first draft.`,
	);
	out.line(`Closed: ${closed.length === 0 ? "no days yet" : closed.join(", ")}.`);
	if (next.left.length > 0) out.line(`Left out: ${next.left.join(", ")}.`);
	out.line(`What was taught is kept in ${record}, for \`compare\`.`);
	if (due.length > 0) {
		out.line(
			`${count(due.length, "drill")} to review before the term: ${due.map(({ about }) => about.drill ?? "").join(", ")}.`,
		);
	}
	out.line(`${count(findings.length, "finding")} to look at in the new plan.`);
	tellTaught(clubDir, out);
	if (!write) {
		out.line(`Nothing was written; --write makes ${to}.`);
		return 0;
	}
	makeFolderBeside(clubDir, `next-term --to ${to} --starts ${starts}`, place, (beside) => {
		for (const [path, text] of next.texts) beside.write(path, text);
		const folders = [MEDIA_FOLDER, EARLIER_FOLDER, EDITOR_FOLDER];
		const paths = folders.flatMap((folder) => club.files(folder).map((name) => `${folder}/${name}`));
		for (const path of [...paths, ".gitignore"]) {
			if (club.leadsOut(path)) out.line(`${path} is a link out of the club folder, and is left out.`);
			else if (club.info(path)?.kind === "file") club.copyTo(path, beside, path);
		}
		// The next term goes on from this one's number: what is newer has a larger one.
		beside.write(CLUB_RECORD, editionRecord(handbook.edition));
		beside.write(record, `${JSON.stringify(recordOf(handbook, handbook.edition))}\n`);
	});
	out.line(`Wrote ${to}. This term's folder is as it was; \`undo\` takes the new one back.`);
	return 0;
}

/** What coaches reported says of the next term: what each level may arrive with, and drills to look at. */
function tellTaught(clubDir: string, out: Run["out"]): void {
	const curriculum = openHandbook(clubDir, { taught: true }).handbook?.curriculum;
	if (curriculum === undefined || curriculum.taught.length === 0) return;
	for (const [level, own] of Map.groupBy(arrivals(curriculum), (one) => one.level)) {
		const skills = own.map(({ skill, alone, of }) => `${skill} (${alone} of ${of})`);
		out.line(`${level} may arrive with, by your target \`arrives-with\`: ${skills.join(", ")}.`);
	}
	for (const { drill, felt, times } of saidTwice(curriculum)) {
		out.line(`${drill}: ${felt === "too-hard" ? "too hard" : "too easy"}, in ${times} reports.`);
	}
}
