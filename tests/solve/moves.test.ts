/** What is mended best by other changes than swaps. */

import { afterAll, expect, it } from "vitest";
import { changeList } from "../../scripts/edit/write-changes.ts";
import { changesOf } from "../../scripts/solve/apply.ts";
import { Choices } from "../../scripts/solve/choices.ts";
import { mend } from "../../scripts/solve/mend.ts";
import { Solver } from "../../scripts/solve/solver.ts";
import { build } from "../compute/build-curriculum.ts";

const solver = new Solver();
afterAll(() => solver.end());

it("two weeks in the wrong order trade places: one change in place of four", async () => {
	const drill = (id: string, apparatus: string, after: readonly string[] = []) => ({
		id,
		levels: ["junior"],
		apparatus: [apparatus],
		after,
	});
	const curriculum = build({
		apparatus: ["floor", "beam"],
		drills: [
			drill("roll", "floor"),
			drill("roll-on", "floor", ["roll"]),
			drill("walk", "beam"),
			drill("walk-on", "beam", ["walk"]),
		],
		weeks: {
			1: { floor: [{ drill: "roll-on", minutes: 6 }], beam: [{ drill: "walk-on", minutes: 6 }] },
			2: { floor: [{ drill: "roll", minutes: 6 }], beam: [{ drill: "walk", minutes: 6 }] },
		},
		term: { weeks: 2 },
		classes: [{ id: "c", rotation: ["floor", "beam"], gymnasts: 6, minutes: 30 }],
	});
	const choices = new Choices(curriculum);
	const mended = await mend(choices, {
		solve: (program, wish) => solver.solve(program, wish),
		isAsked: () => true,
		seconds: 30,
		now: () => performance.now(),
	});
	expect(mended.before).toHaveLength(2);
	expect(mended.after).toEqual([]);
	expect(mended.proof).toBe("all");
	expect(changeList(changesOf(choices, mended.chosen))).toBe("- exchange: [1, 2]");
});
