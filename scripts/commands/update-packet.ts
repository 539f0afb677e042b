/** `print update-packet`: the leaves that a printed binder, or volume, of an earlier edition needs. */

import { join, relative } from "node:path";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { updatePiece } from "../../layouts/sheets/update.ts";
import { cacheFolder } from "../files/cache.ts";
import { openFolder } from "../files/folder.ts";
import type { Handbook } from "../handbook.ts";
import { EditionFault } from "../print/edition.ts";
import { editionFile } from "../print/edition-file.ts";
import { printUpdate } from "../print/packet.ts";
import { printSheets } from "../print/sheets.ts";
import { SHEET_FILES } from "../views/addresses.ts";
import { type Edition, editionMark } from "../views/sheets/edition.ts";
import { singleSheets } from "../views/sheets/single-sheets.ts";
import { updateView } from "../views/sheets/update.ts";
import { counts } from "../words/en.ts";
import { noteEdition } from "./note-edition.ts";
import { openClub } from "./open-club.ts";
import { mayWriteTo } from "./output-folder.ts";
import { lookOfPocket, pocketChoice } from "./print.ts";
import { addToOutput, type Claim, claimFolder } from "./publish.ts";
import { readSince } from "./read-since.ts";
import { count, reportProblems } from "./report.ts";
import { Progress, type Run, untilInterrupted } from "./run.ts";

const NOTHING_CHANGED = "Nothing that is printed has changed since that edition: every leaf stays.";

export async function updatePacket(run: Run, since: string): Promise<number> {
	const { clubDir, outDir, out } = run;
	const earlier = await readSince(since, out);
	if (earlier === null) return 2;
	if (!mayWriteTo(run)) return 2;
	const { problems, opened } = await openClub(clubDir, { keep: true, outDir, now: run.now });
	reportProblems(problems, clubDir, out);
	if (opened === undefined) return 1;
	const claim = claimFolder(outDir);
	const progress = new Progress(run.progress);
	if (earlier.pocket !== undefined) return pocketPacket(run, opened.handbook, earlier, { claim, progress });
	const file = SHEET_FILES.updatePacket(earlier.volume ?? "binder");
	const outFile = openFolder(outDir).place(file);
	try {
		const packet = await untilInterrupted((signal) =>
			printUpdate(opened.handbook, earlier, {
				outFile,
				signal,
				progress: (done, total, label) => progress.show("update", done, total, label),
			}),
		);
		progress.end();
		if (packet === undefined) {
			out.line("Interrupted; the last good update stays as it is.");
			return 130;
		}
		reportProblems(packet.problems, clubDir, out);
		if (packet.update !== undefined && packet.pages === 0) {
			out.line(NOTHING_CHANGED);
		} else if (packet.update !== undefined) {
			addToOutput(claim, [file, editionFile(file)]);
			noteEdition(run, opened.handbook.edition);
			const leaves = `${counts.leaves(packet.update.out.length)} out, ${counts.leaves(packet.update.in.length)} in`;
			out.line(
				`wrote ${relative(process.cwd(), join(outDir, file))}, ${count(packet.pages, "page")}: ${leaves}`,
			);
			out.line(`Keep ${editionFile(file)}: the next update is since this one.`);
		}
		return packet.problems.some((p) => p.severity === "error") ? 1 : 0;
	} catch (error) {
		if (!(error instanceof EditionFault)) throw error;
		progress.end();
		out.line(error.message);
		return 2;
	}
}

/** The weeks of a pocket that have changed, in the same form as the pocket itself. */
async function pocketPacket(
	run: Run,
	handbook: Handbook,
	earlier: Edition,
	{ claim, progress }: { readonly claim: Claim; readonly progress: Progress },
): Promise<number> {
	const { outDir, out } = run;
	const { pocket = { classes: [] } } = earlier;
	const sheets = singleSheets(handbook, pocketChoice(pocket));
	let leaves = "";
	try {
		const printed = await printSheets(drawSheets(sheets), {
			...lookOfPocket(earlier),
			outDir,
			club: handbook.curriculum.club,
			style: handbook.style,
			edition: editionMark(handbook),
			cacheDir: cacheFolder(openFolder(run.clubDir), "sheets"),
			progress: (done, total, label) => progress.show("update", done, total, label),
			packet: {
				path: SHEET_FILES.updatePacket(`pocket-${pocket.classes.join("+")}`),
				front: (update, now) => {
					leaves = `${counts.leaves(update.out.length)} out, ${counts.leaves(update.in.length)} in`;
					return updatePiece(sheets.facts, updateView(handbook.words, update, earlier, now));
				},
			},
		});
		progress.end();
		reportProblems(printed.problems, run.clubDir, out);
		const [file] = printed.files;
		if (file === undefined) {
			if (printed.problems.length === 0) out.line(NOTHING_CHANGED);
		} else {
			addToOutput(claim, [...printed.files, ...printed.editions]);
			noteEdition(run, handbook.edition);
			out.line(
				`wrote ${relative(process.cwd(), join(outDir, file))}, ${count(printed.sides, "side")}: ${leaves}`,
			);
			out.line(`Keep ${editionFile(file)}: the next update is since this one.`);
		}
		return printed.problems.some((p) => p.severity === "error") ? 1 : 0;
	} catch (error) {
		if (!(error instanceof EditionFault)) throw error;
		progress.end();
		out.line(error.message);
		return 2;
	}
}
