/**
 * Picture files that the pages' heads name: the icons of an installed handbook, and the pictures that
 * links are shown with. All are drawn from our own drawings.
 *
 * Drawing the pictures of links takes as long as writing a thousand pages, and they hardly ever change:
 * they are kept beside the program by the hash of what they are drawn from.
 */

import { Resvg } from "@resvg/resvg-js";
import resvg from "@resvg/resvg-js/package.json" with { type: "json" };
import { programCache } from "../files/cache.ts";
import { openFolder } from "../files/folder.ts";
import { sha256 } from "../files/hash.ts";
import { readProgramText } from "../files/program.ts";
import type { Curriculum } from "../model.ts";
import { ICONS } from "../views/manifest.ts";
import { PREVIEW, previewSvg } from "../views/previews.ts";

/** Share of the width that no mask cuts into, by the manifest's rules for maskable icons (a circle of 80 %). */
const SAFE = 0.8;

/** Writes the icons from our drawing of one, a file of this program. Returns their paths from the root of the site. */
export function writeIcons(iconFile: string, siteDir: string): readonly string[] {
	const icon = readProgramText(iconFile);
	return ICONS.map(({ file, size, full }) => write(siteDir, file, full ? withBackground(icon) : icon, size));
}

/** Pictures that are kept: a few clubs' shapes. */
const MOST = 400;

/** Writes the pictures of links to a curriculum's shapes. Returns their paths. */
export function writePreviews({ shapes }: Pick<Curriculum, "shapes">, siteDir: string): readonly string[] {
	const cache = programCache("pictures");
	const files = Array.from(shapes.values()).flatMap((shape) => {
		const svg = previewSvg(shape);
		if (svg === undefined) return [];
		const digest = sha256(`${resvg.version} ${PREVIEW.width}\n${svg}`);
		const name = `${digest.slice(0, 32)}.png`;
		let picture = cache.find(name);
		if (picture === undefined) {
			picture = drawn(svg, PREVIEW.width);
			cache.put(name, picture);
		}
		const file = `previews/${shape.id}.png`;
		put(siteDir, file, picture);
		return [file];
	});
	cache.leave(MOST);
	return files;
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
