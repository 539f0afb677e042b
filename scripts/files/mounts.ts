/** Where drives and volumes are mounted: such a folder cannot be renamed, or changed for another. */

import { readFileSync, statSync } from "node:fs";
import { dirname } from "node:path";

/** @param folder a real path */
export function isMountPoint(folder: string): boolean {
	const here = statSync(folder, { throwIfNoEntry: false });
	if (here === undefined) return false;
	if (folder === dirname(folder) || here.dev !== statSync(dirname(folder)).dev) return true;
	return process.platform === "linux" && mountsOfLinux().has(folder);
}

/** A folder mounted at another place of the same drive shows in this table alone: proc(5), the fifth field. */
function mountsOfLinux(): ReadonlySet<string> {
	try {
		return new Set(
			readFileSync("/proc/self/mountinfo", "utf8")
				.split("\n")
				.map((line) =>
					(line.split(" ")[4] ?? "").replace(/\\([0-7]{3})/g, (_, octal: string) =>
						String.fromCharCode(Number.parseInt(octal, 8)),
					),
				),
		);
	} catch {
		return new Set();
	}
}
