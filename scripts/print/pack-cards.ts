/**
 * Runs inside the browser's page, never in Node: puts the cards of an apparatus together into pages.
 *
 *   1. cards that an earlier edition had keep their page, as long as they fit it together
 *   2. of the others the highest goes first, to the page that it fills best; what fits none begins one
 *   3. pages that an earlier edition had come first, in its order, the others by the first card on them
 *
 * So most pages hold two cards, and a card that is added moves no other.
 */

/** A card: its height with the space that parts it from the next one, pixels. */
export interface CardToPack {
	readonly id: string;
	readonly height: number;
}

/** The cards of each page, by their positions. `earlier` has the ids of each page of an earlier edition. */
export function packCards(
	cards: readonly CardToPack[],
	room: number,
	earlier: readonly (readonly string[])[] = [],
): readonly (readonly number[])[] {
	const positions = new Map(cards.map(({ id }, position) => [id, position]));
	const heightOf = (position: number) => cards[position]?.height ?? 0;
	const used = (page: readonly number[]) => page.reduce((sum, position) => sum + heightOf(position), 0);
	const placed = new Set<number>();
	const pages: number[][] = earlier.map((ids) => {
		const page: number[] = [];
		for (const id of ids) {
			const position = positions.get(id);
			if (position === undefined || placed.has(position)) continue;
			if (page.length > 0 && used(page) + heightOf(position) > room) continue;
			page.push(position);
			placed.add(position);
		}
		return page;
	});
	const kept = pages.length;
	const rest = cards.map((_, position) => position).filter((position) => !placed.has(position));
	for (const position of rest.toSorted((a, b) => heightOf(b) - heightOf(a) || a - b)) {
		const fitting = pages
			.filter((page) => page.length > 0 && used(page) + heightOf(position) <= room)
			.toSorted((a, b) => used(b) - used(a))[0];
		if (fitting === undefined) pages.push([position]);
		else fitting.push(position);
	}
	for (const page of pages.slice(kept)) page.sort((a, b) => a - b);
	return [
		// A page whose cards are all gone is none; those after it move up.
		...pages.slice(0, kept).filter((page) => page.length > 0),
		...pages.slice(kept).toSorted((a, b) => (a[0] ?? 0) - (b[0] ?? 0)),
	];
}
