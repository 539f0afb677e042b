/**
 * Gives the browser's programmes the words of the handbook's language: they import the sections they
 * need from `words/en.ts`, and the bundler is sent to the same sections of another language. Sections
 * that a programme does not use are left out of it.
 */

import { fileURLToPath } from "node:url";
import type { Plugin } from "esbuild";
import type { Words } from "../words/words.ts";

/** The plugin for bundling in a language; in English nothing is changed. */
export function browserWords({ language }: Pick<Words, "language">): Plugin {
	return {
		name: "words",
		setup: (build) => {
			build.onResolve({ filter: /\/words\/en\.ts$/ }, () => ({
				path: fileURLToPath(new URL(`../words/${language}.ts`, import.meta.url)),
			}));
		},
	};
}
