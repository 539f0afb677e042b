/** References by page number, whose words are filled in once pages are laid out. */

import { type Html, html } from "../../scripts/views/html.ts";
import type { BinderPlace } from "../../scripts/views/sheets/places.ts";

/** "D · Floor 2". */
export function labelOf(prefix: string, number: number): string {
	return prefix === "" ? String(number) : `${prefix} ${number}`;
}

/** A reference by page: a box as wide as any number it may get, so that filling it moves nothing. */
export function pageReference(place: Pick<BinderPlace, "anchor" | "label" | "pages">): Html {
	return html`<a class="ref" href="#${place.anchor}"><span class="ref-room" aria-hidden="true">${longestNumber(place)}</span><span class="ref-word" data-to="${place.anchor}"></span></a>`;
}

/** The widest number that a page of a part of so many pages at most may have. */
export function longestNumber({ label, pages }: Pick<BinderPlace, "label" | "pages">): string {
	return labelOf(label, 10 ** String(pages).length - 1).replace(/9/g, "8");
}
