/**
 * Hands a finished handbook to Eleventy, whose data files cannot be given arguments.
 *
 * The build command offers an edition, runs Eleventy, and takes the offer back; `_data/handbook.ts`
 * takes it. Where nothing was offered (Eleventy run alone), the data file builds its own.
 */

import type { SitePage } from "./site.ts";

/** What Eleventy needs to write a site. */
export interface Edition {
	readonly pages: readonly SitePage[];
	/** Told the text of each page as it is made. */
	readonly made?: (page: SitePage, text: string) => void;
}

let offered: Edition | undefined;

/** Lays an edition ready for the next run; undefined takes it back. */
export function offerEdition(edition: Edition | undefined): void {
	offered = edition;
}

/** The edition that was laid ready, if any. */
export function takeEdition(): Edition | undefined {
	return offered;
}
