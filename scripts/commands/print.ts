/** `print`: the binder alone, into the output folder; the last good one stays where it fails. */

import { join, relative } from "node:path";
import { editionFile, printBinder } from "../print/binder.ts";
import { BINDER } from "./build.ts";
import { openClub } from "./open-club.ts";
import { addToOutput } from "./publish.ts";
import { readSince } from "./read-since.ts";
import { count, reportProblems } from "./report.ts";
import { Progress, type Run, untilInterrupted } from "./run.ts";

export interface PrintChoice {
	/** An earlier edition whose leaves keep theirs where they have not changed. */
	readonly since?: string | undefined;
}

export async function printCommand(run: Run, { since }: PrintChoice = {}): Promise<number> {
	const { clubDir, outDir, out } = run;
	const earlier = since === undefined ? undefined : await readSince(since, out);
	if (earlier === null) return 2;
	const { problems, opened } = await openClub(clubDir, { keep: true });
	reportProblems(problems, clubDir, out);
	if (opened === undefined) return 1;
	const progress = new Progress(run.progress);
	const outFile = join(outDir, BINDER);
	const binder = await untilInterrupted((signal) =>
		printBinder(opened.handbook, {
			outFile,
			since: earlier,
			signal,
			progress: (done, total, label) => progress.show("binder", done, total, label),
		}),
	);
	progress.end();
	if (binder === undefined) {
		out.line("Interrupted; the last good binder stays as it is.");
		return 130;
	}
	reportProblems(binder.problems, clubDir, out);
	if (binder.pages > 0) {
		addToOutput(outDir, [BINDER, editionFile(BINDER)]);
		out.line(`wrote ${relative(process.cwd(), outFile)}, ${count(binder.pages, "page")}`);
	}
	return binder.problems.some((p) => p.severity === "error") ? 1 : 0;
}
