/**
 * Gives the browser's programmes the words of the handbook's language: they import the sections they
 * need from `words/en.ts`, and the bundler is sent to the same sections of another language. Sections
 * that a programme does not use are left out of it.
 */

import { join } from "node:path";
import type { Plugin } from "esbuild";
import { PROGRAM, programFiles } from "../files/program.ts";
import type { Words } from "../words/words.ts";

/** The plugin for bundling in a language; in English nothing is changed. */
export function browserWords({ language }: Pick<Words, "language">): Plugin {
	return {
		name: "words",
		setup: (build) => {
			build.onResolve({ filter: /\/words\/en\.[jt]s$/ }, () => ({
				path: join(PROGRAM, `scripts/words/${language}.ts`),
			}));
		},
	};
}

/** The programs of a folder that browsers are sent, each bundled by itself, from the program's own folder. */
export function browserPrograms(folder: string): readonly string[] {
	return programFiles(folder).filter((file) => /(?<!\.d)\.[jt]s$/.test(file));
}
