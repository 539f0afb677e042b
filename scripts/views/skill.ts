/**
 * Skills: the list by apparatus, and the page of one.
 */

import { around } from "../figures/progression-graph.ts";
import type { Id, LinkedSkill } from "../model.ts";
import { addressOf } from "./addresses.ts";
import { criteriaOf, drillLines } from "./drill.ts";
import { findingLines } from "./findings.ts";
import { type Link, linksTo, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";
import { spacingOf } from "./spacing.ts";

/** Steps that a skill's picture goes; more would not be read on a phone. */
const REACH = { before: 2, after: 1 } as const;

export interface SkillLine {
	readonly link: Link;
	readonly levels: readonly Link[];
	readonly drills: number;
}

export type SkillsView = ReturnType<typeof skillsView>;

export type SkillCore = ReturnType<typeof skillCore>;

export type SkillView = ReturnType<typeof skillView>;

/** All skills by the first apparatus they name; those that name none come last. */
export function skillsView({ curriculum, words }: SiteIndex) {
	const line = (skill: LinkedSkill): SkillLine => ({
		link: linkTo(curriculum, "skill", skill.id),
		levels: linksTo(curriculum, "level", skill.levels),
		drills: skill.drills.length,
	});
	const skills = [...curriculum.skills.values()];
	const groups = [...curriculum.apparatus.values()].map(({ id, name }) => ({
		apparatus: name,
		id,
		skills: skills.filter((skill) => skill.apparatus[0] === id).map(line),
	}));
	const anywhere = skills.filter((skill) => skill.apparatus.length === 0).map(line);
	return {
		groups: [...groups, { apparatus: words.anywhere, id: "anywhere", skills: anywhere }].filter(
			(group) => group.skills.length > 0,
		),
	};
}

/** One skill: what it needs, what it leads to, and the drills on the way to it, easiest level first. */
export function skillView(site: SiteIndex, skill: LinkedSkill) {
	const { curriculum } = site;
	const page = addressOf({ kind: "skill", id: skill.id });
	const byLowest = new Map<Id, Id[]>([...curriculum.levels.keys()].map((level) => [level, []]));
	for (const id of skill.drills) {
		const levels = curriculum.drills.get(id)?.levels;
		const lowest = [...curriculum.levels.keys()].find((level) => levels?.has(level));
		if (lowest !== undefined) byLowest.get(lowest)?.push(id);
	}
	return {
		...skillCore(site, skill),
		/** Its drills by the lowest level that does them. */
		drills: Array.from(byLowest, ([level, ids]) => ({
			level: linkTo(curriculum, "level", level),
			lines: drillLines(site, page, ids),
		})).filter((group) => group.lines.length > 0),
		id: skill.id,
		/** What comes before it and what it leads to, itself among them. */
		around: around(site.measures.mapSkills(), skill.id, REACH),
		spacing: spacingOf(site, "skill", skill.id),
		findings: findingLines(site, site.findings.skill.get(skill.id) ?? []),
	};
}

export function skillCore(site: SiteIndex, skill: LinkedSkill) {
	const { curriculum } = site;
	const page = addressOf({ kind: "skill", id: skill.id });
	return {
		link: linkTo(curriculum, "skill", skill.id),
		name: skill.name,
		aliases: skill.aliases,
		description: site.inline(page, skill.description),
		/** What must be seen. */
		criteria: criteriaOf(site, page, skill.id),
		apparatus: linksTo(curriculum, "apparatus", skill.apparatus),
		levels: linksTo(curriculum, "level", skill.levels),
		pattern: skill.pattern,
		direction: skill.direction === "none" ? undefined : skill.direction,
		needs: linksTo(curriculum, "skill", skill.needs),
		leadsTo: linksTo(curriculum, "skill", skill.leadsTo),
		opposites: linksTo(curriculum, "skill", skill.opposites),
	};
}
