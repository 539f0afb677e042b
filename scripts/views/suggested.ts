/**
 * Suggestions in words: what a level lacks on an apparatus in a week, which drills would close it, and the
 * command that looks for swaps where they do not fit.
 */

import { weeksOf } from "../compute/plan-changes.ts";
import type { Gap, Suggestion } from "../compute/suggest.ts";
import { changeList } from "../edit/write-changes.ts";
import type { Id } from "../model.ts";
import { type Label, type Link, linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";

export interface SuggestionView {
	readonly level: Link;
	readonly apparatus: Link;
	readonly freeMinutes: number | undefined;
	readonly gaps: number;
	readonly closed: number;
	readonly drills: readonly {
		readonly drill: Link;
		readonly minutes: number;
		readonly closes: readonly GapView[];
	}[];
	readonly open: readonly { readonly gap: GapView; readonly reason: string }[];
	/** Where a gap stays open for want of minutes: what `mend` changes here, or the command that looks for it. */
	readonly swaps: { readonly found: string } | { readonly command: string } | undefined;
	readonly exact: boolean;
}

export interface GapView {
	readonly what: Label;
	readonly because: string;
}

/** What a level lacks on an apparatus in a week; undefined where it lacks nothing. */
function suggestionView(site: SiteIndex, week: number, level: Id, apparatus: Id): SuggestionView | undefined {
	const { curriculum } = site;
	const suggestion: Suggestion = site.measures.suggestion(week, level, apparatus);
	if (suggestion.gaps.length === 0) return undefined;
	const gapView = (gap: Gap): GapView => ({
		what:
			gap.kind === "direction"
				? { name: site.words.suggestions.work[gap.id] }
				: linkTo(curriculum, gap.kind, gap.id),
		because: site.words.suggestions.because[gap.because],
	});
	return {
		level: linkTo(curriculum, "level", level),
		apparatus: linkTo(curriculum, "apparatus", apparatus),
		freeMinutes: suggestion.freeMinutes,
		gaps: suggestion.gaps.length,
		closed: suggestion.gaps.length - suggestion.open.length,
		drills: suggestion.drills.map(({ drill, minutes, closes }) => ({
			drill: linkTo(curriculum, "drill", drill),
			minutes,
			closes: closes.map(gapView),
		})),
		open: suggestion.open.map(({ gap, reason }) => ({
			gap: gapView(gap),
			reason: site.words.suggestions.reasons[reason],
		})),
		swaps: suggestion.open.some(({ reason }) => reason === "minutes") ? swapsIn(site, week) : undefined,
		exact: suggestion.exact,
	};
}

function swapsIn(site: SiteIndex, week: number): SuggestionView["swaps"] {
	const all = site.handbook.termMend();
	if (all.length === 0) return { command: "npm run mend" };
	const here = all.filter((change) => weeksOf([change]).has(week));
	return here.length === 0 ? undefined : { found: changeList(here) };
}

/** What every level lacks on some apparatus of a week, by level. */
export function suggestionViews(
	site: SiteIndex,
	week: number,
	places: readonly Id[],
): readonly SuggestionView[] {
	return [...site.curriculum.levels.keys()].flatMap((level) =>
		places.flatMap((apparatus) => suggestionView(site, week, level, apparatus) ?? []),
	);
}
