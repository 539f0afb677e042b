/**
 * `next-term`: a club folder for the next term, made from this one, with a record of what was taught.
 * This folder stays as it is; the new one is made whole or not at all.
 */

import {
	cpSync,
	existsSync,
	mkdirSync,
	mkdtempSync,
	readdirSync,
	renameSync,
	rmSync,
	writeFileSync,
} from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { recordOf } from "../compute/plan-record.ts";
import { readTexts } from "../edit/club-texts.ts";
import { EditRefused } from "../edit/move-block.ts";
import { type NextTexts, nextTerm } from "../edit/next-term.ts";
import { openHandbook } from "../handbook.ts";
import { CLUB_RECORD, editionRecord } from "../read/club-edition.ts";
import { MEDIA_FOLDER } from "../read/read-club.ts";
import { tryTexts } from "./edit-club.ts";
import { count, reportProblems } from "./report.ts";
import type { Run } from "./run.ts";

/** The folder for records of earlier terms, in the club folder. Nothing in it is read as content. */
export const EARLIER_FOLDER = "earlier";

export interface NextTermOptions {
	readonly to: string;
	readonly starts: string;
	/** As many as this term has, where it is left out. */
	readonly weeks?: number;
	readonly name?: string;
	readonly closed: readonly string[];
	readonly empty: boolean;
	readonly write: boolean;
}

/** @returns 0 shown or made, 1 errors in the content, 2 wrong use */
export function nextTermCommand({ clubDir, outDir, now, out }: Run, options: NextTermOptions): number {
	const { to, starts, closed, empty, write } = options;
	if (existsSync(to) && readdirSync(to).length > 0) {
		out.line(`${to} is not empty. Name a folder that is not there yet.`);
		return 2;
	}
	const inside = relative(join(clubDir, "content"), to);
	if (inside === "" || !(inside.startsWith("..") || inside.includes(`..${sep}`))) {
		out.line(`${to} lies within the content of this term. Name a folder beside it.`);
		return 2;
	}
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
	const record = join(EARLIER_FOLDER, `${term.starts ?? handbook.edition.content}.json`);
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
	if (!write) {
		out.line(`Nothing was written; --write makes ${to}.`);
		return 0;
	}
	mkdirSync(dirname(to), { recursive: true });
	const beside = mkdtempSync(`${to}.part-`);
	try {
		for (const [path, text] of next.texts) put(beside, path, text);
		for (const folder of [MEDIA_FOLDER, EARLIER_FOLDER]) {
			if (existsSync(join(clubDir, folder)))
				cpSync(join(clubDir, folder), join(beside, folder), { recursive: true });
		}
		// The next term goes on from this one's number: what is newer has a larger one.
		put(beside, CLUB_RECORD, editionRecord(handbook.edition));
		put(beside, record, `${JSON.stringify(recordOf(handbook, handbook.edition))}\n`);
		if (existsSync(to)) rmSync(to, { recursive: true });
		renameSync(beside, to);
	} finally {
		rmSync(beside, { recursive: true, force: true });
	}
	out.line(`Wrote ${to}. This term's folder is as it was; to take it back, remove the new one.`);
	return 0;
}

function put(dir: string, path: string, text: string): void {
	mkdirSync(dirname(join(dir, path)), { recursive: true });
	writeFileSync(join(dir, path), text);
}
