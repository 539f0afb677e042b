/**
 * How shapes and skills are spread over the term: one of them at each level, or all of one level.
 */

import { type Html, type HtmlValue, html } from "../../scripts/views/html.ts";
import type { SpacingOfLevel } from "../../scripts/views/measures/spacing.ts";
import type { Spacing } from "../../scripts/views/spacing.ts";
import { scrollTable } from "./measure-parts.ts";
import { a, inWords, kept, more, type PageContext, section } from "./page.ts";

/** The columns after the first. */
export function spacingHeads({ words: { heads } }: PageContext): readonly HtmlValue[] {
	return [
		heads.weeks,
		heads.first,
		heads.last,
		heads.longestGap,
		html`<span class="left">${heads.metIn}</span>`,
	];
}

/** A part with the table; nothing where no level is taught it. */
export function spacingTable(ctx: PageContext, spacing: readonly Spacing[]): Html | undefined {
	if (spacing.length === 0) return undefined;
	const { words } = ctx;
	return section("spacing", words.drill.overTerm, [
		scrollTable(
			words.spacing.weeksTable,
			[words.heads.level, ...spacingHeads(ctx)],
			spacing.map(
				({ level, taught, first, last, longestGap, tooFew, tooFar }) =>
					html`<tr><th scope="row">${a(ctx, level)}</th><td class="${tooFew ? "short" : ""}">${taught.length}</td><td>${first ?? "–"}</td><td>${last ?? "–"}</td><td class="${tooFar ? "short" : ""}">${longestGap ?? "–"}</td><td class="left weeks">${taught.length === 0 ? words.spacing.never : inWords(ctx, taught)}</td></tr>`,
			),
		),
		html`<p class="small">${words.spacing.opens} ${more(ctx, { to: "measures/spacing/", name: words.spacing.everything })}</p>`,
	]);
}

/** How much of what a level should meet it meets, and what misses a target. */
export function spacingSummary(ctx: PageContext, { id, kinds, picture }: SpacingOfLevel): Html {
	const say = ctx.words.spacing;
	return html`${kinds.map(({ kind, met, expected, missed, target, rows }) => {
		const missing = rows.filter(({ tooFew, tooFar }) => tooFew || tooFar);
		return html`<p>${say.levelMet[kind](met, expected)}${
			target !== undefined &&
			html` ${missed === 0 ? say.allMeet : html`<span class="short">${say.missed(missed)}</span>`} (${target})${
				missing.length > 0 &&
				html`: ${inWords(
					ctx,
					missing.map(({ link, anchor }) => ({ to: `measures/spacing/#${anchor}`, name: link.name })),
				)}`
			}.`
		}</p>`;
	})}
<ul class="rows">${kept(ctx, [
		picture,
		{ to: `measures/spacing/#level-${id}`, name: say.everyThing },
		{ to: `measures/order/#level-${id}`, name: say.orderOf },
	]).map((link) => html`<li>${a(ctx, link)}</li>`)}</ul>`;
}
