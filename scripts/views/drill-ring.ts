/**
 * Drills in a ring, in an order that says nothing, from which each drill takes those that follow its own
 * place: so a large library does not show the same few everywhere, and a drill that comes or goes
 * changes the pages of a few others and not of all.
 */

import type { Id } from "../model.ts";

interface Place<D> {
	readonly at: number;
	readonly drill: D;
}

export class DrillRing<D extends { readonly id: Id }> {
	readonly #places: readonly Place<D>[];

	constructor(drills: readonly D[]) {
		this.#places = drills
			.map((drill) => ({ at: hashOf(drill.id), drill }))
			.sort((a, b) => a.at - b.at || (a.drill.id < b.drill.id ? -1 : 1));
	}

	/** Up to `most` drills after the place of an id, which need not be in the ring. */
	after(id: Id, most: number): readonly D[] {
		const at = hashOf(id);
		let low = 0;
		for (let high = this.#places.length; low < high; ) {
			const middle = (low + high) >> 1;
			if ((this.#places[middle] as Place<D>).at <= at) low = middle + 1;
			else high = middle;
		}
		const found: D[] = [];
		for (let i = 0; i < Math.min(most, this.#places.length); i++) {
			found.push((this.#places[(low + i) % this.#places.length] as Place<D>).drill);
		}
		return found;
	}
}

/** FNV-1a, 32 bits: spreads ids evenly, and is the same everywhere. */
export function hashOf(id: Id): number {
	let hash = 0x811c9dc5;
	for (let i = 0; i < id.length; i++) hash = Math.imul(hash ^ id.charCodeAt(i), 0x01000193);
	return hash >>> 0;
}
