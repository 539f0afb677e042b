/**
 * Findings as lines with what they are about, by weight.
 */

import type { Finding } from "../../model.ts";
import type { Code } from "../../problems.ts";
import { placeOf } from "../finding-places.ts";
import { type Link, linkTo, weekLink } from "./links.ts";
import { measureOfCode } from "./measures/measure-page.ts";
import type { SiteIndex } from "./site-index.ts";

export interface FindingLine {
	readonly code: Code;
	readonly weight: Finding["weight"];
	readonly what: string;
	readonly why: string;
	readonly fix: string;
	readonly about: readonly Link[];
	readonly file: string;
	/** Counted from 1. */
	readonly line: number;
	/** The fields that lead to the place, from the top of the file. */
	readonly field: string;
}

export interface FindingsView {
	readonly groups: readonly {
		readonly weight: Finding["weight"];
		readonly codes: readonly {
			readonly code: Finding["code"];
			/** The measure that finds it. */
			readonly measure: Link | undefined;
			readonly lines: readonly FindingLine[];
		}[];
		readonly count: number;
	}[];
	readonly count: number;
}

const WEIGHTS = ["serious", "worth a look", "note"] as const;

/** The findings page: by weight, then by code, in the order they came. */
export function findingsView(site: SiteIndex): FindingsView {
	const { findings } = site.handbook;
	return {
		count: findings.length,
		groups: WEIGHTS.flatMap((weight) => {
			const own = findings.filter((finding) => finding.weight === weight);
			if (own.length === 0) return [];
			const codes = [...new Set(own.map((finding) => finding.code))].sort();
			return [
				{
					weight,
					count: own.length,
					codes: codes.map((code) => ({
						code,
						measure: measureOfCode(site.words, code),
						lines: findingLines(
							site,
							own.filter((finding) => finding.code === code),
						),
					})),
				},
			];
		}),
	};
}

/** Findings as lines, in the order given. */
export function findingLines(site: SiteIndex, findings: readonly Finding[]): readonly FindingLine[] {
	const { curriculum } = site;
	return findings.map((finding) => {
		const { about } = finding;
		const week = about.week === undefined ? undefined : site.weekByNumber.get(about.week);
		const links: Link[] = [];
		if (week !== undefined) links.push(weekLink(site.words, week));
		if (about.level !== undefined) links.push(linkTo(curriculum, "level", about.level));
		if (about.apparatus !== undefined) links.push(linkTo(curriculum, "apparatus", about.apparatus));
		if (about.drill !== undefined) links.push(linkTo(curriculum, "drill", about.drill));
		if (about.skill !== undefined) links.push(linkTo(curriculum, "skill", about.skill));
		if (about.shape !== undefined) links.push(linkTo(curriculum, "shape", about.shape));
		if (about.equipment !== undefined) links.push(linkTo(curriculum, "equipment", about.equipment));
		if (about.class !== undefined) {
			const group = curriculum.term.classes.find((c) => c.id === about.class);
			links.push({ to: `classes/${about.class}/`, name: group?.name ?? about.class });
		}
		return {
			code: finding.code,
			weight: finding.weight,
			what: finding.what,
			why: finding.why,
			fix: finding.fix,
			about: links,
			file: finding.source.file,
			line: placeOf(finding).line,
			field: finding.path
				.map((key) => (typeof key === "number" ? site.words.findingsPage.item(key + 1) : key))
				.join(", "),
		};
	});
}
