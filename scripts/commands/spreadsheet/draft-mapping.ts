/**
 * A mapping file to fill in: every sheet, heading and word of a spreadsheet, what it was taken for, and a
 * question mark where nothing is known. What keeps its question mark is left out, as without the file.
 */

import { COLUMNS, SHEET_NAMES, type SheetKind } from "./columns.ts";

/** What a sheet was taken for. */
export interface SeenSheet {
	readonly title: string;
	/** A plan drawn as a grid has headings that are weeks and areas, not fields. */
	readonly kind: SheetKind | "grid" | undefined;
	readonly headings: readonly { readonly words: string; readonly field: string | undefined }[];
}

export interface Seen {
	readonly sheets: readonly SeenSheet[];
	/** Words that stand for nothing known, by kind. */
	readonly words: ReadonlyMap<string, ReadonlySet<string>>;
	/** Areas for which a plan says no minutes. */
	readonly minutes: ReadonlySet<string>;
	/** What there is of each kind. */
	readonly known: ReadonlyMap<string, readonly string[]>;
}

/** The text of the file. */
export function draftMapping({ sheets, words, minutes, known }: Seen): string {
	const lines = [
		"# What this spreadsheet's sheets, columns and words stand for. Write over each ?, then run",
		"# import again with --map and this file. What keeps its ? is left out, and told.",
		"",
		"sheets: # drills, plan, weeks, levels, equipment …; skip leaves a sheet out",
	];
	for (const { title, kind } of sheets) {
		if (kind === "grid") lines.push(`  # ${quoted(title)}: read as a plan drawn as a grid`);
		else
			lines.push(
				`  ${quoted(title)}: ${kind === undefined ? "?" : (SHEET_NAMES.get(kind) ?? kind).toLowerCase()}`.replace(
					/: \?$/,
					': "?"',
				),
			);
	}
	const seen = new Set<string>();
	const headings = sheets.flatMap(({ kind, headings: own }) =>
		own.flatMap(({ words: heading, field }) => {
			if (seen.has(heading)) return [];
			seen.add(heading);
			return [{ kind, heading, field }];
		}),
	);
	if (headings.length > 0) lines.push("", "columns: # skip leaves a column out");
	for (const { heading, field } of headings) lines.push(`  ${quoted(heading)}: ${field ?? '"?"'}`);
	const kinds = new Set(
		headings.flatMap(({ kind, field }) => (field === undefined ? [kind === "grid" ? undefined : kind] : [])),
	);
	for (const kind of kinds) {
		const names = (COLUMNS.get(kind ?? "drill") ?? []).map(({ heading }) => heading);
		lines.push(
			`  # the fields of ${kind === undefined ? "drills" : SHEET_NAMES.get(kind)?.toLowerCase()}: ${names.join(", ")}`,
		);
	}
	if (words.size > 0) lines.push("", 'values: # an id each; several in brackets; "" for nothing');
	for (const [kind, own] of words) {
		lines.push(
			`  ${kind === "apparatus" || kind === "equipment" ? kind : `${kind}s`}: # there are: ${(known.get(kind) ?? []).slice(0, 40).join(", ")}`,
		);
		for (const word of own) lines.push(`    ${quoted(word)}: "?"`);
	}
	if (minutes.size > 0) lines.push("", "minutes: # of a class in each area, shared out over its drills");
	for (const area of minutes) lines.push(`  ${area}: "?"`);
	return `${lines.join("\n")}\n`;
}

/** In double quotes, as JSON has them, which YAML reads. */
function quoted(words: string): string {
	return JSON.stringify(words);
}
