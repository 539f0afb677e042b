/**
 * From a club folder to everything that is known about it. Read this file first.
 *
 *   read      files → source files with a line map                       scripts/read
 *   join      the club's files and its libraries' → source files         scripts/libraries
 *   validate  source files → records, every field checked                scripts/validate
 *   link      records → a curriculum, every reference proved             scripts/link
 *   compute   curriculum → exposures, tables, findings                   scripts/compute
 *   solve     curriculum → changes of the plan that mend it              scripts/solve
 *   show      handbook → views of pages and sheets, without markup       scripts/views
 *   site      views → pages, search, data files, records for devices     scripts/site
 *   print     views → paginated sheets                                   scripts/print
 *
 * The first five steps are here; the others take the handbook and are called by the commands.
 */

import { basename, resolve } from "node:path";
import { once } from "./compute/get-or-make.ts";
import type { Measured } from "./compute/measure.ts";
import { measure } from "./compute/measures.ts";
import { mendsOf } from "./compute/mend.ts";
import { type TaughtSums, taughtSums } from "./compute/taught-sums.ts";
import { joinLibraries, type Theirs } from "./libraries/join-libraries.ts";
import type { LayerCaches } from "./libraries/layers.ts";
import { withWeeks } from "./link/join-records.ts";
import { linkClub } from "./link/link-club.ts";
import type { ClubEdition, Curriculum, Finding, PlanChange, SourceFile } from "./model.ts";
import { byPlace, type Problem } from "./problems.ts";
import { clubRecord, contentHash, dayIn, editionAfter, outputRecord } from "./read/club-edition.ts";
import { mediaFault, mediaHome } from "./read/inspect-media.ts";
import { keptMend } from "./read/kept-mend.ts";
import { type ReadCache, type ReadClub, readClub, type TriedTexts } from "./read/read-club.ts";
import { wordsOf } from "./validate/build-records.ts";
import { formatProblem } from "./validate/check-format.ts";
import { validateClub } from "./validate/validate-club.ts";
import { createMarkdown, type MarkdownRenderer } from "./views/markdown.ts";
import { type Words, wordsFor } from "./words/words.ts";

/** A checked and counted curriculum, ready to be shown. */
export interface Handbook extends Measured {
	readonly markdown: MarkdownRenderer;
	/** The words of the handbook that are not the club's, in its language. */
	readonly words: Words;
	/** The club's own style sheet, as short as it can be written; undefined where it has none. */
	readonly style?: string | undefined;
	/** What `mend` found for the whole term, where it was asked for this very plan. */
	readonly termMend: () => readonly PlanChange[];
	/** The club folder. */
	readonly clubDir: string;
	/** What would mend some of the findings: worked out when it is asked for. */
	readonly mends: () => ReadonlyMap<Finding, readonly PlanChange[]>;
	/** The folders of its libraries, nearest first. */
	readonly libraries: readonly string[];
	/** What they say of each thing that is taken, by `kind:id`. */
	readonly theirs: ReadonlyMap<string, Theirs>;
	/** Sums of what coaches reported, where the club publishes them. */
	readonly sums?: TaughtSums | undefined;
	/** Stands for every byte that was read. */
	readonly fingerprint: string;
	/** The edition that this content is, or will be when it is issued. */
	readonly edition: ClubEdition;
}

export interface OpenedHandbook {
	/** All problems of the folder, by file and line. */
	readonly problems: readonly Problem[];
	/** Undefined where one of the problems is an error. */
	readonly handbook?: Handbook;
	/** What could be read: a file that is the same as in an earlier reading with the same cache is the same object. */
	readonly files: readonly SourceFile[];
}

export interface OpenOptions {
	readonly highlight?: (code: string, language: string) => string;
	/** The club folder whose pictures and videos are looked at, where it is another: for texts that are only tried. */
	readonly mediaFrom?: string;
	/** Other words than those of the club's language. */
	readonly words?: Words;
	/** Changes what was read, in memory, before it is checked. */
	readonly change?: (files: readonly SourceFile[]) => readonly SourceFile[];
	/** Where an edition may have been issued before, beside the record in the club folder. */
	readonly outDir?: string;
	/** The moment at which a new edition is issued. */
	readonly now?: Date;
	/** Files to be taken as if they were not there, by their paths in the folder. */
	readonly leaveOut?: ReadonlySet<string>;
	/** Files read before, where a folder is opened again and again. */
	readonly cache?: ReadCache;
	readonly libraryCaches?: LayerCaches;
	/** The last reading without errors, with the same cache. */
	readonly before?: { readonly files: readonly SourceFile[]; readonly curriculum: Curriculum } | undefined;
	/** What the folder would hold after a change that is not written yet. */
	readonly tried?: TriedTexts;
	/**
	 * Whether what coaches reported is counted as well, and what `mend` found on this machine is there. Only a
	 * director's own commands and previews ask for it: what is published has none of it, and is the same
	 * from every machine.
	 */
	readonly taught?: boolean;
}

/** Reads, validates, links and computes a club folder. Throws where the folder is not there at all. */
export function openHandbook(clubDir: string, options: OpenOptions = {}): OpenedHandbook {
	const { mediaFrom = clubDir, change, leaveOut, outDir, now = new Date() } = options;
	const all = readClub(clubDir, options.cache, options.tried);
	const found = leaveOut === undefined ? all : without(all, leaveOut);
	const read = change === undefined ? found : { ...found, files: change(found.files) };
	const otherFormat = formatProblem(read.files);
	if (otherFormat !== undefined) return { problems: [otherFormat], files: read.files };
	const { read: joined, origins, libraries, theirs } = joinLibraries(read, mediaFrom, options.libraryCaches);
	const valid = validateClub(joined, wordsOf(basename(resolve(clubDir)).toLowerCase()));
	const folders = [mediaFrom, ...libraries];
	const failed = valid.problems.some((p) => p.severity === "error");
	const linked = linkClub(
		valid,
		failed,
		(file, wanted) => mediaFault(mediaHome(folders, file), file, wanted),
		origins,
	);
	const record = clubRecord(clubDir);
	const problems = [
		...valid.problems,
		...linked.problems,
		...(record.problem === undefined ? [] : [record.problem]),
	].sort(byPlace);
	if (linked.curriculum === undefined || record.problem !== undefined) return { problems, files: read.files };
	const joinedAnew = options.taught === true ? linked.curriculum : { ...linked.curriculum, taught: [] };
	const curriculum = onKnownGround(joinedAnew, joined.files, options.before);
	const sums = curriculum.club.taughtSums ? taughtSums(linked.curriculum) : undefined;
	const { words = wordsFor(curriculum.club.language), highlight } = options;
	const editionOf = ({ club, drills }: Curriculum): ClubEdition => {
		const ofDrills = [...drills.values()].flatMap((drill) =>
			drill.media.flatMap(({ file, poster }) => (poster === undefined ? [file] : [file, poster])),
		);
		const media = club.logo === undefined ? ofDrills : [...ofDrills, club.logo];
		const known = [record.edition, outDir === undefined ? undefined : outputRecord(outDir)];
		return editionAfter(
			known.filter((one) => one !== undefined),
			contentHash(joined, folders, media, JSON.stringify(sums)),
			dayIn(club.timezone, now),
		);
	};
	const edition = once(() => editionOf(curriculum));
	const measured = measure(curriculum, words);
	return {
		problems,
		files: read.files,
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
			get accepted() {
				return measured.accepted;
			},
			mends: once(() => mendsOf(measured, measured.findings)),
			termMend: once(() => (options.taught === true ? keptMend(joined.fingerprint) : [])),
			words,
			markdown: createMarkdown({ resolve: curriculum.resolve, ...(highlight && { highlight }) }),
			style: valid.style,
			clubDir,
			libraries,
			theirs,
			sums,
			fingerprint: joined.fingerprint,
			get edition() {
				return edition();
			},
		},
	};
}

/**
 * Where only weeks are other ones than before, what was counted of the drills, the hall and the classes still
 * holds: the new weeks are put on the curriculum that it was counted for. Files that are joined with a
 * library's are other ones each time, and without a term or a list of apparatus these hang on the weeks.
 */
function onKnownGround(
	curriculum: Curriculum,
	files: readonly SourceFile[],
	before: OpenOptions["before"],
): Curriculum {
	if (before === undefined) return curriculum;
	const [old = [], now = []] = [before.files, files].map((all) => all.filter(({ kind }) => kind !== "week"));
	const isSame = old.length === now.length && now.every((file, i) => file === old[i]);
	const isWritten = ["term", "apparatus"].every((kind) => now.some((file) => file.kind === kind));
	if (!isSame || !isWritten) return curriculum;
	return withWeeks(before.curriculum, curriculum.weeks, curriculum.resolve);
}

/** What was read, without some of the files; what refers to them is at fault, as if they were not there. */
function without({ files, problems, style, fingerprint }: ReadClub, leaveOut: ReadonlySet<string>): ReadClub {
	return {
		files: files.filter(({ file }) => !leaveOut.has(file)),
		problems: problems.filter(({ place }) => !leaveOut.has(place.file)),
		unreadable: [],
		...(style === undefined || leaveOut.has(style.file) ? {} : { style }),
		fingerprint,
	};
}
