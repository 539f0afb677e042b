/**
 * The moving figure of a drill: a button, and a place for the stage that its program draws. Nothing shows
 * without the program.
 */

import { isPlayable, scoreText } from "../../scripts/figures/stage.ts";
import type { Movement } from "../../scripts/figures/support.ts";
import { type Html, html } from "../../scripts/views/html.ts";
import type { PageContext } from "./page.ts";

/** Nothing where there are no two phases to move between. */
export function movingFigure({ words }: PageContext, movement: Movement): Html | undefined {
	if (!isPlayable(movement)) return undefined;
	return html`<div class="motion" data-motion="${scoreText(movement)}">
<button class="button" type="button" hidden><span>${words.figures.move}</span></button>
<div class="stage" hidden></div>
</div>`;
}
