/** Runs a program for measuring: its wall time, and the kernel's own record of its processor time and memory. */

import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";

export interface Figures {
	/** Wall time. */
	readonly seconds: number;
	/** The processor's time, user and system, with that of what the command started. */
	readonly cpu: number;
	readonly mib: number;
}

/** One whole process. Peak memory and the processor's time are the kernel's own record, read while it runs; 0 where there is none. */
export async function run(command: string, args: readonly string[], cwd: string): Promise<Figures> {
	const started = performance.now();
	const child = spawn(command, args, { cwd, stdio: ["ignore", "ignore", "pipe"] });
	let said = "";
	child.stderr.on("data", (chunk) => {
		said += String(chunk);
	});
	let mib = 0;
	let cpu = 0;
	const look = setInterval(() => {
		try {
			const status = readFileSync(`/proc/${child.pid}/status`, "utf8");
			mib = Math.max(mib, Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024);
			// Behind the name, which may hold spaces: fields 14 to 17 of proc(5), in hundredths of a second.
			const fields = readFileSync(`/proc/${child.pid}/stat`, "utf8").split(") ").at(-1)?.split(" ") ?? [];
			const ticks = fields.slice(11, 15).reduce((sum, field) => sum + Number(field), 0);
			cpu = Math.max(cpu, ticks / 100);
		} catch {
			// It has ended, or this system keeps no such record.
		}
	}, 20);
	const code = await new Promise<number | null>((ended) => child.on("exit", ended));
	clearInterval(look);
	if (code !== 0) throw new Error(`${command} ended with ${code}: ${said.slice(-2000)}`);
	return { seconds: (performance.now() - started) / 1000, cpu, mib };
}
