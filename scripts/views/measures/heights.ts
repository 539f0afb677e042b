/**
 * Heights as a page: centimetres at each landmark for the ages of each class, and by age.
 */

import { LANDMARKS, type LandmarkHeights, landmarksOf } from "../../compute/heights.ts";
import type { Id, Landmark } from "../../model.ts";
import { type Link, linksTo } from "../links.ts";
import type { SiteIndex } from "../site-index.ts";
import { type MeasureHead, measureHead } from "./measure-head.ts";

export interface HeightsView {
	readonly head: MeasureHead;
	/** The ages shown: those of the club's classes, or of the whole growth table. */
	readonly ages: readonly [number, number];
	readonly landmarks: readonly {
		readonly heights: LandmarkHeights;
		/** Drills that set something up at this height. */
		readonly drills: readonly Link[];
	}[];
	readonly classes: readonly {
		readonly id: Id;
		readonly link: Link;
		readonly ages: readonly [number, number];
		readonly ranges: readonly LandmarkHeights[];
	}[];
}

/** The ages that schools of gymnastics mostly have; where no class gives its ages. */
const USUAL_AGES = [4, 16] as const;

export function heightsView(site: SiteIndex): HeightsView {
	const { curriculum } = site;
	const groups = curriculum.term.classes.flatMap((group) =>
		group.ages === undefined ? [] : [{ group, ages: group.ages }],
	);
	const all = groups.flatMap(({ ages }) => [...ages]);
	const ages: readonly [number, number] =
		all.length === 0 ? USUAL_AGES : [Math.min(...all), Math.max(...all)];
	const users = new Map<Landmark, Id[]>();
	for (const drill of curriculum.drills.values()) {
		for (const landmark of landmarksOf(drill)) {
			const known = users.get(landmark);
			if (known === undefined) users.set(landmark, [drill.id]);
			else known.push(drill.id);
		}
	}
	return {
		head: measureHead(site, "heights"),
		ages,
		landmarks: LANDMARKS.flatMap(({ landmark }) => {
			const heights = site.heightOf(landmark, ages);
			if (heights === undefined) return [];
			return [{ heights, drills: linksTo(curriculum, "drill", users.get(landmark) ?? []) }];
		}),
		classes: groups.map(({ group, ages: own }) => ({
			id: group.id,
			link: { to: `classes/${group.id}/`, name: group.name },
			ages: own,
			ranges: LANDMARKS.flatMap(({ landmark }) => site.heightOf(landmark, own) ?? []),
		})),
	};
}
