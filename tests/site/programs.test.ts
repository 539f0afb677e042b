/**
 * What browsers are sent of words: the sections that a program uses, in the handbook's language. A section
 * whose making may do something else (a copy of another section, a call) stays in every program.
 */

import { basename } from "node:path";
import { build } from "esbuild";
import { describe, expect, it } from "vitest";
import { browserPrograms, browserWords } from "../../scripts/site/browser-words.ts";
import { readyMade } from "../../scripts/site/bundle-program.ts";
import { wordsFor } from "../../scripts/words/words.ts";

const PROGRAMS = [
	...browserPrograms("layouts/browser"),
	"layouts/worker/worker.ts",
	"layouts/worker/make.ts",
];

describe.each(["en", "fr"])("the programs that browsers are sent, in %s", (language) => {
	it("carry words of their language, none of what only the desk and commands say, and no reader of files", async () => {
		const { metafile, outputFiles } = await build({
			entryPoints: PROGRAMS,
			outdir: "here",
			bundle: true,
			minify: true,
			charset: "utf8",
			format: "iife",
			target: "es2022",
			plugins: [browserWords(wordsFor(language)), readyMade],
			write: false,
			metafile: true,
			logLevel: "silent",
		});
		const parts = Object.values(metafile.outputs).flatMap(({ inputs }) => Object.keys(inputs));
		expect(parts).toContain("node_modules/minisearch/dist/es/index.js");
		expect(
			parts.filter((part) => /node_modules\/(yaml|js-yaml|markdown-it|gray-matter|ajv)\//.test(part)),
		).toEqual([]);
		expect(outputFiles).toHaveLength(PROGRAMS.length);
		const own = wordsFor(language);
		const other = wordsFor(language === "en" ? "fr" : "en");
		const said = outputFiles.filter(({ text }) => text.includes(own.keeping.notHere));
		expect(said.map(({ path }) => basename(path))).toContain("worker.js");
		for (const { path, text } of outputFiles) {
			for (const [what, sentence] of [
				["the other language's", other.about.title],
				["the other language's", other.keeping.notHere],
				["the desk's", own.desk.publishLead],
				["the director's", own.taughtPage.privately],
				["a problem's", own.catalogue.H101.title],
			])
				expect(text.includes(sentence ?? ""), `${what} words in ${path}`).toBe(false);
		}
	}, 30_000);
});
