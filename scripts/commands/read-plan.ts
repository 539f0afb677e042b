/** Reads a plan to compare with: from a club folder, or from what an earlier build or term has left. */

import { dirname, posix } from "node:path";
import { type PlanRecord, type RecordBesideDrills, recordOf, withDrills } from "../compute/plan-record.ts";
import { type Folder, openFolder } from "../files/folder.ts";
import { givenKind, readGiven } from "../files/given.ts";
import { openHandbook } from "../handbook.ts";
import type { ClubEdition, Id } from "../model.ts";
import type { Problem } from "../problems.ts";
import { RECORD_FILE } from "../site/data-files.ts";
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
	if (kind !== "folder")
		return { problems: [], ...recordIn(readGiven(place), openFolder(dirname(place)), "") };
	const folder = openFolder(place);
	if (folder.has("content")) {
		const { problems, handbook } = openHandbook(place, { outDir: ownOutput(place) });
		return handbook === undefined ? { problems } : { problems, record: recordOf(handbook, handbook.edition) };
	}
	const file = [RECORD_FILE, "record.json"].find((name) => folder.has(name));
	return { problems: [], ...(file && recordIn(folder.read(file), folder, posix.dirname(file))) };
}

/** @param at the record's folder in this one: its drills may stand beside it */
function recordIn(bytes: Buffer, folder: Folder, at: string): Pick<ReadPlan, "record"> {
	try {
		const data = jsonIn(bytes);
		if (typeof data !== "object" || data === null || !("format" in data) || !("things" in data)) return {};
		if (data.format === 1) return { record: data as PlanRecord };
		if (data.format !== 2) return {};
		const record = data as RecordBesideDrills;
		const [edition, ...drills] = ["edition.json", ...record.drills].map((name) => {
			const path = posix.join(at, name);
			return folder.has(path) ? jsonIn(folder.read(path)) : undefined;
		});
		if (edition === undefined || drills.includes(undefined)) return {};
		return { record: withDrills(record, drills.flat() as { id: Id }[], edition as ClubEdition) };
	} catch (error) {
		if (error instanceof SyntaxError) return {};
		throw error;
	}
}

function jsonIn(bytes: Buffer): unknown {
	return JSON.parse(bytes.toString("utf8"));
}
