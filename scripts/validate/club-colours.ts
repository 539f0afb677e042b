/**
 * The club's own colour, and the shades of it that can be read.
 *
 *   1. white words stand on it in the light theme, dark words on its shade in the dark theme: contrast at
 *      least 4.5 : 1 (WCAG 2.2, success criterion 1.4.3), by the standard's relative luminance
 *   2. the shade for the dark theme is the club's own, or the nearest on which the words can be read
 *   3. cells of tables are mixed of it and of paper, with numbers in ink or in paper: where these could not
 *      be read, the nearest shade on which they can is mixed in its place. That is no fault of the club's
 *
 * The nearest shade keeps hue and saturation and differs in lightness (HSL, CSS Color 4, section 7). Colours
 * are mixed as browsers do it, in Oklab (CSS Color 4, sections 9 and 12).
 */

import type { Club, SourceFile } from "../model.ts";
import { type Problem, problem } from "../problems.ts";

/** How a club writes a colour. */
export const HEX_COLOUR = /^#[0-9a-fA-F]{6}$/;

/** Paper and ink of a theme of the site: what `tokens.css` calls `--sheet` and `--ink`. */
export interface Theme {
	readonly name: "light" | "dark";
	readonly sheet: string;
	readonly ink: string;
}
export const LIGHT: Theme = { name: "light", sheet: "#fffdf7", ink: "#12303a" };
export const DARK: Theme = { name: "dark", sheet: "#121f25", ink: "#f3eee1" };

/** WCAG 2.2, 1.4.3 (AA), for words of ordinary size. */
const LEAST_CONTRAST = 4.5;

/** Shares of the colour in cells of tables (coverage.css): the most with numbers in ink, the least with numbers in paper. */
export const MOST_UNDER_INK = 0.36;
export const LEAST_UNDER_PAPER = 0.83;

/** The colours that a club's site is dressed in. */
export interface ClubColours {
	/** Under words in paper. */
	readonly light: string;
	readonly dark: string;
	/** What cells of tables, and bars of charts, are mixed of. */
	readonly tables: { readonly light: string; readonly dark: string };
}

/** The colours of a club that was checked; undefined where it has none. */
export function coloursOf({
	colour,
	colourDark,
}: Pick<Club, "colour" | "colourDark">): ClubColours | undefined {
	if (colour === undefined) return undefined;
	const light = colour.toLowerCase();
	const dark = colourDark?.toLowerCase() ?? nearestShade(light, (shade) => isReadable(shade, DARK)) ?? light;
	const mixed = (shade: string, theme: Theme) => nearestShade(shade, (one) => isMixable(one, theme)) ?? shade;
	return { light, dark, tables: { light: mixed(light, LIGHT), dark: mixed(dark, DARK) } };
}

/** Colours on which words could not be read, with the nearest shade on which they can. */
export function checkColours(file: SourceFile, { colour, colourDark }: Club): readonly Problem[] {
	const check = (field: string, shade: string | undefined, theme: Theme): readonly Problem[] => {
		if (shade === undefined || isReadable(shade, theme)) return [];
		const contrast = Math.floor(contrastOf(shade, theme.sheet) * 100) / 100;
		const nearest = nearestShade(shade, (one) => isReadable(one, theme));
		const words = theme === LIGHT ? "the light words" : "the dark words";
		return [
			problem(
				"H131",
				file.place([field]),
				`On \`${shade}\`, ${words} of the ${theme.name} theme have a contrast of ${contrast} : 1; at least ${LEAST_CONTRAST} : 1 can be read.`,
				nearest === undefined
					? {}
					: { fix: `Write \`"${nearest}"\`, the nearest shade that passes, or another colour.` },
			),
		];
	};
	const alone =
		colour === undefined && colourDark !== undefined
			? [
					problem("H105", file.place(["colour-dark"], "key"), "`colour-dark` has no `colour` beside it.", {
						fix: "Add `colour:`, the club's colour for the light theme.",
					}),
				]
			: [];
	return [...check("colour", colour, LIGHT), ...check("colour-dark", colourDark, DARK), ...alone];
}

function isReadable(shade: string, { sheet }: Theme): boolean {
	return contrastOf(shade, sheet) >= LEAST_CONTRAST;
}

function isMixable(shade: string, { sheet, ink }: Theme): boolean {
	return (
		contrastOf(mixOf(shade, MOST_UNDER_INK, sheet), ink) >= LEAST_CONTRAST &&
		contrastOf(mixOf(shade, LEAST_UNDER_PAPER, sheet), sheet) >= LEAST_CONTRAST
	);
}

type Three = readonly [number, number, number];

/** The contrast ratio of two colours, from 1 to 21 (WCAG 2.2, "contrast ratio"). */
export function contrastOf(one: string, other: string): number {
	const [light, dark] = [luminanceOf(one), luminanceOf(other)].sort((a, b) => b - a) as [number, number];
	return (light + 0.05) / (dark + 0.05);
}

/** From 0 for black to 1 for white (WCAG 2.2, "relative luminance"). */
function luminanceOf(colour: string): number {
	const [red, green, blue] = channelsOf(colour).map(linear) as unknown as Three;
	return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function linear(channel: number): number {
	return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
}

function gamma(channel: number): number {
	return channel <= 0.0031308 ? channel * 12.92 : 1.055 * channel ** (1 / 2.4) - 0.055;
}

function channelsOf(colour: string): Three {
	return [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255) as unknown as Three;
}

function hexOf(channels: Three): string {
	const byte = (channel: number) => Math.round(Math.min(1, Math.max(0, channel)) * 255);
	return `#${channels.map((channel) => byte(channel).toString(16).padStart(2, "0")).join("")}`;
}

/** `color-mix(in oklab, one share%, other)`. */
export function mixOf(one: string, share: number, other: string): string {
	const [a, b] = [oklabOf(one), oklabOf(other)];
	const [l, m, s] = a.map((value, i) => value * share + (b[i] ?? 0) * (1 - share)) as unknown as Three;
	const cubes = [
		(l + 0.3963377774 * m + 0.2158037573 * s) ** 3,
		(l - 0.1055613458 * m - 0.0638541728 * s) ** 3,
		(l - 0.0894841775 * m - 1.291485548 * s) ** 3,
	] as const;
	return hexOf(
		[
			4.0767416621 * cubes[0] - 3.3077115913 * cubes[1] + 0.2309699292 * cubes[2],
			-1.2684380046 * cubes[0] + 2.6097574011 * cubes[1] - 0.3413193965 * cubes[2],
			-0.0041960863 * cubes[0] - 0.7034186147 * cubes[1] + 1.707614701 * cubes[2],
		].map(gamma) as unknown as Three,
	);
}

function oklabOf(colour: string): Three {
	const [red, green, blue] = channelsOf(colour).map(linear) as unknown as Three;
	const l = Math.cbrt(0.4122214708 * red + 0.5363325363 * green + 0.0514459929 * blue);
	const m = Math.cbrt(0.2119034982 * red + 0.6806995451 * green + 0.1073969566 * blue);
	const s = Math.cbrt(0.0883024619 * red + 0.2817188376 * green + 0.6299787005 * blue);
	return [
		0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
		1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
		0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
	];
}

/** The shade of a colour that will do and differs least in lightness; undefined where none does. */
function nearestShade(colour: string, willDo: (shade: string) => boolean): string | undefined {
	if (willDo(colour)) return colour;
	const [hue, saturation, lightness] = hslOf(colour);
	for (let step = 1; step <= STEPS; step++) {
		for (const at of [lightness - step / STEPS, lightness + step / STEPS]) {
			if (at < 0 || at > 1) continue;
			const shade = hexOf(rgbOf(hue, saturation, at));
			if (willDo(shade)) return shade;
		}
	}
	return undefined;
}

/** Steps of lightness from black to white. */
const STEPS = 500;

function hslOf(colour: string): Three {
	const [red, green, blue] = channelsOf(colour);
	const most = Math.max(red, green, blue);
	const span = most - Math.min(red, green, blue);
	const lightness = most - span / 2;
	if (span === 0) return [0, 0, lightness];
	const hue =
		most === red
			? ((green - blue) / span + 6) % 6
			: most === green
				? (blue - red) / span + 2
				: (red - green) / span + 4;
	return [hue * 60, span / (1 - Math.abs(2 * lightness - 1)), lightness];
}

function rgbOf(hue: number, saturation: number, lightness: number): Three {
	const reach = saturation * Math.min(lightness, 1 - lightness);
	const channel = (n: number) => {
		const at = (n + hue / 30) % 12;
		return lightness - reach * Math.max(-1, Math.min(at - 3, 9 - at, 1));
	};
	return [channel(0), channel(8), channel(4)];
}
