/** Bundles a program of the worker's folder, in the words of a language, as one plain file. */

import { join } from "node:path";
import type { Plugin } from "esbuild";
import { PROGRAM } from "../files/program.ts";
import type { Words } from "../words/words.ts";
import { browserWords } from "./browser-words.ts";
import { keptBundles } from "./kept-bundles.ts";

const PROGRAMS = join(PROGRAM, "layouts/worker");

/**
 * What makes pages that devices are sent ready made, and what lays out maps, works out dates and reads
 * Markdown: what comes of that is in the records.
 */
const MADE_BY_BUILD =
	/\/(author-guide|what-changed|taught-view|taught-page)\.[jt]s$|^(@dagrejs\/dagre|temporal-polyfill|markdown-it)$/;

/** Leaves that out of the devices' program. */
export const readyMade: Plugin = {
	name: "ready made",
	setup: (build) => {
		build.onResolve({ filter: MADE_BY_BUILD }, () => ({
			path: join(PROGRAMS, "made-by-build.ts"),
		}));
	},
};

export async function bundleProgram(program: string, words: Pick<Words, "language">): Promise<string> {
	const made = await keptBundles(`${program}.${words.language}`, async () => {
		const { build } = await import("esbuild");
		const result = await build({
			entryPoints: [join(PROGRAMS, program)],
			bundle: true,
			minify: true,
			format: "iife",
			target: "es2022",
			plugins: [browserWords(words), readyMade],
			write: false,
			logLevel: "silent",
		});
		return { text: result.outputFiles[0]?.text ?? "" };
	});
	return made.text ?? "";
}
