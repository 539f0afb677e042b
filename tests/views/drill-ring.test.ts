import { expect, test } from "vitest";
import { DrillRing } from "../../scripts/views/drill-ring.ts";

const drills = Array.from({ length: 60 }, (_, i) => ({ id: `drill-${i}` }));
const picks = (ring: DrillRing<{ readonly id: string }>, id: string) =>
	ring.after(id, 3).map((drill) => drill.id);

test("a drill takes others than itself, each once, and as many as there are at most", () => {
	const ring = new DrillRing(drills);
	for (const { id } of drills) {
		const taken = picks(ring, id);
		expect(new Set(taken).size).toBe(3);
		expect(taken).not.toContain(id);
	}
	expect(new DrillRing(drills.slice(0, 2)).after("another", 9)).toHaveLength(2);
	expect(new DrillRing([]).after("another", 9)).toEqual([]);
});

test("one drill more changes what three others take, wherever it stands in the list", () => {
	const before = new DrillRing(drills);
	for (const at of [0, 31, 60]) {
		const after = new DrillRing(drills.toSpliced(at, 0, { id: "newcomer" }));
		const changed = drills.filter(({ id }) => picks(before, id).join() !== picks(after, id).join());
		expect(changed).toHaveLength(3);
		for (const { id } of changed) expect(picks(after, id)).toContain("newcomer");
	}
});

test("drills do not all take the same few", () => {
	const ring = new DrillRing(drills);
	expect(new Set(drills.flatMap(({ id }) => picks(ring, id))).size).toBe(drills.length);
});
