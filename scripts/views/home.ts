/**
 * The home page and the calendar: every week of the term, so that a browser can show today's.
 */

import type { Address } from "./addresses.ts";
import { linkTo } from "./links.ts";
import type { SiteIndex } from "./site-index.ts";
import { weekLine } from "./week.ts";

export type HomeView = ReturnType<typeof homeView>;

/** The home page; with another address, the same facts for the calendar. */
export function homeView(site: SiteIndex, page: Address) {
	const { curriculum, handbook } = site;
	const { date } = site.words;
	return {
		club: curriculum.club.name,
		term: curriculum.term.name,
		timezone: curriculum.club.timezone,
		weeks: curriculum.weeks.map((week) => weekLine(site, page, week)),
		apparatus: [...curriculum.apparatus.keys()].map((id) => ({
			id,
			link: linkTo(curriculum, "apparatus", id),
		})),
		levels: [...curriculum.levels.keys()].map((id) => linkTo(curriculum, "level", id)),
		counts: {
			drills: curriculum.drills.size,
			shapes: curriculum.shapes.size,
			skills: curriculum.skills.size,
			findings: handbook.findings.length,
		},
		emergency: curriculum.club.emergency,
		closed: curriculum.term.closed.map(({ from, to }) =>
			from === to ? date(from) : `${date(from)} – ${date(to)}`,
		),
		/** The same as ISO 8601 intervals, for the browser: "2027-02-15/2027-02-20". */
		closures: curriculum.term.closed.map(({ from, to }) => `${from}/${to}`),
		/** Written weeks, against the weeks of the term. */
		weeksOfTerm: curriculum.term.weeks,
	};
}
