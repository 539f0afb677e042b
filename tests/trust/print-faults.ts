/** Prints that are killed, and clubs unlike any other printed whole: the long versions. */

import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { FIXTURES } from "../open-fixture.ts";
import { printStrangeClub } from "../print/strange-club.ts";
import { killPrint } from "./print-kills.ts";
import { count, newTally, type Tally } from "./tally.ts";

/** Kills prints at moments spread over their first seconds. */
export async function killPrints(times: number): Promise<Tally> {
	const tally = newTally("a print killed: browsers left behind");
	const folder = mkdtempSync(join(tmpdir(), "kills-"));
	try {
		cpSync(join(FIXTURES, "base-club"), join(folder, "club"), { recursive: true });
		for (let i = 0; i < times; i++) {
			tally.tried++;
			const left = await killPrint(join(folder, "club"), join(folder, "out"), (i * 4000) / times);
			if (left.length > 0) count(tally, "leaked", left.join(", "));
		}
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
	return tally;
}

/** Prints binder and sheets of clubs from seeds. */
export async function printStrangeClubs(clubs: number): Promise<Tally> {
	const tally = newTally("a club unlike any other, printed whole");
	for (let seed = 1; seed <= clubs; seed++) {
		tally.tried++;
		const { lost, errors } = await printStrangeClub(seed);
		for (const what of [...lost, ...errors]) count(tally, "lost", `seed ${seed}: ${what}`);
	}
	return tally;
}
