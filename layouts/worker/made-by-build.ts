/**
 * Stands in the device's program for what the build does for it: pages that it sends ready made, since
 * they need programs and words that would be large for one page; rows of maps and dates of the term,
 * which are in the records. Names of characters (`&eacute;`) are looked up in those that the club's texts have:
 * all of them would be a tenth of the program.
 */

function madeByBuild(): never {
	throw new Error("The build makes this page.");
}

export const authorGuideView = madeByBuild;
export const authorGuidePage = madeByBuild;
export const whatChangedView = madeByBuild;
export const whatChangedPage = madeByBuild;
export const taughtView = madeByBuild;
export const taughtPage = madeByBuild;
export const taughtSumsView = madeByBuild;
export const taughtSumsPage = madeByBuild;
export const saidOfDrill = madeByBuild;
export const saidOfDrillPart = madeByBuild;

// What packages are asked for by.
export const layout = madeByBuild;
export class Graph {
	constructor() {
		madeByBuild();
	}
}
export const Temporal = { PlainDate: { from: madeByBuild }, PlainDateTime: { from: madeByBuild } };

let named: ReadonlyMap<string, string> = new Map();

export function knowNamed(characters: ReadonlyMap<string, string>): void {
	named = characters;
}

/** What Markdown asks for `&eacute;`: what is no name stays as it is. */
export const decodeHTMLStrict = (name: string): string => named.get(name) ?? name;

/** Markdown makes one at its start, and asks it nothing. */
export class LinkifyIt {}
