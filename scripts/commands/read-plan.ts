/** Reads a plan to compare with: from a club folder, or from what an earlier build or term has left. */

import { basename, dirname } from "node:path";
import { type PlanRecord, recordOf } from "../compute/plan-record.ts";
import { openFolder } from "../files/folder.ts";
import { givenKind } from "../files/given.ts";
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
	if (kind === undefined) return { problems: [] };
	const isFolder = kind === "folder";
	const folder = openFolder(isFolder ? place : dirname(place));
	if (isFolder && folder.has("content")) {
		const { problems, handbook } = openHandbook(place, { outDir: ownOutput(place) });
		return handbook === undefined ? { problems } : { problems, record: recordOf(handbook, handbook.edition) };
	}
	const files = isFolder ? [RECORD_FILE, "record.json"] : [basename(place)];
	const file = files.find((name) => folder.has(name));
	const record = file === undefined ? undefined : recordIn(folder, file);
	return { problems: [], ...(record && { record }) };
}
