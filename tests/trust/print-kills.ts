/** Kills prints outright at random moments, and looks for browsers that they left behind. */

import { spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { setTimeout as pause } from "node:timers/promises";
import { REPOSITORY } from "../open-fixture.ts";

/** Linux lists processes as folders. */
export const canListProcesses = process.platform === "linux";

/** The processes that carry a mark in their environment, which children inherit: id and command. */
function processesWith(mark: string): readonly string[] {
	return readdirSync("/proc")
		.filter((name) => /^\d+$/.test(name))
		.flatMap((id) => {
			try {
				if (!readFileSync(`/proc/${id}/environ`, "latin1").includes(mark)) return [];
				const command = readFileSync(`/proc/${id}/cmdline`, "latin1").split("\0")[0] ?? "";
				// An ended process that nobody has asked for is no process any more.
				return /^State:\s+Z/m.test(readFileSync(`/proc/${id}/status`, "latin1")) ? [] : [`${id} ${command}`];
			} catch {
				return [];
			}
		});
}

/**
 * Starts to print a club's binder, kills the program some milliseconds after it has started a browser, and
 * gives the processes that are still there when they have had time to end.
 */
export async function killPrint(clubDir: string, outDir: string, after: number): Promise<readonly string[]> {
	const value = `${process.pid}-${after}-${Math.random()}`;
	const child = spawn(
		process.execPath,
		["scripts/commands/main.ts", "print", "binder", "--club", clubDir, "--out", outDir],
		{ cwd: REPOSITORY, stdio: "ignore", env: { ...process.env, HANDBOOK_KILLED: value } },
	);
	let isRunning = true;
	const ended = new Promise<void>((resolve) =>
		child.once("exit", () => {
			isRunning = false;
			resolve();
		}),
	);
	while (isRunning && processesWith(value).length < 2) await pause(50);
	if (!isRunning) throw new Error("It printed, or failed, without a browser.");
	await Promise.race([pause(after), ended]);
	child.kill("SIGKILL");
	await ended;
	const until = performance.now() + PATIENCE;
	while (processesWith(value).length > 0 && performance.now() < until) await pause(100);
	return processesWith(value);
}

/** Milliseconds for a browser to end by itself. */
const PATIENCE = 20_000;
