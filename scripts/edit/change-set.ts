/** A change of a club's files, as what each was and becomes, and as a person reads it. Pure. */

import { createTwoFilesPatch } from "diff";
import type { ClubTexts } from "./club-texts.ts";

/** One file: a text that is undefined stands for no file. */
export interface Change {
	readonly path: string;
	readonly before?: string;
	readonly after?: string;
}

/** What differs between two states of a club's texts, by path. */
export function changesBetween(before: ClubTexts, after: ClubTexts): readonly Change[] {
	const paths = [...new Set([...before.keys(), ...after.keys()])].sort();
	return paths.flatMap((path) => {
		const old = before.get(path);
		const now = after.get(path);
		if (old === now) return [];
		return [
			{ path, ...(old === undefined ? {} : { before: old }), ...(now === undefined ? {} : { after: now }) },
		];
	});
}

/** A change as a person reads it: renamed files in a line, changed lines with what stands around them. */
export function describeChanges(changes: readonly Change[]): readonly string[] {
	const lines: string[] = [];
	const renamed = renames(changes);
	for (const { path, before, after } of changes) {
		const from = renamed.get(path);
		if (after === undefined) {
			if (![...renamed.values()].includes(path)) lines.push(`- ${path}`);
			continue;
		}
		const old = from === undefined ? before : changes.find((one) => one.path === from)?.before;
		if (from !== undefined) lines.push(`${from} → ${path}`);
		else lines.push(old === undefined ? `+ ${path}` : path);
		if (old === undefined || old === after) continue;
		const patch = createTwoFilesPatch(
			"",
			"",
			old.replaceAll("\r\n", "\n"),
			after.replaceAll("\r\n", "\n"),
			"",
			"",
			{
				context: 1,
			},
		);
		for (const line of patch.split("\n").slice(4)) {
			if (line !== "" && !line.startsWith("\\"))
				lines.push(`    ${line.replace(/^@@ -(\d+).*$/, "line $1")}`);
		}
	}
	return lines;
}

/** Paths and the other ones that they continue: whose lines they have, more than their own old ones. */
function renames(changes: readonly Change[]): ReadonlyMap<string, string> {
	const found = new Map<string, string>();
	const taken = new Set<string>();
	for (const { path, before, after } of changes) {
		if (after === undefined) continue;
		const lines = new Set(after.split("\n"));
		const alike = (text: string) => {
			const own = text.split("\n");
			return own.filter((line) => lines.has(line)).length / own.length;
		};
		let best: string | undefined;
		let most = Math.max(0.5, before === undefined ? 0 : alike(before));
		for (const other of changes) {
			if (other.path === path || other.before === undefined || taken.has(other.path)) continue;
			const share = alike(other.before);
			if (share > most) [best, most] = [other.path, share];
		}
		if (best === undefined) continue;
		taken.add(best);
		found.set(path, best);
	}
	return found;
}
