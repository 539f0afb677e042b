/**
 * Loaded before a program (`node --import`): makes the file system fail at a chosen call.
 *
 *   FAULT     KILL ends the process as kill -9 does; ENOSPC refuses what needs room; EROFS refuses all
 *             that changes anything
 *   FAULT_AT  which changing call, from 1; after it a refusal lasts, as a full disk stays full
 *   FAULT_IN  calls on paths outside this folder neither count nor fail
 *
 * At its end the program writes the number of its changing calls to standard error as `calls=12`.
 */

import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { resolve } from "node:path";

const NEEDS_ROOM = ["writeFile", "mkdir", "copyFile", "link", "symlink", "open"];
const NEEDS_NONE = ["rename", "rm", "rmdir", "unlink"];
const ERRNO: Readonly<Record<string, number>> = { ENOSPC: -28, EROFS: -30 };

const fault = process.env.FAULT ?? "NONE";
const faultAt = Number(process.env.FAULT_AT ?? 0);
const within = resolve(process.env.FAULT_IN ?? "/");
let calls = 0;

type Call = (...args: readonly unknown[]) => unknown;

function changes(name: string, args: readonly unknown[]): boolean {
	if (name === "open" && !/[wa+]/.test(String(args[1]))) return false;
	return args.slice(0, 2).some((path) => typeof path === "string" && resolve(path).startsWith(within));
}

/** The error of this call, if it is to fail. */
function failure(name: string, args: readonly unknown[]): Error | undefined {
	if (!changes(name, args)) return undefined;
	calls++;
	if (fault === "NONE" || faultAt === 0 || calls < faultAt) return undefined;
	if (fault === "KILL") process.kill(process.pid, "SIGKILL");
	if (fault === "ENOSPC" && !NEEDS_ROOM.includes(name)) return undefined;
	const path = String(args[0]);
	return Object.assign(new Error(`${fault}: ${name} '${path}'`), {
		code: fault,
		errno: ERRNO[fault],
		syscall: name,
		path,
	});
}

function wrap(holder: object, key: string, name: string, how: "throws" | "rejects" | "calls back"): void {
	const original = Reflect.get(holder, key) as Call;
	const wrapped: Call = (...args) => {
		const error = failure(name, args);
		if (error === undefined) return original.apply(holder, [...args]);
		if (how === "throws") throw error;
		if (how === "rejects") return Promise.reject(error);
		const callback = args.at(-1) as (error: Error) => void;
		process.nextTick(() => callback(error));
		return undefined;
	};
	Reflect.set(holder, key, Object.assign(wrapped, original));
}

for (const name of [...NEEDS_ROOM, ...NEEDS_NONE]) {
	wrap(fs, `${name}Sync`, name, "throws");
	wrap(fs, name, name, "calls back");
	wrap(fs.promises, name, name, "rejects");
}
syncBuiltinESMExports();
process.on("exit", () => process.stderr.write(`calls=${calls}\n`));
