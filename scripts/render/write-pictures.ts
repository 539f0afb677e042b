/**
 * Picture files that the pages' heads name: the icons of an installed handbook, and the pictures that
 * links are shown with. All are drawn from our own drawings.
 *
 * Drawing the pictures of links takes as long as writing a thousand pages, and they hardly ever change:
 * they are kept in the club's cache folder by the hash of what they are drawn from.
 */

import { createHash, randomUUID } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { Resvg } from "@resvg/resvg-js";
import resvg from "@resvg/resvg-js/package.json" with { type: "json" };
import type { Curriculum } from "../model.ts";
import { ICONS } from "./manifest.ts";
import { PREVIEW, previewSvg } from "./previews.ts";

/** Share of the width that no mask cuts into, by the manifest's rules for maskable icons (a circle of 80 %). */
const SAFE = 0.8;

/** Writes the icons from our drawing of one. Returns their paths from the root of the site. */
export function writeIcons(iconFile: string, siteDir: string): readonly string[] {
	const icon = readFileSync(iconFile, "utf8");
	return ICONS.map(({ file, size, full }) => write(siteDir, file, full ? withBackground(icon) : icon, size));
}

/** Where a club's pictures of links are kept. */
export function previewCacheOf(clubDir: string): string {
	return join(clubDir, ".handbook-cache", "previews");
}

/**
 * Writes the pictures of links to a curriculum's shapes. Returns their paths.
 *
 * @param cache the folder in which they are kept for the next time; those no longer used are removed
 */
export function writePreviews(
	{ shapes }: Pick<Curriculum, "shapes">,
	siteDir: string,
	cache: string,
): readonly string[] {
	const used = new Set<string>();
	const written = Array.from(shapes.values()).flatMap((shape) => {
		const svg = previewSvg(shape);
		if (svg === undefined) return [];
		const name = `${createHash("sha256").update(`${resvg.version} ${PREVIEW.width}\n${svg}`).digest("hex").slice(0, 32)}.png`;
		used.add(name);
		const file = `previews/${shape.id}.png`;
		put(
			siteDir,
			file,
			kept(join(cache, name), () => drawn(svg, PREVIEW.width)),
		);
		return [file];
	});
	if (existsSync(cache)) {
		for (const name of readdirSync(cache)) if (!used.has(name)) rmSync(join(cache, name), { force: true });
	}
	return written;
}

/** What is kept in a file, made and kept where there is none. A folder that cannot be written keeps nothing. */
function kept(file: string, make: () => Uint8Array): Uint8Array {
	if (existsSync(file)) return readFileSync(file);
	const made = make();
	try {
		mkdirSync(dirname(file), { recursive: true });
		// Whole or not at all: another build may read it, and this one may be ended.
		const beside = `${file}.${randomUUID().slice(0, 8)}`;
		writeFileSync(beside, made);
		renameSync(beside, file);
	} catch {
		// It is drawn again the next time.
	}
	return made;
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
	const path = join(siteDir, file);
	mkdirSync(dirname(path), { recursive: true });
	writeFileSync(path, bytes);
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
