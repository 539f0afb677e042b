/**
 * The club's own styles, which follow ours on every page: its colour as the properties of `site.css`, then
 * its style sheet as it was checked. They are one file, by one name, so that a change of them changes no
 * page; devices know it by its hash.
 */

import type { Handbook } from "../handbook.ts";
import { coloursOf } from "../validate/club-colours.ts";
import { isStyled } from "../views/pages.ts";

/** Undefined for a club without styles of its own. */
export function clubStyles(handbook: Pick<Handbook, "curriculum" | "style">): string | undefined {
	if (!isStyled(handbook)) return undefined;
	const colours = coloursOf(handbook.curriculum.club);
	// On paper brand is ink, as ours is: these lines come after those that say so.
	const properties =
		colours === undefined
			? ""
			: `@media screen{:root{--brand:light-dark(${colours.light},${colours.dark});--heat:light-dark(${colours.tables.light},${colours.tables.dark})}}\n`;
	return properties + (handbook.style ?? "");
}
