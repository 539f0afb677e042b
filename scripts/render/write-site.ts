/**
 * Writes the staff site: pages by Eleventy, then styles, programs, fonts, icons and the club's media.
 *
 * Steps: start bundling the browser programs; hand the text of every page to the thread that writes pages
 * of them with Eleventy (write-pages.ts); copy what pages load. Everything goes into `outDir`, and nothing
 * outside it is touched.
 */

import { copyFileSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { setImmediate as turn } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { isStringOneByteRepresentation } from "node:v8";
import type { Handbook } from "../handbook.ts";
import { narrow } from "../read/narrow.ts";
import { editionNameOf, type Words } from "../words/words.ts";
import { addressFile, LICENCES_FILE } from "./addresses.ts";
import { browserWords } from "./browser-words.ts";
import { type Bundles, keptBundles } from "./kept-bundles.ts";
import { licencesText } from "./licences.ts";
import { MANIFEST_FILE, manifestText } from "./manifest.ts";
import { NO_MEDIA, type PreparedMedia } from "./media/prepare-media.ts";
import { isMadeOnDevices } from "./offline/page-makers.ts";
import { PageTexts, sharedText } from "./page-text.ts";
import { PostedThread } from "./posts.ts";
import { frameFacts, type SiteOptions, type SitePage, sitePages } from "./site.ts";
import type { SiteBefore, ToPages, WrittenPages } from "./write-pages.ts";
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

/** The program that says the edition's name: no page does, or each would change with every edition. */
const EDITION_PROGRAM = "edition.js";

/** Pages that are posted together. */
const POST = 50;

export interface WriteSiteOptions extends SiteOptions {
	/** Told now and then how many pages are written. */
	readonly progress?: (done: number, total: number) => void;
	/** Told the text of each page (page-text.ts), as it is made. */
	readonly made?: (page: SitePage, text: string) => void;
	/** The site before: pages that would be the same are taken from there. */
	readonly before?: SiteBefore;
}

/** The thread that writes pages. */
export type PageThread = PostedThread<ToPages, WrittenPages>;

/** Starts it; it loads its programs while the club is read. */
export function startPageThread(): PageThread {
	return new PostedThread(new URL("./page-thread.ts", import.meta.url));
}

/** What is written, or will be; files are paths from the root of the site. */
export interface WrittenSite {
	readonly pages: number;
	/** Pages that devices keep as they are: written when this ends. */
	readonly keptPages: Promise<readonly string[]>;
	/** What pages load, and what they are made known by. */
	readonly others: Promise<readonly string[]>;
	/** Ends when every page is written. Throws where one could not be made. */
	readonly written: Promise<WrittenPages>;
}

/**
 * Writes the whole site into a folder. Its pages are still being written when this returns; where one of
 * the promises fails, others may go on writing for a while.
 */
export async function writeSite(
	handbook: Handbook,
	outDir: string,
	thread: PageThread,
	{ progress, made, before, ...options }: WriteSiteOptions = {},
): Promise<WrittenSite> {
	const { media = NO_MEDIA } = options;
	const { curriculum, words } = handbook;
	const mediaFiles = writeMedia(media, outDir);
	writeFileSync(join(outDir, MANIFEST_FILE), manifestText(handbook));
	// Bundling is another program's work: it goes on while pages are made.
	const others = writeCommonFiles(words, outDir, editionNameOf(handbook)).then((common) => [
		...common,
		...mediaFiles,
		MANIFEST_FILE,
	]);
	// Told by who waits for it.
	others.catch(() => undefined);
	const shared = sharedText(curriculum, frameFacts(handbook, options));
	thread.post({ kind: "begin", site: { siteDir: outDir, shared, language: words.language, before } });
	const pages = sitePages(handbook, options);
	const texts = new PageTexts(curriculum);
	let done = 0;
	const post = async (some: readonly SitePage[]) => {
		for (let from = 0; from < some.length; from += POST) {
			progress?.(done, pages.length);
			const together = some.slice(from, from + POST).map((page) => {
				const text = inOneByte(texts.of(page));
				made?.(page, text);
				return { path: addressFile(page.address), text };
			});
			thread.post({ kind: "pages", pages: together });
			done += together.length;
			// Bundling goes on, and progress is shown.
			await turn();
		}
	};
	const [onDevices = [], asTheyAre = []] = [true, false].map((isMade) =>
		pages.filter(({ kind }) => isMadeOnDevices(kind) === isMade),
	);
	// These are packed when they are written, the others before.
	await post(asTheyAre);
	const keptPages = thread
		.ask({ kind: "write" })
		.then(() => asTheyAre.map(({ address }) => addressFile(address)));
	keptPages.catch(() => undefined);
	await post(onDevices);
	const written = thread.ask({ kind: "write" });
	written.catch(() => undefined);
	progress?.(pages.length, pages.length);
	return { pages: pages.length, keptPages, others, written };
}

function inOneByte(text: string): string {
	return isStringOneByteRepresentation(text) ? text : narrow(text);
}

/**
 * Draws the pictures that links to the site are shown with. No page loads them, so they may come last.
 * A link without the club's address shows none.
 */
export function writeLinkPictures({ curriculum, clubDir }: Handbook, outDir: string): readonly string[] {
	return curriculum.club.site === undefined ? [] : writePreviews(curriculum, outDir, previewCacheOf(clubDir));
}

/** What the pages of every club load: styles, programs, fonts and icons; one program says the edition's name, if there is one. */
export async function writeCommonFiles(
	words: Words,
	outDir: string,
	edition?: string,
): Promise<readonly string[]> {
	const [assets, licences] = await Promise.all([writeAssets(words, outDir, edition), licencesText(words)]);
	writeFileSync(join(outDir, LICENCES_FILE), licences);
	return [...assets, LICENCES_FILE, ...writeIcons("layouts/styles/icon.svg", outDir)];
}

/** Styles, programs, fonts and icons, under `assets/`. */
async function writeAssets(
	words: Words,
	outDir: string,
	edition: string | undefined,
): Promise<readonly string[]> {
	const assets = join(outDir, "assets");
	mkdirSync(assets, { recursive: true });
	const bundles = await keptBundles(`assets.${words.language}`, () => bundleAssets(words));
	const files = Object.entries(bundles).map(([name, text]) => {
		const before =
			edition === undefined || name !== EDITION_PROGRAM
				? ""
				: `const HANDBOOK_NAME=${JSON.stringify(edition)};`;
		writeFileSync(join(assets, name), before + text);
		return `assets/${name}`;
	});
	for (const [name, source] of FONT_FILES) copyFileSync(join(PROGRAM, FONTS, source), join(assets, name));
	copyFileSync(join(PROGRAM, "layouts/styles/icon.svg"), join(assets, "icon.svg"));
	return [...files, ...FONT_FILES.map(([name]) => `assets/${name}`), "assets/icon.svg"];
}

/** Styles and programs by the names of their files. */
async function bundleAssets(words: Words): Promise<Bundles> {
	const { build } = await import("esbuild");
	const browser = join(PROGRAM, "layouts/browser");
	const programs = readdirSync(browser).filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"));
	const result = await build({
		entryPoints: [
			...programs.map((name) => join(browser, name)),
			...STYLES.map((name) => join(PROGRAM, "layouts/styles", name)),
		],
		outdir: PROGRAM,
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
	return Object.fromEntries(result.outputFiles.map(({ path, text }) => [basename(path), text]));
}

/** The pictures and videos that drills name, under `media/`. */
function writeMedia({ files }: PreparedMedia, outDir: string): readonly string[] {
	if (files.size > 0) mkdirSync(join(outDir, "media"), { recursive: true });
	for (const [path, bytes] of files) writeFileSync(join(outDir, path), bytes());
	return [...files.keys()];
}
