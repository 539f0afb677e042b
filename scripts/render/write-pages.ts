/**
 * Writes the pages of a site with Eleventy, of their texts (page-text.ts).
 *
 * Texts are gathered while more of them lie ready, since every run of Eleventy has a cost of its own, and
 * written in runs that end, since Eleventy holds the text of every page of a run until its end.
 */

import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import Eleventy from "@11ty/eleventy";
import { wordsFor } from "../words/words.ts";
import { offerEdition } from "./edition.ts";
import { readPage, readShared, type SharedFacts } from "./page-text.ts";
import type { Posted } from "./posts.ts";

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
}

export type ToPages =
	| { readonly kind: "begin"; readonly site: PagesBegin }
	| { readonly kind: "pages"; readonly texts: readonly string[] }
	/** Answered when the pages so far are written. */
	| { readonly kind: "write" };

export interface WrittenPages {
	/** Whether a page has letters that the smaller font lacks. */
	readonly isExtended: boolean;
}

export class PageWriter implements Posted<ToPages, WrittenPages> {
	#siteDir = "";
	#shared: SharedFacts | undefined;
	#waiting: string[] = [];
	#isExtended = false;

	async take(post: ToPages): Promise<WrittenPages | undefined> {
		switch (post.kind) {
			case "begin":
				this.#siteDir = post.site.siteDir;
				this.#shared = readShared(post.site.shared, wordsFor(post.site.language));
				return undefined;
			case "pages":
				for (const text of post.texts) this.#waiting.push(text);
				if (this.#waiting.length >= MOST_OF_A_RUN) await this.#write();
				return undefined;
			case "write":
				await this.#write();
				return { isExtended: this.#isExtended };
		}
	}

	async idle(): Promise<boolean> {
		if (this.#waiting.length < LEAST_OF_A_RUN) return false;
		await this.#write();
		return true;
	}

	async #write(): Promise<void> {
		const [texts, shared] = [this.#waiting, this.#shared];
		this.#waiting = [];
		if (texts.length === 0 || shared === undefined) return;
		offerEdition({
			pages: texts.map((text) => readPage(text, shared)),
			made: (_, text) => {
				this.#isExtended ||= hasExtendedLetters(text);
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
