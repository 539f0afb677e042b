/** What the system says of a process, as a file. */

import { readFileSync } from "node:fs";

/** The line of its state, proc(5). Throws where there is none. */
export function processState(pid: number): string {
	return readFileSync(`/proc/${pid}/stat`, "latin1");
}
