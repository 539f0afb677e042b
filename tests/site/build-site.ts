/**
 * Builds clubs with the real command, as a director does, for tests that look at the result.
 */

import { execFile } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, sep } from "node:path";
import { promisify } from "node:util";
import { afterAll } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";

export interface BuiltSite {
	readonly dir: string;
	/** Every file, as paths from the root of the site. */
	readonly files: ReadonlySet<string>;
	/** The text of every page by its file. */
	readonly pages: ReadonlyMap<string, string>;
}

/** Builds a club without the binder; the folder is removed after the file's tests. */
export async function buildSite(clubDir: string): Promise<BuiltSite> {
	const dir = mkdtempSync(join(tmpdir(), "site-"));
	afterAll(() => rmSync(dir, { recursive: true, force: true }));
	const command = join(REPOSITORY, "scripts/commands/main.ts");
	await promisify(execFile)(
		process.execPath,
		[command, "build", "--no-print", "--club", clubDir, "--out", dir],
		{
			cwd: REPOSITORY,
		},
	);
	const files = readdirSync(dir, { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => relative(dir, join(entry.parentPath, entry.name)).split(sep).join("/"));
	return {
		dir,
		files: new Set(files),
		pages: new Map(
			files
				.filter((file) => file.endsWith(".html"))
				.map((file) => [file, readFileSync(join(dir, file), "utf8")]),
		),
	};
}
