/**
 * Writes the staff site: pages by Eleventy, styles, programs, fonts, icons and the club's media.
 * Everything goes into `outDir`, and nothing outside it is touched.
 */

import { basename } from "node:path";
import { sitePages } from "../../layouts/pages/site-pages.ts";
import { ICONS_FILE, iconPicture, iconStyles } from "../../layouts/parts/icons.ts";
import { openFolder } from "../files/folder.ts";
import { PROGRAM, readProgram } from "../files/program.ts";
import type { Handbook } from "../handbook.ts";
import { addressFile, LICENCES_FILE } from "../views/addresses.ts";
import { MANIFEST_FILE, manifestText } from "../views/manifest.ts";
import { NO_MEDIA, type PreparedMedia } from "../views/medium.ts";
import { CLUB_STYLES, type SiteOptions } from "../views/pages.ts";
import { editionNameOf } from "../words/edition-name.ts";
import type { Words } from "../words/words.ts";
import { browserPrograms, browserWords } from "./browser-words.ts";
import { clubStyles } from "./club-styles.ts";
import { type Bundles, keptBundles } from "./kept-bundles.ts";
import { licencesText } from "./licences.ts";
import { typefaceFiles } from "./typeface.ts";
import { writePages } from "./write-pages.ts";
import { writeIcons, writePreviews } from "./write-pictures.ts";

const ICON = "layouts/styles/icon.svg";

/** Style sheets of the site; those of the printed sheets are not among them. */
const STYLES = ["site.css", "coverage.css", "search.css", "hall.css", "pictures.css"];

/** The style sheet that every page loads, which says where icons stand. */
const ICONS_IN = "site.css";

/** The program that says the edition's name: no page does, or each would change with every edition. */
const EDITION_PROGRAM = "edition.js";

/** Pages after which progress is told. */
const TELL = 50;

export interface WriteSiteOptions extends SiteOptions {
	/** Told now and then how many pages are written. */
	readonly progress?: (done: number, total: number) => void;
}

export interface WrittenSite {
	readonly pages: number;
	/** What pages load, and what they are made known by, as paths from the root of the site. */
	readonly others: readonly string[];
	/** Pages that devices do not make, by their files. */
	readonly readyMade: readonly string[];
}

/** Writes the whole site into a folder. */
export async function writeSite(
	handbook: Handbook,
	outDir: string,
	{ progress, ...options }: WriteSiteOptions = {},
): Promise<WrittenSite> {
	const { media = NO_MEDIA } = options;
	const mediaFiles = writeMedia(media, outDir);
	openFolder(outDir).write(MANIFEST_FILE, manifestText(handbook));
	const common = await writeCommonFiles(handbook.words, outDir, editionNameOf(handbook));
	const styles = clubStyles(handbook);
	if (styles !== undefined) openFolder(outDir).write(CLUB_STYLES, styles);
	const own = styles === undefined ? [] : [CLUB_STYLES];
	const pages = sitePages(handbook, options);
	const readyMade: string[] = [];
	let done = 0;
	progress?.(done, pages.length);
	await writePages(pages, outDir, (page) => {
		if (page.facts.readyMade) readyMade.push(addressFile(page.address));
		if (++done % TELL === 0) progress?.(done, pages.length);
	});
	progress?.(pages.length, pages.length);
	return {
		pages: pages.length,
		others: [...common, ...own, ...mediaFiles, MANIFEST_FILE],
		readyMade,
	};
}

/**
 * Draws the pictures that links to the site are shown with. No page loads them, so they may come last.
 * A link without the club's address shows none.
 */
export function writeLinkPictures({ curriculum }: Handbook, outDir: string): readonly string[] {
	return curriculum.club.site === undefined ? [] : writePreviews(curriculum, outDir);
}

/** What the pages of every club load: styles, programs, fonts and icons; one program says the edition's name, if there is one. */
export async function writeCommonFiles(
	words: Words,
	outDir: string,
	edition?: string,
): Promise<readonly string[]> {
	const [assets, licences] = await Promise.all([writeAssets(words, outDir, edition), licencesText(words)]);
	openFolder(outDir).write(LICENCES_FILE, licences);
	return [...assets, LICENCES_FILE, ...writeIcons(ICON, outDir)];
}

/** Styles, programs, fonts and icons, under `assets/`. */
async function writeAssets(
	words: Words,
	outDir: string,
	edition: string | undefined,
): Promise<readonly string[]> {
	const out = openFolder(outDir);
	const bundles = await keptBundles(`assets.${words.language}`, () => bundleAssets(words));
	const files = Object.entries(bundles).map(([name, text]) => {
		const before =
			edition === undefined || name !== EDITION_PROGRAM
				? ""
				: `const HANDBOOK_NAME=${JSON.stringify(edition)};`;
		return [`assets/${name}`, before + text] as const;
	});
	const fonts = typefaceFiles().map(([name, bytes]) => [`assets/${name}`, bytes] as const);
	const pictures = [
		["assets/icon.svg", readProgram(ICON)],
		[ICONS_FILE, iconPicture()],
	] as const;
	const all = [...files, ...fonts, ...pictures];
	for (const [path, content] of all) out.write(path, content);
	return all.map(([path]) => path);
}

/** Styles and programs by the names of their files. */
async function bundleAssets(words: Words): Promise<Bundles> {
	const { build } = await import("esbuild");
	const result = await build({
		absWorkingDir: PROGRAM,
		entryPoints: [...browserPrograms("layouts/browser"), ...STYLES.map((name) => `layouts/styles/${name}`)],
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
	const bundles = Object.fromEntries(result.outputFiles.map(({ path, text }) => [basename(path), text]));
	return { ...bundles, [ICONS_IN]: (bundles[ICONS_IN] ?? "") + iconStyles() };
}

/** The pictures and videos that drills name, under `media/`. */
function writeMedia({ files }: PreparedMedia, outDir: string): readonly string[] {
	const out = openFolder(outDir);
	for (const [path, bytes] of files) out.write(path, bytes());
	return [...files.keys()];
}
