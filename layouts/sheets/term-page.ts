/** The term on one page, lying: every week with its theme, what each apparatus is about, and when the club is closed. */

import { type TeachingWeek, teachingWeeks } from "../../scripts/compute/calendar.ts";
import type { Term, WeekPlan } from "../../scripts/model.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { drawnApparatus } from "../parts/icons.ts";
import type { SheetPiece } from "./sheet-file.ts";
import { pouredPiece, type SheetMaker, stepsFrom } from "./side.ts";

/** The overview; undefined where no week is planned. */
export function termPage(maker: SheetMaker): SheetPiece | undefined {
	const { site } = maker;
	const { curriculum, words } = site;
	const { term, weeks } = curriculum;
	const [firstWeek] = weeks;
	if (firstWeek === undefined) return undefined;
	const dates = teachingWeeks(term);
	const apparatus = [...curriculum.apparatus.values()].filter(({ id }) =>
		weeks.some((week) => week.apparatus.some((plan) => plan.apparatus === id)),
	);
	const numbers = Array.from(
		{ length: Math.max(term.weeks, ...weeks.map(({ week }) => week)) },
		(_, i) => i + 1,
	);
	const planOf = new Map(weeks.map((week) => [week.week, week]));
	const first = dates[0]?.monday;
	const last = dates.at(-1)?.sunday;
	const span =
		first === undefined || last === undefined
			? ""
			: words.sheets.span(words.date(first), words.date(last, "medium"));
	return {
		title: words.termSheet.title(term.name),
		label: words.pageLabels.term,
		html: pouredPiece(maker, {
			kind: "term-page",
			bound: false,
			head: html`<header class="head"><h1>${term.name} <span>${span}</span></h1></header>`,
			again: html`<header class="again"><b>${term.name}</b></header>`,
			items: [
				html`<table class="item"><thead><tr><th scope="col" class="week">${words.heads.week}</th>${apparatus.map(({ id, name }) => html`<th scope="col">${drawnApparatus(id)} ${name}</th>`)}</tr></thead>
<tbody>${numbers.map((number) => {
					const week = planOf.get(number);
					return html`${closureRow(maker, term, dates[number - 2], dates[number - 1], apparatus.length + 1)}<tr><th scope="row"><b class="big">${number}</b> ${dates[number - 1] && html`<span>${words.date(dates[number - 1]?.monday ?? "")}</span>`}<br>${week === undefined ? "" : site.inline("", week.theme)}${closedDays(maker, dates[number - 1])}</th>${apparatus.map(({ id }) => cellOf(maker, week, id))}</tr>`;
				})}</tbody></table>`,
			],
		}),
		most: 1,
		steps: stepsFrom(1.2, 0.6),
		words: weeks.flatMap((week) =>
			[week.theme, ...week.apparatus.flatMap(({ focus }) => focus ?? [])].map((text) =>
				site.handbook.markdown.plain(text),
			),
		),
		safety: [],
		place: firstWeek.source.place(["theme"]),
	};
}

function cellOf({ site }: SheetMaker, week: WeekPlan | undefined, apparatus: string): Html {
	const plan = week?.apparatus.find((one) => one.apparatus === apparatus);
	if (plan === undefined) return html`<td class="none">–</td>`;
	const minutes = plan.blocks.reduce((sum, block) => sum + block.minutes, 0);
	return html`<td>${site.inline("", plan.focus)} <span>${site.words.min(minutes)}</span></td>`;
}

/** The weeks that are left out between two teaching weeks. */
function closureRow(
	{ site: { words } }: SheetMaker,
	term: Term,
	before: TeachingWeek | undefined,
	after: TeachingWeek | undefined,
	columns: number,
): Html | undefined {
	if (before === undefined || after === undefined) return undefined;
	const between = term.closed.filter(({ from, to }) => from > before.sunday && to < after.monday);
	if (between.length === 0) return undefined;
	const days = between.map(({ from, to }) =>
		from === to ? words.sheets.onDay(words.date(from)) : words.sheets.span(words.date(from), words.date(to)),
	);
	return html`<tr class="closure"><td colspan="${columns}">${words.termSheet.closedBetween(days)}</td></tr>`;
}

/** Closed class days inside a teaching week. */
function closedDays({ site: { words } }: SheetMaker, week: TeachingWeek | undefined): Html | undefined {
	if (week === undefined || week.closed.length === 0) return undefined;
	return html` <em>${words.termSheet.closedOn(week.closed.map((date) => words.date(date)))}</em>`;
}
