import { drillLines } from "./drill.ts";
import { linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export type DrillsView = ReturnType<typeof drillsView>;

/** More drills than this are listed on the pages of their apparatus only. */
const MOST_ON_ONE_PAGE = 600;

/** Every drill under each apparatus that it names. */
export function drillsView(site: SiteIndex) {
	const { curriculum } = site;
	const few = curriculum.drills.size <= MOST_ON_ONE_PAGE;
	return {
		count: curriculum.drills.size,
		groups: Array.from(site.drillsByApparatus, ([id, drills]) => ({
			id,
			apparatus: linkTo(curriculum, "apparatus", id),
			count: drills.length,
			/** Undefined in a large library. */
			lines: few ? drillLines(site, "drills/", drills) : undefined,
		})),
		levels: Array.from(site.drillsByLevel, ([id, drills]) => ({
			id,
			link: linkTo(curriculum, "level", id),
			count: drills.length,
		})),
	};
}
