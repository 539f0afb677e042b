/** Bundles a program of the worker's folder, in the words of a language, as one plain file. */

import { join } from "node:path";
import type { Plugin } from "esbuild";
import { PROGRAM } from "../files/program.ts";
import type { Words } from "../words/words.ts";
import { browserWords } from "./browser-words.ts";
import { keptBundles } from "./kept-bundles.ts";

const PROGRAMS = join(PROGRAM, "layouts/worker");

/**
 * What makes pages that devices are sent ready made, what lays out maps and works out dates that are in
 * the records, as names of characters are (`&eacute;`); and what finds addresses in texts, which is turned off.
 */
const MADE_BY_BUILD =
	/\/(author-guide|what-changed|taught-view|taught-page)\.[jt]s$|^(@dagrejs\/dagre|temporal-polyfill|linkify-it|entities)$/;

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
