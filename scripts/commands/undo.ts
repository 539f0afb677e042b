/**
 * `undo`: takes the last change back that this program made to the club's files, or to a folder that it
 * made from them. A change, or an undo, that was ended in the middle is finished.
 */

import { strangeRecords } from "../edit/change-records.ts";
import { describeChanges } from "../edit/change-set.ts";
import { FilesChanged, takeBack } from "../edit/make-changes.ts";
import { openFolder } from "../files/folder.ts";
import { tellLater } from "./edit-club.ts";
import { count } from "./report.ts";
import type { Run } from "./run.ts";

/** @returns 0 taken back, or nothing to take back; 1 where later work stands in the way */
export function undo({ clubDir, out }: Run): number {
	try {
		const back = takeBack(clubDir);
		if (back === undefined) {
			const strange = strangeRecords(openFolder(clubDir));
			if (strange.length > 0) {
				out.line(
					`${count(strange.length, "record")} here came from another machine or folder, so nothing is taken back by ${strange.length === 1 ? "it" : "them"}: ${strange.slice(0, 3).join(", ")}.`,
				);
			}
			out.line("There is no change to take back.");
			return 0;
		}
		for (const line of describeChanges(back.changes)) out.line(line);
		tellLater(back, out);
		out.line("");
		const files = back.changes.length + back.merged.length;
		out.line(`Took back: ${back.what}${files === 0 ? "" : ` (${count(files, "file")})`}.`);
		return 0;
	} catch (error) {
		if (!(error instanceof FilesChanged)) throw error;
		out.line(
			`Changed since: ${error.paths.join(", ")}. Nothing was taken back, so that no later work is lost.`,
		);
		return 1;
	}
}
