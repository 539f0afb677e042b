/**
 * What coaches sent, taken in at the desk: any number of texts, judged and merged as `taught` does it.
 */

import type { Taught } from "../../layouts/desk/api.ts";
import type { ClubTexts } from "../edit/club-texts.ts";
import type { Curriculum } from "../model.ts";
import { readReports } from "../records/report.ts";
import { takeReports } from "../records/take-reports.ts";

/** Steps: read the texts; change the club's by what they report, @param change being how; say what became of each. */
export function takeTaught(
	curriculum: Curriculum,
	texts: readonly string[],
	change: (edit: (texts: ClubTexts) => ClubTexts) => Taught["outcome"],
): Taught {
	// Mails break long lines with an equals sign at the end.
	const read = texts.map((text) => readReports(text.replace(/=\r?\n/g, "")));
	const reports = read.flatMap((one) => one.reports);
	let taken = takeReports(curriculum, new Map(), []);
	const outcome = change((club) => {
		taken = takeReports(curriculum, club, reports);
		return taken.texts;
	});
	const faults = read.flatMap((one, i) => one.faults.map((fault) => ({ text: i, fault })));
	return { outcome, counts: taken.counts, told: taken.told, faults };
}
