/**
 * Which content the printed sheets in an output are of: a hash for each file, in a record beside them. A
 * build that cannot print keeps the sheets whose content is still the same, and no others: a sheet of an
 * earlier plan would mislead.
 */

import type { SheetFile } from "../../layouts/sheets/sheet-file.ts";
import { openFolder } from "../files/folder.ts";
import type { Club } from "../model.ts";
import { digestOf } from "./sheet-cache.ts";

/** Where the record lies inside the output. */
export const SHEET_RECORD = "print/sheets.json";

/** By path, the hash of what is on the sheet. */
export type SheetRecord = Readonly<Record<string, string>>;

/** The hash of each file's content: what is on it and on which paper, not how it is set. */
export function recordOf(files: readonly SheetFile[], { paper, punch, language }: Club): SheetRecord {
	return Object.fromEntries(
		files.map(({ path, title, landscape, pieces }) => [
			path,
			digestOf([paper, punch, language, title, String(landscape), ...pieces.map(({ html }) => html.text)]),
		]),
	);
}

/** The record of an output; empty where it has none, or none that can be read. */
export function readRecord(outDir: string): SheetRecord {
	try {
		const value: unknown = JSON.parse(openFolder(outDir).readText(SHEET_RECORD));
		if (typeof value !== "object" || value === null) return {};
		return Object.fromEntries(Object.entries(value).filter(([, hash]) => typeof hash === "string"));
	} catch {
		return {};
	}
}

export function recordText(record: SheetRecord): string {
	return `${JSON.stringify(record, null, "\t")}\n`;
}
