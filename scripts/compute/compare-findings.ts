/**
 * What a change of the plan does to its findings: made in memory, counted, held against what was found
 * before. Nothing is written or read, so a desk may ask after every move.
 *
 *   const { gone, came, changed, weeks, after } = countChanges(handbook, [{ swap: { block: "5/beam/1", drill: "dish" } }]);
 *
 * `after` is the plan with the changes as a `Measured`: its findings and tables are counted when asked for,
 * and every function of compute/ takes its curriculum (`classTime(after.curriculum, week, class)` …). Hand
 * it in again as `before` to count the next change on top. A change that cannot be made throws a
 * `ChangeFault` (plan-changes.ts) with words for whoever asked.
 *
 * What stays as it is keeps what was counted for it: `tests/bench/solve.ts live` says how long one takes.
 */

import type { Finding, PlanChange } from "../model.ts";
import type { Words } from "../words/words.ts";
import type { Measured } from "./measure.ts";
import { measure } from "./measures.ts";
import { changedPlan, weeksOf } from "./plan-changes.ts";

export interface CountedChange {
	readonly after: Measured;
	/** Weeks that the changes touch, by number. */
	readonly weeks: readonly number[];
	/** Findings that are no longer, and those that were not: in the order in which they are read. */
	readonly gone: readonly Finding[];
	readonly came: readonly Finding[];
	/** The same findings with other numbers or words. */
	readonly changed: readonly { readonly before: Finding; readonly after: Finding }[];
}

/** @throws ChangeFault */
export function countChanges(before: Measured, changes: readonly PlanChange[], words?: Words): CountedChange {
	const after = measure(changedPlan(before.curriculum, changes), words);
	return {
		after,
		weeks: [...weeksOf(changes)].sort((a, b) => a - b),
		...compareFindings(before.findings, after.findings),
	};
}

/** What a finding is, whatever its words and numbers: the same for the same finding of two plans. */
export function identityOf({ code, about }: Finding): string {
	const fields = Object.entries(about).filter(([, value]) => value !== undefined);
	return `${code} ${JSON.stringify(fields.sort(([a], [b]) => (a < b ? -1 : 1)))}`;
}

/** Two lists of findings held against each other by identity; of several alike, those with the same words are one. */
export function compareFindings(
	before: readonly Finding[],
	after: readonly Finding[],
): Pick<CountedChange, "gone" | "came" | "changed"> {
	const old = Map.groupBy(before, identityOf);
	const isSame = (a: Finding, b: Finding): boolean => a.what === b.what && a.weight === b.weight;
	const others: Finding[] = [];
	for (const one of after) {
		const alike = old.get(identityOf(one)) ?? [];
		const at = alike.findIndex((other) => isSame(one, other));
		if (at < 0) others.push(one);
		else alike.splice(at, 1);
	}
	const came: Finding[] = [];
	const changed: { readonly before: Finding; readonly after: Finding }[] = [];
	for (const one of others) {
		const other = old.get(identityOf(one))?.shift();
		if (other === undefined) came.push(one);
		else changed.push({ before: other, after: one });
	}
	const left = new Set([...old.values()].flat());
	return { gone: before.filter((one) => left.has(one)), came, changed };
}
