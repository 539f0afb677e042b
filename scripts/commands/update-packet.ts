/** `print update-packet`: the leaves that a printed binder of an earlier edition needs. */

import { join, relative } from "node:path";
import { openFolder } from "../files/folder.ts";
import { EditionFault } from "../print/edition.ts";
import { editionFile } from "../print/edition-file.ts";
import { printUpdate } from "../print/packet.ts";
import { counts } from "../words/en.ts";
import { noteEdition } from "./note-edition.ts";
import { openClub } from "./open-club.ts";
import { mayWriteTo } from "./output-folder.ts";
import { addToOutput, claimFolder } from "./publish.ts";
import { readSince } from "./read-since.ts";
import { count, reportProblems } from "./report.ts";
import { Progress, type Run, untilInterrupted } from "./run.ts";

/** Where the update lies inside the output. */
const UPDATE_PACKET = "print/update-packet.pdf";

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
	const outFile = openFolder(outDir).place(UPDATE_PACKET);
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
			out.line("Nothing that is printed has changed since that edition: every leaf stays.");
		} else if (packet.update !== undefined) {
			addToOutput(claim, [UPDATE_PACKET, editionFile(UPDATE_PACKET)]);
			noteEdition(run, opened.handbook.edition);
			const leaves = `${counts.leaves(packet.update.out.length)} out, ${counts.leaves(packet.update.in.length)} in`;
			out.line(
				`wrote ${relative(process.cwd(), join(outDir, UPDATE_PACKET))}, ${count(packet.pages, "page")}: ${leaves}`,
			);
			out.line(`Keep ${editionFile(UPDATE_PACKET)}: the next update is since this one.`);
		}
		return packet.problems.some((p) => p.severity === "error") ? 1 : 0;
	} catch (error) {
		if (!(error instanceof EditionFault)) throw error;
		progress.end();
		out.line(error.message);
		return 2;
	}
}
