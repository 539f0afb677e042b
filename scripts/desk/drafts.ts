/**
 * Drafts: what is typed in a form or a text and not saved yet. Each is a file of its own under
 * `.handbook/drafts/`, written whole at every pause of the typing, so that it survives a kill of the
 * program, of the browser or of the machine. Nothing there is read as content.
 */

import type { Draft, DraftLine } from "../../layouts/desk/api.ts";
import { KEPT_FOLDER } from "../edit/change-records.ts";
import { openFolder } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";

const FOLDER = `${KEPT_FOLDER}/drafts`;

export function draftOf(clubDir: string, path: string): Draft | undefined {
	return readDraft(clubDir, fileOf(path));
}

export function keepDraft(clubDir: string, draft: Draft): void {
	const club = openFolder(clubDir);
	const ignore = `${KEPT_FOLDER}/.gitignore`;
	if (!club.has(ignore)) club.write(ignore, "*\n");
	club.write(fileOf(draft.path), JSON.stringify(draft));
}

export function dropDraft(clubDir: string, path: string): void {
	openFolder(clubDir).remove(fileOf(path));
}

/** Drafts by path. */
export function draftLines(clubDir: string): readonly DraftLine[] {
	const club = openFolder(clubDir);
	return club
		.files(FOLDER)
		.flatMap((name) => readDraft(clubDir, `${FOLDER}/${name}`) ?? [])
		.map(({ path, at }) => ({ path, at }))
		.sort((a, b) => (a.path < b.path ? -1 : 1));
}

export function draftPaths(clubDir: string): readonly string[] {
	return draftLines(clubDir).map(({ path }) => path);
}

function readDraft(clubDir: string, file: string): Draft | undefined {
	try {
		const read: unknown = JSON.parse(openFolder(clubDir).readText(file));
		return isDraft(read) && fileOf(read.path) === file ? read : undefined;
	} catch {
		return undefined;
	}
}

function isDraft(value: unknown): value is Draft {
	if (typeof value !== "object" || value === null) return false;
	const { path, text, at, base } = value as Readonly<Record<string, unknown>>;
	return (
		typeof path === "string" &&
		typeof text === "string" &&
		typeof at === "string" &&
		(base === null || typeof base === "string")
	);
}

function fileOf(path: string): string {
	return `${FOLDER}/${sha256(path).slice(0, 32)}.json`;
}
