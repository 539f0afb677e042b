/**
 * Writes the pages of a site with Eleventy, of their texts (page-text.ts).
 *
 * A page is a function of its text, of what all pages share, and of this program. Where the site before
 * has a page of the same three, its file is taken as it is: another name for it (a hard link) costs a
 * tenth of writing it, and who uploads a site sees that it did not change. Which page was made of what is
 * listed (pages-list.ts), with the size and the time of each file: one that somebody changed is made
 * anew.
 *
 * Texts are gathered while more of them lie ready, since every run of Eleventy has a cost of its own, and
 * written in runs that end, since Eleventy holds the text of every page of a run until its end.
 */

import { copyFileSync, linkSync, mkdirSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import Eleventy from "@11ty/eleventy";
import { wordsFor } from "../words/words.ts";
import { addressFile } from "./addresses.ts";
import { offerEdition } from "./edition.ts";
import type { SiteFile } from "./offline/pack-pages.ts";
import { readPage, readShared, type SharedFacts } from "./page-text.ts";
import { fingerprint, isUntouched, type MadePage, madePage, type PagesList } from "./pages-list.ts";
import type { Posted } from "./posts.ts";
import { programFingerprint } from "./program-fingerprint.ts";

/** The folder of this program, which holds `layouts/` and `eleventy.config.ts`. */
const PROGRAM = fileURLToPath(new URL("../../", import.meta.url));

/** Fewer pages are not worth a run while more may come; more would hold too much text. */
const LEAST_OF_A_RUN = 100;
const MOST_OF_A_RUN = 250;

export interface PagesBegin {
	/** The folder of the site. */
	readonly siteDir: string;
	/** As `sharedText` writes it. */
	readonly shared: string;
	/** Of the words. */
	readonly language: string;
	/** The site before, with the list of its pages, if there is one. */
	readonly before: SiteBefore | undefined;
}

export interface SiteBefore {
	readonly dir: string;
	readonly list: PagesList;
}

export type ToPages =
	| { readonly kind: "begin"; readonly site: PagesBegin }
	/** Texts of pages, by the files that the pages are written to. */
	| { readonly kind: "pages"; readonly pages: readonly SiteFile[] }
	/** Answered when the pages so far are written. */
	| { readonly kind: "write" };

export interface WrittenPages {
	/** Whether a page has letters that the smaller font lacks. */
	readonly isExtended: boolean;
	readonly list: PagesList;
}

export class PageWriter implements Posted<ToPages, WrittenPages> {
	#siteDir = "";
	#shared: SharedFacts | undefined;
	#waiting: SiteFile[] = [];
	#isExtended = false;
	#of = "";
	#before: SiteBefore | undefined;
	readonly #made: Record<string, MadePage> = {};

	async take(post: ToPages): Promise<WrittenPages | undefined> {
		switch (post.kind) {
			case "begin": {
				const { siteDir, shared, language, before } = post.site;
				this.#siteDir = siteDir;
				this.#shared = readShared(shared, wordsFor(language));
				this.#of = fingerprint(programFingerprint() + shared);
				if (before?.list.of === this.#of) this.#before = before;
				return undefined;
			}
			case "pages":
				for (const page of post.pages) if (!this.#take(page)) this.#waiting.push(page);
				if (this.#waiting.length >= MOST_OF_A_RUN) await this.#write();
				return undefined;
			case "write":
				await this.#write();
				return { isExtended: this.#isExtended, list: { of: this.#of, pages: this.#made } };
		}
	}

	async idle(): Promise<boolean> {
		if (this.#waiting.length < LEAST_OF_A_RUN) return false;
		await this.#write();
		return true;
	}

	/** Takes the page from the site before, if it is the same and untouched; says whether it did. */
	#take({ path, text }: SiteFile): boolean {
		const made = this.#before?.list.pages[path];
		if (this.#before === undefined || made === undefined || made[0] !== fingerprint(text)) return false;
		if (!isUntouched(this.#before.dir, path, made)) return false;
		const [old, file] = [join(this.#before.dir, path), join(this.#siteDir, path)];
		mkdirSync(dirname(file), { recursive: true });
		try {
			linkSync(old, file);
			this.#made[path] = made;
		} catch {
			// Not every file system knows a second name.
			copyFileSync(old, file);
			this.#made[path] = madePage(this.#siteDir, path, made[0], made[3]);
		}
		this.#isExtended ||= made[3];
		return true;
	}

	async #write(): Promise<void> {
		const [waiting, shared] = [this.#waiting, this.#shared];
		this.#waiting = [];
		if (waiting.length === 0 || shared === undefined) return;
		const extended = new Set<string>();
		offerEdition({
			pages: waiting.map(({ text }) => readPage(text, shared)),
			made: ({ address }, text) => {
				if (!hasExtendedLetters(text)) return;
				extended.add(addressFile(address));
				this.#isExtended = true;
			},
		});
		try {
			const here = (path: string) => relative(process.cwd(), join(PROGRAM, path)) || ".";
			const eleventy = new Eleventy(here("layouts/pages"), relative(process.cwd(), this.#siteDir) || ".", {
				configPath: here("eleventy.config.ts"),
				quietMode: true,
				source: "script",
				runMode: "build",
			});
			eleventy.disableLogger();
			await eleventy.write();
		} finally {
			offerEdition(undefined);
		}
		for (const { path, text } of waiting) {
			this.#made[path] = madePage(this.#siteDir, path, fingerprint(text), extended.has(path));
		}
	}
}

/** Whether a page, in which letters beyond Latin-1 are references, has one that the smaller font lacks. */
function hasExtendedLetters(text: string): boolean {
	for (let at = text.indexOf("&#"); at >= 0; at = text.indexOf("&#", at + 2)) {
		const code = Number.parseInt(text.slice(at + 2, at + 8), 10);
		if ((code >= 0x100 && code <= 0x2ba) || (code >= 0x1e00 && code <= 0x1eff)) return true;
	}
	return false;
}
