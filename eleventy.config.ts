/**
 * Eleventy, the last stage: one template, paged over the handbook's pages. Registration only.
 *
 * Content never reaches Eleventy as templates: a club's text could run code in them.
 */

import { pathToFileURL } from "node:url";
import highlight from "@11ty/eleventy-plugin-syntaxhighlight";

interface Config {
	addPlugin(plugin: unknown): void;
	addExtension(extension: string, options: { readonly key: string }): void;
	addDataExtension(
		extension: string,
		options: { readonly read: false; parser(path: string): Promise<unknown> },
	): void;
	setDataFileSuffixes(suffixes: readonly string[]): void;
	setTemplateFormats(formats: readonly string[]): void;
	setUseGitIgnore(use: boolean): void;
	addWatchTarget(glob: string): void;
}

export default function configure(config: Config): object {
	config.addPlugin(highlight);
	config.addExtension("11ty.ts", { key: "11ty.js" });
	config.setTemplateFormats(["11ty.ts"]);
	// Node runs TypeScript as it is, so data files are imported, not read.
	config.addDataExtension("ts", { read: false, parser: importData });
	// Page functions stand beside the template and are no data of it.
	config.setDataFileSuffixes([]);
	config.setUseGitIgnore(false);
	for (const folder of ["scripts", "layouts", "content", "_data"]) config.addWatchTarget(`./${folder}/`);
	return { dir: { data: "../../_data" } };
}

async function importData(path: string): Promise<unknown> {
	const module: { readonly default: unknown } = await import(pathToFileURL(path).href);
	return typeof module.default === "function" ? module.default() : module.default;
}
