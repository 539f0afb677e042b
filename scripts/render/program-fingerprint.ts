/** Stands for this program as it is now: every file of its own, the versions of its packages, and Node. */

import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

const PROGRAM = fileURLToPath(new URL("../../", import.meta.url));
const FOLDERS = ["scripts", "layouts"];
const FILES = ["eleventy.config.ts", "package.json", "package-lock.json"];

let known: string | undefined;

/** What is kept from run to run is kept by it. The same for as long as this process runs: what was loaded stays. */
export function programFingerprint(): string {
	known ??= fingerprintOf(PROGRAM);
	return known;
}

/** The fingerprint of a program in a folder; where the folder stands makes no difference. */
export function fingerprintOf(program: string): string {
	const hash = createHash("sha256").update(process.version);
	const files = FOLDERS.flatMap((folder) =>
		readdirSync(join(program, folder), { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile())
			.map((entry) => relative(program, join(entry.parentPath, entry.name)).split(sep).join("/")),
	);
	for (const file of [...files, ...FILES.filter((name) => existsSync(join(program, name)))].sort()) {
		hash
			.update(`${file}\0`)
			.update(readFileSync(join(program, file)))
			.update("\0");
	}
	return hash.digest("base64url");
}
