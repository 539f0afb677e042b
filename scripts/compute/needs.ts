/** What a group's stations need of the store room, side by side. */

import type { Id } from "../model.ts";
import type { BlockWork } from "./work.ts";

/** How many of an item, and the stations that use it, from 1. */
export interface Need {
	readonly count: number;
	readonly stations: readonly number[];
}

/**
 * What a group needs in a block, each station as its level does the drill. Stations stand side by side,
 * so their needs add up; options stand in place of each other, so the one that needs most counts.
 */
export function needsOf({ block, stations }: Pick<BlockWork, "block" | "stations">): ReadonlyMap<Id, Need> {
	return joined(
		block.kind,
		stations.map(({ station, drill, gymnasts }) => {
			const own = new Map<Id, number>();
			for (const { item, count, per } of drill.equipment) {
				own.set(item, (own.get(item) ?? 0) + (per === "gymnast" ? count * gymnasts : count));
			}
			return { station, needs: own };
		}),
	);
}

/** The needs of several stations of a block together. */
export function joined(
	kind: BlockWork["block"]["kind"],
	stations: readonly { readonly station: number; readonly needs: ReadonlyMap<Id, number> }[],
): ReadonlyMap<Id, Need> {
	const all = new Map<Id, Need>();
	for (const { station, needs } of stations) {
		for (const [item, count] of needs) {
			const before = all.get(item);
			if (before === undefined) all.set(item, { count, stations: [station] });
			else if (kind !== "options") {
				all.set(item, { count: before.count + count, stations: [...before.stations, station] });
			} else if (count > before.count) all.set(item, { count, stations: [station] });
		}
	}
	return all;
}
