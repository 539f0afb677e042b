/**
 * Does what was typed behind the program's name, in this process: starting one takes longer than most
 * commands do. What only a process can show (its exit, a closed pipe, signals) is tested with one.
 */

import { runCommand } from "../scripts/commands/command-line.ts";
import { REPOSITORY } from "./open-fixture.ts";

export interface Ended {
	readonly status: number;
	readonly stdout: string;
	readonly stderr: string;
}

/** @param cwd where it was typed: paths are meant from there, and it is the club folder without `--club` */
export async function handbook(
	args: readonly string[],
	{ cwd = REPOSITORY, env = process.env }: { readonly cwd?: string; readonly env?: NodeJS.ProcessEnv } = {},
): Promise<Ended> {
	const before = process.cwd();
	let [stdout, stderr] = ["", ""];
	process.chdir(cwd);
	try {
		const status = await runCommand(args, {
			stdout: { write: (text) => (stdout += text) },
			stderr: { write: (text) => (stderr += text) },
			env,
			home: process.cwd(),
		});
		return { status, stdout, stderr };
	} finally {
		process.chdir(before);
	}
}
