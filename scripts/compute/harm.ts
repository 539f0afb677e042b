/** What each finding harms: the order in which a director reads them, and the kinds by which they are counted. */

import type { FindingCode } from "../problems.ts";

/** Kinds of harm, the worst first. */
export const HARMS = ["safety", "set-out", "time", "dose", "coverage", "upkeep"] as const;
export type Harm = (typeof HARMS)[number];

/** What each finding harms: who is not ready or not looked after, what cannot be set up, what does not fit, what is missed. */
const CODES = {
	safety: ["H301", "H302", "H330", "H331", "H332", "H339", "H350"],
	"set-out": ["H310", "H317", "H318", "H319", "H320", "H346", "H333", "H336", "H337"],
	time: ["H308", "H313", "H314", "H315", "H344"],
	dose: ["H309", "H311", "H316", "H334", "H335", "H340", "H341"],
	coverage: ["H303", "H304", "H305", "H306", "H307", "H338", "H343", "H353"],
	upkeep: ["H312", "H342", "H345", "H351", "H352"],
} as const satisfies Readonly<Record<Harm, readonly FindingCode[]>>;

/** A code that is in no list is no argument: it does not compile. */
export function harmOf(code: (typeof CODES)[Harm][number]): Harm {
	return HARMS.find((harm) => CODES[harm].some((one) => one === code)) as Harm;
}
