/**
 * What comes before a skill and what it leads to, as a graph without circles.
 *
 *   1. take the neighbourhood of a skill, some steps up and some down
 *   2. tell arrows that say something new from those that a longer way already says
 *
 * Ids that a skill needs and that are not among the nodes are passed over. Circles never come here:
 * linking stops on them; one that does throws.
 */

import type { Id } from "../model.ts";

/** A skill, as far as its place in the graph goes. */
export interface GraphNode {
	readonly id: Id;
	/** Ids of what should come before it. */
	readonly needs: readonly Id[];
}

export interface Arrow {
	readonly from: Id;
	readonly to: Id;
	/** Another way through the same nodes goes from one to the other. */
	readonly redundant: boolean;
}

/** How far to go from a skill: steps towards what it needs, and towards what it leads to. */
export interface Reach {
	readonly before: number;
	readonly after: number;
}

/**
 * The nodes within reach of one, in their given order, the one itself among them. Throws when the id is
 * not among the nodes.
 */
export function around<Node extends GraphNode>(
	nodes: readonly Node[],
	id: Id,
	reach: Reach,
): readonly Node[] {
	const byId = new Map(nodes.map((node) => [node.id, node]));
	if (!byId.has(id)) throw new RangeError(`${id} is not among the skills`);
	const leadsTo = new Map<Id, Id[]>();
	for (const node of nodes) {
		for (const need of node.needs) leadsTo.set(need, [...(leadsTo.get(need) ?? []), node.id]);
	}
	const near = new Set([
		...walk(id, reach.before, (at) => byId.get(at)?.needs ?? []),
		...walk(id, reach.after, (at) => leadsTo.get(at) ?? []),
	]);
	return nodes.filter((node) => near.has(node.id));
}

function walk(start: Id, steps: number, next: (id: Id) => readonly Id[]): ReadonlySet<Id> {
	const seen = new Set<Id>([start]);
	let edge: readonly Id[] = [start];
	for (let step = 0; step < steps && edge.length > 0; step++) {
		edge = [...new Set(edge.flatMap(next))].filter((id) => !seen.has(id));
		for (const id of edge) seen.add(id);
	}
	return seen;
}

/** Ids so that each comes after all it needs; among equals in the given order. Throws on a circle. */
export function inOrder(nodes: readonly GraphNode[]): readonly Id[] {
	const byId = new Map(nodes.map((node) => [node.id, node]));
	const done = new Set<Id>();
	const open = new Set<Id>();
	const visit = (node: GraphNode): void => {
		if (done.has(node.id)) return;
		if (open.has(node.id)) throw new RangeError(`${node.id} comes before itself`);
		open.add(node.id);
		for (const need of node.needs) {
			const needed = byId.get(need);
			if (needed !== undefined) visit(needed);
		}
		open.delete(node.id);
		done.add(node.id);
	};
	nodes.forEach(visit);
	return [...done];
}

/**
 * The arrows between nodes, from what is needed to what needs it, each pair once.
 *
 * Those that are not redundant are the graph's transitive reduction: the fewest arrows with the same
 * ways between nodes, of which a graph without circles has exactly one (Aho, Garey and Ullman 1972).
 */
export function arrowsOf(nodes: readonly GraphNode[]): readonly Arrow[] {
	const known = new Set(nodes.map(({ id }) => id));
	const needs = new Map(
		nodes.map(({ id, needs }) => [id, [...new Set(needs)].filter((need) => known.has(need))]),
	);
	// Everything that comes before a node by any way, filled from the first nodes on.
	const before = new Map<Id, ReadonlySet<Id>>();
	for (const id of inOrder(nodes)) {
		const all = new Set<Id>();
		for (const need of needs.get(id) ?? []) {
			all.add(need);
			for (const earlier of before.get(need) ?? []) all.add(earlier);
		}
		before.set(id, all);
	}
	return nodes.flatMap(({ id }) => {
		const own = needs.get(id) ?? [];
		return own.map(
			(need): Arrow => ({
				from: need,
				to: id,
				redundant: own.some((other) => other !== need && before.get(other)?.has(need) === true),
			}),
		);
	});
}
