/**
 * What two sequences have in common, in order: pure.
 *
 *   1. what is the same at both ends is matched
 *   2. what occurs once in each is matched, as much of it as stands in the same order in both
 *   3. between two such matches the same is done again; a short rest without any is compared in full
 *
 * The time taken grows with the length of what differs, not with its square.
 */

/** Above this many comparisons a rest without anything single is taken to differ. */
const MOST_COMPARISONS = 4_000_000;

/** For every item of the second sequence, the position of its match in the first; undefined for none. */
export function matchSequences(
	first: readonly string[],
	second: readonly string[],
): readonly (number | undefined)[] {
	const matches = second.map((): number | undefined => undefined);
	const open: (readonly [number, number, number, number])[] = [[0, first.length, 0, second.length]];
	for (let span = open.pop(); span !== undefined; span = open.pop()) {
		let [a, aEnd, b, bEnd] = span;
		while (a < aEnd && b < bEnd && first[a] === second[b]) matches[b++] = a++;
		while (a < aEnd && b < bEnd && first[aEnd - 1] === second[bEnd - 1]) matches[--bEnd] = --aEnd;
		if (a === aEnd || b === bEnd) continue;
		const anchors = increasing(singles(first, a, aEnd, second, b, bEnd));
		if (anchors.length === 0) {
			if ((aEnd - a) * (bEnd - b) <= MOST_COMPARISONS) compare(first, a, aEnd, second, b, bEnd, matches);
			continue;
		}
		for (const [inFirst, inSecond] of anchors) {
			matches[inSecond] = inFirst;
			open.push([a, inFirst, b, inSecond]);
			a = inFirst + 1;
			b = inSecond + 1;
		}
		open.push([a, aEnd, b, bEnd]);
	}
	return matches;
}

type Pair = readonly [number, number];

/** Positions of what occurs once in each, by their order in the second. */
function singles(
	first: readonly string[],
	a: number,
	aEnd: number,
	second: readonly string[],
	b: number,
	bEnd: number,
): readonly Pair[] {
	const once = (items: readonly string[], from: number, end: number) => {
		const found = new Map<string, number>();
		for (let i = from; i < end; i++) {
			const item = items[i] ?? "";
			found.set(item, found.has(item) ? -1 : i);
		}
		return found;
	};
	const inFirst = once(first, a, aEnd);
	return [...once(second, b, bEnd)].flatMap(([item, position]): readonly Pair[] => {
		const match = inFirst.get(item) ?? -1;
		return position < 0 || match < 0 ? [] : [[match, position]];
	});
}

/** The longest run of pairs whose first positions rise, too. */
function increasing(pairs: readonly Pair[]): readonly Pair[] {
	// The last pair of the best run of each length, and what came before each pair.
	const ends: number[] = [];
	const before: (number | undefined)[] = [];
	pairs.forEach(([position], i) => {
		let low = 0;
		let high = ends.length;
		while (low < high) {
			const middle = (low + high) >> 1;
			if ((pairs[ends[middle] ?? 0]?.[0] ?? 0) < position) low = middle + 1;
			else high = middle;
		}
		before[i] = ends[low - 1];
		ends[low] = i;
	});
	const run: Pair[] = [];
	for (let i = ends.at(-1); i !== undefined; i = before[i]) {
		const pair = pairs[i];
		if (pair !== undefined) run.push(pair);
	}
	return run.reverse();
}

/** The longest common subsequence of two short spans, by the table of its lengths. */
function compare(
	first: readonly string[],
	a: number,
	aEnd: number,
	second: readonly string[],
	b: number,
	bEnd: number,
	matches: (number | undefined)[],
): void {
	const wide = bEnd - b + 1;
	const lengths = new Uint32Array((aEnd - a + 1) * wide);
	const at = (i: number, j: number) => lengths[(i - a) * wide + (j - b)] ?? 0;
	for (let i = aEnd - 1; i >= a; i--) {
		for (let j = bEnd - 1; j >= b; j--) {
			lengths[(i - a) * wide + (j - b)] =
				first[i] === second[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
		}
	}
	let [i, j] = [a, b];
	while (i < aEnd && j < bEnd) {
		if (first[i] === second[j]) matches[j++] = i++;
		else if (at(i + 1, j) >= at(i, j + 1)) i++;
		else j++;
	}
}
