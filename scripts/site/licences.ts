/**
 * The licences of what a site carries of other people: the typeface, and every package that is bundled
 * into its programs. Their licences ask that text and copyright go along with every copy.
 *
 *   1. bundle all programs once more, for the list of what comes of which file      esbuild's metafile
 *   2. of each package take the version from the lock file, and its own licence files
 *
 * Made once for this program, and kept with the bundles.
 */

import { basename } from "node:path";
import { isProgramFile, PROGRAM, programFiles, readProgramText } from "../files/program.ts";
import type { Words } from "../words/words.ts";
import { browserPrograms, browserWords } from "./browser-words.ts";
import { readyMade } from "./bundle-program.ts";
import { keptBundles } from "./kept-bundles.ts";

/** Packages whose files are published as they are. */
const COPIED = ["node_modules/@fontsource-variable/atkinson-hyperlegible-next"];

/** The whole Apache License 2.0, for packages that only name it: whoever passes them on is to give it along. */
const APACHE = { sign: "TERMS AND CONDITIONS FOR USE", file: "node_modules/pdfjs-dist/LICENSE" };

const LICENCE_FILE = /^(licen[cs]e|copying|notice)([.-].*)?$/i;

/** Where an installed program has the text ready: only the checkout's lock file tells of all packages. */
export function readyLicences(language: string): string {
	return `licences.${language}.txt`;
}

/** The text of the file. Throws where a package has no licence text, or is not in the lock file. */
export async function licencesText(words: Words): Promise<string> {
	const ready = readyLicences(words.language);
	if (isProgramFile(ready)) return readProgramText(ready);
	const made = await keptBundles(`licences.${words.language}`, async () => {
		const bundled = await bundledPackages(words);
		const ours = `The handbook's own programs and styles: MIT\n\n${readProgramText("LICENSE").trim()}`;
		const theirs = [...COPIED, ...bundled].sort().map(licenceOf);
		const rule = `\n\n${"-".repeat(72)}\n\n`;
		return { text: `${["What this site carries, and under which licences.", ours, ...theirs].join(rule)}\n` };
	});
	return made.text ?? "";
}

/** The folders of the packages of which something is in one of the browser's programs. */
export async function bundledPackages(words: Words): Promise<readonly string[]> {
	const { build } = await import("esbuild");
	const folders: string[] = [];
	for (const [folder, plugins] of [
		["layouts/browser", [browserWords(words)]],
		["layouts/worker", [browserWords(words), readyMade]],
	] as const) {
		const { metafile } = await build({
			absWorkingDir: PROGRAM,
			entryPoints: [...browserPrograms(folder)],
			outdir: PROGRAM,
			bundle: true,
			minify: true,
			format: "iife",
			target: "es2022",
			plugins: [...plugins],
			write: false,
			metafile: true,
			logLevel: "silent",
		});
		for (const { inputs } of Object.values(metafile.outputs)) {
			for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
				const own = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0];
				if (own !== undefined && bytesInOutput > 0) folders.push(own);
			}
		}
	}
	return [...new Set(folders)];
}

interface Locked {
	readonly version?: string;
	readonly license?: string;
}

function licenceOf(folder: string): string {
	const lock = JSON.parse(readProgramText("package-lock.json")) as {
		readonly packages: Readonly<Record<string, Locked>>;
	};
	const locked = lock.packages[folder];
	const name = folder.slice(folder.lastIndexOf("node_modules/") + "node_modules/".length);
	const files = programFiles(folder).filter((file) => LICENCE_FILE.test(basename(file)));
	if (locked?.version === undefined || files.length === 0) throw new Error(`${name} says no licence.`);
	const texts = files.map((file) => readProgramText(file).replaceAll("\r", "").trim());
	if (locked.license === "Apache-2.0" && !texts.some((text) => text.includes(APACHE.sign))) {
		texts.push(readProgramText(APACHE.file).trim());
	}
	return `${name} ${locked.version}: ${locked.license ?? "see below"}\n\n${texts.join("\n\n")}`;
}
