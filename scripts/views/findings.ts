/**
 * Findings as lines with what they are about, by weight.
 */

import type { AcceptedFinding } from "../compute/accepted.ts";
import { HARMS, harmOf } from "../compute/harm.ts";
import { changeList } from "../edit/write-changes.ts";
import type { Finding, WeekPlan } from "../model.ts";
import type { Code } from "../problems.ts";
import { weekApparatusAddress } from "./addresses.ts";
import { placeOf } from "./finding-places.ts";
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
	/** The change list that would mend it, where one is known to: worked out when it is asked for. */
	readonly mend: string | undefined;
	/** The command that accepts it, up to the reason. */
	readonly accept: string;
}

export type FindingsView = ReturnType<typeof findingsView>;

/** How many findings a week or a class has, and where they stand together. */
export type FindingsOf = ReturnType<typeof findingsOf>[number];

/** The findings page: by harm, then by cause, in the order they came. */
export function findingsView(site: SiteIndex) {
	const { findings, accepted } = site.handbook;
	const { curriculum, words } = site;
	return {
		count: findings.length,
		/** The change list that `mend` found for the whole term, where it was asked. */
		get termMend() {
			const changes = site.handbook.termMend();
			return changes.length === 0 ? undefined : changeList(changes);
		},
		/** Weeks and classes that have some, each with the way to its own. */
		weeks: curriculum.weeks.flatMap((week) =>
			findingsOf(weekLink(words, week), site.findings.week.get(week.week)),
		),
		classes: curriculum.term.classes.flatMap(({ id, name }) =>
			findingsOf({ to: `classes/${id}/`, name }, site.findings.class.get(id)),
		),
		/** Those that the director lets stand, for each of her reasons. */
		accepted: [...Map.groupBy(accepted, ({ by }) => `${by.reason} ${by.until}`).values()].flatMap(
			([first, ...others]) =>
				first === undefined
					? []
					: [
							{
								lines: findingLines(
									site,
									[first, ...others].map(({ finding }) => finding),
								),
								reason: first.by.reason,
								/** The last day on which it is accepted, in words. */
								until: lastDay(site, first.by),
							},
						],
		),
		/** By what is harmed, the worst first. */
		groups: HARMS.flatMap((harm) => {
			const own = findings.filter((finding) => harmOf(finding.code) === harm);
			if (own.length === 0) return [];
			const codes = [...new Set(own.map((finding) => finding.code))];
			return [
				{
					harm,
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

function lastDay(site: SiteIndex, { until }: AcceptedFinding["by"]): string | undefined {
	return until === undefined ? undefined : site.words.date(until, "full");
}

function findingsOf({ to, name }: Link, own: readonly Finding[] = []) {
	return own.length === 0 ? [] : [{ link: { to: `${to}#findings`, name }, count: own.length }];
}

export function findingLines(site: SiteIndex, findings: readonly Finding[]): readonly FindingLine[] {
	const { curriculum } = site;
	return findings.map((finding) => {
		const { about } = finding;
		const week = about.week === undefined ? undefined : site.weekByNumber.get(about.week);
		const links: Link[] = [];
		if (week !== undefined) links.push(weekLink(site.words, week));
		const block = week && blockLink(site, week, finding);
		if (block !== undefined) links.push(block);
		if (about.level !== undefined) links.push(linkTo(curriculum, "level", about.level));
		if (about.apparatus !== undefined && block === undefined)
			links.push(linkTo(curriculum, "apparatus", about.apparatus));
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
			get mend() {
				const changes = site.handbook.mends().get(finding);
				return changes && changeList(changes);
			},
			accept: acceptCommand(finding),
		};
	});
}

/** The block of the week's page that is to be changed; nothing where the finding is of no one block. */
function blockLink(site: SiteIndex, week: WeekPlan, { source, path }: Finding): Link | undefined {
	const [apparatus, id, blocks, at] = path;
	if (source.file !== week.source.file || apparatus !== "apparatus" || blocks !== "blocks") return undefined;
	if (typeof id !== "string" || typeof at !== "number") return undefined;
	const { name } = linkTo(site.curriculum, "apparatus", id);
	return {
		to: `${weekApparatusAddress(week.id, id)}#block-${at + 1}`,
		name: site.words.blockAt(name, at + 1),
	};
}

/** A group says its class, and the command's options are named as what the finding is about. */
function acceptCommand({ code, about }: Finding): string {
	const options = Object.entries(about).map(([kind, value]) => ` --${kind} ${value}`);
	return `npm run accept -- ${code}${options.join("")}`;
}
