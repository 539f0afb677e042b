/** What a part of this program is, as an ingredient of what it makes: where it changes, nothing it made is used. */

import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";

/** A hash of these modules' text, given by their names in this folder. */
export async function sourceDigest(names: readonly string[]): Promise<string> {
	const texts = await Promise.all(names.map((name) => readFile(new URL(`./${name}`, import.meta.url))));
	const hash = createHash("sha256");
	for (const text of texts) hash.update(text);
	return hash.digest("hex");
}

/** The modules that make the binder's bytes of printed segments. */
export const JOINING = [
	"join.ts",
	"place-segment.ts",
	"pdf-piece.ts",
	"pdf-file.ts",
	"pdf-text.ts",
	"points.ts",
];

/** Those that read pages back. */
export const READING = [
	"read-pages.ts",
	"read-back.ts",
	"page-digest.ts",
	"painted.ts",
	"letters.ts",
	"points.ts",
	"pdf-piece.ts",
	"pdf-file.ts",
	"pdf-text.ts",
];

/** Those that judge what was read. */
export const JUDGING = [...READING, "read-segments.ts", "verify.ts"];
