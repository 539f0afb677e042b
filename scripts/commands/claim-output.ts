/**
 * One build at a time for each output folder, also where an earlier one was killed.
 *
 * A build that wants the folder puts down a claim: an empty file whose name says which process made
 * it, by machine, process id and the moment the process started (an id alone is given to another
 * process later). Then it looks at the other claims: while there is one of a process that is running it
 * does not go on; one of a process that is gone is taken away. As every claim has a name of its own and is
 * put down before looking, two builds can never both go on, and nobody can take away a claim that counts.
 * Of several that look at the same moment the one with the first name waits for the others to step back,
 * so that one goes on.
 */

import { spawnSync } from "node:child_process";
import { hostname } from "node:os";
import type { Folder } from "../files/folder.ts";
import { processState } from "../files/processes.ts";

/** Another process is writing to the same output. */
export class OutputBusy extends Error {
	constructor(process: number) {
		super(`process ${process} is writing to the same folder`);
	}
}

interface Claimant {
	readonly machine: string;
	readonly process: number;
	/** As `startOf` gives it. */
	readonly started: string;
}

const CLAIM = /^claim-([a-z0-9]*)-(\d+)-([a-z0-9]*)$/;

/** A claim of another machine, on a shared drive, cannot be asked after: it counts for this long. */
const FAR_CLAIM_COUNTS_MS = 60 * 60 * 1000;

/** Whether the name, in the folder of claims, is one. */
export function isClaim(name: string): boolean {
	return CLAIM.test(name);
}

/** Claims an output by its folder of claims; gives what ends the claim. Throws OutputBusy. */
export function claimOutput(folder: Folder): () => void {
	const me = { machine: machineName(), process: process.pid, started: startOf(process.pid) };
	const mine = `claim-${me.machine}-${me.process}-${me.started}`;
	try {
		folder.writeNew(mine, "");
	} catch (error) {
		if (error instanceof Error && "code" in error && error.code === "EEXIST")
			throw new OutputBusy(me.process);
		throw error;
	}
	const release = (): void => folder.remove(mine);
	const patient = Date.now() + PATIENCE_MS;
	for (;;) {
		const [first] = othersIn(folder, mine, me);
		if (first === undefined) return release;
		if (first.name < mine || Date.now() > patient) {
			release();
			throw new OutputBusy(first.process);
		}
		Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, LOOK_AGAIN_MS);
	}
}

/** How long others have to step back; one that does not is at work. */
const PATIENCE_MS = 2000;
const LOOK_AGAIN_MS = 10;

/** The claims of others that count, by name; those that do not are taken away. */
function othersIn(
	folder: Folder,
	mine: string,
	me: Claimant,
): readonly (Claimant & { readonly name: string })[] {
	return folder.list().flatMap(({ name }) => {
		const other = claimantOf(name);
		if (other === undefined || name === mine) return [];
		if (counts(other, me, folder.info(name)?.mtimeMs ?? 0)) return [{ ...other, name }];
		folder.remove(name);
		return [];
	});
}

function claimantOf(name: string): Claimant | undefined {
	const [, machine, process, started] = CLAIM.exec(name) ?? [];
	if (machine === undefined || process === undefined || started === undefined) return undefined;
	return { machine, process: Number(process), started };
}

/** @param made when the claim was put down */
function counts(other: Claimant, me: Claimant, made: number): boolean {
	if (other.machine !== me.machine) {
		return Date.now() - made < FAR_CLAIM_COUNTS_MS;
	}
	return isRunning(other.process) && startOf(other.process) === other.started;
}

function isRunning(pid: number): boolean {
	try {
		process.kill(pid, 0);
		return true;
	} catch (error) {
		// A process of another user may not be asked, but it is there.
		return error instanceof Error && "code" in error && error.code === "EPERM";
	}
}

/** When a process started, as letters and digits; "" where the system does not say. */
function startOf(pid: number): string {
	try {
		// After the name, which may hold spaces, the start is the 20th field: proc(5), field 22.
		const stat = processState(pid);
		return stat.slice(stat.lastIndexOf(")") + 2).split(" ")[19] ?? "";
	} catch {
		if (process.platform === "linux" || process.platform === "win32") return "";
		const { stdout } = spawnSync("ps", ["-o", "lstart=", "-p", String(pid)], { encoding: "utf8" });
		return (stdout ?? "").toLowerCase().replace(/[^a-z0-9]/g, "");
	}
}

function machineName(): string {
	return hostname()
		.toLowerCase()
		.replace(/[^a-z0-9]/g, "")
		.slice(0, 40);
}
