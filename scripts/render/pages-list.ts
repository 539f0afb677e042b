/**
 * What the pages of a site were made of: with such a list the next build takes pages that would be the
 * same as they are. It names times of files, which differ from build to build, and so it is kept in the
 * club's cache folder and not in the site. Where it is lost or damaged, every page is made.
 */

import { hash, randomUUID } from "node:crypto";
import { mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";

export interface PagesList {
	/** Stands for the program and for what all pages shared. */
	readonly of: string;
	/** By the pages' files, from the root of the site. */
	readonly pages: Readonly<Record<string, MadePage>>;
}

/** Its text's fingerprint; size and time of its file; whether it has letters that the smaller font lacks. */
export type MadePage = readonly [text: string, size: number, changed: number, isExtended: boolean];

/** Where the list of a club's site is kept; one club may be built into several folders. */
export function pagesListOf(clubDir: string, siteDir: string): string {
	return join(clubDir, ".handbook-cache", "pages", `${fingerprint(resolve(siteDir))}.json`);
}

/** The list in a file; undefined where there is none that can be read. */
export function readPagesList(file: string): PagesList | undefined {
	try {
		const list: unknown = JSON.parse(readFileSync(file, "utf8"));
		return typeof list === "object" && list !== null && "of" in list && "pages" in list
			? (list as PagesList)
			: undefined;
	} catch {
		return undefined;
	}
}

/**
 * Writes the list of a site, whole or not at all; where it cannot be written, the next build does without.
 *
 * @param restored files whose times are others than when the pages were made
 */
export function writePagesList(
	file: string,
	siteDir: string,
	{ of, pages }: PagesList,
	restored: readonly string[],
): void {
	try {
		const now = { ...pages };
		for (const path of restored) {
			const page = now[path];
			if (page !== undefined) now[path] = madePage(siteDir, path, page[0], page[3]);
		}
		mkdirSync(dirname(file), { recursive: true });
		const beside = `${file}.${randomUUID().slice(0, 8)}`;
		writeFileSync(beside, JSON.stringify({ of, pages: now } satisfies PagesList));
		renameSync(beside, file);
	} catch {
		// Every page is made the next time.
	}
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
