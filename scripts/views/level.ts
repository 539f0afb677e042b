/**
 * Levels: the list, and the page of one with its drills.
 */

import { entryOf, levelsOfClass } from "../compute/levels-of.ts";
import type { Level } from "../model.ts";
import { addressOf } from "./addresses.ts";
import { findingLines } from "./findings.ts";
import { type Link, linksTo, linkTo } from "./links.ts";
import { spacingOfLevel } from "./measures/spacing.ts";
import { byApparatus } from "./shape.ts";
import type { SiteIndex } from "./site-index.ts";

export type LevelsView = ReturnType<typeof levelsView>;

export type LevelCore = ReturnType<typeof levelCore>;

export type LevelView = ReturnType<typeof levelView>;

/** All levels, lowest first. */
export function levelsView(site: SiteIndex) {
	const { curriculum } = site;
	return {
		levels: Array.from(curriculum.levels.values(), (level) => ({
			link: linkTo(curriculum, "level", level.id),
			description: site.inline("levels/", level.description),
			drills: site.drillsByLevel.get(level.id)?.length ?? 0,
			classes: classesOf(site, level).length,
		})),
	};
}

/** One level: who it is for, what it learns, its classes and its drills by apparatus. */
export function levelView(site: SiteIndex, level: Level) {
	const { curriculum } = site;
	const page = addressOf({ kind: "level", id: level.id });
	const ids = [...curriculum.levels.keys()];
	const at = ids.indexOf(level.id);
	const beside = (id: string | undefined) => (id === undefined ? undefined : linkTo(curriculum, "level", id));
	return {
		...levelCore(site, level),
		skills: [...curriculum.skills.values()]
			.filter((skill) => skill.levels.includes(level.id) && !level.entry.includes(skill.id))
			.map((skill) => linkTo(curriculum, "skill", skill.id)),
		classes: classesOf(site, level),
		drills: byApparatus(site, page, (id) =>
			(site.drillsByApparatus.get(id) ?? []).filter((drill) => drill.levels.has(level.id)),
		),
		/** How its shapes and skills are spread over the term; undefined while no week is planned. */
		spacing: curriculum.weeks.length === 0 ? undefined : spacingOfLevel(site, level.id),
		findings: findingLines(site, site.findings.level.get(level.id) ?? []),
		easier: beside(ids[at - 1]),
		harder: beside(ids[at + 1]),
	};
}

export function levelCore(site: SiteIndex, level: Level) {
	const { curriculum } = site;
	const entry = entryOf(curriculum, level);
	return {
		link: linkTo(curriculum, "level", level.id),
		name: level.name,
		description: site.inline(addressOf({ kind: "level", id: level.id }), level.description),
		/** What its gymnasts arrive with. */
		entry: {
			skills: linksTo(curriculum, "skill", entry.skills),
			drills: linksTo(curriculum, "drill", entry.drills),
		},
	};
}

function classesOf({ curriculum }: SiteIndex, level: Level): readonly Link[] {
	return curriculum.term.classes
		.filter((group) => levelsOfClass(curriculum, group).includes(level.id))
		.map((group) => ({ to: `classes/${group.id}/`, name: group.name }));
}
