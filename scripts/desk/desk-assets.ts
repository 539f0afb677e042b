/** What the desk's page loads: its program in the words of a language, its styles and its typeface. */

import { basename } from "node:path";
import { PROGRAM } from "../files/program.ts";
import { browserWords } from "../site/browser-words.ts";
import { type Bundles, keptBundles } from "../site/kept-bundles.ts";
import { typefaceFiles } from "../site/typeface.ts";
import type { Words } from "../words/words.ts";

export interface Asset {
	readonly type: string;
	readonly body: string | Uint8Array;
}

const made = new Map<string, Promise<ReadonlyMap<string, Asset>>>();

export function deskAssets(words: Words): Promise<ReadonlyMap<string, Asset>> {
	const known = made.get(words.language);
	if (known !== undefined) return known;
	const assets = makeAssets(words);
	made.set(words.language, assets);
	return assets;
}

async function makeAssets(words: Words): Promise<ReadonlyMap<string, Asset>> {
	const { "desk.js": program = "", "desk.css": styles = "" } = await keptBundles(
		`desk.${words.language}`,
		() => bundle(words),
	);
	return new Map<string, Asset>([
		["desk.js", { type: "text/javascript; charset=utf-8", body: program }],
		["desk.css", { type: "text/css; charset=utf-8", body: styles }],
		...typefaceFiles().map(([name, body]) => [name, { type: "font/woff2", body }] as const),
	]);
}

async function bundle(words: Words): Promise<Bundles> {
	const { build } = await import("esbuild");
	const result = await build({
		absWorkingDir: PROGRAM,
		entryPoints: ["layouts/desk/desk.tsx", "layouts/desk/desk.css"],
		outdir: PROGRAM,
		entryNames: "[name]",
		bundle: true,
		minify: true,
		format: "iife",
		target: "es2022",
		jsx: "automatic",
		jsxImportSource: "preact",
		external: ["*.woff2"],
		plugins: [browserWords(words)],
		write: false,
		logLevel: "silent",
	});
	return Object.fromEntries(result.outputFiles.map(({ path, text }) => [basename(path), text]));
}
