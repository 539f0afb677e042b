/**
 * Change lists that would mend a finding: for each kind the plainest changes first, each tried on the plan
 * (mend-trial.ts), so that only those are offered that are sure to take it away and ask for no more minutes
 * than there are. Worked out when a page asks. What else a list does, `check --what-if` says.
 *
 * No change of the plan is sure to mend these:
 *   H312, H342, H345, H351, H352   a review, an entry, a date or a report, which stand in other files
 *   H314               the week has no file that a list could change; `new week` writes one
 *   H315               what the missed day taught is for the director to choose
 *   H332, H339         the rotations and the coaches stand in the term
 *   H353               where there is room again for what was missed is for the director to choose
 * and where every list fails its trial, as for one drill that needs more of an item than is owned
 * (H310), or one that a class must not do at all: which drill does as well is a coach's choice.
 */

import type { Finding, PlanChange } from "../model.ts";
import type { Counted } from "./measure.ts";
import {
	besideOthers,
	earlierOrLater,
	inOtherPlaces,
	lessToCarry,
	lighter,
	longer,
	missedOrLater,
	moreOften,
	otherWay,
	reached,
	shorterBlocks,
	shorterHolds,
	somethingToDo,
	standingFree,
	thatFits,
	withFewerCoaches,
	withFewerNew,
	withoutHeight,
	withoutItem,
} from "./mend-lists.ts";
import { firstThatMends } from "./mend-trial.ts";

/** Lists to try for a finding, the plainest first. */
export type Lists = (counted: Counted, finding: Finding) => Iterable<readonly PlanChange[]>;

const LISTS: Readonly<Partial<Record<Finding["code"], Lists>>> = {
	H301: earlierOrLater,
	H302: earlierOrLater,
	H303: moreOften,
	H304: moreOften,
	H305: moreOften,
	H306: moreOften,
	H307: otherWay,
	H308: shorterBlocks,
	H309: besideOthers,
	H310: withoutItem,
	H311: lighter,
	H313: somethingToDo,
	H316: longer,
	H317: withoutItem,
	H318: standingFree,
	H319: standingFree,
	H320: standingFree,
	H330: earlierOrLater,
	H331: withFewerCoaches,
	H333: lessToCarry,
	H334: thatFits,
	H335: shorterHolds,
	H336: withoutHeight,
	H337: inOtherPlaces,
	H338: reached,
	H340: lighter,
	H341: withFewerNew,
	H343: reached,
	H344: longer,
	H350: missedOrLater,
};

/** Changes of the plan that are sure to mend a finding; none where none are known to. */
export function mendOf({ curriculum, exposures }: Counted, finding: Finding): readonly PlanChange[] {
	const lists = LISTS[finding.code]?.({ curriculum, exposures }, finding) ?? [];
	return firstThatMends(curriculum, finding, lists) ?? [];
}

/** Of each kind so many findings are mended: what shows two hundred times is for `mend` to look at as a whole. */
const OF_A_KIND = 20;

/** What would mend the first findings of each kind, of those that something is sure to. */
export function mendsOf(
	counted: Counted,
	findings: readonly Finding[],
): ReadonlyMap<Finding, readonly PlanChange[]> {
	const first = [...Map.groupBy(findings, ({ code }) => code).values()].flatMap((all) =>
		all.slice(0, OF_A_KIND),
	);
	const mends = first.map((finding) => [finding, mendOf(counted, finding)] as const);
	return new Map(mends.filter(([, changes]) => changes.length > 0));
}
