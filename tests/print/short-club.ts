/** The club of a printed binder without what takes most of its pages: a long table, and ninety skills in tables. */

import { cpSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { FIXTURES } from "../open-fixture.ts";

/** Takes these out of a copy of it. */
export function shorten(dir: string): void {
	rmSync(join(dir, "content/guides/long-table.md"));
	cpSync(join(FIXTURES, "base-club/_data/skills.yaml"), join(dir, "_data/skills.yaml"));
	const drill = join(dir, "content/drills/floor/marked-words.md");
	writeFileSync(drill, readFileSync(drill, "utf8").replace("skills: [roll, step-1]", "skills: [roll]"));
}
