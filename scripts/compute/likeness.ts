/** How much alike drills are: what is swapped for another loses the least where they train the same. */

import type { LinkedDrill } from "../model.ts";
import { onceEach } from "./get-or-make.ts";

/** How much of what two drills train is the same, from 0 to 1. */
export function likeness(a: LinkedDrill, b: LinkedDrill): number {
	const [one, other] = [trainedBy(a), trainedBy(b)];
	let both = 0;
	for (const what of one) if (other.has(what)) both++;
	const all = one.size + other.size - both;
	return all === 0 ? 0 : both / all;
}

const trainedBy = onceEach(({ skills, shapes, direction, performs }: LinkedDrill): ReadonlySet<string> => {
	const way = direction === undefined ? [] : [`${direction} direction`];
	return new Set([...skills, ...performs, ...shapes, ...way]);
});
