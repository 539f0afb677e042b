/** The term on one page: every week with its theme, what each apparatus is about, and when the club is closed. */

import { teachingWeeks } from "../../compute/calendar.ts";
import type { Id } from "../../model.ts";
import type { Html } from "../html.ts";
import type { SiteIndex } from "../site-index.ts";
import type { PieceOf } from "./sheet.ts";

export interface TermPageView {
	/** ISO 8601; undefined where the term has no dates. */
	readonly span: { readonly from: string; readonly to: string } | undefined;
	/** Those that are planned. */
	readonly apparatus: readonly { readonly id: Id; readonly name: string }[];
	readonly rows: readonly TermRow[];
}

export interface TermRow {
	readonly number: number;
	readonly monday: string | undefined;
	readonly theme: Html | undefined;
	/** Closed class days of the week. */
	readonly closed: readonly string[];
	/** What is closed between the week before and this one. */
	readonly between: readonly { readonly from: string; readonly to: string }[];
	/** By apparatus; undefined where it is not planned. */
	readonly cells: readonly ({ readonly focus: Html | undefined; readonly minutes: number } | undefined)[];
}

/** The overview; undefined where no week is planned. */
export function termPage(site: SiteIndex): PieceOf<"term-page"> | undefined {
	const { curriculum, handbook, words } = site;
	const { term, weeks } = curriculum;
	const [firstWeek] = weeks;
	if (firstWeek === undefined) return undefined;
	const dates = teachingWeeks(term);
	const [first, last] = [dates[0], dates.at(-1)];
	const apparatus = [...curriculum.apparatus.values()].filter(({ id }) =>
		weeks.some((week) => week.apparatus.some((plan) => plan.apparatus === id)),
	);
	const most = Math.max(term.weeks, ...weeks.map(({ week }) => week));
	return {
		kind: "term-page",
		title: words.termSheet.title(term.name),
		label: words.pageLabels.term,
		view: {
			span: first && last && { from: first.monday, to: last.sunday },
			apparatus,
			rows: Array.from({ length: most }, (_, i): TermRow => {
				const week = site.weekByNumber.get(i + 1);
				const [before, here] = [dates[i - 1], dates[i]];
				return {
					number: i + 1,
					monday: here?.monday,
					theme: site.inline("", week?.theme),
					closed: here?.closed ?? [],
					between:
						before === undefined || here === undefined
							? []
							: term.closed.filter(({ from, to }) => from > before.sunday && to < here.monday),
					cells: apparatus.map(({ id }) => {
						const plan = week?.apparatus.find((one) => one.apparatus === id);
						if (plan === undefined) return undefined;
						const minutes = plan.blocks.reduce((sum, block) => sum + block.minutes, 0);
						return { focus: site.inline("", plan.focus), minutes };
					}),
				};
			}),
		},
		words: weeks.flatMap((week) =>
			[week.theme, ...week.apparatus.flatMap(({ focus }) => focus ?? [])].map((text) =>
				handbook.markdown.plain(text),
			),
		),
		safety: [],
		place: firstWeek.source.place(["theme"]),
	};
}
