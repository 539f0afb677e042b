/**
 * Eleventy, the last stage: one template, paged over the handbook's pages. Registration only.
 *
 * The build hands its pages over and names the folder that they are written to. Eleventy run by itself in
 * the checkout (`npx eleventy`) opens the checkout's own club, and writes into a folder of its own: never
 * into a published edition, which is taken whole or not at all.
 *
 * Content never reaches Eleventy as templates: a club's text could run code in them.
 */

import highlight from "@11ty/eleventy-plugin-syntaxhighlight";

interface Config {
	readonly globalData: Readonly<Record<string, unknown>>;
	readonly ignores: Set<string>;
	readonly benchmarks: { readonly config: { setMinimumThresholdMs(ms: number): void } };
	addPlugin(plugin: unknown): void;
	addExtension(extension: string, options: { readonly key: string }): void;
	addGlobalData(name: string, data: () => unknown): void;
	setDataFileSuffixes(suffixes: readonly string[]): void;
	setTemplateFormats(formats: readonly string[]): void;
	setUseGitIgnore(use: boolean): void;
	addWatchTarget(glob: string): void;
}

/** Where Eleventy writes when it runs by itself. */
const BY_ITSELF = "_site.eleventy";

export default function configure(config: Config): object {
	config.addPlugin(highlight);
	// How long examples of code took is nothing for who builds a handbook: 0 says it to nobody.
	config.benchmarks.config.setMinimumThresholdMs(0);
	config.addExtension("11ty.ts", { key: "11ty.js" });
	config.setTemplateFormats(["11ty.ts"]);
	// Page functions stand beside the template and are no data of it.
	config.setDataFileSuffixes([]);
	config.setUseGitIgnore(false);
	// Where this program is installed it lies below there itself.
	config.ignores.delete("**/node_modules/**");
	for (const folder of ["scripts", "layouts", "content", "_data"]) config.addWatchTarget(`./${folder}/`);
	// Club data is read by the pipeline, and never by Eleventy.
	const dir = { data: "no-data" };
	if ("handbook" in config.globalData) return { dir };
	config.addGlobalData("handbook", ownHandbook);
	return { dir: { ...dir, input: "layouts/pages", output: BY_ITSELF } };
}

async function ownHandbook(): Promise<unknown> {
	const { ownPages } = await import("./scripts/commands/own-pages.ts");
	return ownPages(process.cwd());
}
