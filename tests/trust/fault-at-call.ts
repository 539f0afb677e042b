/**
 * Loaded before a program (`node --import`): makes the file system fail at a chosen call.
 *
 *   FAULT     KILL ends the process as kill -9 does, before the call; TEAR ends it in the middle: half of
 *             a file is written, half of a folder removed; ENOSPC refuses what needs room; EROFS refuses
 *             all that changes anything
 *   FAULT_AT  which changing call, from 1; after it a refusal lasts, as a full disk stays full
 *   FAULT_IN  calls on paths outside this folder neither count nor fail
 *
 * At its end the program writes the number of its changing calls to standard error as `calls=12`.
 */

import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { join, resolve } from "node:path";

const NEEDS_ROOM = ["writeFile", "mkdir", "copyFile", "link", "symlink", "open"];
const NEEDS_NONE = ["rename", "rm", "rmdir", "unlink", "chmod"];
const ERRNO: Readonly<Record<string, number>> = { ENOSPC: -28, EROFS: -30 };

const fault = process.env.FAULT ?? "NONE";
const faultAt = Number(process.env.FAULT_AT ?? 0);
let within = resolve(process.env.FAULT_IN ?? "/");
let calls = 0;

type Call = (...args: readonly unknown[]) => unknown;

function changes(name: string, args: readonly unknown[]): boolean {
	if (name === "open" && !/[wa+]/.test(String(args[1]))) return false;
	return args.slice(0, 2).some((path) => typeof path === "string" && resolve(path).startsWith(within));
}

/** Does half of what the call would: half of the bytes of a file, every other entry of a folder gone. */
function tear(name: string, [path, content]: readonly unknown[]): void {
	if (name === "writeFile" && (typeof content === "string" || content instanceof Uint8Array)) {
		const bytes = Buffer.from(content);
		fs.writeFileSync(String(path), bytes.subarray(0, bytes.length / 2));
	}
	if (name === "rm" && fs.statSync(String(path), { throwIfNoEntry: false })?.isDirectory()) {
		const entries = fs.readdirSync(String(path), { withFileTypes: true }).filter((_, i) => i % 2 === 0);
		for (const entry of entries) fs.rmSync(join(entry.parentPath, entry.name), { recursive: true });
	}
}

/** The error of this call, if it is to fail. */
function failure(name: string, args: readonly unknown[]): Error | undefined {
	if (!changes(name, args)) return undefined;
	calls++;
	if (fault === "NONE" || faultAt === 0 || calls < faultAt) return undefined;
	if (fault === "TEAR") {
		// What this does itself neither counts nor fails.
		within = "nowhere";
		tear(name, args);
	}
	if (fault === "KILL" || fault === "TEAR") process.kill(process.pid, "SIGKILL");
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
