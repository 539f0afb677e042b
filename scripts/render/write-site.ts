/**
 * Writes the staff site: pages by Eleventy, then styles, programs, fonts, icons and the club's media.
 *
 * Steps: start bundling the browser programs; take pages that were kept from an earlier build; offer the
 * others to Eleventy's data and run it over the one template; copy what pages load. Everything goes into `outDir`, and nothing outside it is touched.
 */

import { copyFileSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import Eleventy from "@11ty/eleventy";
import { build } from "esbuild";
import type { Handbook } from "../handbook.ts";
import type { Words } from "../words/words.ts";
import { addressFile } from "./addresses.ts";
import { browserWords } from "./browser-words.ts";
import { offerEdition } from "./edition.ts";
import { MANIFEST_FILE, manifestText } from "./manifest.ts";
import { NO_MEDIA, type PreparedMedia } from "./media/prepare-media.ts";
import type { PageCache } from "./page-cache.ts";
import { type SiteOptions, type SitePage, sitePages, withView } from "./site.ts";
import { previewCacheOf, writeIcons, writePreviews } from "./write-pictures.ts";

/** The folder of this program, which holds `layouts/` and `eleventy.config.ts`. */
const PROGRAM = fileURLToPath(new URL("../../", import.meta.url));

const FONTS = "node_modules/@fontsource-variable/atkinson-hyperlegible-next/files";
/** Our name of each font file, and the package's. Italics are left to the browser: few words are. */
const FONT_FILES = [
	["text-latin.woff2", "atkinson-hyperlegible-next-latin-wght-normal.woff2"],
	["text-latin-ext.woff2", "atkinson-hyperlegible-next-latin-ext-wght-normal.woff2"],
] as const;

/** Style sheets of the site; those of the printed sheets are not among them. */
const STYLES = ["site.css", "coverage.css", "search.css", "hall.css", "pictures.css"];

/**
 * Eleventy holds the text of every page until its run has ended, so the pages of a large handbook are
 * written in several: a page of a drill has about 27 kB.
 */
const PAGES_OF_A_RUN = 1000;

export interface WriteSiteOptions extends SiteOptions {
	/** Told now and then how many pages are written. */
	readonly progress?: (done: number, total: number) => void;
	/** Pages of earlier builds. */
	readonly cache?: PageCache;
	/** Told each page's file, from the root of the site, and its text, as it is made. */
	readonly made?: (path: string, text: string) => void;
}

export interface WrittenSite {
	readonly pages: number;
	/** Every file written, as paths from the root of the site. */
	readonly files: readonly string[];
}

/** Writes the whole site into a folder. Throws where a file cannot be written. */
export async function writeSite(
	handbook: Handbook,
	outDir: string,
	{ progress, made, cache, ...options }: WriteSiteOptions = {},
): Promise<WrittenSite> {
	const { media = NO_MEDIA } = options;
	// Bundling is another program's work: it goes on while pages are made.
	const commonFiles = writeCommonFiles(handbook.words, outDir);
	const bundled = commonFiles.catch(() => undefined);
	const pages = sitePages(handbook, options);
	try {
		for (let done = 0; done < pages.length; done += PAGES_OF_A_RUN) {
			progress?.(done, pages.length);
			const some = pages.slice(done, done + PAGES_OF_A_RUN);
			const { missing, keep } = cache === undefined ? { missing: some } : takeKept(some, outDir, cache, made);
			if (missing.length === 0) continue;
			await runEleventy(missing, outDir, (page, text) => {
				keep?.(page, text);
				made?.(addressFile(page.address), text);
			});
		}
	} finally {
		// Where a page fails, too, nothing writes any more once this has ended.
		await bundled;
	}
	progress?.(pages.length, pages.length);
	const common = await commonFiles;
	const mediaFiles = writeMedia(media, outDir);
	writeFileSync(join(outDir, MANIFEST_FILE), manifestText(handbook));
	return {
		pages: pages.length,
		files: [...pages.map((page) => addressFile(page.address)), ...common, ...mediaFiles, MANIFEST_FILE],
	};
}

/**
 * Draws the pictures that links to the site are shown with. No page loads them, so they may come last.
 * A link without the club's address shows none.
 */
export function writeLinkPictures({ curriculum, clubDir }: Handbook, outDir: string): readonly string[] {
	return curriculum.club.site === undefined ? [] : writePreviews(curriculum, outDir, previewCacheOf(clubDir));
}

/** Writes the pages that were kept; gives the others, and what keeps them when they are made. */
function takeKept(
	pages: readonly SitePage[],
	outDir: string,
	cache: PageCache,
	made: WriteSiteOptions["made"],
): {
	readonly missing: readonly SitePage[];
	readonly keep: (page: SitePage, text: string) => void;
} {
	const missing: SitePage[] = [];
	const keys = new Map<string, string>();
	const views = new Map<string, unknown>();
	for (const page of pages) {
		// A page that is new is made anyhow: its key is worked out then, from the view that it is made of.
		if (!cache.knows(page.address)) {
			missing.push(
				withView(page, () => {
					const { view } = page;
					views.set(page.address, view);
					return view;
				}),
			);
			continue;
		}
		const { view } = page;
		const key = cache.keyOf(page, view);
		const text = key === undefined ? undefined : cache.textOf(page.address, key);
		if (text === undefined) {
			if (key !== undefined) keys.set(page.address, key);
			missing.push(withView(page, () => view));
			continue;
		}
		const file = addressFile(page.address);
		mkdirSync(join(outDir, dirname(file)), { recursive: true });
		writeFileSync(join(outDir, file), text);
		made?.(file, text);
	}
	const keep = (page: SitePage, text: string) => {
		const { address } = page;
		const key = views.has(address) ? cache.keyOf(page, views.get(address)) : keys.get(address);
		views.delete(address);
		if (key !== undefined) cache.keep(address, key, text);
	};
	return { missing, keep };
}

async function runEleventy(
	pages: readonly SitePage[],
	outDir: string,
	made: (page: SitePage, text: string) => void,
): Promise<void> {
	offerEdition({ pages, made });
	try {
		const here = (path: string) => relative(process.cwd(), join(PROGRAM, path)) || ".";
		const eleventy = new Eleventy(here("layouts/pages"), relative(process.cwd(), outDir) || ".", {
			configPath: here("eleventy.config.ts"),
			quietMode: true,
			source: "script",
			runMode: "build",
		});
		eleventy.disableLogger();
		await eleventy.write();
	} finally {
		offerEdition(undefined);
	}
}

/** What the pages of every club load: styles, programs, fonts and icons. */
export async function writeCommonFiles(words: Words, outDir: string): Promise<readonly string[]> {
	return [
		...(await writeAssets(words, outDir)),
		...writeIcons(join(PROGRAM, "layouts/styles/icon.svg"), outDir),
	];
}

/** Styles, programs, fonts and icons, under `assets/`. */
async function writeAssets(words: Words, outDir: string): Promise<readonly string[]> {
	const assets = join(outDir, "assets");
	mkdirSync(assets, { recursive: true });
	const browser = join(PROGRAM, "layouts/browser");
	const programs = readdirSync(browser).filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"));
	const result = await build({
		entryPoints: [
			...programs.map((name) => join(browser, name)),
			...STYLES.map((name) => join(PROGRAM, "layouts/styles", name)),
		],
		outdir: assets,
		entryNames: "[name]",
		bundle: true,
		minify: true,
		// Plain scripts, so that the pages also work from a folder on disk.
		format: "iife",
		target: "es2022",
		external: ["*.woff2"],
		plugins: [browserWords(words)],
		write: false,
		logLevel: "silent",
	});
	const files = result.outputFiles.map(({ path, contents }) => {
		writeFileSync(path, contents);
		return relative(outDir, path);
	});
	for (const [name, source] of FONT_FILES) copyFileSync(join(PROGRAM, FONTS, source), join(assets, name));
	copyFileSync(join(PROGRAM, "layouts/styles/icon.svg"), join(assets, "icon.svg"));
	return [...files, ...FONT_FILES.map(([name]) => `assets/${name}`), "assets/icon.svg"];
}

/** The pictures and videos that drills name, under `media/`. */
function writeMedia({ files }: PreparedMedia, outDir: string): readonly string[] {
	if (files.size > 0) mkdirSync(join(outDir, "media"), { recursive: true });
	for (const [path, bytes] of files) writeFileSync(join(outDir, path), bytes());
	return [...files.keys()];
}
