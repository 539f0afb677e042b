/**
 * Why something cannot be had: the fewest rules that cannot hold together.
 *
 * One rule after the other is left out; where the rest still cannot hold, it had no part in it. What is
 * left at the end cannot be made smaller: without any one of them the others hold.
 */

import type { Choices } from "./choices.ts";
import type { Solve } from "./mend.ts";
import { type Watched, writeProgram } from "./model.ts";

/** Most programs that are solved for it. */
const MOST = 200;

/** @param watched cases of a program that has no solution; those that have to hold are looked through */
export async function conflictOf(
	choices: Choices,
	watched: readonly Watched[],
	solve: Solve,
	seconds: number,
): Promise<readonly Watched[]> {
	const canHold = async (all: readonly Watched[]): Promise<boolean> => {
		// Whether there is any choice at all: prices do not matter.
		const { status } = await solve(writeProgram(choices, all).data, { seconds, gap: Number.MAX_VALUE });
		return status !== "infeasible";
	};
	let left = watched.filter(({ weight }) => weight === undefined);
	for (const one of left.slice(0, MOST)) {
		const others = left.filter((other) => other !== one);
		if (!(await canHold(others))) left = others;
	}
	return [...new Map(left.map((one) => [one.case.key, one])).values()];
}
