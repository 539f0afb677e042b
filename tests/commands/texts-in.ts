/** What a folder holds, to be compared with what it holds afterwards. */

import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** The bytes of every file, as letters, by its path in the folder. */
export function textsIn(dir: string): Map<string, string> {
	return new Map(
		readdirSync(dir, { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile())
			.map((entry) => join(entry.parentPath, entry.name))
			.sort()
			.map((file) => [file.slice(dir.length + 1), readFileSync(file, "latin1")]),
	);
}
