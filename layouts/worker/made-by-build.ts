/**
 * Stands in the device's program for what the build does for it: pages that it sends ready made, since
 * they need programs and words that would be large for one page; rows of maps, dates of the term, and what
 * is written in Markdown, which are in the records.
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
export default madeByBuild;
export const layout = madeByBuild;
export class Graph {
	constructor() {
		madeByBuild();
	}
}
export const Temporal = { PlainDate: { from: madeByBuild }, PlainDateTime: { from: madeByBuild } };
