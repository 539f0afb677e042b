/** Reads a plan to compare with: from a club folder, or from what an earlier build or term has left. */

import { type PlanRecord, recordOf } from "../compute/plan-record.ts";
import { openFolder } from "../files/folder.ts";
import { givenKind, readGiven } from "../files/given.ts";
import { openHandbook } from "../handbook.ts";
import type { Problem } from "../problems.ts";
import { RECORD_FILE, recordIn } from "../site/data-files.ts";
import { ownOutput } from "./note-edition.ts";

export interface ReadPlan {
	/** Of a club folder with errors: why there is no record. */
	readonly problems: readonly Problem[];
	/** Undefined where there is none. */
	readonly record?: PlanRecord;
}

/** @param place a club folder, an output folder, a folder with a `record.json`, or such a file */
export function readPlan(place: string): ReadPlan {
	const kind = givenKind(place);
	if (kind !== "folder") return { problems: [], ...found(kind === undefined ? undefined : readGiven(place)) };
	const folder = openFolder(place);
	if (folder.has("content")) {
		const { problems, handbook } = openHandbook(place, { outDir: ownOutput(place) });
		return handbook === undefined ? { problems } : { problems, record: recordOf(handbook, handbook.edition) };
	}
	const file = [RECORD_FILE, "record.json"].find((name) => folder.has(name));
	return { problems: [], ...found(file === undefined ? undefined : folder.read(file)) };
}

function found(bytes: Buffer | undefined): Pick<ReadPlan, "record"> {
	const record = bytes && recordIn(bytes);
	return record === undefined ? {} : { record };
}
