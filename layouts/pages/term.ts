/**
 * The term at a glance: a picture of weeks by shapes and one of weeks by skills, with their tables.
 */

import { SHEET_FILES } from "../../scripts/render/addresses.ts";
import { type Html, html, raw } from "../../scripts/render/html.ts";
import {
	spacingTarget,
	type TermKind,
	type TermRow,
	type TermView,
} from "../../scripts/render/views/term.ts";
import { shortNumber } from "../../scripts/render/views/words.ts";
import { countedCell, termMatrix } from "../parts/charts.ts";
import { nothingPlanned } from "../parts/measure-parts.ts";
import { a, inWords, type PageContext, section } from "../parts/page.ts";
import { printLinks } from "../parts/print-links.ts";

const WORDS = {
	shape: { title: "Body shapes", one: "Shape" },
	skill: { title: "Skills", one: "Skill" },
} as const;

/** The page of the term, for all levels or for one. */
export function termPage(ctx: PageContext, view: TermView): Html {
	const title =
		view.level === undefined ? "Term overview" : html`Term overview <span class="of">${view.level}</span>`;
	return html`<h1>${title}</h1>
<p class="lead">What each week of ${view.term} trains, in minutes. Every number opens to its drills.</p>
${printLinks(ctx, [{ file: SHEET_FILES.termOverview(), words: "The term on one page" }])}
<nav class="filter" aria-label="Level"><ul class="chips">${view.levels.map(
		({ link, chosen }) =>
			html`<li><a class="chip" href="${ctx.way(link.to)}"${chosen && raw(' aria-current="page"')}>${link.name}</a></li>`,
	)}</ul></nav>
${
	view.empty
		? nothingPlanned(ctx)
		: html`${section(
				"glance",
				"At a glance",
				html`<div class="pictures by-week">${view.kinds.map(
					(kind) => html`<div><h3>${WORDS[kind.kind].title}</h3>
${
	kind.matrix === undefined
		? html`<p class="empty">There is nothing here to train yet.</p>`
		: html`<p class="small">${notes(view, kind)}</p>
${termMatrix(ctx, kind.matrix, {
	title: `${WORDS[kind.kind].title} by week`,
	description: `${view.level ?? "All levels"}: minutes in each week. The table further down has the same numbers.`,
	idPrefix: `term-${kind.kind}`,
})}`
}</div>`,
				)}</div>`,
			)}
${view.kinds.map(
	(kind) =>
		kind.matrix !== undefined &&
		section(
			`${kind.kind}-table`,
			`${WORDS[kind.kind].title} as a table`,
			html`${termTable(ctx, view, kind)}
<p><a class="button" href="${ctx.way(kind.file)}" download>${kind.file.replace("data/", "")}</a></p>`,
		),
)}`
}
<ul class="rows">${[
		{ to: "measures/spacing/", name: "Spacing: every gap, held against the targets" },
		{ to: "measures/order/", name: "Order: what comes before what" },
		{ to: "coverage/", name: "Coverage: the tables behind these numbers" },
	].map((link) => html`<li>${a(ctx, link)}</li>`)}</ul>`;
}

function notes(view: TermView, { kind, weeksWanted, gapWanted }: TermKind): string {
	const both = `A drill with two ${kind}s counts in full for both.`;
	const target = spacingTarget(weeksWanted, gapWanted);
	if (target === undefined) return `${both} The club has set no target for the weeks of a ${kind}.`;
	return view.level === undefined
		? `${both} A gap is marked where no level at all meets it for longer than the target. The club's target for each level: ${target}.`
		: `${both} The club's target: ${target}.`;
}

function termTable(ctx: PageContext, view: TermView, kind: TermKind): Html {
	const all = view.level === undefined;
	const columns = 4 + kind.weeks.length;
	return html`<section class="scroll heat" tabindex="0" aria-label="${WORDS[kind.kind].title} by week, table"><table class="by-week">
<thead><tr><th scope="col">${WORDS[kind.kind].one}</th><th scope="col">Weeks</th><th scope="col">Longest gap</th>${all && html`<th scope="col" class="left">Target missed by</th>`}${kind.weeks.map(
		({ number, link }) =>
			html`<th scope="col"><span class="sr">Week </span>${a(ctx, { ...link, name: String(number) })}</th>`,
	)}</tr></thead>
${kind.groups.map(
	({ name, rows }) =>
		html`<tbody>${name !== undefined && html`<tr class="group"><th scope="rowgroup" colspan="${all ? columns : columns - 1}">${name}</th></tr>`}${rows.map((row) => termRow(ctx, kind, row, all))}</tbody>`,
)}
</table></section>`;
}

function termRow(ctx: PageContext, kind: TermKind, row: TermRow, all: boolean): Html {
	return html`<tr id="${kind.kind}--${row.id}"><th scope="row">${a(ctx, row.link)}</th><td class="${row.tooFew ? "short" : ""}">${row.met}</td><td class="${row.tooFar ? "short" : ""}">${row.longestGap ?? "–"}</td>${
		all && html`<td class="left">${row.missedBy.length === 0 ? "–" : inWords(ctx, row.missedBy)}</td>`
	}${row.cells.map((cell) =>
		cell === undefined
			? html`<td class="none"><span class="sr">none</span></td>`
			: countedCell(ctx, shortNumber(cell.minutes), cell.link),
	)}</tr>`;
}
