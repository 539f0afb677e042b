/**
 * Fixture clubs for tests: a small sound club, and folders that are laid over it.
 *
 * A fixture holds only the files in which it differs from `base-club`. `remove.txt` lists paths to
 * take away and `links.txt` symbolic links to make ("path target"), which Git would not keep everywhere.
 */

import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { onTestFinished } from "vitest";

export const FIXTURES = fileURLToPath(new URL("./fixtures/", import.meta.url));
export const REPOSITORY = fileURLToPath(new URL("../", import.meta.url));

/** A club folder of its own for one test, removed when the test ends. */
export function clubCopy(overlay?: string, base = join(FIXTURES, "base-club")): string {
	const dir = mkdtempSync(join(tmpdir(), "club-"));
	onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
	cpSync(join(base, "content"), join(dir, "content"), { recursive: true });
	if (existsSync(join(base, "_data"))) {
		cpSync(join(base, "_data"), join(dir, "_data"), { recursive: true, filter: (f) => !f.endsWith(".ts") });
	}
	if (overlay === undefined) return dir;
	for (const part of ["content", "_data"]) {
		if (existsSync(join(overlay, part))) cpSync(join(overlay, part), join(dir, part), { recursive: true });
	}
	for (const path of linesIn(join(overlay, "remove.txt"))) rmSync(join(dir, path), { recursive: true });
	for (const line of linesIn(join(overlay, "links.txt"))) {
		const [path = "", target = ""] = line.split(" ");
		symlinkSync(target, join(dir, path));
	}
	return dir;
}

function linesIn(file: string): readonly string[] {
	return existsSync(file)
		? readFileSync(file, "utf8")
				.split("\n")
				.filter((line) => line !== "")
		: [];
}
