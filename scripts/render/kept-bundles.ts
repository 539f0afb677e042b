/**
 * Bundled programs, kept beside the packages for the next build: they depend on this program alone, and
 * on the language. Nobody writes there who may not change the program itself; where it cannot be written,
 * every build bundles anew.
 */

import { randomUUID } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { programFingerprint } from "./program-fingerprint.ts";

const FOLDER = fileURLToPath(new URL("../../node_modules/.cache/bundles/", import.meta.url));

/** Texts by what they are called. */
export type Bundles = Readonly<Record<string, string>>;

/** The bundles of this name as they were made by this very program, else made now. */
export async function keptBundles(name: string, make: () => Promise<Bundles>): Promise<Bundles> {
	const program = programFingerprint().slice(0, 16);
	const file = join(FOLDER, `${name}.${program}.json`);
	const known = read(file);
	if (known !== undefined) return known;
	const made = await make();
	try {
		mkdirSync(FOLDER, { recursive: true });
		for (const other of readdirSync(FOLDER)) {
			if (other.startsWith(`${name}.`)) rmSync(join(FOLDER, other), { force: true });
		}
		const beside = `${file}.${randomUUID().slice(0, 8)}`;
		writeFileSync(beside, JSON.stringify(made));
		renameSync(beside, file);
	} catch {
		// It is made again the next time.
	}
	return made;
}

function read(file: string): Bundles | undefined {
	try {
		return JSON.parse(readFileSync(file, "utf8"));
	} catch {
		return undefined;
	}
}
