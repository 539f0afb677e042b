/** `check`: everything that is wrong with the folder, and everything the plan misses. Writes nothing. */

import { findingRecord } from "../render/data-files.ts";
import { openClub } from "./open-club.ts";
import { count, reportFindings, reportProblems } from "./report.ts";
import type { Run } from "./run.ts";
import { clubAndFolder } from "./said-of-club.ts";

/** Findings shown in the terminal; all of them are on the findings page. */
const SHOWN = 20;

/** @returns 0 where no problem is an error, else 1; findings never change it */
export async function check({ clubDir, out }: Run, { json }: { readonly json: boolean }): Promise<number> {
	const { problems, opened } = await openClub(clubDir, { keep: false });
	const handbook = opened?.handbook;
	const findings = handbook?.findings ?? [];
	if (json) {
		out.line(JSON.stringify({ problems, findings: findings.map(findingRecord) }, null, "\t"));
		return handbook === undefined ? 1 : 0;
	}
	reportProblems(problems, clubDir, out);
	if (handbook === undefined) {
		out.line(clubAndFolder(clubDir));
		return 1;
	}
	const { club, drills, weeks } = handbook.curriculum;
	if (findings.length > 0) {
		out.line("");
		reportFindings(findings, SHOWN, out);
		out.line("");
	}
	out.line(
		`${count(drills.size, "drill")}, ${count(weeks.length, "week")}: no errors, ${count(findings.length, "finding")}. ${clubAndFolder(clubDir, club.name)}`,
	);
	return 0;
}
