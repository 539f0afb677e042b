/**
 * How a shape or a skill is spread over the term at each level.
 */

import type { SpacedKind } from "../compute/spacing.ts";
import type { Id } from "../model.ts";
import { cellAddress } from "./coverage.ts";
import { linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export type Spacing = ReturnType<typeof spacingOf>[number];

/** One line for each level that meets it or should; none while no week is planned. */
export function spacingOf(site: SiteIndex, kind: SpacedKind, id: Id) {
	if (site.curriculum.weeks.length === 0) return [];
	return site.measures.standingsOf(kind, id).map(({ spacing, tooFew, tooFar }) => ({
		level: linkTo(site.curriculum, "level", spacing.level),
		/** The weeks it is met in, each leading to its drills. */
		taught: spacing.taught.map((week) => ({
			to: cellAddress(kind, week, id, { level: spacing.level }),
			name: String(week),
		})),
		first: spacing.first,
		last: spacing.last,
		longestGap: spacing.longestGap,
		/** Whether a target of the club is missed. */
		tooFew,
		tooFar,
	}));
}
