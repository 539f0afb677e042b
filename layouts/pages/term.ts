/**
 * The term at a glance: a picture of weeks by shapes and one of weeks by skills, with their tables.
 */

import { SHEET_FILES } from "../../scripts/views/addresses.ts";
import { type Html, html, raw } from "../../scripts/views/html.ts";
import { spacingTarget, type TermKind, type TermRow, type TermView } from "../../scripts/views/term.ts";
import { countedCell, termMatrix } from "../parts/charts.ts";
import { nothingPlanned } from "../parts/measure-parts.ts";
import { a, inWords, kept, type PageContext, section } from "../parts/page.ts";
import { binderLink, printLinks } from "../parts/print-links.ts";

/** The page of the term, for all levels or for one. */
export function termPage(ctx: PageContext, view: TermView): Html {
	const { words } = ctx;
	const say = words.term;
	const name = words.destinations.termOverview;
	const title = view.level === undefined ? name : html`${name} <span class="of">${view.level}</span>`;
	return html`<h1>${title}</h1>
<p class="lead">${say.lead(view.term)}</p>
${printLinks(ctx, [
	{ file: SHEET_FILES.termOverview(), words: words.prints.termOverview },
	...binderLink(ctx, view.binder),
])}
<nav class="filter" aria-label="${words.heads.level}"><ul class="chips">${view.levels.map(
		({ link, chosen }) =>
			html`<li><a class="chip" href="${ctx.way(link.to)}"${chosen && raw(' aria-current="page"')}>${link.name}</a></li>`,
	)}</ul></nav>
${
	view.empty
		? nothingPlanned(ctx)
		: html`${section(
				"glance",
				say.glance,
				html`<div class="pictures by-week">${view.kinds.map(
					(kind) => html`<div><h3>${words.things[kind.kind].title}</h3>
${
	kind.matrix === undefined
		? html`<p class="empty">${say.nothing}</p>`
		: html`<p class="small">${notes(ctx, view, kind)}</p>
${termMatrix(ctx, kind.matrix, {
	title: say.byWeek[kind.kind],
	description: say.description(view.level ?? words.allLevels),
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
			say.asTable[kind.kind],
			html`${termTable(ctx, view, kind)}
<p><a class="button" href="${ctx.way(kind.file)}" download>${kind.file.replace("data/", "")}</a></p>`,
		),
)}`
}
<ul class="rows">${kept(ctx, [
		{ to: "measures/spacing/", name: say.toSpacing },
		{ to: "measures/order/", name: say.toOrder },
		{ to: "coverage/", name: say.toCoverage },
	]).map((link) => html`<li>${a(ctx, link)}</li>`)}</ul>`;
}

function notes({ words }: PageContext, view: TermView, { kind, weeksWanted, gapWanted }: TermKind): string {
	const say = words.term.notes[kind];
	const target = spacingTarget(words, weeksWanted, gapWanted);
	if (target === undefined) return `${say.both} ${say.noTarget}`;
	return `${say.both} ${view.level === undefined ? words.term.targetOfEach(target) : words.term.target(target)}`;
}

function termTable(ctx: PageContext, view: TermView, kind: TermKind): Html {
	const all = view.level === undefined;
	const columns = 4 + kind.weeks.length;
	const { words } = ctx;
	return html`<section class="scroll heat" tabindex="0" aria-label="${words.asTable(words.term.byWeek[kind.kind])}"><table class="by-week">
<thead><tr><th scope="col">${words.things[kind.kind].one}</th><th scope="col">${words.heads.weeks}</th><th scope="col">${words.heads.longestGap}</th>${all && html`<th scope="col" class="left">${words.heads.missedBy}</th>`}${kind.weeks.map(
		({ number, link }) =>
			html`<th scope="col"><span class="sr">${words.heads.week} </span>${a(ctx, { ...link, name: String(number) })}</th>`,
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
			? html`<td class="none"><span class="sr">${ctx.words.none}</span></td>`
			: countedCell(ctx, ctx.words.number(cell.minutes), cell.link),
	)}</tr>`;
}
