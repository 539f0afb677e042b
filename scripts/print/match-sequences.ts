/** What two sequences have in common, in order: pure. */

import { diffArrays } from "diff";

/** The time grows with the length times the differences; sequences with more than these are taken to differ whole. */
const MOST_DIFFERENCES = 3_000;

/** For every item of the second sequence, the position of its match in the first; undefined for none. */
export function matchSequences(
	first: readonly string[],
	second: readonly string[],
): readonly (number | undefined)[] {
	const changes = diffArrays([...first], [...second], { maxEditLength: MOST_DIFFERENCES });
	if (changes === undefined) return second.map(() => undefined);
	let at = 0;
	return changes.flatMap(({ added, removed, count }) => {
		if (added) return Array.from({ length: count }, () => undefined);
		at += count;
		return removed ? [] : Array.from({ length: count }, (_, i) => at - count + i);
	});
}
