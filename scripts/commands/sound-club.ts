/** What commands ask of a folder before they work on it: no errors, and that what is chosen is there. */

import { type Handbook, openHandbook } from "../handbook.ts";
import type { Curriculum, Id } from "../model.ts";
import { reportProblems } from "./report.ts";
import type { Run } from "./run.ts";

/**
 * The handbook of a folder without errors; undefined where it has some, which are told.
 *
 * @param why what only such a folder is for, as a sentence goes on after a colon
 */
export function soundHandbook(
	{ clubDir, out }: Pick<Run, "clubDir" | "out">,
	why: string,
): Handbook | undefined {
	const { problems, handbook } = openHandbook(clubDir);
	if (handbook !== undefined) return handbook;
	reportProblems(problems, clubDir, out);
	out.line(`Mend these first: ${why}.`);
	return undefined;
}

/** What is wrong with a choice that names nothing. */
export function wrongChoice(
	{ weeks, term, levels }: Curriculum,
	{ week, class: group, level }: { readonly week?: number; readonly class?: Id; readonly level?: Id },
): string | undefined {
	if (week !== undefined && !weeks.some((one) => one.week === week))
		return `There is no plan of week ${week}. Planned: ${weeks.map((one) => one.week).join(", ")}.`;
	if (group !== undefined && !term.classes.some(({ id }) => id === group))
		return `There is no class \`${group}\`. Classes: ${term.classes.map(({ id }) => id).join(", ")}.`;
	if (level !== undefined && !levels.has(level))
		return `There is no level \`${level}\`. Levels: ${[...levels.keys()].join(", ")}.`;
	return undefined;
}
