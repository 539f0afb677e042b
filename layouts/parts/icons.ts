/**
 * Small line drawings: each apparatus from the side as it stands in the hall, and the signs of the
 * frame. Drawn for this project; always beside words, never instead of them.
 *
 * Pages name an icon, and one picture that all share has its drawing: drawn in each page, icons were a
 * sixth of it. Printed sheets draw theirs, as lines of the PDF.
 */

import { type Html, html, raw } from "../../scripts/views/html.ts";

const APPARATUS: Readonly<Record<string, string>> = {
	"warm-up": '<circle cx="12" cy="12" r="8.5" stroke-dasharray="2.6 2.74"/><path d="M12 8v4l3 2"/>',
	floor: '<path d="M3 15l6-8h12l-6 8z"/><path d="M3 15v2.5h12l6-8V7M15 15v2.5M6 11h12"/>',
	vault: '<path d="M8 8.5c2-2.5 9-2.5 11.5-.5l-1 3h-9zM13.5 11v8M10.5 19h6M2 19l4.5-2v2z"/>',
	bars: '<path d="M5 20V6M9 20V6M15.5 20V11M20.5 20V11M3.5 6h7M14 11h8M3 20h19"/>',
	beam: '<path d="M2 8h20v3H2zM6 11l-2 9M6 11l2 9M18 11l-2 9M18 11l2 9"/>',
	trampoline: '<path d="M2 10h20M5 10l-2 9M19 10l2 9M5 10q7 7 14 0"/>',
	tumble: '<path d="M2 17h20v2.5H2zM4 14a5 5 0 0 1 8 0M12 14a5 5 0 0 1 8 0"/>',
	rings: '<path d="M7 3v8M17 3v8"/><circle cx="7" cy="14.5" r="3.5"/><circle cx="17" cy="14.5" r="3.5"/>',
	pommel:
		'<path d="M3 9h18v5H3zM9 9a2 3 0 0 1 2 0M13 9a2 3 0 0 1 2 0M6 14l-1 6M18 14l1 6M8.5 9V6h2.5v3M13 9V6h2.5v3"/>',
	"parallel-bars": '<path d="M2 8h16M6 5h16M6 8v12M14 8v12M10 5v3M18 5v12"/>',
	"high-bar": '<path d="M4 21V4h16v17M2 21h4M18 21h4"/>',
};

const SIGNS = {
	week: '<path d="M4 5h16v15H4zM4 10h16M8 3v4M16 3v4"/><path d="M8 14h3v3H8z" fill="currentColor"/>',
	classes: '<circle cx="12" cy="12" r="9"/><path d="M12 7v5l3.5 2.5"/>',
	apparatus: '<path d="M2 9h20v3H2zM6 12l-2 8M6 12l2 8M18 12l-2 8M18 12l2 8"/>',
	drills: '<path d="M5 4h14v16H5zM8.5 8.5h7M8.5 12h7M8.5 15.5h4"/>',
	search: '<circle cx="10.5" cy="10.5" r="6.5"/><path d="M15.5 15.5L21 21"/>',
	shapes: '<circle cx="7" cy="6" r="2.2"/><path d="M7.5 9c1 4 2 6 5 7s5 1 8 .5"/>',
	skills: '<path d="M4 20v-4h5v-5h5V6h6"/>',
	levels: '<path d="M4 20v-5M10 20V11M16 20V7M21 20V4"/>',
	equipment: '<path d="M3 14l4-8h14l-4 8zM3 14v4h14l4-8V6M17 14v4"/>',
	coverage:
		'<path d="M4 4h16v16H4zM4 9.3h16M4 14.6h16M9.3 4v16M14.6 4v16"/><path d="M9.3 9.3h5.3v5.3H9.3z" fill="currentColor"/>',
	term: '<path d="M3 6h18M3 12h18M3 18h18"/><path d="M5 4.500h5v3H5zM8 10.500h8v3H8zM14 16.500h5v3h-5z" fill="currentColor"/>',
	measures: '<path d="M3 8h18v8H3zM7 8v4M11 8v3M15 8v4M19 8v3"/>',
	findings: '<path d="M6 21V4h11l-2 4 2 4H6"/>',
	guides: '<path d="M12 6c-2-1.6-5-2-8-2v14c3 0 6 .4 8 2 2-1.6 5-2 8-2V4c-3 0-6 .4-8 2zM12 6v14"/>',
	author: '<path d="M4 20l1-4L16 5l3 3L8 19zM14 7l3 3"/>',
	about: '<path d="M12 3l8 3v6c0 4.5-3.4 7.7-8 9-4.6-1.3-8-4.5-8-9V6z"/><path d="M12 8v5M12 15.5v.5"/>',
	emergency:
		'<path d="M8.300 3h7.400L21 8.300v7.400L15.700 21H8.300L3 15.700V8.300z"/><path d="M12 7.500v5.500M12 16.200v.3"/>',
	menu: '<path d="M4 7h16M4 12h16M4 17h16"/>',
	light:
		'<circle cx="12" cy="12" r="4"/><path d="M12 3v2M12 19v2M3 12h2M19 12h2M5.6 5.6L7 7M17 17l1.4 1.4M5.6 18.4L7 17M17 7l1.4-1.4"/>',
	type: '<path d="M2 19L8 5l6 14M4.2 14h7.600"/><path d="M21.500 12v7"/><circle cx="18.500" cy="15.500" r="3"/>',
	caution: '<path d="M12 3.5L22 20.5H2z"/><path d="M12 9.5v5M12 17v.8"/>',
	spotting:
		'<path d="M7 12V6.5a1.5 1.5 0 0 1 3 0V11M10 10V4.8a1.5 1.5 0 0 1 3 0V10M13 10V6a1.5 1.5 0 0 1 3 0v5.500M16 9a1.500 1.500 0 0 1 3 0v5c0 4-2.500 7-6.500 7-3.200 0-4.700-1.400-6.200-4L4.200 13.300a1.500 1.500 0 0 1 2.600-1.500L7 12"/>',
} as const;

export type Sign = keyof typeof SIGNS;

/** Boxes on each other: an apparatus that nobody drew. Letters would be read as part of the heading beside it. */
const UNDRAWN = '<path d="M2 19h20M4 19v-5h16v5M8 14V9h8v5"/>';

const ICONS: readonly (readonly [name: string, inside: string])[] = [
	...Object.entries(SIGNS).map(([name, inside]) => [`i-${name}`, inside] as const),
	...Object.entries(APPARATUS).map(([name, inside]) => [`a-${name}`, inside] as const),
	["a-other", UNDRAWN],
];

/** A sign of the frame; says nothing to a screen reader, since words stand beside it. */
export function sign(name: Sign): Html {
	return named(`i-${name}`);
}

/** An apparatus, with its name beside it. */
export function apparatusIcon(id: string): Html {
	return named(`a-${drawnAs(id) ?? "other"}`);
}

/** The same as a drawing of its own, for paper. */
export function drawnSign(name: Sign): Html {
	return drawing(SIGNS[name]);
}

export function drawnApparatus(id: string): Html {
	return drawing(APPARATUS[drawnAs(id) ?? ""] ?? UNDRAWN);
}

/** The picture of all icons, each behind its name, from the root of the site. */
export const ICONS_FILE = "assets/icons.svg";

/** Where each icon stands in the picture: said by the style sheet of the site. */
export function iconStyles(): string {
	return ICONS.map(([name]) => `.${name}{background-image:url("icons.svg#${name}")}`).join("");
}

/** The picture itself, in the ink of light pages: styles turn it white on dark ground. */
export function iconPicture(): string {
	const drawn = ICONS.map(
		([name, inside], i) =>
			`<view id="${name}" viewBox="0 ${SIZE * i} ${SIZE} ${SIZE}"/><g transform="translate(0 ${SIZE * i})">${inside.replaceAll("currentColor", INK)}</g>`,
	);
	return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${SIZE} ${SIZE * ICONS.length}" fill="none" stroke="${INK}" stroke-width="1.8" stroke-linecap="round" stroke-linejoin="round">${drawn.join("")}</svg>`;
}

const SIZE = 24;
const INK = "#12303a";

/** The drawing that stands for an apparatus, by its id or what it is a kind of. */
function drawnAs(id: string): string | undefined {
	return [id, id.replace(/^(uneven|womens?|mens?|balance|low|high)-/, "")].find((name) => name in APPARATUS);
}

function named(name: string): Html {
	return html`<i class="${name}"></i>`;
}

function drawing(inside: string): Html {
	return html`<svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">${raw(inside)}</svg>`;
}
