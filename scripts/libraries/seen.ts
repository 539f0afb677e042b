/**
 * What a club has seen of its libraries: each thing that it takes, as the library said it when the director
 * last looked. It lies in the club's folder, so that a change of a library can be told wherever the
 * handbook is built, and what was said before can be kept.
 */

import { isDeepStrictEqual } from "node:util";
import { openFolder } from "../files/folder.ts";
import { isData } from "../read/data.ts";
import type { Theirs } from "./join-libraries.ts";

export const SEEN_FILE = "_data/libraries.json";

/** Stands for what follows a page's front matter, beside its fields. */
export const TEXT_FIELD = "text";

export type Seen = ReadonlyMap<string, Theirs>;

/** What a library changed of a thing since it was seen. */
export interface LibraryChange {
	/** As `drill:log-roll`. */
	readonly thing: string;
	readonly library: string;
	readonly fields: readonly {
		readonly field: string;
		/** Undefined where it was or is not said. */
		readonly before: unknown;
		readonly now: unknown;
	}[];
}

/** What was seen; nothing where there is no record that can be read. */
export function seenIn(clubDir: string): Seen {
	let read: unknown;
	try {
		read = JSON.parse(openFolder(clubDir).readText(SEEN_FILE));
	} catch {
		return new Map();
	}
	if (!isData(read)) return new Map();
	return new Map(
		Object.entries(read).flatMap(([thing, said]) =>
			isData(said) && isData(said.data) && typeof said.library === "string" && typeof said.body === "string"
				? [[thing, { library: said.library, data: said.data, body: said.body }] as const]
				: [],
		),
	);
}

/** Writes down what is seen, a thing a line, so that versions of it can be compared. */
export function noteSeen(clubDir: string, seen: Seen): void {
	const lines = [...seen]
		.sort(([a], [b]) => (a < b ? -1 : 1))
		.map(([thing, said]) => `${JSON.stringify(thing)}: ${JSON.stringify(said)}`);
	const text = `{\n${lines.join(",\n")}\n}\n`;
	const club = openFolder(clubDir);
	if (club.info(SEEN_FILE)?.kind === "file" && club.readText(SEEN_FILE) === text) return;
	club.write(SEEN_FILE, text);
}

/** What is taken and was not seen before is seen now; what is no longer taken is forgotten. */
export function noteNew(clubDir: string, theirs: ReadonlyMap<string, Theirs>): void {
	const seen = seenIn(clubDir);
	if (theirs.size === 0 && seen.size === 0) return;
	noteSeen(clubDir, new Map([...theirs].map(([thing, now]) => [thing, seen.get(thing) ?? now])));
}

/** What libraries changed of the things that were seen. */
export function changesSince(seen: Seen, theirs: ReadonlyMap<string, Theirs>): readonly LibraryChange[] {
	return [...theirs].flatMap(([thing, now]) => {
		const before = seen.get(thing);
		if (before === undefined) return [];
		const was: Readonly<Record<string, unknown>> = { ...before.data, [TEXT_FIELD]: before.body };
		const is: Readonly<Record<string, unknown>> = { ...plain(now.data), [TEXT_FIELD]: now.body };
		const fields = [...new Set([...Object.keys(was), ...Object.keys(is)])].filter(
			(field) => !isDeepStrictEqual(was[field], is[field]),
		);
		if (fields.length === 0) return [];
		return [
			{
				thing,
				library: now.library,
				fields: fields.map((field) => ({ field, before: was[field], now: is[field] })),
			},
		];
	});
}

/** As JSON would give it back. */
function plain(data: object): object {
	return JSON.parse(JSON.stringify(data)) as object;
}
