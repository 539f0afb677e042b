/** The files of the typeface that the site and the desk are set in, by the names that layouts/styles/tokens.css has. */

import { packageFolder, readProgram } from "../files/program.ts";

const PACKAGE = "@fontsource-variable/atkinson-hyperlegible-next";
/** Our name of each font file, and the package's. Italics are left to the browser: few words are. */
const FILES = [
	["text-latin.woff2", "atkinson-hyperlegible-next-latin-wght-normal.woff2"],
	["text-latin-ext.woff2", "atkinson-hyperlegible-next-latin-ext-wght-normal.woff2"],
] as const;

export function typefaceFiles(): readonly (readonly [name: string, bytes: Buffer])[] {
	const folder = packageFolder(PACKAGE);
	return FILES.map(([name, source]) => [name, readProgram(`${folder}/files/${source}`)]);
}
