/**
 * Stands in the device's program for what makes pages that the build sends ready made: they need
 * programs and words that would be large for one page.
 */

function madeByBuild(): never {
	throw new Error("The build makes this page.");
}

export const authorGuideView = madeByBuild;
export const authorGuidePage = madeByBuild;
export const whatChangedView = madeByBuild;
export const whatChangedPage = madeByBuild;
