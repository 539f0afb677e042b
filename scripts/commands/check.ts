/** `check`: everything that is wrong with the folder, and everything the plan misses. Writes nothing. */

import { HARMS, type Harm, harmOf } from "../compute/harm.ts";
import { changesSince, seenIn } from "../libraries/seen.ts";
import type { Finding, Id } from "../model.ts";
import { findingRecord } from "../site/data-files.ts";
import { openClub } from "./open-club.ts";
import { count, reportFindings, reportKinds, reportProblems } from "./report.ts";
import type { Run } from "./run.ts";
import { clubAndFolder } from "./said-of-club.ts";
import { wrongChoice } from "./sound-club.ts";

/** Findings shown in the terminal; `--all` shows the rest, and so does the findings page. */
const SHOWN = 20;

export interface CheckOptions {
	readonly json?: boolean;
	/** Only findings of a week, of a class, of a kind or a code. */
	readonly week?: number;
	readonly class?: Id;
	readonly kind?: string;
	/** However many there are. */
	readonly all?: boolean;
}

/** @returns 0 where no problem is an error, 1 where one is, 2 where a choice names nothing; findings never change it */
export async function check({ clubDir, out }: Run, options: CheckOptions): Promise<number> {
	const { problems, opened } = await openClub(clubDir, { keep: false, taught: true });
	const handbook = opened?.handbook;
	const wrong = handbook && wrongChoice(handbook.curriculum, options);
	if (wrong !== undefined) {
		out.line(wrong);
		return 2;
	}
	const every = handbook?.findings ?? [];
	const findings = every.filter((one) => isChosen(one, options));
	if (options.json) {
		out.line(JSON.stringify({ problems, findings: findings.map(findingRecord) }, null, "\t"));
		return handbook === undefined ? 1 : 0;
	}
	reportProblems(problems, clubDir, out);
	if (handbook === undefined) {
		out.line(clubAndFolder(clubDir));
		return 1;
	}
	const { accepted } = handbook;
	const { club, drills, weeks } = handbook.curriculum;
	if (findings.length > 0) {
		out.line("");
		reportKinds(byHarm(findings), out);
		out.line("");
		reportFindings(findings, options.all === true ? findings.length : SHOWN, out);
		out.line("");
	}
	const news = changesSince(seenIn(clubDir), handbook.theirs).length;
	if (news > 0) {
		out.line(
			`${count(news, "thing")} of your libraries changed since you looked: npm run compare -- --library`,
		);
	}
	const counted =
		findings.length === every.length
			? count(every.length, "finding")
			: `${findings.length} of ${count(every.length, "finding")}`;
	const standing = accepted.length === 0 ? "" : `, ${accepted.length} accepted`;
	out.line(
		`${count(drills.size, "drill")}, ${count(weeks.length, "week")}: no errors, ${counted}${standing}. ${clubAndFolder(clubDir, club.name)}`,
	);
	return 0;
}

function isChosen({ code, about }: Finding, { week, class: group, kind }: CheckOptions): boolean {
	return (
		(week === undefined || about.week === week) &&
		(group === undefined || about.class === group) &&
		(kind === undefined || code === kind || harmOf(code) === kind)
	);
}

function byHarm(findings: readonly Finding[]): readonly (readonly [Harm, number])[] {
	return HARMS.map((harm) => [harm, findings.filter(({ code }) => harmOf(code) === harm).length] as const);
}
