/**
 * Spacing: the weeks in which each level meets each shape and skill.
 */

import type { TermMatrix } from "../../../scripts/figures/term-matrix.ts";
import { type Html, html } from "../../../scripts/views/html.ts";
import type { SpacingOfKind, SpacingView } from "../../../scripts/views/measures/spacing.ts";
import { countedCell, termMatrix } from "../../parts/charts.ts";
import {
	measureFoot,
	measureTop,
	nothingPlanned,
	pictureAndTable,
	scrollTable,
} from "../../parts/measure-parts.ts";
import { a, inWords, type PageContext, section } from "../../parts/page.ts";
import { spacingHeads } from "../../parts/spacing-table.ts";

export function spacingPage(ctx: PageContext, view: SpacingView): Html {
	const { words } = ctx;
	const say = words.spacing;
	return html`${measureTop(ctx, view.head)}
${
	view.head.empty
		? nothingPlanned(ctx)
		: html`${
				view.missing.length > 0 &&
				section(
					"missing",
					say.missing,
					html`<p class="small">${say.note}</p>
${view.missing.map(
	({ kind, matrix }) => html`<h3>${words.things[kind].title}</h3>
${pictureAndTable(
	termMatrix(ctx, matrix, {
		title: say.missingTitle[kind],
		description: say.missingDescription,
		idPrefix: `missing-${kind}`,
	}),
	missingTable(ctx, kind, matrix),
)}`,
)}`,
				)
			}
${view.levels.map((level) =>
	section(
		`level-${level.id}`,
		a(ctx, level.level),
		html`<p>${a(ctx, level.picture)}</p>${level.kinds.map((kind) => table(ctx, level.level.name, kind))}`,
	),
)}`
}
${measureFoot(ctx, view.head)}`;
}

function missingTable(
	ctx: PageContext,
	kind: SpacingOfKind["kind"],
	{ weeks, rows, cells }: TermMatrix,
): Html {
	const { words } = ctx;
	const byRow = Map.groupBy(cells, (cell) => cell.row);
	return scrollTable(
		words.spacing.missingTable[kind],
		[
			words.things[kind].one,
			html`<span class="left">${words.heads.level}</span>`,
			...weeks.map(({ week }) => html`<span class="sr">${words.heads.week} </span>${week}`),
		],
		rows.map(({ id, name, href, group }) => {
			const own = new Map((byRow.get(id) ?? []).map((cell) => [cell.week, cell]));
			return html`<tr><th scope="row">${a(ctx, { name, ...(href === undefined ? {} : { to: href }) })}</th><td class="left">${group}</td>${weeks.map(
				({ week }) => {
					const cell = own.get(week);
					if (cell?.href === undefined)
						return html`<td class="none"><span class="sr">${words.none}</span></td>`;
					return countedCell(ctx, words.number(cell.value), { to: cell.href, name });
				},
			)}</tr>`;
		}),
		"tall",
	);
}

function table(
	ctx: PageContext,
	level: string,
	{ kind, rows, met, expected, missed, target }: SpacingOfKind,
): Html {
	const { words } = ctx;
	const say = words.spacing;
	if (rows.length === 0) return html`<p class="empty">${say.none[kind](level)}</p>`;
	const counted =
		target === undefined ? say.met(met, expected) : say.metAndMissed(met, expected, missed, target);
	const extra = rows.some((row) => !row.expected);
	return html`<h3>${words.things[kind].title}</h3>
<p class="small">${counted}${extra && ` ${say.extraNote}`}</p>
${scrollTable(
	say.tableOf[kind](level),
	[words.things[kind].one, ...spacingHeads(ctx)],
	rows.map(
		(row) =>
			html`<tr id="${row.anchor}"><th scope="row">${a(ctx, row.link)}${!row.expected && html` <span class="small">${say.extra}</span>`}</th><td class="${row.tooFew ? "short" : ""}">${row.weeks.length}</td>${countedCell(ctx, row.first === undefined ? "–" : String(row.first), undefined)}${countedCell(ctx, row.last === undefined ? "–" : String(row.last), undefined)}<td class="${row.tooFar ? "short" : ""}">${row.longestGap ?? "–"}</td><td class="left weeks">${row.weeks.length === 0 ? say.never : inWords(ctx, row.weeks)}</td></tr>`,
	),
	"tall",
)}`;
}
