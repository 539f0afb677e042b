/** The nearest known name to one that was not found: what "did you mean" says. */

import { distance } from "fastest-levenshtein";

/**
 * The known name with the fewest letters to change, or undefined where even that is far away: more
 * than a third of the letters, though two may always be wrong in a name of four or more.
 */
export function nearestName(wanted: string, known: Iterable<string>): string | undefined {
	const folded = wanted.toLowerCase();
	let best: string | undefined;
	let least = Math.max(wanted.length < 4 ? 1 : 2, Math.floor(wanted.length / 3)) + 1;
	for (const name of known) {
		if (Math.abs(name.length - wanted.length) >= least) continue;
		const away = distance(folded, name.toLowerCase());
		if (away < least) {
			least = away;
			best = name;
		}
	}
	return best;
}
