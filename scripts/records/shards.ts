/**
 * Which drills share a file, in the records and in the data: where a drill lies depends on its id alone, so
 * that a changed or a new one changes one file.
 */

import type { Id } from "../model.ts";
import { hashOf } from "../views/drill-ring.ts";

/** Drills that share a file, about: a smaller one is fetched quicker when one of them changes, larger ones compress better. */
const DRILLS_TOGETHER = 16;
/** Files of drills at most. */
const MOST_SHARDS = 64;

/** Drills by their files, each in the order given. */
export function inShards<T extends { readonly id: Id }>(drills: readonly T[]): readonly (readonly T[])[] {
	const shards = shardsFor(drills.length);
	const byShard = Map.groupBy(drills, shardIn(drills.length));
	return Array.from({ length: shards }, (_, shard) => byShard.get(shard) ?? []);
}

/** The file that a drill of so many lies in. */
export function shardIn(drills: number): (drill: { readonly id: Id }) => number {
	const shards = shardsFor(drills);
	return ({ id }) => hashOf(id) % shards;
}

/** A power of two, so that drills stay in their files while a club writes a few more. */
export function shardsFor(drills: number): number {
	let shards = 1;
	while (shards < MOST_SHARDS && shards * DRILLS_TOGETHER < drills) shards *= 2;
	return shards;
}
