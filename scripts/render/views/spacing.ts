/**
 * How a shape or a skill is spread over the term at each level, from the spacing table.
 */

import type { Id } from "../../model.ts";
import { type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export interface Spacing {
	readonly level: Link;
	readonly weeks: number;
	readonly first: number | undefined;
	readonly last: number | undefined;
	readonly longestGap: number | undefined;
}

/** One line for each level that is taught it. */
export function spacingOf(site: SiteIndex, kind: "shape" | "skill", id: Id): readonly Spacing[] {
	return (site.rows("spacing", ["kind", "id"]).get(`${kind} ${id}`) ?? []).map((row) => ({
		level: linkTo(site.curriculum, "level", String(row.level)),
		weeks: Number(row.weeks ?? 0),
		first: numberIn(row.first),
		last: numberIn(row.last),
		longestGap: numberIn(row["longest-gap"]),
	}));
}

function numberIn(cell: unknown): number | undefined {
	return typeof cell === "number" ? cell : undefined;
}
