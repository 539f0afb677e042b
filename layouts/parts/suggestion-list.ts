/**
 * What a week lacks, and the fewest drills of the library that would close it.
 */

import { type Html, html } from "../../scripts/render/html.ts";
import type { GapView, SuggestionView } from "../../scripts/render/views/suggested.ts";
import { counted, shortNumber } from "../../scripts/render/views/words.ts";
import { a, fold, type PageContext } from "./page.ts";

/** A fold for each level and apparatus; `names` says what its summary begins with. */
export function suggestionList(
	ctx: PageContext,
	suggestions: readonly SuggestionView[],
	names: (one: SuggestionView) => string,
): Html {
	return html`${suggestions.map((one) => fold(summaryOf(one, names(one)), suggestion(ctx, one)))}`;
}

function summaryOf({ gaps, closed }: SuggestionView, name: string): Html {
	const can = closed === 0 ? "none" : closed === gaps ? "all" : String(closed);
	const words = gaps === 1 ? (closed === 1 ? "can be closed" : "stays open") : `${can} can be closed`;
	return html`${name} <span class="small">${counted(gaps, "gap")}: ${words}</span>`;
}

function suggestion(ctx: PageContext, { drills, open, freeMinutes, exact }: SuggestionView): Html {
	return html`<div class="suggestion">
<p class="small">${freeMinutes === undefined ? "No class of this level says its minutes." : `${counted(Math.round(freeMinutes * 10) / 10, "minute")} free in its fullest class.`}${!exact && " The search was cut short: a smaller choice may exist."}</p>
${
	drills.length > 0 &&
	html`<ul class="rows">${drills.map(
		({ drill, minutes, closes }) =>
			html`<li>${a(ctx, drill)} <span class="small">about ${shortNumber(minutes)} min; closes ${closes.map((gap, i) => html`${i === 0 ? "" : ", "}${gapWords(ctx, gap)}`)}</span></li>`,
	)}</ul>`
}
${
	open.length > 0 &&
	html`<p class="label">Stays open</p><ul class="rows">${open.map(
		({ gap, reason }) => html`<li>${gapWords(ctx, gap)} <span class="small">${reason}</span></li>`,
	)}</ul>`
}
</div>`;
}

function gapWords(ctx: PageContext, { what, because }: GapView): Html {
	return html`${a(ctx, what)} <span class="small">(${because})</span>`;
}
