/**
 * The search page's view: where its data files stand, and every list of drills that exists as a page,
 * for browsing and for browsers without JavaScript.
 */

import type { Id, LinkedDrill, LinkKind } from "../model.ts";
import { type Link, linkTo, type NamedKind, weekLink } from "./links.ts";
import { HEAD_FILE, SUMMARIES_FILE, textFiles } from "./search-files.ts";
import type { SiteIndex } from "./site-index.ts";

export type SearchView = ReturnType<typeof searchView>;

/** Lists with no drill in them are left out. */
export function searchView(site: Pick<SiteIndex, "curriculum" | "words">) {
	const { curriculum } = site;
	const drills = [...curriculum.drills.values()];
	const list = (
		title: string,
		kind: LinkKind,
		links: Iterable<{ readonly id: Id; readonly link: Link }>,
		of: (drill: LinkedDrill) => Iterable<Id>,
	) => {
		const counts = new Map<Id, number>();
		for (const drill of drills) {
			for (const id of new Set(of(drill))) counts.set(id, (counts.get(id) ?? 0) + 1);
		}
		const entries = Array.from(links, ({ id, link }) => ({ link, count: counts.get(id) ?? 0 })).filter(
			(entry) => entry.count > 0,
		);
		return { id: `by-${kind}`, title, entries };
	};
	const named = (kind: NamedKind, ids: Iterable<Id>) =>
		Array.from(ids, (id) => ({ id, link: linkTo(curriculum, kind, id) }));
	const say = site.words.search.by;
	const weekIds = new Map(curriculum.weeks.map((week) => [week.week, week.id]));
	return {
		/** Data files, from the root of the site. */
		head: HEAD_FILE,
		summaries: SUMMARIES_FILE,
		texts: textFiles(drills.length).map(({ path }) => path),
		count: drills.length,
		/** Lists of drills by kind; a kind without any is left out. */
		lists: [
			list(say.level, "level", named("level", curriculum.levels.keys()), (drill) => drill.levels.keys()),
			list(
				say.apparatus,
				"apparatus",
				named("apparatus", curriculum.apparatus.keys()),
				(drill) => drill.apparatus,
			),
			list(say.shape, "shape", named("shape", curriculum.shapes.keys()), (drill) => drill.shapes),
			list(say.skill, "skill", named("skill", curriculum.skills.keys()), (drill) => drill.skills),
			list(say.equipment, "equipment", named("equipment", curriculum.equipment.keys()), (drill) =>
				drill.equipment.map((need) => need.item),
			),
			list(
				say.week,
				"week",
				curriculum.weeks.map((week) => ({ id: week.id, link: weekLink(site.words, week) })),
				(drill) => drill.planned.flatMap(({ week }) => weekIds.get(week) ?? []),
			),
		].filter((group) => group.entries.length > 0),
	};
}
