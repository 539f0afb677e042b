/** Cycles in what must come before what, each with its whole path. */

import type { Id } from "../model.ts";

/**
 * Every cycle that a walk along the arrows closes, each once, starting at the member that comes first
 * in `nodes`. A graph has no cycle exactly when the result is empty.
 *
 * @param arrows where each node points; unknown nodes are passed over
 * @returns paths without the repeated end: [a, b] stands for a → b → a
 */
export function findCycles(
	nodes: Iterable<Id>,
	arrows: (node: Id) => readonly Id[],
): readonly (readonly Id[])[] {
	const order = new Map<Id, number>([...nodes].map((node, i) => [node, i]));
	const state = new Map<Id, "open" | "done">();
	const cycles: (readonly Id[])[] = [];
	for (const start of order.keys()) {
		if (state.has(start)) continue;
		// An explicit stack: a long chain of drills must not overflow the call stack.
		const path: { readonly node: Id; next: number }[] = [{ node: start, next: 0 }];
		state.set(start, "open");
		while (path.length > 0) {
			const top = path[path.length - 1];
			if (top === undefined) break;
			const target = arrows(top.node)[top.next++];
			if (target === undefined) {
				state.set(top.node, "done");
				path.pop();
			} else if (order.has(target)) {
				if (state.get(target) === "open") {
					const from = path.findIndex((step) => step.node === target);
					cycles.push(
						fromFirst(
							path.slice(from).map((step) => step.node),
							order,
						),
					);
				} else if (!state.has(target)) {
					state.set(target, "open");
					path.push({ node: target, next: 0 });
				}
			}
		}
	}
	return cycles;
}

function fromFirst(cycle: readonly Id[], order: ReadonlyMap<Id, number>): readonly Id[] {
	const ranks = cycle.map((node) => order.get(node) ?? 0);
	const first = ranks.indexOf(Math.min(...ranks));
	return [...cycle.slice(first), ...cycle.slice(0, first)];
}
