/**
 * Which pages a device makes itself when they are opened, and what it makes them of: the texts of pages
 * (page-text.ts) take a fraction of the pages' room, on the way and on the device.
 */

import type { SitePageKind } from "../site.ts";

/** What all pages share, as devices get it; a host has it only within a pack. */
export const SHARED_FILE = "shared.json";

/**
 * Kinds whose pages are made of something smaller than their texts (tables-maker.ts), or by programs
 * that would be large for one page.
 */
const MADE_OTHERWISE: readonly SitePageKind[] = ["author-guide", "coverage", "term"];

export function isMadeOnDevices(kind: SitePageKind): boolean {
	return !MADE_OTHERWISE.includes(kind);
}
