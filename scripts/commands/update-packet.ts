/** `print update-packet`: the leaves that a printed binder, or volume, of an earlier edition needs. */

import { join, relative } from "node:path";
import { drawSheets } from "../../layouts/sheets/single-sheets.ts";
import { updatePiece } from "../../layouts/sheets/update.ts";
import { openFolder } from "../files/folder.ts";
import type { Handbook } from "../handbook.ts";
import { EditionFault } from "../print/edition.ts";
import { editionFile } from "../print/edition-file.ts";
import { type PrintedUpdate, printUpdate } from "../print/packet.ts";
import { printSheets } from "../print/sheets.ts";
import { SHEET_FILES } from "../views/addresses.ts";
import type { Edition, Update } from "../views/sheets/edition.ts";
import { singleSheets } from "../views/sheets/single-sheets.ts";
import { updateView } from "../views/sheets/update.ts";
import { counts } from "../words/en.ts";
import { noteEdition } from "./note-edition.ts";
import { openClub } from "./open-club.ts";
import { mayWriteTo } from "./output-folder.ts";
import { lookOfPocket, ofClub, pocketChoice } from "./print.ts";
import { addToOutput, claimFolder } from "./publish.ts";
import { readSince } from "./read-since.ts";
import { count, reportProblems } from "./report.ts";
import { Progress, type Run, untilInterrupted } from "./run.ts";

/** What was printed of an update. */
interface Packet extends Pick<PrintedUpdate, "problems" | "update"> {
	/** It, and its edition; none where nothing has changed. */
	readonly files: readonly string[];
	/** "12 pages". */
	readonly size: string;
}

type Print = (
	run: Run,
	handbook: Handbook,
	earlier: Edition,
	progress: (done: number, total: number, label: string) => void,
) => Promise<Packet | undefined>;

export async function updatePacket(run: Run, since: string): Promise<number> {
	const { clubDir, outDir, out } = run;
	const earlier = await readSince(since, out);
	if (earlier === null) return 2;
	if (!mayWriteTo(run)) return 2;
	const { problems, opened } = await openClub(clubDir, { keep: true, outDir, now: run.now });
	reportProblems(problems, clubDir, out);
	if (opened === undefined) return 1;
	const { handbook } = opened;
	const claim = claimFolder(outDir);
	const progress = new Progress(run.progress);
	const print: Print = earlier.pocket === undefined ? printOfVolume : printOfPocket;
	try {
		const packet = await print(run, handbook, earlier, (done, total, label) =>
			progress.show("update", done, total, label),
		);
		progress.end();
		if (packet === undefined) {
			out.line("Interrupted; the last good update stays as it is.");
			return 130;
		}
		reportProblems(packet.problems, clubDir, out);
		const { update, files, size } = packet;
		const [file] = files;
		if (update !== undefined && file !== undefined) {
			addToOutput(claim, files);
			noteEdition(run, handbook.edition);
			const leaves = `${counts.leaves(update.out.length)} out, ${counts.leaves(update.in.length)} in`;
			out.line(`wrote ${relative(process.cwd(), join(outDir, file))}, ${size}: ${leaves}`);
			out.line(`Keep ${editionFile(file)}: the next update is since this one.`);
		} else if (update !== undefined)
			out.line("Nothing that is printed has changed since that edition: every leaf stays.");
		return packet.problems.some((p) => p.severity === "error") ? 1 : 0;
	} catch (error) {
		if (!(error instanceof EditionFault)) throw error;
		progress.end();
		out.line(error.message);
		return 2;
	}
}

/** Of the binder, or of a volume. */
const printOfVolume: Print = async ({ outDir }, handbook, earlier, progress) => {
	const file = SHEET_FILES.updatePacket(earlier.volume ?? "binder");
	const outFile = openFolder(outDir).place(file);
	const packet = await untilInterrupted((signal) =>
		printUpdate(handbook, earlier, { outFile, signal, progress }),
	);
	if (packet === undefined) return undefined;
	const { problems, update, pages } = packet;
	return {
		problems,
		update,
		files: pages === 0 ? [] : [file, editionFile(file)],
		size: count(pages, "page"),
	};
};

/** The weeks of a pocket that have changed, in the same form as the pocket itself. */
const printOfPocket: Print = async (run, handbook, earlier, progress) => {
	const { pocket = { classes: [] } } = earlier;
	const sheets = singleSheets(handbook, pocketChoice(pocket));
	let update: Update = { in: [], out: [] };
	const { problems, files, editions, sides } = await printSheets(drawSheets(sheets), {
		...lookOfPocket(earlier),
		...ofClub(handbook, run),
		progress,
		packet: {
			path: SHEET_FILES.updatePacket(`pocket-${pocket.classes.join("+")}`),
			front: (found, now) => {
				update = found;
				return updatePiece(sheets.facts, updateView(handbook.words, found, earlier, now));
			},
		},
	});
	const failed = files.length === 0 && problems.length > 0;
	return {
		problems,
		update: failed ? undefined : update,
		files: [...files, ...editions],
		size: count(sides, "side"),
	};
};
