/**
 * What the pages of a site were made of, in a list inside the site's folder: with it the next build takes
 * pages that would be the same as they are.
 */

import { hash } from "node:crypto";
import { readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** The list, from the root of a site. */
const PAGES_LIST = ".handbook-pages.json";

export interface PagesList {
	/** Stands for the program and for what all pages shared. */
	readonly of: string;
	readonly pages: Readonly<Record<string, MadePage>>;
}

/** Its text's fingerprint; size and time of its file; whether it has letters that the smaller font lacks. */
export type MadePage = readonly [text: string, size: number, changed: number, isExtended: boolean];

/** The list of a site; undefined where there is none that can be read. */
export function readPagesList(siteDir: string): PagesList | undefined {
	try {
		return JSON.parse(readFileSync(join(siteDir, PAGES_LIST), "utf8"));
	} catch {
		return undefined;
	}
}

export function writePagesList(siteDir: string, list: PagesList): void {
	writeFileSync(join(siteDir, PAGES_LIST), JSON.stringify(list));
}

/** Equal ones are of equal texts. */
export function fingerprint(text: string): string {
	return hash("sha256", text, "base64url").slice(0, 22);
}

/** A page as its file is now. */
export function madePage(siteDir: string, path: string, text: string, isExtended: boolean): MadePage {
	const { size, mtimeMs } = statSync(join(siteDir, path));
	return [text, size, mtimeMs, isExtended];
}

/** Whether the file of a page is as the list has it: nobody changed it since. */
export function isUntouched(siteDir: string, path: string, [, size, changed]: MadePage): boolean {
	const now = statSync(join(siteDir, path), { throwIfNoEntry: false });
	return now?.size === size && now.mtimeMs === changed;
}

/** Notes that files have other times by now. */
export function noteChangedTimes(siteDir: string, files: readonly string[]): void {
	const list = files.length === 0 ? undefined : readPagesList(siteDir);
	if (list === undefined) return;
	const pages = { ...list.pages };
	for (const file of files) {
		const page = pages[file];
		if (page !== undefined) pages[file] = madePage(siteDir, file, page[0], page[3]);
	}
	writePagesList(siteDir, { ...list, pages });
}
