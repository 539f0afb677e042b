/**
 * `build`: the whole handbook in one folder, which is swapped in when it is whole: the site with its data
 * within seconds, then the site with its sheets, then with the binder.
 *
 * An error in the content stops it before anything is written. Where only printing fails, the rest is
 * published, the last binder and the sheets that are still true stay, and the exit code 1 says that
 * something is missing. Where nothing has changed since the last build of the folder, nothing is written.
 */

import { relative } from "node:path";
import { setFlagsFromString } from "node:v8";
import { rowCache } from "../figures/progression-layout.ts";
import { programCache } from "../files/cache.ts";
import { openFolder, realPlace } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";
import { ownPackage } from "../files/program.ts";
import { programFingerprint } from "../files/program-fingerprint.ts";
import type { Handbook } from "../handbook.ts";
import { noteNew } from "../libraries/seen.ts";
import { binderOf, editionFile } from "../print/edition-file.ts";
import { recordText, SHEET_RECORD, type SheetRecord } from "../print/sheet-record.ts";
import type { PrintedSheets } from "../print/sheets.ts";
import type { Problem } from "../problems.ts";
import { recordFiles } from "../records/records.ts";
import { searchFiles } from "../search/build-search.ts";
import { dataFiles } from "../site/data-files.ts";
import { highlightCode } from "../site/highlight-code.ts";
import { SCHEMA_FOLDER, schemaFiles } from "../site/schema-files.ts";
import { writeOffline } from "../site/write-offline.ts";
import { type WriteSiteOptions, writeLinkPictures, writeSite } from "../site/write-site.ts";
import { SHEET_FILES } from "../views/addresses.ts";
import { hostFiles } from "../views/host-headers.ts";
import { isLeftOut } from "../views/left-out.ts";
import { editionNameOf } from "../words/edition-name.ts";
import * as english from "../words/en.ts";
import { OutputBusy } from "./claim-output.ts";
import { renewEditorFiles } from "./editor-files.ts";
import { noteInClub, ownOutput } from "./note-edition.ts";
import { openClub } from "./open-club.ts";
import { mayWriteTo, OutputRefused } from "./output-folder.ts";
import { OutputConflict, Staging } from "./publish.ts";
import { readPlan } from "./read-plan.ts";
import { count, reportProblems } from "./report.ts";
import { Progress, type Run } from "./run.ts";
import { isThere, madeOf, remember } from "./unchanged.ts";

/** Where the binder lies inside the output. */
const BINDER = SHEET_FILES.binder();

/** Rows of maps are kept for some clubs and versions of the program. */
const MOST_ROWS = 12;
const rowsFile = (clubDir: string) =>
	`${sha256(`${programFingerprint()} ${realPlace(clubDir)}`).slice(0, 32)}.json`;

/**
 * The collector begins anew when so much more is in use than it left, in percent. By itself it waits for up to
 * four times as much: 948 and 985 MiB at 10,000 drills instead of 578, in the same time.
 */
const MORE_IN_USE = 60;

/** Files named when somebody else's are in the way; the rest is counted. */
const SHOWN_CONFLICTS = 8;

export interface BuildOptions {
	readonly print: boolean;
	/** A folder as the result, and no link to one. */
	readonly plain?: boolean;
	/** An earlier plan: a club folder, an output folder, or a record of one. */
	readonly since?: string;
	/**
	 * Whether it is for the director alone: what coaches reported is counted and shown, nothing is printed,
	 * and no device keeps it. It needs a folder of its own.
	 */
	readonly director?: boolean;
}

export async function build(
	run: Run,
	{ print, plain = false, since, director = false }: BuildOptions,
): Promise<number> {
	if (!mayWriteTo(run)) return 2;
	setFlagsFromString(`--heap-growing-percent=${MORE_IN_USE}`);
	const { clubDir, outDir, out } = run;
	const started = performance.now();
	const { problems, opened } = await openClub(clubDir, {
		highlight: highlightCode,
		keep: true,
		outDir,
		now: run.now,
		taught: director,
	});
	reportProblems(problems, clubDir, out);
	if (opened === undefined) {
		out.line("Nothing was written; the last good output stays as it is.");
		return 1;
	}
	const { handbook, media } = opened;
	if (outDir === ownOutput(clubDir)) renewEditorFiles(run, handbook);
	const earlier = since === undefined ? undefined : readPlan(since).record;
	if (since !== undefined && earlier === undefined) {
		out.line(`${since} holds no earlier plan, or one with errors. Nothing was written.`);
		return 2;
	}
	const here = relative(process.cwd(), outDir) || ".";
	const end = () => {
		const seconds = ((performance.now() - started) / 1000).toFixed(1);
		out.line(
			`${count(handbook.findings.length, "finding")}; edition ${editionNameOf({ edition: handbook.edition, words: english })}; ${seconds} s`,
		);
	};
	const taught = handbook.curriculum.taught.map(({ source: _, ...report }) => report);
	const of = madeOf([
		handbook.fingerprint,
		handbook.termMend(),
		handbook.edition,
		[...media.files.keys()],
		print,
		plain,
		earlier,
		...(director ? [taught] : []),
	]);
	if (isThere(outDir, of)) {
		out.line(`Nothing has changed since ${here} was built.`);
		end();
		return 0;
	}
	const shown = { kept: !director, media, ...(earlier === undefined ? {} : { since: earlier }) };
	const written = await writeAll(run, handbook, { print, plain, here, shown });
	if (written === undefined) return 2;
	reportProblems(written.faults, clubDir, out);
	const failed = written.faults.some((p) => p.severity === "error");
	if (!failed) remember(outDir, of, written.files);
	end();
	return failed ? 1 : 0;
}

interface Written {
	readonly faults: readonly Problem[];
	readonly files: ReturnType<Staging["publish"]>;
}

interface ToWrite {
	readonly plain: boolean;
	readonly print: boolean;
	/** How the output is called in lines. */
	readonly here: string;
	readonly shown: WriteSiteOptions;
}

/** Publishes the site, then its sheets, then the binder; undefined where nothing may be written, which is said. */
async function writeAll(run: Run, handbook: Handbook, what: ToWrite): Promise<Written | undefined> {
	const { out } = run;
	const progress = new Progress(run.progress);
	let staging: Staging | undefined;
	try {
		staging = new Staging(run.outDir, what);
		return await writeInto(staging, run, handbook, what, progress);
	} catch (error) {
		progress.end();
		if (error instanceof OutputBusy) {
			out.line(`Another build is writing to this folder (${error.message}). Nothing was written.`);
		} else if (error instanceof OutputRefused) {
			out.line(`${error.message} Nothing was written.`);
		} else if (error instanceof OutputConflict) {
			const shown = error.files.slice(0, SHOWN_CONFLICTS).join(", ");
			const more = error.files.length - SHOWN_CONFLICTS;
			out.line(`In the way and not written by this program: ${shown}${more > 0 ? ` and ${more} more` : ""}.`);
			out.line("Move them, or name another folder with --out. Nothing was written.");
		} else throw error;
		return undefined;
	} finally {
		staging?.discard();
	}
}

async function writeInto(
	staging: Staging,
	run: Run,
	handbook: Handbook,
	{ print, here, shown }: ToWrite,
	progress: Progress,
): Promise<Written> {
	const { out } = run;
	// What prints is loaded where something is printed.
	const printing = print ? await import("./print.ts") : undefined;
	const missing = await printing?.whyNotPrint();
	if (missing !== undefined) {
		out.line(`Nothing can be printed in this run: ${missing}`);
		out.line("What was printed before and still says the same is kept, with its links; the rest is built.");
	}
	// Pages link to sheets that are true, and to no others: one of an earlier plan would mislead.
	const { before } = staging;
	const kept =
		printing === undefined || before === undefined
			? []
			: keptSheets(staging, before, printing.sheetsStillTrue(handbook, before));
	const site = await writeHandbook(handbook, staging, progress, { ...shown, printed: new Set(kept) });
	progress.end();
	const files = staging.publish();
	noteInClub(run, handbook.edition);
	if (run.outDir === ownOutput(run.clubDir)) noteNew(run.clubDir, handbook.theirs);
	out.line(`wrote ${count(site.pages, "page")} and ${count(site.data, "data file")} to ${here}`);
	if (!print) return { faults: [], files };
	const printed = await printInto(handbook, staging, progress, shown);
	const { files: sheets, sides } = printed.sheets;
	if (printed.pages > 0) out.line(`wrote ${here}/${BINDER}, ${count(printed.pages, "page")}`);
	if (sheets.length > 0) {
		out.line(`wrote ${count(sheets.length, "sheet file")} to ${here}/print, ${count(sides, "side")}`);
	} else if (kept.length > 0) {
		out.line(
			`kept ${count(kept.length, "sheet file")} in ${here}/print that still ${kept.length === 1 ? "says" : "say"} the same`,
		);
	}
	return { faults: differing(printed.problems), files: printed.files ?? files };
}

/** Takes sheets over from the last output, with their record. */
function keptSheets(staging: Staging, before: string, record: SheetRecord): readonly string[] {
	const last = openFolder(before);
	const paths = Object.keys(record).filter((path) => last.has(path));
	for (const path of paths) staging.keep(path);
	if (paths.length > 0) {
		staging.write(
			SHEET_RECORD,
			recordText(Object.fromEntries(paths.map((path) => [path, record[path] ?? ""]))),
		);
	}
	return paths;
}

/** Site, search and data files; `kept` adds what keeps the site on a reader's device. */
async function writeHandbook(
	handbook: Handbook,
	staging: Staging,
	progress: Progress,
	options: Omit<WriteSiteOptions, "progress"> = {},
): Promise<{ readonly pages: number; readonly data: number }> {
	const { edition, words } = handbook;
	const coaches = forCoaches(handbook);
	const { name, version } = ownPackage();
	const { club } = coaches.curriculum;
	const { leaveOut = [] } = club;
	// The last good binder stays until there is another; pages link it while it is of this very edition.
	for (const path of [BINDER, editionFile(BINDER)]) staging.keep(path);
	const binder = binderOf(openFolder(staging.dir), BINDER, edition);
	const shown: typeof options = {
		...options,
		leaveOut,
		program: `${name} ${version}`,
		...(options.since === undefined
			? {}
			: { since: { ...options.since, ...(leaveOut.includes("findings") && { findings: [] }) } }),
		...(binder === undefined ? {} : { binder, printed: new Set([...(options.printed ?? []), BINDER]) }),
	};
	const cache = programCache("rows");
	const rowsName = rowsFile(handbook.clubDir);
	const known = cache.findJson(rowsName);
	rowCache.begin(Array.isArray(known) ? known : []);
	const site = await writeSite(coaches, staging.dir, {
		...shown,
		progress: (done, total) => progress.show("pages", done, total),
	});
	const rows = JSON.stringify(rowCache.used());
	if (rows !== JSON.stringify(known)) {
		cache.put(rowsName, Buffer.from(rows));
		cache.leave(MOST_ROWS);
	}
	const data = writeTexts(coaches, staging);
	if (options.kept === true) {
		writeLinkPictures(coaches, staging.dir);
		const records = recordFiles(coaches, shown, highlightCode);
		await writeOffline(staging.dir, { ...site, edition, words, records });
	}
	return { pages: site.pages, data };
}

/** Schemas, search, data and what hosts read, one kind after the other: of a large club each is large. Counts the data files. */
function writeTexts(handbook: Handbook, staging: Staging): number {
	const { curriculum, edition, words } = handbook;
	const { leaveOut = [], site } = curriculum.club;
	const write = (files: readonly { readonly path: string; readonly text: string }[]): number => {
		const shown = files.filter(({ path }) => !isLeftOut(leaveOut, path));
		for (const { path, text } of shown) staging.write(path, text);
		return shown.length;
	};
	write(schemaFiles(SCHEMA_FOLDER, site));
	write(searchFiles(handbook));
	const data = write(dataFiles(handbook, words, edition));
	for (const [path, text] of hostFiles()) staging.writeUnlessTheirs(path, text);
	return data;
}

/**
 * The handbook as the coaches' site shows it. Where the club leaves findings out, there are none on any of
 * its pages, nor in its records.
 */
function forCoaches(handbook: Handbook): Handbook {
	const { leaveOut = [] } = handbook.curriculum.club;
	if (!leaveOut.includes("findings")) return handbook;
	return { ...handbook, findings: [], accepted: [], mends: () => new Map(), termMend: () => [] };
}

/** Sheets and binder miss the same browser: it is told once. */
function differing(problems: readonly Problem[]): readonly Problem[] {
	const told = new Set<string>();
	return problems.filter(({ code, place, what }) => {
		const key = `${code} ${place.file}:${place.line} ${what}`;
		const isNew = !told.has(key);
		told.add(key);
		return isNew;
	});
}

/**
 * Sheets first, then the binder: each is published when it is whole, with a site whose pages link to what was
 * made and to nothing else, since a sheet of an earlier plan would mislead.
 */
async function printInto(
	handbook: Handbook,
	staging: Staging,
	progress: Progress,
	shown: Omit<WriteSiteOptions, "progress">,
): Promise<{
	readonly problems: readonly Problem[];
	readonly sheets: PrintedSheets;
	readonly pages: number;
	/** Of the edition that was published last, if any was. */
	readonly files: readonly string[] | undefined;
}> {
	// What prints is loaded where something is printed.
	const [{ sheetsInto }, { printBinder }] = await Promise.all([
		import("./print.ts"),
		import("../print/binder.ts"),
	]);
	let files: readonly string[] | undefined;
	staging.begin();
	const sheets = await sheetsInto(handbook, {}, staging.dir, handbook.clubDir, progress);
	const withSheets = { ...shown, printed: new Set(sheets.files) };
	if (sheets.files.length > 0) {
		await writeHandbook(handbook, staging, progress, withSheets);
		files = staging.publish();
		staging.begin();
	}
	const binder = await printBinder(handbook, {
		outFile: openFolder(staging.dir).place(BINDER),
		progress: (done, total, label) => progress.show("binder", done, total, label),
	});
	if (binder.pages > 0) {
		for (const path of [...sheets.files, SHEET_RECORD]) staging.keep(path);
		await writeHandbook(handbook, staging, progress, withSheets);
		files = staging.publish();
	}
	progress.end();
	return { problems: [...sheets.problems, ...binder.problems], sheets, pages: binder.pages, files };
}
