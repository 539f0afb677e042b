/** What a change of the plan does to its findings: two lists held against each other. */

import type { Finding } from "../model.ts";

/** What a finding is, whatever its words and numbers: the same for the same finding of two plans. */
export function identityOf({ code, about }: Finding): string {
	const fields = Object.entries(about).filter(([, value]) => value !== undefined);
	return `${code} ${JSON.stringify(fields.sort(([a], [b]) => (a < b ? -1 : 1)))}`;
}

export interface ComparedFindings {
	/** Findings that are no longer, and those that were not: in the order in which they are read. */
	readonly gone: readonly Finding[];
	readonly came: readonly Finding[];
	/** The same findings with other numbers or words. */
	readonly changed: readonly { readonly before: Finding; readonly after: Finding }[];
}

/** Two lists of findings held against each other by identity; of several alike, those with the same words are one. */
export function compareFindings(before: readonly Finding[], after: readonly Finding[]): ComparedFindings {
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
	const changed: { before: Finding; after: Finding }[] = [];
	for (const one of others) {
		const other = old.get(identityOf(one))?.shift();
		if (other === undefined) came.push(one);
		else changed.push({ before: other, after: one });
	}
	const left = new Set([...old.values()].flat());
	return { gone: before.filter((one) => left.has(one)), came, changed };
}
