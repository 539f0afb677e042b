/** `undo`: takes the last change back that this program made to the club's files. */

import { describeChanges, FilesChanged, takeBack } from "../edit/change-set.ts";
import { count } from "./report.ts";
import type { Run } from "./run.ts";

export function undo({ clubDir, out }: Run): number {
	try {
		const record = takeBack(clubDir);
		if (record === undefined) {
			out.line("There is no change to take back.");
			return 0;
		}
		const back = record.changes.map(({ path, before, after }) => ({
			path,
			...(after === undefined ? {} : { before: after }),
			...(before === undefined ? {} : { after: before }),
		}));
		for (const line of describeChanges(back)) out.line(line);
		out.line("");
		out.line(`Took back: ${record.what} (${count(record.changes.length, "file")}).`);
		return 0;
	} catch (error) {
		if (!(error instanceof FilesChanged)) throw error;
		out.line(
			`Changed since: ${error.paths.join(", ")}. Nothing was taken back, so that no later work is lost.`,
		);
		return 1;
	}
}
