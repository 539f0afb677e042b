/**
 * What a week lacks, and the fewest drills of the library that would close it.
 */

import { type Html, html } from "../../scripts/views/html.ts";
import type { GapView, SuggestionView } from "../../scripts/views/suggested.ts";
import { a, fold, type PageContext } from "./page.ts";

/** A fold for each level and apparatus; `names` says what its summary begins with. */
export function suggestionList(
	ctx: PageContext,
	suggestions: readonly SuggestionView[],
	names: (one: SuggestionView) => string,
): Html {
	return html`${suggestions.map((one) => fold(summaryOf(ctx, one, names(one)), suggestion(ctx, one)))}`;
}

function summaryOf({ words }: PageContext, { gaps, closed }: SuggestionView, name: string): Html {
	return html`${name} <span class="small">${words.suggestions.summary(gaps, closed)}</span>`;
}

function suggestion(ctx: PageContext, { drills, open, swaps, freeMinutes, exact }: SuggestionView): Html {
	const say = ctx.words.suggestions;
	return html`<div class="suggestion">
<p class="small">${freeMinutes === undefined ? say.noMinutes : say.free(freeMinutes)}${!exact && ` ${say.cutShort}`}</p>
${
	drills.length > 0 &&
	html`<ul class="rows">${drills.map(
		({ drill, minutes, closes }) =>
			html`<li>${a(ctx, drill)} <span class="small">${say.closes(minutes)} ${closes.map((gap, i) => html`${i === 0 ? "" : ", "}${gapWords(ctx, gap)}`)}</span></li>`,
	)}</ul>`
}
${
	open.length > 0 &&
	html`<p class="label">${say.staysOpen}</p><ul class="rows">${open.map(
		({ gap, reason }) => html`<li>${gapWords(ctx, gap)} <span class="small">${reason}</span></li>`,
	)}</ul>`
}
${
	swaps !== undefined &&
	("command" in swaps
		? html`<p class="small">${say.swaps} <code>${swaps.command}</code></p>`
		: html`<p class="small">${say.found}</p><pre data-copy><code>${swaps.found}</code></pre>`)
}
</div>`;
}

function gapWords(ctx: PageContext, { what, because }: GapView): Html {
	return html`${a(ctx, what)} <span class="small">(${because})</span>`;
}
