/** Runs a file of tests of which each is an attack, and counts them. */

import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { inScratch, REPOSITORY } from "./output-faults.ts";
import { count, type Ending, newTally, type Tally } from "./tally.ts";

interface Report {
	readonly testResults: readonly {
		readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[];
	}[];
}

/** @param ending what it means where one fails */
export async function runTests(kind: string, ending: Ending, file: string): Promise<Tally> {
	const tally = newTally(kind);
	await inScratch((dir) => {
		const report = join(dir, "report.json");
		const args = [
			"run",
			"--config",
			"tests/vitest.config.ts",
			"--reporter=json",
			`--outputFile=${report}`,
			file,
		];
		spawnSync(process.execPath, ["node_modules/vitest/vitest.mjs", ...args], { cwd: REPOSITORY });
		const { testResults } = JSON.parse(readFileSync(report, "utf8")) as Report;
		for (const { status, fullName } of testResults.flatMap(({ assertionResults }) => assertionResults)) {
			tally.tried++;
			if (status !== "passed") count(tally, ending, fullName);
		}
	});
	if (tally.tried === 0) throw new Error(`${file} has no tests.`);
	return tally;
}
