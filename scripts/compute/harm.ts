/** What each finding harms: the order in which a director reads them, and the kinds by which they are counted. */

import type { FindingCode } from "../problems.ts";

/** Kinds of harm, the worst first. */
export const HARMS = ["safety", "set-out", "time", "dose", "coverage", "upkeep"] as const;
export type Harm = (typeof HARMS)[number];

/** What each finding harms: who is not ready or not looked after, what cannot be set up, what does not fit, what is missed. */
const HARM_OF: Readonly<Record<FindingCode, Harm>> = {
	H301: "safety",
	H302: "safety",
	H330: "safety",
	H331: "safety",
	H332: "safety",
	H339: "safety",
	H350: "safety",
	H310: "set-out",
	H317: "set-out",
	H318: "set-out",
	H319: "set-out",
	H320: "set-out",
	H346: "set-out",
	H333: "set-out",
	H336: "set-out",
	H337: "set-out",
	H308: "time",
	H313: "time",
	H314: "time",
	H315: "time",
	H344: "time",
	H309: "dose",
	H311: "dose",
	H316: "dose",
	H334: "dose",
	H335: "dose",
	H340: "dose",
	H341: "dose",
	H303: "coverage",
	H304: "coverage",
	H305: "coverage",
	H306: "coverage",
	H307: "coverage",
	H338: "coverage",
	H343: "coverage",
	H353: "coverage",
	H312: "upkeep",
	H342: "upkeep",
	H345: "upkeep",
	H351: "upkeep",
	H352: "upkeep",
};

export function harmOf(code: FindingCode): Harm {
	return HARM_OF[code];
}
