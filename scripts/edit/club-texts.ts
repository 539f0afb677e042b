/**
 * The text files of a club as they stand, byte for byte as text, for changes that keep comments, order,
 * quotes and line ends: a change replaces letters at places, and writes nothing anew.
 */

import { basename } from "node:path";
import { openFolder } from "../files/folder.ts";
import { type FileKind, type Id, PAGE_KINDS } from "../model.ts";

/** Texts by their paths in the club folder, with forward slashes. */
export type ClubTexts = ReadonlyMap<string, string>;

/**
 * Every page and data file of a club, or some of them, sorted by path. Throws where one cannot be read.
 *
 * @param wanted which of them are read
 */
export function readTexts(clubDir: string, wanted: (path: string) => boolean = () => true): ClubTexts {
	const club = openFolder(clubDir);
	const texts = new Map<string, string>();
	for (const folder of ["_data", "content"]) {
		for (const name of club.files(folder)) {
			const path = `${folder}/${name}`;
			if (kindOf(path) !== undefined && wanted(path) && !club.isLink(path))
				texts.set(path, club.readText(path));
		}
	}
	return new Map([...texts].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** What kind of file a path is; undefined for what is no page and no data file. */
export function kindOf(path: string): FileKind | undefined {
	const data = /^_data\/([a-z]+)\.ya?ml$/.exec(path)?.[1];
	if (data !== undefined) return data as FileKind;
	if (/^_data\/taught\/[^/]+\.ya?ml$/.test(path)) return "taught";
	if (!path.endsWith(".md")) return undefined;
	return PAGE_KINDS.find((kind) => path.startsWith(`content/${kind}s/`));
}

/** The id that a page's file name gives it. */
export function idOf(path: string): Id {
	return basename(path, ".md");
}

/** A text to put in the place of what stands from `start` to `end`. */
export interface Splice {
	readonly start: number;
	readonly end: number;
	readonly text: string;
}

/** The text with all splices made; they do not overlap. */
export function spliced(text: string, splices: readonly Splice[]): string {
	let result = text;
	for (const { start, end, text: own } of [...splices].sort((a, b) => b.start - a.start)) {
		result = result.slice(0, start) + own + result.slice(end);
	}
	return result;
}
