/**
 * Spacing: the weeks in which each level meets each shape and skill.
 */

import { type Html, html } from "../../../scripts/render/html.ts";
import type { SpacingOfKind, SpacingView } from "../../../scripts/render/views/measures/spacing.ts";
import { countedCell, termMatrix } from "../../parts/charts.ts";
import { measureFoot, measureTop, nothingPlanned, scrollTable } from "../../parts/measure-parts.ts";
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
					html`<p class="small">Minutes in each week. The same rows are marked in the tables below.</p><div class="pictures">${view.missing.map(
						({ kind, matrix }) =>
							html`<div><h3>${KINDS[kind].title}</h3>${termMatrix(ctx, matrix, {
								title: `${KINDS[kind].title} that miss a target`,
								description: "Minutes in each week, by level. The tables below have the weeks of each.",
								idPrefix: `missing-${kind}`,
							})}</div>`,
					)}</div>`,
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
