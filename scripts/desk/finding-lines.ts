/** Findings as the desk lists them, and what came and went between two states, by what they are. */

import type { FindingLine } from "../../layouts/desk/api.ts";
import { identityOf } from "../compute/compare-findings.ts";
import { harmOf } from "../compute/harm.ts";
import type { Finding } from "../model.ts";
import type { DeskPlan } from "./desk.ts";

/** Findings with their keys; several of one code about the same thing are counted. */
export function keyedFindings(findings: readonly Finding[]): readonly (readonly [string, Finding])[] {
	const seen = new Map<string, number>();
	return findings.map((one) => {
		const key = identityOf(one);
		const before = seen.get(key) ?? 0;
		seen.set(key, before + 1);
		return [before === 0 ? key : `${key} ${before + 1}`, one];
	});
}

export function findingLine({ words }: Pick<DeskPlan, "words">, key: string, one: Finding): FindingLine {
	return {
		key,
		code: one.code,
		title: words.catalogue[one.code].title,
		harm: harmOf(one.code),
		weight: one.weight,
		what: one.what,
		why: one.why,
		fix: one.fix,
		about: one.about,
	};
}

export function findingLines(handbook: DeskPlan): readonly FindingLine[] {
	return keyedFindings(handbook.findings).map(([key, one]) => findingLine(handbook, key, one));
}

export function comeAndGone(
	before: readonly FindingLine[],
	after: readonly FindingLine[],
): { readonly come: readonly FindingLine[]; readonly gone: readonly FindingLine[] } {
	const [old, now] = [new Set(before.map(({ key }) => key)), new Set(after.map(({ key }) => key))];
	return {
		come: after.filter(({ key }) => !old.has(key)),
		gone: before.filter(({ key }) => !now.has(key)),
	};
}
