import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findCycles } from "../../scripts/link/find-cycles.ts";

const inGraph = (arrows: Readonly<Record<string, readonly string[]>>) =>
	findCycles(Object.keys(arrows), (id) => arrows[id] ?? []);

describe("cycles", () => {
	it("are named with their whole path, from the first member", () => {
		expect(inGraph({ a: ["b"], b: ["c"], c: ["a"], d: ["a"] })).toEqual([["a", "b", "c"]]);
	});

	it("of one thing, and two apart, are all found", () => {
		expect(inGraph({ a: ["a"], b: ["c"], c: ["b"] })).toEqual([["a"], ["b", "c"]]);
	});

	it("are none where several ways lead to the same thing", () => {
		expect(inGraph({ a: ["b", "c"], b: ["d"], c: ["d"], d: [] })).toEqual([]);
	});

	it("pass over names that nothing has", () => {
		expect(inGraph({ a: ["gone"] })).toEqual([]);
	});

	it("in a chain of 100,000 do not overflow", () => {
		const nodes = Array.from({ length: 100_000 }, (_, i) => String(i));
		expect(findCycles(nodes, (id) => [String(Number(id) + 1)])).toEqual([]);
		expect(findCycles(nodes, (id) => [String((Number(id) + 1) % nodes.length)])[0]).toHaveLength(100_000);
	});

	it("exist exactly when things cannot all be put in order, and each path is a real one", () => {
		const graph = fc
			.integer({ min: 1, max: 7 })
			.chain((n) =>
				fc.array(fc.array(fc.nat({ max: n - 1 }), { maxLength: 3 }), { minLength: n, maxLength: n }),
			);
		fc.assert(
			fc.property(graph, (lists) => {
				const arrows = (id: string) => (lists[Number(id)] ?? []).map(String);
				const nodes = lists.map((_, i) => String(i));
				const cycles = findCycles(nodes, arrows);
				expect(cycles.length === 0).toBe(canBeOrdered(nodes, arrows));
				for (const cycle of cycles) {
					for (const [i, id] of cycle.entries()) expect(arrows(id)).toContain(cycle[(i + 1) % cycle.length]);
				}
			}),
			{ numRuns: 500 },
		);
	});
});

/** Kahn's way: take away what nothing is left to wait for, until nothing changes. */
function canBeOrdered(nodes: readonly string[], arrows: (id: string) => readonly string[]): boolean {
	let left = [...nodes];
	for (;;) {
		const next = left.filter((id) => arrows(id).some((to) => left.includes(to)));
		if (next.length === left.length) return left.length === 0;
		left = next;
	}
}
