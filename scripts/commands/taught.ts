/**
 * `taught`: takes what coaches sent, in any number of files, into `_data/taught/`. Shows what it would
 * write, and where two coaches differ; `--write` writes it, and `undo` takes it back.
 */

import { changesBetween } from "../edit/change-set.ts";
import { readTexts } from "../edit/club-texts.ts";
import { givenKind, givenSize, readGiven } from "../files/given.ts";
import { type Report, readReports } from "../records/report.ts";
import { type Outcome, takeReports } from "../records/take-reports.ts";
import { editClub, tryTexts } from "./edit-club.ts";
import { count, reportFindings } from "./report.ts";
import type { Run } from "./run.ts";
import { soundHandbook } from "./sound-club.ts";

/** Bytes of a file that reports are looked for in; a mail with one has a few thousand. */
const MOST_BYTES = 400_000;
/** Findings shown of those where coaches differ. */
const SHOWN = 20;

const WORDS: Readonly<Record<Outcome, string>> = {
	new: "new",
	newer: "in the place of an older one",
	known: "here already, or older",
	corrected: "of an entry that was corrected by hand",
	refused: "of no week or class here",
};

/** @returns 0 shown or written, 1 where a file holds no sound report or the folder has errors */
export function taughtCommand(run: Run, files: readonly string[], write: boolean): number {
	const { out, clubDir } = run;
	const handbook = soundHandbook(run, "reports are taken only into a folder without errors");
	if (handbook === undefined) return 1;
	const reports: Report[] = [];
	let faulty = 0;
	for (const file of files) {
		const found = reportsIn(file);
		reports.push(...found.reports);
		faulty += found.faults.length;
		for (const fault of found.faults) out.line(`${file}: ${fault}`);
	}
	const { curriculum } = handbook;
	const taken = takeReports(curriculum, readTexts(clubDir), reports);
	for (const line of taken.told) out.line(line);
	const parts = Object.entries(WORDS).flatMap(([outcome, words]) => {
		const number = taken.counts[outcome as Outcome];
		return number === 0 ? [] : [`${number} ${words}`];
	});
	out.line(`${count(reports.length, "report")}${parts.length === 0 ? "" : `: ${parts.join(", ")}`}.`);
	if (reports.length > 0) {
		const changed = changesBetween(readTexts(clubDir), taken.texts).length > 0;
		const after = tryTexts(clubDir, taken.texts, true).handbook;
		const differ = after?.findings.filter(({ code }) => code === "H351" || code === "H352") ?? [];
		reportFindings(differ, SHOWN, out);
		const code = changed
			? editClub(run, { what: `taught ${files.length}`, write }, () => taken.texts)
			: nothing(out);
		if (code !== 0) return code;
	}
	return faulty > 0 ? 1 : 0;
}

function nothing(out: Run["out"]): number {
	out.line("Nothing changes.");
	return 0;
}

function reportsIn(file: string): ReturnType<typeof readReports> {
	if (givenKind(file) !== "file") return { reports: [], faults: ["There is no such file."] };
	if (givenSize(file) > MOST_BYTES) return { reports: [], faults: ["It is larger than reports are."] };
	// Mails break long lines with an equals sign at the end.
	return readReports(
		readGiven(file)
			.toString("utf8")
			.replace(/=\r?\n/g, ""),
	);
}
