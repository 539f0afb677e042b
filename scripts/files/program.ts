/** This program's own files and packages, wherever they are installed: they are read, never written. */

import { readdirSync, readFileSync, statSync } from "node:fs";
import { createRequire, findPackageJSON } from "node:module";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

/** The folder that holds `scripts/` and `layouts/`. */
export const PROGRAM = fileURLToPath(new URL("../../", import.meta.url));

/** A file of the program, by its path from there, or of a package, from its own folder. */
export function readProgram(path: string): Buffer {
	return readFileSync(resolve(PROGRAM, path));
}

export function readProgramText(path: string): string {
	return readProgram(path).toString("utf8");
}

export function isProgramFile(path: string): boolean {
	return statSync(resolve(PROGRAM, path), { throwIfNoEntry: false })?.isFile() ?? false;
}

/** The files right in a folder of the program, with the folder in front, sorted. */
export function programFiles(folder: string): readonly string[] {
	return readdirSync(resolve(PROGRAM, folder), { withFileTypes: true })
		.filter((entry) => entry.isFile())
		.map((entry) => `${folder}/${entry.name}`)
		.sort();
}

/** The program's name and version, as its own package.json says. */
export function ownPackage(): { readonly name: string; readonly version: string } {
	known ??= JSON.parse(readProgramText("package.json")) as {
		readonly name: string;
		readonly version: string;
	};
	const { name, version } = known;
	return { name, version };
}

let known: { readonly name: string; readonly version: string } | undefined;

/** Where an installed package lies, for its files that are no modules. Throws where it is not installed. */
export function packageFolder(name: string): string {
	const described = findPackageJSON(name, import.meta.url);
	if (described === undefined) throw new Error(`The package ${name} is not installed.`);
	return dirname(described);
}

/** Where a package lies that is installed for a folder, rather than for this program; undefined where none is. */
export function packageFor(folder: string, name: string): string | undefined {
	try {
		return dirname(createRequire(join(resolve(folder), "any.js")).resolve(`${name}/package.json`));
	} catch {
		return undefined;
	}
}

/** Whether a package is installed: one that is optional may not be. */
export function hasPackage(name: string): boolean {
	try {
		packageFolder(name);
		return true;
	} catch {
		return false;
	}
}

/** What a file of a package gives, for one that is found out while the program runs. */
export function loadFromPackage(name: string, file: string): unknown {
	return createRequire(import.meta.url)(join(packageFolder(name), file));
}
