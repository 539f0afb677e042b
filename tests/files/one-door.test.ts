/**
 * The one door: no code of the program uses the file system but the few files of `scripts/files`. Read off
 * the code itself, and off the code of the packages that were chosen for it.
 */

import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { describe, expect, it } from "vitest";
import { REPOSITORY } from "../open-fixture.ts";

/** Starts the locked Node, before anything of the program can be loaded. */
const STARTER = "scripts/run.mjs";

/**
 * What a text of the program uses to get at files by itself: the modules of the file system under every name,
 * packages that stand for them, and loading by a name that is not written down, behind which anything may be.
 */
function waysToFiles(code: string): readonly string[] {
	const text = code.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, "");
	const modules = text.matchAll(
		/["'`](?:node:)?(?:fs|fs\/promises|fs-extra|graceful-fs|memfs|tar-fs|rimraf|glob|fast-glob|tinyglobby|sqlite|vm|wasi|module)["'`]/g,
	);
	const loading = text.matchAll(
		/\bimport\s*\((?!\s*["'][^"'`$]+["']\s*\))[^)]*\)|\brequire\b(?:\.resolve)?\s*\(|\b(?:createRequire|getBuiltinModule|_linkedBinding|binding)\s*\(/g,
	);
	return [...modules, ...loading].map(([found]) => found).filter((found) => !isCompileCache(found, text));
}

/** Node's own cache of compiled modules, beside the packages. */
function isCompileCache(found: string, text: string): boolean {
	return found === '"node:module"' && /import \{ enableCompileCache \} from "node:module"/.test(text);
}

const files = ["scripts", "layouts"]
	.flatMap((folder) =>
		readdirSync(join(REPOSITORY, folder), { recursive: true, withFileTypes: true })
			.filter((entry) => entry.isFile() && /(?<!\.d)\.(?:ts|mts|cts|js|mjs|cjs)$/.test(entry.name))
			.map((entry) => relative(REPOSITORY, join(entry.parentPath, entry.name)).split(sep).join("/")),
	)
	.concat("eleventy.config.ts");
const isDoor = (file: string) => file.startsWith("scripts/files/");
const codeOf = (file: string) => readFileSync(join(REPOSITORY, file), "utf8");

describe("the door to the file system", () => {
	it("is used by all code: none outside it gets at files by itself", () => {
		expect(files.length).toBeGreaterThan(300);
		const others = files.filter((file) => !isDoor(file) && file !== STARTER);
		expect(others.flatMap((file) => waysToFiles(codeOf(file)).map((way) => `${file}: ${way}`))).toEqual([]);
	});

	it("is found by the same search: it can fail", () => {
		const found = files.filter((file) => isDoor(file) && waysToFiles(codeOf(file)).length > 0);
		expect(found).toEqual(
			expect.arrayContaining([
				"scripts/files/folder.ts",
				"scripts/files/program.ts",
				"scripts/files/unpack.ts",
			]),
		);
		expect(waysToFiles(codeOf(STARTER))).not.toEqual([]);
	});

	it.each([
		'import { readFileSync } from "node:fs";',
		"import fs from 'fs';",
		'import * as files from "node:fs/promises";',
		'export { rmSync } from "fs";',
		'import "graceful-fs";',
		'const { rm } = await import("node:fs/promises");',
		"const fs = await import(`node:fs`);",
		'const fs = await import("node:" + name);',
		"const fs = await import(name);",
		'const fs = require("fs");',
		"const load = createRequire(import.meta.url);",
		'import { createRequire as from } from "node:module";',
		'const fs = process.getBuiltinModule("fs");',
		'const fs = process.binding("fs");',
	])("would be told of %s", (line) => {
		expect(waysToFiles(`${line}\n`)).not.toEqual([]);
	});

	it.each([
		'import { join } from "node:path";',
		'const { build } = await import("esbuild");',
		'const { printed } = await import(\n\t"./print.ts"\n);',
		"// readFileSync of node:fs is for the door",
	])("says nothing of %s", (line) => {
		expect(waysToFiles(`${line}\n`)).toEqual([]);
	});
});
