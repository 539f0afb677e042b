/**
 * The list of all drills by apparatus. A large library is listed on the apparatus' own pages, so
 * that no page holds thousands of lines.
 */

import type { Id } from "../model.ts";
import { type DrillLine, drillLines } from "./drill.ts";
import { type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export interface DrillsView {
	readonly count: number;
	readonly groups: readonly {
		readonly id: Id;
		readonly apparatus: Link;
		readonly count: number;
		/** Undefined in a large library. */
		readonly lines: readonly DrillLine[] | undefined;
	}[];
	readonly levels: readonly { readonly id: Id; readonly link: Link; readonly count: number }[];
}

/** More drills than this are listed on the pages of their apparatus only. */
const MOST_ON_ONE_PAGE = 600;

/** Every drill under each apparatus that it names. */
export function drillsView(site: SiteIndex): DrillsView {
	const { curriculum } = site;
	const few = curriculum.drills.size <= MOST_ON_ONE_PAGE;
	return {
		count: curriculum.drills.size,
		groups: Array.from(site.drillsByApparatus, ([id, drills]) => ({
			id,
			apparatus: linkTo(curriculum, "apparatus", id),
			count: drills.length,
			lines: few ? drillLines(site, "drills/", drills) : undefined,
		})),
		levels: Array.from(site.drillsByLevel, ([id, drills]) => ({
			id,
			link: linkTo(curriculum, "level", id),
			count: drills.length,
		})),
	};
}
