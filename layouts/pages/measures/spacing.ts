/**
 * Spacing: the weeks in which each level meets each shape and skill.
 */

import type { TermMatrix } from "../../../scripts/figures/term-matrix.ts";
import { type Html, html } from "../../../scripts/render/html.ts";
import type { SpacingOfKind, SpacingView } from "../../../scripts/render/views/measures/spacing.ts";
import { shortNumber } from "../../../scripts/render/views/words.ts";
import { countedCell, termMatrix } from "../../parts/charts.ts";
import {
	measureFoot,
	measureTop,
	nothingPlanned,
	pictureAndTable,
	scrollTable,
} from "../../parts/measure-parts.ts";
import { a, inWords, type PageContext, section } from "../../parts/page.ts";

const KINDS = {
	shape: { title: "Body shapes", one: "Shape" },
	skill: { title: "Skills", one: "Skill" },
} as const;

/** The page of spacing. */
export function spacingPage(ctx: PageContext, view: SpacingView): Html {
	return html`${measureTop(ctx, view.head)}
${
	view.head.empty
		? nothingPlanned(ctx)
		: html`${
				view.missing.length > 0 &&
				section(
					"missing",
					"What misses a target",
					html`<p class="small">Minutes in each week. The same rows are marked in the tables further down.</p>
${view.missing.map(
	({ kind, matrix }) => html`<h3>${KINDS[kind].title}</h3>
${pictureAndTable(
	termMatrix(ctx, matrix, {
		title: `${KINDS[kind].title} that miss a target`,
		description: "Minutes in each week, by level. The table beside this picture has the same numbers.",
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
	const byRow = Map.groupBy(cells, (cell) => cell.row);
	return scrollTable(
		`${KINDS[kind].title} that miss a target, minutes by week`,
		[
			KINDS[kind].one,
			html`<span class="left">Level</span>`,
			...weeks.map(({ week }) => html`<span class="sr">Week </span>${week}`),
		],
		rows.map(({ id, name, href, group }) => {
			const own = new Map((byRow.get(id) ?? []).map((cell) => [cell.week, cell]));
			return html`<tr><th scope="row">${a(ctx, { name, ...(href === undefined ? {} : { to: href }) })}</th><td class="left">${group}</td>${weeks.map(
				({ week }) => {
					const cell = own.get(week);
					if (cell?.href === undefined) return html`<td class="none"><span class="sr">none</span></td>`;
					return countedCell(ctx, shortNumber(cell.value), { to: cell.href, name });
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
	if (rows.length === 0) return html`<p class="empty">No ${kind} is met or wanted at ${level}.</p>`;
	const all =
		met === expected
			? `All ${expected} that the level should meet are met`
			: `${met} of ${expected} that the level should meet are met`;
	const short =
		target === undefined
			? ""
			: `; ${missed === 0 ? "none misses" : missed === 1 ? "1 misses" : `${missed} miss`} the target (${target})`;
	const extra = rows.some((row) => !row.expected);
	return html`<h3>${KINDS[kind].title}</h3>
<p class="small">${all}${short}.${extra && " Extra: met, though the level need not."}</p>
${scrollTable(
	`${KINDS[kind].title} at ${level}`,
	[KINDS[kind].one, "Weeks", "First", "Last", "Longest gap", html`<span class="left">Met in week</span>`],
	rows.map(
		(row) =>
			html`<tr id="${row.anchor}"><th scope="row">${a(ctx, row.link)}${!row.expected && html` <span class="small">extra</span>`}</th><td class="${row.tooFew ? "short" : ""}">${row.weeks.length}</td>${countedCell(ctx, row.first === undefined ? "–" : String(row.first), undefined)}${countedCell(ctx, row.last === undefined ? "–" : String(row.last), undefined)}<td class="${row.tooFar ? "short" : ""}">${row.longestGap ?? "–"}</td><td class="left weeks">${row.weeks.length === 0 ? "never" : inWords(ctx, row.weeks)}</td></tr>`,
	),
	"tall",
)}`;
}
