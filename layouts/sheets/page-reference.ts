/** References by page number, whose words are filled in once pages are laid out. */

import { type Html, html } from "../../scripts/views/html.ts";

/** "W3 · Floor 2". */
export function labelOf(prefix: string, number: number): string {
	return prefix === "" ? String(number) : `${prefix} ${number}`;
}

/**
 * A reference by page: a box as wide as any number it may get, so that filling it moves nothing.
 *
 * @param label the target's part label
 * @param pages the most pages that part may have
 */
export function pageReference(id: string, label: string, pages: number): Html {
	return html`<a class="ref" href="#${id}"><span class="ref-room" aria-hidden="true">${longestNumber(label, pages)}</span><span class="ref-word" data-to="${id}"></span></a>`;
}

/** The widest number that a page of a part of so many pages at most may have. */
export function longestNumber(label: string, pages: number): string {
	return labelOf(label, 10 ** String(pages).length - 1).replace(/9/g, "8");
}
