/**
 * `print`: the binder, or single sheets of a kind, into the output folder. The last good file stays
 * where one fails.
 */

import { join, relative } from "node:path";
import type { PaperName } from "../../layouts/sheets/paper.ts";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { cacheFolder } from "../files/cache.ts";
import { openFolder } from "../files/folder.ts";
import type { Handbook } from "../handbook.ts";
import { printBinder } from "../print/binder.ts";
import { editionFile } from "../print/edition-file.ts";
import { findBrowser } from "../print/find-browser.ts";
import { readRecord, recordOf, recordText, SHEET_RECORD, type SheetRecord } from "../print/sheet-record.ts";
import { type PrintedSheets, printSheets, type SheetOptions } from "../print/sheets.ts";
import { nearestName } from "../read/nearest-name.ts";
import { SHEET_FILES } from "../views/addresses.ts";
import {
	type Edition,
	editionMark,
	type PocketChoice,
	VOLUMES,
	type Volume,
} from "../views/sheets/edition.ts";
import { CHOICES_OF_SHEETS, SHEET_KINDS, type SheetKind } from "../views/sheets/sheet.ts";
import { type SheetChoice, singleSheets } from "../views/sheets/single-sheets.ts";
import { noteEdition } from "./note-edition.ts";
import { openClub } from "./open-club.ts";
import { mayWriteTo } from "./output-folder.ts";
import { addToOutput, type Claim, claimFolder } from "./publish.ts";
import { readSince } from "./read-since.ts";
import { count, reportProblems } from "./report.ts";
import { Progress, type Run, untilInterrupted } from "./run.ts";

/** What the director typed. */
export interface PrintWish {
	readonly sheets?: string | undefined;
	/** An earlier edition of the binder whose leaves keep theirs where they have not changed. */
	readonly since?: string | undefined;
	readonly week?: string | undefined;
	readonly class?: string | undefined;
	readonly level?: string | undefined;
	readonly apparatus?: string | undefined;
	readonly up?: 2 | 4 | undefined;
	readonly paper?: PaperName | undefined;
	/** Millimetres beyond the edge of the paper, with crop marks. */
	readonly bleed?: number | undefined;
}

export async function printCommand(run: Run, wish: PrintWish = {}): Promise<number> {
	const { clubDir, outDir, out } = run;
	const { sheets = "binder" } = wish;
	const kind = SHEET_KINDS.find((one) => one === sheets);
	const volume = VOLUMES.find((one) => one === sheets);
	if (kind === undefined && volume === undefined) {
		out.line(unknown("kind of sheet", sheets, [...VOLUMES, "update-packet", ...SHEET_KINDS]));
		return 2;
	}
	if (wish.since !== undefined && kind !== undefined && kind !== "pocket") {
		out.line(
			`--since has no meaning for ${sheets}; it goes with ${VOLUMES.join(", ")}, pocket, update-packet.`,
		);
		return 2;
	}
	if (wish.bleed !== undefined && volume === undefined) {
		out.line(`--bleed has no meaning for ${sheets}; it goes with ${VOLUMES.join(", ")}.`);
		return 2;
	}
	const earlier = wish.since === undefined ? undefined : await readSince(wish.since, out);
	if (earlier === null) return 2;
	const is = earlier && (earlier.pocket === undefined ? (earlier.volume ?? "binder") : "pocket");
	if (is !== undefined && is !== sheets) {
		out.line(`${wish.since} is the edition of a ${is}: print ${is} --since, and not ${sheets}.`);
		return 2;
	}
	const pocket = earlier?.pocket;
	if (pocket !== undefined && (wish.class ?? wish.week ?? wish.paper ?? wish.up) !== undefined) {
		out.line(
			"An earlier pocket says itself which classes and weeks it has, and on which paper: name no others.",
		);
		return 2;
	}
	for (const [option, kinds] of Object.entries(CHOICES_OF_SHEETS)) {
		const given = Object.entries(wish).some(([name, value]) => name === option && value !== undefined);
		if (!given || (kind !== undefined && kinds.includes(kind))) continue;
		out.line(`--${option} has no meaning for ${sheets}; it goes with ${kinds.join(", ")}.`);
		return 2;
	}
	if (!mayWriteTo(run)) return 2;
	const { problems, opened } = await openClub(clubDir, { keep: true, outDir, now: run.now });
	reportProblems(problems, clubDir, out);
	if (opened === undefined) return 1;
	const claim = claimFolder(outDir);
	const progress = new Progress(run.progress);
	if (kind === undefined)
		return bound(run, opened.handbook, { volume, earlier, bleed: wish.bleed, claim }, progress);

	const choice = choiceOf(opened.handbook, kind, wish);
	if (typeof choice === "string") {
		out.line(choice);
		return 2;
	}
	const twoUp = kind === "pocket" && wish.up === 2;
	const look = { paper: wish.paper ?? (twoUp ? "A5" : undefined), twoUp };
	const printed = await sheetsInto(
		opened.handbook,
		pocket === undefined ? choice : pocketChoice(pocket),
		outDir,
		clubDir,
		progress,
		earlier === undefined ? look : lookOfPocket(earlier),
	);
	progress.end();
	reportProblems(printed.problems, clubDir, out);
	const here = relative(process.cwd(), outDir) || ".";
	if (printed.files.length > 0) {
		addToOutput(claim, [...printed.files, ...printed.editions, SHEET_RECORD]);
		for (const path of printed.files.slice(0, SHOWN)) out.line(`wrote ${here}/${path}`);
		const more = printed.files.length - SHOWN;
		if (more > 0) out.line(`… and ${count(more, "file")} more`);
		out.line(`${count(printed.files.length, "file")}, ${count(printed.sides, "side")}`);
	} else if (printed.problems.length === 0) out.line("There is nothing of that kind to print.");
	return printed.problems.some((p) => p.severity === "error") ? 1 : 0;
}

/** Files named before the rest is counted. */
const SHOWN = 12;

/** Prints the sheets of a choice, kept for the next time beside those of the binder, and their record. */
export async function sheetsInto(
	handbook: Handbook,
	choice: SheetChoice,
	outDir: string,
	clubDir: string,
	progress: Progress,
	look: Pick<SheetOptions, "paper" | "twoUp" | "earlier"> = {},
): Promise<PrintedSheets> {
	const files = drawSheets(singleSheets(handbook, choice));
	const printed = await printSheets(files, {
		...look,
		...ofClub(handbook, { clubDir, outDir }),
		all: choice.kinds === undefined,
		progress: (done, total, label) => progress.show("sheets", done, total, label),
	});
	if (printed.files.length === 0) return printed;
	const made = new Set(printed.files);
	const record = recordOf(
		files.filter(({ path }) => made.has(path)),
		handbook.curriculum.club,
	);
	openFolder(outDir).write(SHEET_RECORD, recordText({ ...readRecord(outDir), ...record }));
	return printed;
}

/** What all sheets of a club are printed with, and where to. */
export function ofClub(handbook: Handbook, { clubDir, outDir }: Pick<Run, "clubDir" | "outDir">) {
	return {
		outDir,
		club: handbook.curriculum.club,
		style: handbook.style,
		edition: editionMark(handbook),
		cacheDir: cacheFolder(openFolder(clubDir), "sheets"),
	};
}

/** What an earlier pocket was made of. */
export function pocketChoice({ classes, week }: PocketChoice): SheetChoice {
	return { kinds: ["pocket"], classes, ...(week !== undefined && { week }) };
}

/** How it was printed. */
export function lookOfPocket(earlier: Edition): Pick<SheetOptions, "paper" | "twoUp" | "earlier"> {
	return { earlier, paper: earlier.paper, twoUp: earlier.pocket?.twoUp === true };
}

/** The sheets of an earlier output that still say what they would say now. */
export function sheetsStillTrue(handbook: Handbook, before: string): SheetRecord {
	const record = readRecord(before);
	const now = recordOf(drawSheets(singleSheets(handbook)), handbook.curriculum.club);
	return Object.fromEntries(Object.entries(now).filter(([path, hash]) => record[path] === hash));
}

/** Why nothing can be printed on this machine, where that is so. */
export async function whyNotPrint(): Promise<string | undefined> {
	const found = await findBrowser();
	return "missing" in found ? found.missing : undefined;
}

/** Which volume is bound, and how. */
interface BoundWish {
	readonly volume: Volume | undefined;
	readonly earlier: Edition | undefined;
	readonly bleed: number | undefined;
	readonly claim: Claim;
}

async function bound(
	run: Run,
	handbook: Handbook,
	{ volume = "binder", earlier, bleed, claim }: BoundWish,
	progress: Progress,
): Promise<number> {
	const { clubDir, outDir, out } = run;
	const file = SHEET_FILES.volume(volume);
	const outFile = openFolder(outDir).place(file);
	const printed = await untilInterrupted((signal) =>
		printBinder(handbook, {
			outFile,
			volume,
			bleed,
			since: earlier,
			signal,
			progress: (done, total, label) => progress.show(volume, done, total, label),
		}),
	);
	progress.end();
	if (printed === undefined) {
		out.line(`Interrupted; the last good ${volume} stays as it is.`);
		return 130;
	}
	reportProblems(printed.problems, clubDir, out);
	if (printed.pages > 0) {
		addToOutput(claim, [file, editionFile(file)]);
		noteEdition(run, handbook.edition);
		const short =
			printed.short === 0
				? ""
				: `, ${printed.short} of them with next to nothing on ${printed.short === 1 ? "it" : "them"}`;
		out.line(`wrote ${relative(process.cwd(), join(outDir, file))}, ${count(printed.pages, "page")}${short}`);
	}
	return printed.problems.some((p) => p.severity === "error") ? 1 : 0;
}

/** The choice with ids that the club has, or what is wrong with it. */
function choiceOf({ curriculum }: Handbook, kind: SheetKind, wish: PrintWish): SheetChoice | string {
	const { weeks, term, levels, apparatus } = curriculum;
	const week = weeks.find(({ id, week: number }) => id === wish.week || String(number) === wish.week);
	if (wish.week !== undefined && week === undefined) {
		const numbers = weeks.map(({ week: number }) => String(number));
		// A number is near another by counting, not by its figures.
		return /^\d+$/.test(wish.week)
			? unknown("week", wish.week, numbers, nearestNumber(Number(wish.week), numbers))
			: unknown("week", wish.week, [...numbers, ...weeks.map(({ id }) => id)]);
	}
	const ids = {
		class: term.classes.map(({ id }) => id),
		level: [...levels.keys()],
		apparatus: [...apparatus.keys()],
	};
	// The pocket is a coach's, who may have several classes.
	const classes = kind === "pocket" ? wish.class?.split(",").map((id) => id.trim()) : undefined;
	for (const name of ["class", "level", "apparatus"] as const) {
		const wanted = name === "class" && classes !== undefined ? classes : [wish[name] ?? []].flat();
		const wrong = wanted.find((id) => !ids[name].includes(id));
		if (wrong !== undefined) return unknown(name, wrong, ids[name]);
	}
	return {
		kinds: [kind],
		...(week === undefined ? {} : { week: week.id }),
		...(wish.class === undefined || classes !== undefined ? {} : { class: wish.class }),
		...(classes === undefined ? {} : { classes }),
		...(wish.level === undefined ? {} : { level: wish.level }),
		...(wish.apparatus === undefined ? {} : { apparatus: wish.apparatus }),
		...(wish.up === undefined ? {} : { up: wish.up }),
	};
}

function nearestNumber(wanted: number, known: readonly string[]): string | undefined {
	return [...known].sort((a, b) => Math.abs(Number(a) - wanted) - Math.abs(Number(b) - wanted))[0];
}

/** "There is no class mon-begginers. Did you mean mon-beginners? There are: …" */
function unknown(
	what: string,
	wanted: string,
	known: readonly string[],
	near = nearestName(wanted, known),
): string {
	const suggested = near === undefined ? "" : ` Did you mean ${near}?`;
	const listed = known.length === 0 ? "There is none." : `There are: ${known.join(", ")}.`;
	return `There is no ${what} ${wanted}.${suggested} ${listed}`;
}
