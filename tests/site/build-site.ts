/**
 * Builds clubs with the real command, as a director does, for tests that look at the result; in this process, as
 * starting another takes as long as a small club does.
 */

import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { setTimeout } from "node:timers/promises";
import { inject } from "vitest";
import { sha256 } from "../../scripts/files/hash.ts";
import { handbook } from "../run-command.ts";

export interface BuiltSite {
	readonly dir: string;
	/** Every file, as paths from the root of the site. */
	readonly files: ReadonlySet<string>;
	/** The text of every page by its file. */
	readonly pages: ReadonlyMap<string, string>;
}

/** The site of a club that no test changes, built once for all test files of a run. */
export async function sharedSite(clubDir: string): Promise<BuiltSite> {
	const dir = join(inject("shared"), `site-${sha256(clubDir).slice(0, 16)}`);
	const done = `${dir}.done`;
	try {
		mkdirSync(dir);
	} catch {
		// Another file builds it, or has; one that failed has left no sign, and this one waits for its own limit.
		while (!existsSync(done)) await setTimeout(100);
		return siteIn(dir);
	}
	await build(clubDir, dir);
	writeFileSync(done, "");
	return siteIn(dir);
}

/** Builds a club without the binder; the folder is removed after the run. */
export async function buildSite(clubDir: string): Promise<BuiltSite> {
	const dir = mkdtempSync(join(inject("shared"), "site-"));
	await build(clubDir, dir);
	return siteIn(dir);
}

async function build(clubDir: string, dir: string): Promise<void> {
	const { status, stdout, stderr } = await handbook(["build", "--no-print", "--club", clubDir, "--out", dir]);
	if (status !== 0) throw new Error(stdout + stderr);
}

function siteIn(dir: string): BuiltSite {
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
