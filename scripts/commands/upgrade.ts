/**
 * `upgrade`: brings a club folder to the present authoring format, one named step after the other.
 *
 * An interrupted run leaves a file old or new; run again, the command goes on where it stopped, and `undo`
 * takes a step back. Nothing is touched where there is nothing to do.
 */

import { makeChanges } from "../edit/make-changes.ts";
import { openFolder } from "../files/folder.ts";
import { readClub } from "../read/read-club.ts";
import { FORMAT, GET_NEWEST } from "../validate/check-format.ts";
import { isInstalled } from "./own-package.ts";
import type { Run } from "./run.ts";

interface Step {
	/** The format that the step starts from; it leads to the next. */
	readonly from: number;
	/** What it does, for the terminal. */
	readonly does: string;
	readonly apply: (clubDir: string) => void;
}

const CLUB_FILES = ["_data/club.yaml", "_data/club.yml"] as const;

/** Format 0 is everything written before folders said their format. Its fields are those of format 1. */
const STEPS: readonly Step[] = [
	{ from: 0, does: "the club file says its format", apply: (clubDir) => sayFormat(clubDir, 1) },
];

/** @returns 0 where the folder is in the present format now, 1 where it cannot be brought there */
export async function upgrade({ clubDir, out }: Run): Promise<number> {
	const club = readClub(clubDir).files.find(({ kind }) => kind === "club");
	if (club === undefined) {
		out.line("There is no _data/club.yaml that can be read, so no format is said: nothing to upgrade.");
		return 0;
	}
	const format = formatOf(club.data);
	if (format > FORMAT) {
		out.line(`The folder is written in format ${format}, this program knows formats up to ${FORMAT}.`);
		out.line(
			isInstalled() ? "Get the newest version of this program: npm run update -- --write" : `${GET_NEWEST}.`,
		);
		return 1;
	}
	for (const { from, does, apply } of STEPS.filter((step) => step.from >= format)) {
		apply(clubDir);
		out.line(`format ${from} to ${from + 1}: ${does}`);
	}
	out.line(`The folder is in format ${FORMAT}.`);
	return 0;
}

/** A folder that does not say is of the time before folders did. */
function formatOf(data: unknown): number {
	const said = typeof data === "object" && data !== null && "format" in data ? data.format : 0;
	return typeof said === "number" && Number.isInteger(said) && said >= 0 ? said : 0;
}

/** Writes the format as a line of its own; every other line, and every comment, stays as it is. */
function sayFormat(clubDir: string, format: number): void {
	const club = openFolder(clubDir);
	const path = CLUB_FILES.find((file) => club.has(file));
	if (path === undefined) return;
	const text = club.readText(path);
	const end = text.includes("\r\n") ? "\r\n" : "\n";
	const line = `format: ${format}`;
	const said = /^format:.*$/m;
	const lines = text.split(/\r?\n/);
	// Below what the file begins with: a mark of the encoding, comments, the start of the document.
	const at = lines.findIndex((l) => !/^\uFEFF?\s*(#.*|---\s*)?$/.test(l));
	const changed = said.test(text)
		? text.replace(said, line)
		: [...lines.slice(0, Math.max(0, at)), line, ...lines.slice(Math.max(0, at))].join(end);
	makeChanges(clubDir, "upgrade", [{ path, before: text, after: changed }]);
}
