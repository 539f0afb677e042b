/** Stands for this program as it is now: every file of its own, the versions of its packages, and Node. */

import { openFolder } from "./folder.ts";
import { startHash } from "./hash.ts";
import { PROGRAM } from "./program.ts";

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
	const folder = openFolder(program);
	const hash = startHash();
	hash.update(process.version);
	const files = FOLDERS.flatMap((name) => folder.files(name).map((file) => `${name}/${file}`));
	for (const file of [...files, ...FILES.filter((name) => folder.has(name))].sort()) {
		hash.update(`${file}\0`);
		hash.update(folder.read(file));
		hash.update("\0");
	}
	return hash.digest("base64url");
}
