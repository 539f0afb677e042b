/**
 * "More like this": the drills that train the same shapes and skills as one drill, those first that
 * offer another apparatus or another level.
 *
 * Nearness is the share of what either trains that both train (Jaccard 1901), each shape and skill
 * weighed by how few drills have it, as the straight shape says less of a drill than the kip.
 */

/** Drills that come near one, and how near by drill: from 0 to 1. */
export interface Alike {
	readonly drills: readonly number[];
	readonly scores: Float64Array;
}

/** For each drill, places of its values. */
type Tags = readonly (readonly number[])[];

/** Less in common than this, and a drill is not like another. */
const LEAST = 0.2;
/** What a drill for the same levels on the same apparatus counts. */
const SAME_PLACE = 0.5;

/**
 * @param same what has to be alike, facet by facet (shapes, skills)
 * @param other what should be another (apparatus, levels)
 */
export function alikeOf(
	drill: number,
	{ same, other }: { readonly same: readonly Tags[]; readonly other: readonly Tags[] },
): Alike {
	const size = same[0]?.length ?? 0;
	const shared = new Float64Array(size);
	const own = new Float64Array(size);
	for (const tags of same) {
		const counts: number[] = [];
		for (const values of tags) for (const value of values) counts[value] = (counts[value] ?? 0) + 1;
		const rarity = counts.map((count) => Math.log(1 + size / count));
		const wanted = new Set(tags[drill]);
		tags.forEach((values, i) => {
			for (const value of values) {
				const weight = rarity[value] ?? 0;
				own[i] = (own[i] as number) + weight;
				if (wanted.has(value)) shared[i] = (shared[i] as number) + weight;
			}
		});
	}
	const scores = new Float64Array(size);
	const drills: number[] = [];
	const places = other.map((tags) => new Set(tags[drill]));
	for (let i = 0; i < size; i++) {
		const both = shared[i] as number;
		if (i === drill || both === 0) continue;
		const nearness = both / ((own[i] as number) + (own[drill] as number) - both);
		if (nearness < LEAST) continue;
		const elsewhere = other.some((tags, f) => tags[i]?.some((value) => !places[f]?.has(value)));
		scores[i] = elsewhere ? nearness : nearness * SAME_PLACE;
		drills.push(i);
	}
	return { drills, scores };
}
