/**
 * The web app manifest: what a device needs to install the handbook. Every address is relative, so that
 * it works in any folder of a host.
 */

import type { Handbook } from "../handbook.ts";

/** Icons in pixels. A home screen may cut a circle out of those with a full background. */
export const ICONS = [
	{ file: "assets/icon-192.png", size: 192, full: false },
	{ file: "assets/icon-512.png", size: 512, full: false },
	{ file: "assets/icon-full.png", size: 512, full: true },
	{ file: "assets/icon-touch.png", size: 180, full: true },
] as const;

export const MANIFEST_FILE = "manifest.webmanifest";

/** The grounds of the pages, as in the styles. */
export const GROUNDS = { light: "#e4ddcd", dark: "#0a1317" } as const;

/** Letters that stand under an icon. */
const SHORT = 12;

export function manifestText({
	curriculum: { club },
	words,
}: Pick<Handbook, "curriculum" | "words">): string {
	const [first = club.name] = club.name.split(/\s+/);
	return JSON.stringify({
		name: words.frame.handbookOf(club.name),
		short_name: club.name.length <= SHORT ? club.name : first.slice(0, SHORT),
		lang: club.language,
		id: "./",
		start_url: "./",
		scope: "./",
		display: "standalone",
		background_color: GROUNDS.light,
		theme_color: GROUNDS.light,
		icons: [
			...ICONS.filter(({ file }) => !file.includes("touch")).map(({ file, size, full }) => ({
				src: file,
				sizes: `${size}x${size}`,
				type: "image/png",
				purpose: full ? "maskable" : "any",
			})),
			{ src: "assets/icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" },
		],
		shortcuts: [
			{ name: words.destinations.search, url: "search/" },
			{ name: words.destinations.classes, url: "classes/" },
			{ name: words.destinations.drills, url: "drills/" },
		],
	});
}
