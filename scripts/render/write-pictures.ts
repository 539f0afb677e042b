/**
 * Picture files that the pages' heads name: the icons of an installed handbook, and the pictures that
 * links are shown with. All are drawn from our own drawings.
 *
 * Drawing the pictures of links takes as long as writing a thousand pages, and they hardly ever change:
 * they are kept in the club's cache folder by the hash of what they are drawn from.
 */

import { Resvg } from "@resvg/resvg-js";
import resvg from "@resvg/resvg-js/package.json" with { type: "json" };
import { Cache, cacheFolder } from "../files/cache.ts";
import { type Folder, openFolder } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";
import { readProgram } from "../files/program.ts";
import type { Curriculum } from "../model.ts";
import { ICONS } from "./manifest.ts";
import { PREVIEW, previewSvg } from "./previews.ts";

/** Share of the width that no mask cuts into, by the manifest's rules for maskable icons (a circle of 80 %). */
const SAFE = 0.8;

/** Writes the icons from our drawing of one, a file of this program. Returns their paths from the root of the site. */
export function writeIcons(iconFile: string, siteDir: string): readonly string[] {
	const icon = readProgram(iconFile).toString("utf8");
	return ICONS.map(({ file, size, full }) => write(siteDir, file, full ? withBackground(icon) : icon, size));
}

/** Where a club's pictures of links are kept; undefined where its cache leads out of the club. */
export function previewCacheOf(clubDir: string): Folder | undefined {
	return cacheFolder(openFolder(clubDir), "previews");
}

/**
 * Writes the pictures of links to a curriculum's shapes. Returns their paths.
 *
 * @param cache the folder in which they are kept for the next time; those no longer used are removed
 */
export function writePreviews(
	{ shapes }: Pick<Curriculum, "shapes">,
	siteDir: string,
	cacheDir: Folder | undefined,
): readonly string[] {
	const cache = new Cache(cacheDir, true);
	const written = Array.from(shapes.values()).flatMap((shape) => {
		const svg = previewSvg(shape);
		if (svg === undefined) return [];
		const name = `${sha256(`${resvg.version} ${PREVIEW.width}\n${svg}`).slice(0, 32)}.png`;
		const file = `previews/${shape.id}.png`;
		let picture = cache.find(name);
		if (picture === undefined) {
			picture = drawn(svg, PREVIEW.width);
			cache.put(name, picture);
		}
		put(siteDir, file, picture);
		return [file];
	});
	cache.sweep();
	return written;
}

function write(siteDir: string, file: string, svg: string, width: number): string {
	put(siteDir, file, drawn(svg, width));
	return file;
}

function drawn(svg: string, width: number): Uint8Array {
	const png = new Resvg(svg, { fitTo: { mode: "width", value: width }, font: { loadSystemFonts: false } });
	return png.render().asPng();
}

function put(siteDir: string, file: string, bytes: Uint8Array): void {
	openFolder(siteDir).write(file, bytes);
}

/** The icon inside the circle that is safe, on its own ground up to the edges. */
function withBackground(icon: string): string {
	const [, side = "32"] = /viewBox="0 0 (\d+) \d+"/.exec(icon) ?? [];
	const ground = /<rect [^>]*fill="([^"]+)"/.exec(icon)?.[1] ?? "#12303a";
	const edge = (Number(side) * (1 - SAFE)) / 2;
	const inside = icon.replace(/<\/?svg[^>]*>/g, "");
	return (
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${side} ${side}">` +
		`<rect width="${side}" height="${side}" fill="${ground}"/>` +
		`<g transform="translate(${edge} ${edge}) scale(${SAFE})">${inside}</g></svg>`
	);
}
