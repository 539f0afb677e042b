/** Checks of single files that a schema cannot make: names, folders, intervals, Mondays. */

import { type Drill, isPageKind, type SourceFile, type Term } from "../model.ts";
import type { Place } from "../place.ts";
import { type Problem, problem } from "../problems.ts";
import { idFrom } from "./judge-data.ts";
import { ID_PATTERN, isPortable } from "./schemas.ts";

/** Pages whose names cannot be ids, or that are the same but for letter case or Unicode form. */
export function checkFileNames(files: readonly SourceFile[]): readonly Problem[] {
	const problems: Problem[] = [];
	const pages = files.filter(({ kind }) => isPageKind(kind));
	const first = new Map<string, SourceFile>();
	// Sound names first, so that the odd one of two is the one reported.
	const isSound = (page: SourceFile) => ID_PATTERN.test(page.id);
	for (const page of [...pages.filter(isSound), ...pages.filter((one) => !isSound(one))]) {
		const key = `${page.kind} ${page.id.normalize("NFKC").toLowerCase()}`;
		const other = first.get(key);
		if (other === undefined) first.set(key, page);
		const place: Place = { file: page.file, line: 1, column: 1 };
		if (other !== undefined) {
			problems.push(problem("H202", place, `\`${page.id}\` is the id of \`${other.file}\` too.`));
		} else if (!ID_PATTERN.test(page.id) || !isPortable(page.id)) {
			const nearest = idFrom(page.id);
			problems.push(
				problem("H107", place, `The file's name, \`${page.id}\`, cannot be an id.`, {
					nearest: nearest === undefined ? undefined : `${nearest}.md`,
				}),
			);
		}
	}
	return problems;
}

/** A drill that lies in the folder of an apparatus it does not name. */
export function checkDrillFolder(drill: Drill): readonly Problem[] {
	const folder = drill.source.file.split("/").at(-2);
	if (folder === undefined || folder === "drills" || drill.apparatus.includes(folder)) return [];
	return [
		problem(
			"H108",
			drill.source.place(["apparatus"]),
			`The drill lies in the folder \`${folder}\` but names ${drill.apparatus.map((a) => `\`${a}\``).join(", ")}.`,
		),
	];
}

/** A term that does not start on a Monday, and intervals that end before they begin. */
export function checkTerm(file: SourceFile, term: Term): readonly Problem[] {
	const problems: Problem[] = [];
	if (term.starts !== undefined && new Date(`${term.starts}T00:00:00Z`).getUTCDay() !== 1) {
		const monday = mondayOf(term.starts);
		problems.push(
			problem("H113", file.place(["starts"]), `\`${term.starts}\` is not a Monday.`, { nearest: monday }),
		);
	}
	for (const [i, { from, to }] of term.closed.entries()) {
		if (to < from) {
			problems.push(problem("H114", file.place(["closed", i]), `\`${to}\` is before \`${from}\`.`));
		}
	}
	for (const group of term.classes) {
		if (group.ages !== undefined && group.ages[1] < group.ages[0]) {
			problems.push(
				problem(
					"H114",
					file.place([...group.path, "ages"]),
					`The ages run from ${group.ages[0]} to ${group.ages[1]}.`,
				),
			);
		}
	}
	return problems;
}

function mondayOf(date: string): string {
	const day = new Date(`${date}T00:00:00Z`);
	day.setUTCDate(day.getUTCDate() - ((day.getUTCDay() + 6) % 7));
	return day.toISOString().slice(0, 10);
}
