/** Stands for this program as it is now: every file of its own, the versions of its packages, and Node. */

import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const PROGRAM = fileURLToPath(new URL("../../", import.meta.url));
const FOLDERS = ["scripts", "layouts"];
const FILES = ["eleventy.config.ts", "package.json", "package-lock.json"];

export function programFingerprint(): string {
	const hash = createHash("sha256").update(process.version);
	const add = (file: string) => hash.update(`${file}\0`).update(readFileSync(file)).update("\0");
	for (const folder of FOLDERS) {
		const entries = readdirSync(join(PROGRAM, folder), { recursive: true, withFileTypes: true });
		const files = entries.filter((entry) => entry.isFile());
		for (const file of files.map((entry) => join(entry.parentPath, entry.name)).sort()) add(file);
	}
	for (const file of FILES.map((name) => join(PROGRAM, name))) if (existsSync(file)) add(file);
	return hash.digest("base64url");
}
