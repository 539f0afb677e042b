/**
 * `build`: the whole handbook, site, data, sheets and binder, in one folder that is swapped in when whole.
 *
 * An error in the content stops it before anything is written. Where only printing fails, the rest is
 * published, the last binder and the sheets that are still true stay, and the exit code 1 says that
 * something is missing.
 */

import { existsSync } from "node:fs";
import { join, relative } from "node:path";
import type { Handbook } from "../handbook.ts";
import { editionFile } from "../print/edition-file.ts";
import { recordText, SHEET_RECORD, type SheetRecord } from "../print/sheet-record.ts";
import type { PrintedSheets } from "../print/sheets.ts";
import type { Problem } from "../problems.ts";
import { addressFile } from "../render/addresses.ts";
import { dataFiles } from "../render/data-files.ts";
import { highlightCode } from "../render/highlight-code.ts";
import { hostFiles } from "../render/host-headers.ts";
import { isMadeOnDevices } from "../render/offline/page-makers.ts";
import { OfflineWriter } from "../render/offline/write-offline.ts";
import { planText } from "../render/offline/write-plan.ts";
import { sharedText } from "../render/page-text.ts";
import { type PagesList, pagesListOf, readPagesList, writePagesList } from "../render/pages-list.ts";
import { searchFiles } from "../render/search/build-search.ts";
import { frameFacts } from "../render/site.ts";
import {
	type PageThread,
	startPageThread,
	type WriteSiteOptions,
	writeLinkPictures,
	writeSite,
} from "../render/write-site.ts";
import { OutputBusy } from "./claim-output.ts";
import { openClub } from "./open-club.ts";
import { OutputConflict, Staging } from "./publish.ts";
import { readPlan } from "./read-plan.ts";
import { count, reportProblems } from "./report.ts";
import { Progress, type Run } from "./run.ts";
import { SCHEMA_FOLDER, schemaFiles } from "./schema-files.ts";

/** Where the binder lies inside the output. */
export const BINDER = "print/binder.pdf";

const NO_SHEETS: PrintedSheets = { problems: [], files: [], sides: 0 };

/** Files named when somebody else's are in the way; the rest is counted. */
const SHOWN_CONFLICTS = 8;

export interface BuildOptions {
	readonly print: boolean;
	/** An earlier plan: a club folder, an output folder, or a record of one. */
	readonly since?: string;
}

export async function build(run: Run, options: BuildOptions): Promise<number> {
	const pages = startPageThread();
	try {
		return await buildWith(run, pages, options);
	} finally {
		await pages.close();
	}
}

async function buildWith(run: Run, pages: PageThread, { print, since }: BuildOptions): Promise<number> {
	const { clubDir, outDir, out } = run;
	const started = performance.now();
	const { problems, opened } = await openClub(clubDir, { highlight: highlightCode, keep: true });
	reportProblems(problems, clubDir, out);
	if (opened === undefined) {
		out.line("Nothing was written; the last good output stays as it is.");
		return 1;
	}
	const { handbook, media } = opened;
	const earlier = since === undefined ? undefined : readPlan(since).record;
	if (since !== undefined && earlier === undefined) {
		out.line(`${since} holds no earlier plan, or one with errors. Nothing was written.`);
		return 2;
	}
	const progress = new Progress(run.progress);
	let staging: Staging | undefined;
	try {
		staging = new Staging(outDir);
		// Pages link to the sheets that were made, and to no others: a sheet of an earlier plan would mislead.
		// What prints is loaded where something is printed.
		const printing = print ? await import("./print.ts") : undefined;
		const missing = await printing?.whyNotPrint();
		if (missing !== undefined) {
			out.line(`Nothing can be printed in this run: ${missing}`);
			out.line("What was printed before and still says the same is kept, with its links; the rest is built.");
		}
		const sheets = printing
			? await printing.sheetsInto(handbook, {}, staging.dir, clubDir, progress)
			: NO_SHEETS;
		const pagesList = pagesListOf(clubDir, outDir);
		const list = readPagesList(pagesList);
		const { before } = staging;
		const cannotPrint = sheets.problems.some(({ code }) => code === "H401");
		const kept =
			cannotPrint && printing !== undefined && before !== undefined
				? keptSheets(staging, before, printing.sheetsStillTrue(handbook, before))
				: [];
		const printed = new Set([...sheets.files, ...kept]);
		const site = await writeHandbook(handbook, staging, progress, pages, {
			...(before === undefined || list === undefined ? {} : { before: { dir: before, list } }),
			kept: true,
			media,
			printed,
			...(earlier === undefined ? {} : { since: earlier }),
		});
		for (const [path, text] of hostFiles()) staging.writeUnlessTheirs(path, text);
		const binder = print ? await binderInto(handbook, staging, progress) : { problems: [], pages: 0 };
		progress.end();
		for (const kept of binder.pages === 0 ? [BINDER, editionFile(BINDER)] : []) staging.keep(kept);
		const { dir } = staging;
		staging.publish((files) => writePagesList(pagesList, dir, site.list, files));
		const here = relative(process.cwd(), outDir) || ".";
		const seconds = ((performance.now() - started) / 1000).toFixed(1);
		out.line(`wrote ${count(site.pages, "page")} and ${count(site.data, "data file")} to ${here}`);
		if (binder.pages > 0) out.line(`wrote ${here}/${BINDER}, ${count(binder.pages, "page")}`);
		if (sheets.files.length > 0) {
			out.line(
				`wrote ${count(sheets.files.length, "sheet file")} to ${here}/print, ${count(sheets.sides, "side")}`,
			);
		}
		if (kept.length > 0) {
			out.line(
				`kept ${count(kept.length, "sheet file")} in ${here}/print that still ${kept.length === 1 ? "says" : "say"} the same`,
			);
		}
		const faults = differing([...sheets.problems, ...binder.problems]);
		reportProblems(faults, clubDir, out);
		out.line(`${count(handbook.findings.length, "finding")}; edition ${handbook.edition}; ${seconds} s`);
		return faults.some((p) => p.severity === "error") ? 1 : 0;
	} catch (error) {
		progress.end();
		if (error instanceof OutputBusy) {
			out.line(`Another build is writing to this folder (${error.message}). Nothing was written.`);
			return 2;
		}
		if (!(error instanceof OutputConflict)) throw error;
		const shown = error.files.slice(0, SHOWN_CONFLICTS).join(", ");
		const more = error.files.length - SHOWN_CONFLICTS;
		out.line(
			`In the way and not written by this program: ${shown}${more > 0 ? ` and ${`${more} more`}` : ""}.`,
		);
		out.line("Move them, or name another folder with --out. Nothing was written.");
		return 2;
	} finally {
		staging?.discard();
	}
}

/** Takes sheets over from the last output, with their record. */
function keptSheets(staging: Staging, before: string, record: SheetRecord): readonly string[] {
	const paths = Object.keys(record).filter((path) => existsSync(join(before, path)));
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
export async function writeHandbook(
	handbook: Handbook,
	staging: Staging,
	progress: Progress,
	thread: PageThread,
	options: Omit<WriteSiteOptions, "progress" | "made"> = {},
): Promise<{ readonly pages: number; readonly data: number; readonly list: PagesList }> {
	const { curriculum, edition, words } = handbook;
	// It packs the texts of pages beside their making, so it has to know them from the first.
	const offline =
		options.kept === true
			? new OfflineWriter(staging.dir, {
					words,
					edition,
					weeks: curriculum.weeks.map(({ id }) => id),
					drills: curriculum.drills.size,
					plan: planText(handbook, options),
					shared: sharedText(curriculum, frameFacts(handbook, options)),
				})
			: undefined;
	try {
		const site = await writeSite(handbook, staging.dir, thread, {
			...options,
			progress: (done, total) => progress.show("pages", done, total),
			made: ({ kind, address }, text) => {
				if (isMadeOnDevices(kind)) offline?.add(addressFile(address), text);
			},
		});
		const texts = [...schemaFiles(SCHEMA_FOLDER, curriculum.club.site), ...searchFiles(handbook)];
		for (const { path, text } of texts) staging.write(path, text);
		const others = [...(await site.keptPages), ...(await site.others), ...texts.map(({ path }) => path)];
		const packed = offline?.finish(others, site.written);
		packed?.catch(() => undefined);
		// What is not kept offline is written while the rest is packed.
		if (options.kept === true) writeLinkPictures(handbook, staging.dir);
		const data = dataFiles(handbook, words, edition);
		for (const { path, text } of data) staging.write(path, text);
		const { list } = await site.written;
		await packed;
		return { pages: site.pages, data: data.length, list };
	} finally {
		await offline?.close();
	}
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

async function binderInto(
	handbook: Handbook,
	staging: Staging,
	progress: Progress,
): Promise<{ readonly problems: readonly Problem[]; readonly pages: number }> {
	const { printBinder } = await import("../print/binder.ts");
	return printBinder(handbook, {
		outFile: `${staging.dir}/${BINDER}`,
		progress: (done, total, label) => progress.show("binder", done, total, label),
	});
}
