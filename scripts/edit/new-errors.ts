/** What a change of a club's files would put wrong that was right before. */

import type { Problem } from "../problems.ts";

/** Errors that were not there before; lines may have moved. */
export function newErrors(before: readonly Problem[], after: readonly Problem[]): readonly Problem[] {
	const known = new Map<string, number>();
	for (const one of before) known.set(nameOf(one), (known.get(nameOf(one)) ?? 0) + 1);
	return after.filter((one) => {
		if (one.severity !== "error") return false;
		const left = known.get(nameOf(one)) ?? 0;
		known.set(nameOf(one), left - 1);
		return left <= 0;
	});
}

function nameOf({ code, what }: Problem): string {
	return `${code} ${what}`;
}
