/**
 * From a club folder to everything that is known about it. Read this file first.
 *
 *   read      files → source files with a line map                       scripts/read
 *   validate  source files → records, every field checked                scripts/validate
 *   link      records → a curriculum, every reference proved             scripts/link
 *   compute   curriculum → exposures, tables, findings                   scripts/compute
 *   render    handbook → pages, search index, data files                 scripts/render
 *   print     handbook → paginated sheets                                scripts/print
 *
 * The first four steps are here; render and print take the handbook and are called by the commands.
 */

import { basename, resolve } from "node:path";
import type { Measured } from "./compute/measure.ts";
import { measure } from "./compute/measures.ts";
import { linkClub } from "./link/link-club.ts";
import type { SourceFile } from "./model.ts";
import { byPlace, type Problem } from "./problems.ts";
import { mediaFault } from "./read/inspect-media.ts";
import { type ReadCache, readClub } from "./read/read-club.ts";
import { createMarkdown, type MarkdownRenderer } from "./render/markdown.ts";
import { wordsOf } from "./validate/build-records.ts";
import { formatProblem } from "./validate/check-format.ts";
import { validateClub } from "./validate/validate-club.ts";
import { type Words, wordsFor } from "./words/words.ts";

/** A checked and counted curriculum, ready to be shown. */
export interface Handbook extends Measured {
	readonly markdown: MarkdownRenderer;
	/** The words of the handbook that are not the club's, in its language. */
	readonly words: Words;
	/** The club folder. */
	readonly clubDir: string;
	/** Stands for every byte that was read. */
	readonly fingerprint: string;
	/** Names this content and no other: eight figures of its fingerprint. */
	readonly edition: string;
}

export interface OpenedHandbook {
	/** All problems of the folder, by file and line. */
	readonly problems: readonly Problem[];
	/** Undefined where one of the problems is an error. */
	readonly handbook?: Handbook;
}

export interface OpenOptions {
	readonly highlight?: (code: string, language: string) => string;
	/** The club folder whose pictures and videos are looked at, where it is another: for texts that are only tried. */
	readonly mediaFrom?: string;
	/** Other words than those of the club's language. */
	readonly words?: Words;
	/** Changes what was read, in memory, before it is checked. */
	readonly change?: (files: readonly SourceFile[]) => readonly SourceFile[];
	/** Files read before, where a folder is opened again and again. */
	readonly cache?: ReadCache;
}

/** Reads, validates, links and computes a club folder. Throws where the folder is not there at all. */
export function openHandbook(clubDir: string, options: OpenOptions = {}): OpenedHandbook {
	const { mediaFrom = clubDir, change } = options;
	const found = readClub(clubDir, options.cache);
	const read = change === undefined ? found : { ...found, files: change(found.files) };
	const otherFormat = formatProblem(read.files);
	if (otherFormat !== undefined) return { problems: [otherFormat] };
	const valid = validateClub(read, wordsOf(basename(resolve(clubDir)).toLowerCase()));
	const failed = valid.problems.some((p) => p.severity === "error");
	const linked = linkClub(valid, failed, (file, wanted) => mediaFault(mediaFrom, file, wanted));
	const problems = [...valid.problems, ...linked.problems].sort(byPlace);
	if (linked.curriculum === undefined) return { problems };
	const { words = wordsFor(linked.curriculum.club.language), highlight } = options;
	const measured = measure(linked.curriculum, words);
	return {
		problems,
		handbook: {
			curriculum: measured.curriculum,
			// Counted when they are asked for.
			get exposures() {
				return measured.exposures;
			},
			get tables() {
				return measured.tables;
			},
			get findings() {
				return measured.findings;
			},
			words,
			markdown: createMarkdown({ resolve: linked.curriculum.resolve, ...(highlight && { highlight }) }),
			clubDir,
			fingerprint: read.fingerprint,
			edition: read.fingerprint.slice(0, 8),
		},
	};
}
