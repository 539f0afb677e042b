/**
 * Areas that a club may leave out of the coaches' site: where each stands in the menu, and what goes with
 * it. The list is for pages, for what is published and for what is linked alike.
 */

import type { Area } from "../model.ts";
import type { Words } from "../words/words.ts";

interface AreaFacts {
	readonly place: keyof Words["destinations"];
	/** Files that hold the same, and folders that only it leads to. */
	readonly paths: readonly string[];
}

const AREAS: Readonly<Record<Area, AreaFacts>> = {
	findings: { place: "findings", paths: ["findings/", "data/findings.json"] },
	measures: {
		place: "measures",
		paths: [
			"measures/",
			...["coaches", "equipment", "load", "order", "practice", "set-out", "spacing", "time"].map(
				(table) => `data/${table}.csv`,
			),
		],
	},
	"author-guide": { place: "authorGuide", paths: ["author-guide/", "schemas/"] },
};

/** Whether a place in the menu is left out. */
export function isPlaceLeftOut(leaveOut: Iterable<Area>, place: keyof Words["destinations"]): boolean {
	return [...leaveOut].some((area) => AREAS[area].place === place);
}

/** Whether a page or file, by its path from the root of the site, is left out. */
export function isLeftOut(leaveOut: Iterable<Area>, to: string): boolean {
	return [...leaveOut].some((area) =>
		AREAS[area].paths.some((path) => (path.endsWith("/") ? to.startsWith(path) : to === path)),
	);
}
