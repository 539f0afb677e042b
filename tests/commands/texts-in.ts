/** What a folder holds, to be compared with what it holds afterwards. */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * Every file by its path in the folder, without the program's own records of changes.
 *
 * @param encoding `latin1` where not all are texts: it gives each byte a letter of its own
 */
export function textsIn(dir: string, encoding: "utf8" | "latin1" = "utf8"): Map<string, string> {
	return new Map(
		readdirSync(dir, { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile())
			.map((entry) => join(entry.parentPath, entry.name))
			.sort()
			.map((file) => [file.slice(dir.length + 1), readFileSync(file, encoding)] as const)
			.filter(([path]) => !path.startsWith(".handbook/")),
	);
}
