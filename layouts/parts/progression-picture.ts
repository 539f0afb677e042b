/**
 * The picture of skills that lead to each other. Apart from the other charts, since it brings the
 * library that places its boxes.
 */

import { drawProgressionMap, type MapSkill } from "../../scripts/figures/progression-map.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import { type ChartWords, here, scrolling } from "./charts.ts";
import type { PageContext } from "./page.ts";

/** What comes before what, as a picture and as a list of words. */
export function progressionPicture(
	ctx: PageContext,
	skills: readonly MapSkill[],
	words: ChartWords & { readonly focus?: string },
): Html | undefined {
	if (skills.length === 0) return undefined;
	const { svg, items } = drawProgressionMap(here(ctx, skills), { ...words, words: ctx.words.charts });
	return html`${scrolling(ctx, words, svg)}
<details class="as-words"><summary>${ctx.words.charts.inWords}</summary><ol class="rows">${items.map(
		({ name, href, words: inFull, place }) => {
			const rest = inFull.slice(name.length);
			const link = href === undefined ? html`${name}` : html`<a href="${href}">${name}</a>`;
			return html`<li>${place === "focus" ? html`<strong>${name}</strong>` : link}${rest}</li>`;
		},
	)}</ol></details>`;
}
