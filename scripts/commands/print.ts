/** `print`: the binder alone, into the output folder; the last good one stays where it fails. */

import { join, relative } from "node:path";
import { printBinder } from "../print/binder.ts";
import { BINDER } from "./build.ts";
import { openClub } from "./open-club.ts";
import { addToOutput } from "./publish.ts";
import { count, reportProblems } from "./report.ts";
import { Progress, type Run } from "./run.ts";

export async function printCommand(run: Run): Promise<number> {
	const { clubDir, outDir, out } = run;
	const { problems, opened } = await openClub(clubDir, { keep: true });
	reportProblems(problems, clubDir, out);
	if (opened === undefined) return 1;
	const progress = new Progress(run.progress);
	const outFile = join(outDir, BINDER);
	const binder = await printBinder(opened.handbook, {
		outFile,
		progress: (done, total, label) => progress.show("binder", done, total, label),
	});
	progress.end();
	reportProblems(binder.problems, clubDir, out);
	if (binder.pages > 0) {
		addToOutput(outDir, [BINDER]);
		out.line(`wrote ${relative(process.cwd(), outFile)}, ${count(binder.pages, "page")}`);
	}
	return binder.problems.some((p) => p.severity === "error") ? 1 : 0;
}
