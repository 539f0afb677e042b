/**
 * What stops a command that is not the content's fault, in words: the machine said no, or the program
 * has a fault. Where the program failed is told only to who asks, with HANDBOOK_TRACE=1.
 */

import { getSystemErrorMessage } from "node:util";
import { LeadsOut } from "../files/folder.ts";

/** What to do about the faults that clubs meet. */
const WAYS_OUT: Readonly<Record<string, string>> = {
	ENOSPC: "Make room on the drive, and run the command again.",
	EDQUOT: "Make room on the drive, and run the command again.",
	EACCES: "Check the permissions of the folder; a command that takes --out or --to can write to another.",
	EPERM: "Check the permissions of the folder; a command that takes --out or --to can write to another.",
	EROFS: "Name a folder that can be written with --out.",
	EBUSY: "Close what uses the folder, or name another one with --out.",
};

/** Writes one or two lines about an error that ended a command. */
export function reportFault(error: unknown, line: (text: string) => void): void {
	const fault = systemFault(error);
	if (error instanceof LeadsOut) {
		line(`error: ${error.message}.`);
		line("Remove the link, and run the command again.");
	} else if (fault === undefined) {
		line(`error: the program has a fault: ${error instanceof Error ? error.message : String(error)}`);
		line("Run the command again with HANDBOOK_TRACE=1 and report what it prints.");
	} else {
		line(`error: ${fault.what}${fault.path === undefined ? "" : `: ${fault.path}`}`);
		line(`${WAYS_OUT[fault.code] ?? "The last good output stays as it is."}`);
	}
	if (process.env.HANDBOOK_TRACE === "1" && error instanceof Error) line(error.stack ?? "");
}

interface SystemFault {
	readonly code: string;
	readonly what: string;
	readonly path: string | undefined;
}

/** The fault of the machine behind an error; libraries wrap it in errors of their own. */
function systemFault(error: unknown): SystemFault | undefined {
	for (let at = error, depth = 0; at instanceof Error && depth < 5; depth++) {
		if ("code" in at && "errno" in at && typeof at.code === "string" && typeof at.errno === "number") {
			return {
				code: at.code,
				what: getSystemErrorMessage(at.errno) || at.message,
				path: "path" in at && typeof at.path === "string" ? at.path : undefined,
			};
		}
		at = "originalError" in at ? at.originalError : at.cause;
	}
	return undefined;
}
