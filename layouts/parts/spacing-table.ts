/**
 * How shapes and skills are spread over the term: one of them at each level, or all of one level.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { SpacingOfLevel } from "../../scripts/render/views/measures/spacing.ts";
import type { Spacing } from "../../scripts/render/views/spacing.ts";
import { scrollTable } from "./measure-parts.ts";
import { a, inWords, type PageContext, section } from "./page.ts";

/** A part with the table; nothing where no level is taught it. */
export function spacingTable(ctx: PageContext, spacing: readonly Spacing[]): Html | undefined {
	if (spacing.length === 0) return undefined;
	return section("spacing", "Over the term", [
		scrollTable(
			"Weeks at each level",
			["Level", "Weeks", "First", "Last", "Longest gap", html`<span class="left">Met in week</span>`],
			spacing.map(
				({ level, taught, first, last, longestGap, tooFew, tooFar }) =>
					html`<tr><th scope="row">${a(ctx, level)}</th><td class="${tooFew ? "short" : ""}">${taught.length}</td><td>${first ?? "–"}</td><td>${last ?? "–"}</td><td class="${tooFar ? "short" : ""}">${longestGap ?? "–"}</td><td class="left weeks">${taught.length === 0 ? "never" : inWords(ctx, taught)}</td></tr>`,
			),
		),
		html`<p class="small">A week opens to its drills. ${a(ctx, { to: "measures/spacing/", name: "Spacing of everything, and the targets" })}</p>`,
	]);
}

/** How much of what a level should meet it meets, and what misses a target. */
export function spacingSummary(ctx: PageContext, { id, kinds, picture }: SpacingOfLevel): Html {
	return html`${kinds.map(({ kind, met, expected, missed, target, rows }) => {
		const missing = rows.filter(({ tooFew, tooFar }) => tooFew || tooFar);
		const should =
			kind === "shape" ? "shapes that the level should train" : "skills that the level should be taught";
		return html`<p>${met === expected ? `All ${expected}` : `${met} of ${expected}`} ${should} are met.${
			target !== undefined &&
			html` ${missed === 0 ? "All meet the target" : html`<span class="short">${missed === 1 ? "1 misses" : `${missed} miss`} the target</span>`} (${target})${
				missing.length > 0 &&
				html`: ${inWords(
					ctx,
					missing.map(({ link, anchor }) => ({ to: `measures/spacing/#${anchor}`, name: link.name })),
				)}`
			}.`
		}</p>`;
	})}
<ul class="rows"><li>${a(ctx, picture)}</li><li>${a(ctx, { to: `measures/spacing/#level-${id}`, name: "Every shape and skill of this level, with its weeks" })}</li><li>${a(ctx, { to: `measures/order/#level-${id}`, name: "The order in which it meets its skills" })}</li></ul>`;
}
