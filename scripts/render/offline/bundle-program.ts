/** Bundles a program of the worker's folder, in the words of a language, as one plain file. */

import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import type { Words } from "../../words/words.ts";
import { browserWords } from "../browser-words.ts";

const PROGRAMS = fileURLToPath(new URL("../../../layouts/browser/worker/", import.meta.url));

/** @param before stands in front of it */
export async function bundleProgram(
	program: string,
	words: Pick<Words, "language">,
	before = "",
): Promise<string> {
	const result = await build({
		entryPoints: [join(PROGRAMS, program)],
		bundle: true,
		minify: true,
		format: "iife",
		target: "es2022",
		banner: { js: before },
		plugins: [browserWords(words)],
		write: false,
		logLevel: "silent",
	});
	return result.outputFiles[0]?.text ?? "";
}
